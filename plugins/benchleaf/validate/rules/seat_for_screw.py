"""V544: a seat is for the screw that its hole lets through."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.compute.hole_route import (
    FLAT_HEAD_SHARE,
    Made,
    clearance_screw,
    head_share,
    holes_before,
    makers,
)
from benchleaf.diagnose import Code, Finding
from benchleaf.model import CounterboringSetUp, SetUp

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V544",
    "The seat is for another screw than its hole",
    why="The screw does not go in, or its head hangs on a rim and pulls through.",
    instead="Make hole and seat for the same screw.",
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each seat where every hole that it may sit on is for another screw."""
    for index, operation in enumerate(case.job.set_ups):
        found = makers(holes_before(case.shop, case.job, index), operation)
        faults = [_fault(operation, one) for one in found]
        if faults and all(faults):
            yield from case.practice(
                CODE,
                ("set_ups", index),
                f"{operation.id} of {case.job.id.upper()}: {faults[-1]}",
                "make hole and seat for the same screw",
            )


def _fault(operation: SetUp, made: Made) -> str | None:
    screw = clearance_screw(made)
    if screw is None:
        return None
    hole = f"the hole of {made.job.id.upper()} lets {screw.name} through"
    if isinstance(operation, CounterboringSetUp):
        is_other = abs(operation.screw.major_mm - screw.major_mm) > 0.01
        return f"the seat is for {operation.screw.name}; {hole}" if is_other else None
    share, (low, high) = head_share(operation, made), FLAT_HEAD_SHARE
    if share is None or low <= share <= high:
        return None
    return (
        f"the head is {share:.1f} times as wide as the screw, where flat heads are {low:g} to "
        f"{high:g} times; {hole}"
    )


RULE = JobRule(check, (CODE,))
