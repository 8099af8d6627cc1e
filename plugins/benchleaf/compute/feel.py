"""What the hand will feel: where to ease off, how far, and what follows if it does not."""

from __future__ import annotations

from benchleaf.formulas import feel, lever
from benchleaf.formulas.pilot import piloted_loads
from benchleaf.model import DrillingSetUp, FeedLever, HoleKind, Walls, WorkShape

from .results import FeelCurve, FeelZone, Figure, figure, told_in
from .sheet import Sheet, cited

STEPS = 120
"""Points of a profile: a smooth line at a kiosk's width."""

ROWS = (
    ("ease_off", "Ease off from"),
    ("ease_to", "Ease the pull to"),
    ("kept_feed", "Feed if the hand keeps its pull"),
)
"""Key and label of each row, for work with one wall."""

_SOURCES = ("mh31-drilling", "mh31-table-7", "chisel-share", "feel-spread", "statics")
_ORDER = "derived here, no measurement: it shows the order of things and their size"


def what_the_hand_feels(sheet: Sheet) -> None:
    """Profile of a through hole, and the advice that follows; nothing for a blind one."""
    operation, tool = sheet.case.drilling, sheet.case.tool
    if operation.hole is HoleKind.BLIND:
        return
    if not sheet.has("thrust", "torque", "point"):
        for key, label in ROWS:
            sheet.lacks(key, label, "thrust, torque and the point above")
        return
    if tool.point_angle is None or tool.chisel_ratio is None:
        return
    work = _work(operation)
    if work is None:
        return
    point = feel.DrillPoint(
        sheet.values["diameter"], tool.point_angle.value, _open_ratio(sheet, tool.chisel_ratio)
    )
    profile = feel.profile(point, loads_of(sheet), work, STEPS)
    sheet.feel = _curve(profile, sheet.case.machine.lever)
    for eased in feel.ease_off(profile, sheet.values["feed"]):
        _advice(sheet, eased)
        is_held = sheet.has("capacity") and not sheet.stops
        if is_held and eased.kept_torque_nm > sheet.values["capacity"]:
            sheet.doubts.append(
                "If the hand keeps its pull at break-through, the torque is more than the holding "
                "resists: ease off without fail, or hold the work harder."
            )


def _open_ratio(sheet: Sheet, chisel_ratio: float) -> float:
    """Part of the diameter in which no lip cuts: the chisel edge, or a pilot hole."""
    pilot = sheet.case.drilling.pilot
    return max(chisel_ratio, pilot.value / sheet.values["diameter"]) if pilot else chisel_ratio


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
    """Full-cut loads of the drill's edges, less what a pilot hole takes away."""
    tool, material, values = sheet.case.tool, sheet.case.material, sheet.values
    factors = material.drilling if material else None
    assert factors is not None
    assert tool.chisel_ratio is not None
    loads = feel.edge_loads(
        values["diameter"],
        values["feed"],
        kd_thrust=float(factors.kd_thrust or 0),
        kd_torque=float(factors.kd_torque or 0),
        chisel_ratio=tool.chisel_ratio,
        wear=float(tool.wear_factor or 0),
    )
    pilot = sheet.case.drilling.pilot
    if pilot is None:
        return loads
    return piloted_loads(loads, values["diameter"], pilot.value, tool.chisel_ratio)


def _work(operation: DrillingSetUp) -> feel.Work | None:
    if operation.work is WorkShape.FLAT:
        return feel.FlatWork(operation.thickness.value) if operation.thickness else None
    if operation.work_diameter is None:
        return None
    outside = operation.work_diameter.value
    if operation.work is WorkShape.ROUND_BAR or operation.wall is None:
        return feel.BarWork(outside)
    return feel.TubeWork(outside, operation.wall.value, 2 if operation.walls is Walls.BOTH else 1)


def _advice(sheet: Sheet, eased: feel.EaseOff) -> None:
    far = "_far_wall" if eased.wall == 2 else ""
    where = ", far wall" if eased.wall == 2 else ""
    _from(sheet, eased, far, where)
    if eased.pressure_share > 0.99:  # behind a pilot hole no chisel edge lets go
        return
    sheet.write(
        f"ease_to{far}",
        f"{ROWS[1][1]}{where}",
        figure(eased.pressure_share * 100, "% of the pull", 0),
        formula="share = thrust of the lips alone ÷ thrust in full cut",
        working=f"so that the feed stays {sheet.values['feed']:g} mm/rev when the chisel edge is "
        "through",
        source=cited(*_SOURCES),
        limits="it goes on falling to nothing as the lips leave",
        note=_ORDER,
    )
    shown = figure(eased.kept_feed_mm_rev, "mm/rev", 2)
    sheet.write(
        f"kept_feed{far}",
        f"{ROWS[2][1]}{where}",
        shown,
        other=told_in(shown, "feed", "in/rev", 4),
        formula="feed × (full thrust ÷ thrust of the lips)^(1 ÷ 0.8)",
        working=f"{sheet.values['feed']:g} × {eased.kept_feed_ratio:.1f} = "
        f"{eased.kept_feed_mm_rev:.2f} mm/rev, with {eased.kept_torque_ratio:.1f} times the torque",
        source=cited(*_SOURCES, "mh31-table-8"),
        limits="this is the grab: the work, or the drill, gives way",
        note=_ORDER,
    )


def _from(sheet: Sheet, eased: feel.EaseOff, far: str, where: str) -> None:
    shown = figure(eased.from_mm, "mm", 1)
    swing = _swing(sheet, eased.travel_mm, "° of lever")
    degrees = f", {swing.text}," if swing else ""
    sheet.write(
        f"ease_off{far}",
        f"{ROWS[0][1]}{where}",
        shown,
        other=_before_the_stop(sheet, eased),
        formula="travel from first touch at which the metal begins to give way",
        working=f"the lips have left at {eased.until_mm:.1f} mm: the last "
        f"{eased.travel_mm:.1f} mm{degrees} are eased",
        source=cited(*_SOURCES),
        limits="a hand is slower than this: begin a little early",
        note=_ORDER,
    )


def _before_the_stop(sheet: Sheet, eased: feel.EaseOff) -> Figure | None:
    """Swing that is left when easing begins: to the stop, which the hand knows, where it is last.

    At the near wall of a tube there is no stop to count from: to where the lips are through it.
    """
    is_near_of_two = eased.wall == 1 and sheet.case.drilling.walls is Walls.BOTH
    if is_near_of_two or not sheet.has("stop"):
        return _swing(sheet, eased.travel_mm, "° of lever before the lips are through")
    return _swing(sheet, sheet.values["stop"] - eased.from_mm, "° of lever before the stop")


def _swing(sheet: Sheet, travel: float, unit: str) -> Figure | None:
    """Degrees of lever swing for a stretch of travel."""
    entered = sheet.case.machine.lever
    if entered is None:
        return None
    turn = lever.travel_per_turn_mm(entered.pinion_radius.value)
    return figure(feel.lever_swing_deg(travel, turn), unit, 0)
