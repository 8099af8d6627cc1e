"""What the hand will feel: where to ease off, how far, and what follows if it does not."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TypedDict

from benchleaf.formulas import feel, lever, round_work
from benchleaf.formulas.pilot import piloted_loads
from benchleaf.model import DrillingSetUp, FeedLever, HoleKind, Walls, WorkShape

from . import figures_feel as figures
from .amounts import amount
from .declaration import Declaration
from .results import FeelCurve, FeelZone, Figure, Sum
from .sheet import Sheet, known

STEPS = 120
"""Points of a profile: a smooth line at a kiosk's width."""


class _Named(TypedDict, total=False):
    """What a row of the far wall of a tube says otherwise."""

    key: str
    label: str


_Sized = tuple[Declaration, tuple[float, ...]]
"""A figure with the sizes that it is worked out from."""


def what_the_hand_feels(sheet: Sheet) -> None:
    """Profile of a through hole, and the advice that follows; nothing for a blind one."""
    operation, tool = sheet.case.drilling, sheet.case.tool
    if operation.hole is HoleKind.BLIND:
        return
    found = sheet.drilled
    if None in (found.thrust, found.torque, found.point):
        for one in (figures.EASE_IN_FLAT, figures.EASE_TO, figures.KEPT_FEED):
            sheet.lacks(one, "thrust, torque and the point above")
        return
    work = _work(operation)
    if tool.point_angle is None or tool.chisel_ratio is None or work is None:
        return
    ratio = open_ratio(sheet, tool.chisel_ratio)
    point = feel.DrillPoint(known(found.drill_mm), tool.point_angle.value, ratio)
    profile = feel.profile(point, loads_of(sheet), work, STEPS)
    sheet.feel = _curve(profile, sheet.case.machine.lever)
    for eased in feel.ease_off(profile, known(found.feed)):
        _advice(sheet, eased, work, profile.loads.torque_nm)


def open_ratio(sheet: Sheet, chisel_ratio: float) -> float:
    """Part of the diameter in which no lip cuts: the chisel edge, or a pilot hole."""
    pilot = sheet.case.drilling.pilot
    return max(chisel_ratio, pilot.value / known(sheet.drilled.drill_mm)) if pilot else chisel_ratio


def _curve(profile: feel.FeelProfile, entered: FeedLever | None) -> FeelCurve:
    """Travel and thrust as the hand knows them: swing and pull where there is a lever."""
    swing, pull, along, upward = 1.0, 1.0, "mm of travel", "thrust, N"
    if entered is not None:
        pinion = entered.pinion_radius.value
        swing = feel.lever_swing_deg(1.0, lever.travel_per_turn_mm(pinion))
        pull = lever.lever_force_n(1.0, pinion, entered.radius.value, entered.efficiency)
        along, upward = "degrees of lever", "pull at the lever, N"
    points = tuple((one.travel_mm * swing, one.thrust_n * pull) for one in profile.points)
    zones = tuple(
        FeelZone(zone.key, zone.start_mm * swing, zone.end_mm * swing, zone.wall)
        for zone in profile.zones
    )
    return FeelCurve(points, zones, along, upward)


def loads_of(sheet: Sheet) -> feel.EdgeLoads:
    """Full-cut loads of the drill's edges, less what a pilot hole takes away.

    Only where thrust and torque were worked out: every factor is known then.
    """
    tool, material = sheet.case.tool, sheet.case.material
    drill = known(sheet.drilled.drill_mm)
    factors = material.drilling if material else None
    assert factors is not None
    assert factors.kd_thrust is not None
    assert factors.kd_torque is not None
    assert tool.chisel_ratio is not None
    assert tool.wear_factor is not None
    loads = feel.edge_loads(
        drill,
        known(sheet.found.feed),
        kd_thrust=factors.kd_thrust,
        kd_torque=factors.kd_torque,
        chisel_ratio=tool.chisel_ratio,
        wear=tool.wear_factor,
    )
    pilot = sheet.case.drilling.pilot
    if pilot is None:
        return loads
    return piloted_loads(loads, drill, pilot.value, tool.chisel_ratio)


def entered_factors(sheet: Sheet) -> str:
    """Where the factors of material and tool come from, and how far they were checked."""
    material, tool = sheet.case.material, sheet.case.tool
    said = {
        "Kd": material.drilling.source if material and material.drilling else None,
        "wear factor": tool.wear_factor_source,
    }
    return "; ".join(f"{what}: {source}" for what, source in said.items() if source)


