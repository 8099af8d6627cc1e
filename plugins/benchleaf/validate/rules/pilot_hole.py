"""V543: a pilot hole clears the chisel edge of the drill that follows, and is as deep.

The rule is one of the trade (pilot-practice in `formulas/sources.py`).
"""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.compute.amounts import amount, entered
from benchleaf.compute.hole_route import SAME_MM, Made, chisel_mm, holes_before, makers
from benchleaf.diagnose import Code, Finding
from benchleaf.model import DrillingSetUp, HoleKind

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V543",
    "The pilot hole does not clear the drill that follows it",
    why=(
        "The chisel edge does not cut, it pushes. Where it still meets metal, the thrust is far "
        "above what is reckoned for a piloted hole."
    ),
    instead="Drill the pilot hole wider, or as deep as the hole that follows.",
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each pilot that is too narrow or not deep enough."""
    for index, operation in enumerate(case.job.set_ups):
        if not isinstance(operation, DrillingSetUp) or operation.pilot is None:
            continue
        found = makers(holes_before(case.shop, case.job, index), operation)
        yield from _narrow(case, index, operation, found)
        yield from _shallow(case, index, operation, found)


def _narrow(
    case: JobCase, index: int, operation: DrillingSetUp, found: tuple[Made, ...]
) -> Iterator[Finding]:
    drill, pilot = case.shop.tools.get(operation.tool), operation.pilot
    chisel = chisel_mm(drill) if drill is not None else None
    if drill is None or pilot is None or chisel is None or pilot.value >= chisel - SAME_MM:
        return
    where = f" of {found[-1].job.id.upper()}" if found else ""
    yield from case.practice(
        CODE,
        ("set_ups", index, "pilot"),
        f"{operation.id} of {case.job.id.upper()}: the pilot hole{where} is {entered(pilot)}; the "
        f"chisel edge of the {drill.name} is {amount(chisel, 'mm', 1)} long",
        "drill the pilot hole at least as wide as the chisel edge",
    )


def _shallow(
    case: JobCase, index: int, operation: DrillingSetUp, found: tuple[Made, ...]
) -> Iterator[Finding]:
    depth = operation.depth if operation.hole is HoleKind.BLIND else operation.thickness
    if depth is None or not found:
        return
    short = [one for one in found if one.depth_mm is not None and one.depth_mm < depth.value]
    if len(short) < len(found):
        return
    made = max(short, key=lambda one: one.depth_mm or 0.0)
    yield from case.practice(
        CODE,
        ("set_ups", index, "pilot"),
        f"{operation.id} of {case.job.id.upper()} drills {entered(depth)} deep; the pilot hole of "
        f"{made.job.id.upper()} ends at {amount(made.depth_mm or 0.0, 'mm')}",
        "drill the pilot hole as deep as the hole that follows",
    )


RULE = JobRule(check, (CODE,))
