"""V542: a hole is drilled deep enough for its thread, with the lead of the tap and room.

Depth as eisc-depth, osg-9535 and mh26-taps have it in `formulas/sources.py`.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.compute.amounts import amount
from benchleaf.compute.hole_route import Made, holes_before, makers, thread_depth
from benchleaf.diagnose import Code, Finding, Related, Severity
from benchleaf.model import HoleKind, TappingSetUp

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V542",
    "The hole is not deep enough for its thread",
    why=(
        "The first threads of a tap are tapered and cut no full thread. A tap that is turned on "
        "meets the bottom and breaks in the part."
    ),
    instead="Drill deeper, make the thread shorter, or use a tap with a shorter lead.",
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each thread that no hole before it on the route is deep enough for."""
    for index, operation in enumerate(case.job.set_ups):
        if not isinstance(operation, TappingSetUp):
            continue
        found = makers(holes_before(case.shop, case.job, index), operation)
        faults = [(one, _fault(operation, one)) for one in found]
        if faults and all(fault for _, fault in faults):
            made, fault = max(faults, key=lambda one: one[0].depth_mm or 0.0)
            yield from _finding(case, index, made, fault or "")


def _fault(operation: TappingSetUp, made: Made) -> str | None:
    """What is wrong between hole and thread; None where nothing is, or nothing is known."""
    depth = made.depth_mm
    if depth is None:
        return None
    needs = thread_depth(operation)
    if operation.hole is HoleKind.THROUGH:
        if made.is_blind:
            return f"goes through, and {_made(made)} is blind, {amount(depth, 'mm')} deep"
        return _longer(needs.length_mm, depth, made)
    if not made.is_blind:
        return _longer(needs.length_mm, depth, made)
    if depth < needs.wanted_mm:
        return (
            f"is {amount(needs.length_mm, 'mm')} deep, so the hole must be "
            f"{amount(needs.wanted_mm, 'mm', 1, 'up')} deep with the lead of the tap and room; "
            f"{_made(made)} is {amount(depth, 'mm')} deep"
        )
    return None


def _longer(length: float, depth: float, made: Made) -> str | None:
    if length <= depth:
        return None
    return f"is {amount(length, 'mm')} long, and {_made(made)} goes through {amount(depth, 'mm')}"


def _made(made: Made) -> str:
    return f"the {amount(made.mm, 'mm')} hole of {made.job.id.upper()}"


def _finding(case: JobCase, index: int, made: Made, fault: str) -> Iterator[Finding]:
    operation = case.job.set_ups[index]
    size = "depth" if made.is_blind else "thickness"
    yield Finding(
        CODE.id,
        Severity.ERROR,
        case.place("set_ups", index, "thread_length"),
        case.told(f"{operation.id} of {case.job.id.upper()}: the thread {fault}"),
        ("drill deeper, make the thread shorter, or use a tap with a shorter lead",),
        (
            Related(
                case.places.of("jobs", made.job.id, ("set_ups", made.index, size)),
                "the hole is drilled here",
            ),
        ),
    )


RULE = JobRule(check, (CODE,))