def _work(operation: DrillingSetUp) -> feel.Work | None:
    if operation.work is WorkShape.FLAT:
        return feel.FlatWork(operation.thickness.value) if operation.thickness else None
    if operation.work_diameter is None:
        return None
    outside = operation.work_diameter.value
    if operation.work is WorkShape.ROUND_BAR or operation.wall is None:
        return feel.BarWork(outside)
    return feel.TubeWork(outside, operation.wall.value, 2 if operation.walls is Walls.BOTH else 1)


def _named(one: Declaration, eased: feel.EaseOff) -> _Named:
    if eased.wall != 2:
        return {}
    return {"key": f"{one.key}_far_wall", "label": f"{one.label}, far wall"}


def _advice(sheet: Sheet, eased: feel.EaseOff, work: feel.Work, full_torque: float) -> None:
    _from(sheet, eased, work)
    if eased.pressure_share > 0.99:  # behind a pilot hole no chisel edge lets go
        return
    feed, full, lips = known(sheet.found.feed), eased.full_n, eased.lips_n
    after = f"; the feed then stays {amount(feed, 'mm/rev')} when the chisel edge is through"
    to, kept = figures.EASE_TO, figures.KEPT_FEED
    also = entered_factors(sheet)
    sheet.work(to, full, lips, after=after, also=also, **_named(to, eased))
    dragged = figures.KEPT_TORQUE.sums(full, lips, eased.lips_torque_nm, full_torque)
    sheet.work(kept, feed, full, lips, beside=dragged, also=also, **_named(kept, eased))


def _from(sheet: Sheet, eased: feel.EaseOff, work: feel.Work) -> None:
    begin, end = _marks(sheet, eased, work)
    beside = [
        *end[0].sums(*end[1]),
        *figures.EASED_TRAVEL.sums(eased.until_mm, eased.from_mm),
    ]
    swing, other = _swing(sheet, eased.travel_mm), _before_the_stop(sheet, eased)
    for one in (swing, other):
        beside += one.sums if one else ()
    shown = other.figure if other else None
    named = _named(begin[0], eased)
    sheet.work(begin[0], *begin[1], beside=tuple(beside), other=shown, **named)


def _marks(sheet: Sheet, eased: feel.EaseOff, work: feel.Work) -> tuple[_Sized, _Sized]:
    """Where the metal begins to give way, and where the lips have left."""
    point, drill = known(sheet.drilled.point), known(sheet.drilled.drill_mm)
    if isinstance(work, feel.FlatWork):
        sizes = (work.thickness_mm,)
        return (figures.EASE_IN_FLAT, sizes), (figures.LEFT_IN_FLAT, (*sizes, point))
    if isinstance(work, feel.TubeWork) and work.bore_mm > 0 and eased.wall == 1:
        ends = (work.wall_mm, point, round_work.saddle_mm(work.bore_mm, drill))
        return (figures.EASE_IN_WALL, (work.wall_mm,)), (figures.LEFT_IN_WALL, ends)
    outside = work.outside_mm
    begin: _Sized = (figures.EASE_IN_BAR, (outside,))
    saddle = round_work.saddle_mm(outside, drill)
    if saddle > point:
        begin = (figures.EASE_AT_THE_SIDES, (outside, point, saddle))
    return begin, (figures.LEFT_IN_BAR, (outside, point))


@dataclass(frozen=True, slots=True)
class _Swung:
    """Degrees of lever swing for a stretch of travel."""

    figure: Figure
    sums: tuple[Sum, ...]


def _before_the_stop(sheet: Sheet, eased: feel.EaseOff) -> _Swung | None:
    """Swing that is left when easing begins: to the stop, which the hand knows, where it is last.

    At the near wall of a tube there is no stop to count from: to where the lips are through it.
    """
    is_near_of_two = eased.wall == 1 and sheet.case.drilling.walls is Walls.BOTH
    stop = sheet.drilled.stop
    if is_near_of_two or stop is None:
        return _swing(sheet, eased.travel_mm, " before the lips are through")
    return _swing(sheet, stop - eased.from_mm, " before the stop")


def _swing(sheet: Sheet, travel: float, before: str = "") -> _Swung | None:
    entered = sheet.case.machine.lever
    if entered is None:
        return None
    one = replace(figures.SWING, unit=figures.SWING.unit + before)
    turn = lever.travel_per_turn_mm(entered.pinion_radius.value)
    return _Swung(one.figure(one.run(travel, turn)), one.sums(travel, turn))
