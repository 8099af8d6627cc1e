"""Torque of reaming, countersinking and counterboring, so that the holding is judged by it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from benchleaf.formulas import reaming
from benchleaf.formulas.enlarging import USUAL_EDGE_DEG
from benchleaf.model import ReamingSetUp

from . import figures_enlarging as figures
from .feel import entered_factors
from .found import Bored, Reamed, Sunk
from .sheet import Sheet, cited, first_missing, known


@dataclass(frozen=True, slots=True)
class _Ring:
    """What the tool takes away, in mm."""

    final: float
    hole: float


def torque_of_enlarging(sheet: Sheet) -> None:
    """Torque on the work by the higher of two models; what is missing is named."""
    ring, feed = _ring(sheet), _feed_mm_rev(sheet)
    missing = _missing(sheet, feed)
    if ring is None or feed is None or missing:
        sheet.lacks(figures.ENLARGING, missing or "the sizes above")
        return
    edges, kd, wear = _factors(sheet)
    angle = _edge_deg(sheet)
    thinner = figures.THINNER.sums(edges, angle)
    second = figures.SECOND.sums(ring.final, ring.hole, feed, kd, wear, edges)
    is_reaming = isinstance(sheet.case.operation, ReamingSetUp)
    turning = sheet.work(
        figures.REAMING if is_reaming else figures.ENLARGING,
        *(ring.final, ring.hole, feed, kd, wear, thinner[0].value),
        beside=(*thinner, *second),
        also=f"second model: {cited(*figures.SECOND.sources)}; {entered_factors(sheet)}",
    )
    sheet.found = replace(sheet.found, torque=turning)


def _ring(sheet: Sheet) -> _Ring | None:
    """The ring by the sizes that ask for most: the widest tool, the narrowest hole."""
    found, size = sheet.found, sheet.case.tool.size
    if isinstance(found, Reamed) and found.reamer_mm is not None:
        return _Ring(found.reamer_mm, _before_reamer(sheet, found.reamer_mm))
    if isinstance(found, Sunk) and found.mouth_mm is not None and found.hole_mm is not None:
        return _Ring(found.mouth_mm, found.hole_mm)
    if isinstance(found, Bored) and found.seat_mm is not None and found.pilot_mm is not None:
        return _Ring(max(found.seat_mm, size.value if size else 0.0), found.pilot_mm)
    return None


def _before_reamer(sheet: Sheet, reamer: float) -> float:
    """The drill of the job, else the smallest that leaves the reamer its allowance."""
    light = isinstance(sheet.case.operation, ReamingSetUp) and sheet.case.operation.light_metal
    smallest = reaming.hole_before_reaming_mm(reamer, light_metal=light).smallest_mm
    entered = sheet.hole_drill_mm
    return smallest if entered is None else entered


def _feed_mm_rev(sheet: Sheet) -> float | None:
    """The set-up's feed; where a hand feels it, the coarsest that suits the tool."""
    entered, recommended = sheet.found.feed, sheet.case.tool.feed
    if entered is not None:
        return entered
    return recommended.high if recommended is not None else None


def _missing(sheet: Sheet, feed: float | None) -> str | None:
    case = sheet.case
    if case.material is None:
        return f"part in jobs/{case.job.id}"
    if case.material.drilling is None or case.material.drilling.kd_torque is None:
        return f"drilling.kd_torque in materials/{case.material.id}"
    wanted = first_missing((case.tool.edges, "edges"), (case.tool.wear_factor, "wear_factor"))
    if wanted:
        return f"{wanted} in tools/{case.tool.id}"
    if feed is None:
        return (
            f"feed of set-up {case.operation.id} in jobs/{case.job.id}, or in tools/{case.tool.id}"
        )
    return None


def _factors(sheet: Sheet) -> tuple[int, float, float]:
    """Edges, Kd and wear factor; `_missing` has seen them all."""
    material, tool = sheet.case.material, sheet.case.tool
    factors = material.drilling if material else None
    assert factors is not None
    assert tool.edges is not None
    return tool.edges, known(factors.kd_torque), known(tool.wear_factor)


def _edge_deg(sheet: Sheet) -> float:
    """Angle between edge and axis: half of the tool's own, else what is usual."""
    own = sheet.case.tool.point_angle
    return own.value / 2 if own is not None else USUAL_EDGE_DEG[sheet.case.operation.operation]
