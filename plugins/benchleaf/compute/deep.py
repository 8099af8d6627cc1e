"""Deep holes and large drills: what is left of speed and feed, pecks, pilot hole, drill life."""

from __future__ import annotations

from benchleaf.formulas import drill_life, peck, pilot
from benchleaf.model import HoleKind, Tool

from .results import figure, told_in
from .shape import drilled_depth_mm
from .sheet import Sheet, cited

_PILOT_STEP_MM = 0.5
"""Pilots are taken from a set in half millimetres."""


def drill_diameter(sheet: Sheet) -> None:
    """The diameter that most rows need."""
    if sheet.case.tool.size is not None:
        sheet.values["diameter"] = sheet.case.tool.size.value


def deep_hole(sheet: Sheet) -> None:
    """In a deep hole the published range of speed comes down; nothing is written for others."""
    if sheet.case.operation.operation != "drilling":
        return
    depth = _depth(sheet)
    if depth is None:
        return
    diameter = sheet.values["diameter"]
    ratio = _ratio(depth, diameter)
    if ratio < peck.PECK_ABOVE_RATIO:
        return
    if ratio > peck.DEEPEST_RATIO:
        sheet.doubts.append(
            f"The hole is {ratio:.1f} diameters deep. The published cut in speed and feed ends at "
            "6: ask before you drill."
        )
        return
    kept = peck.deep_hole_cut(depth, diameter)
    for end in ("vc_low", "vc_high"):
        if sheet.has(end):
            sheet.values[end] *= kept.speed_share
    sheet.write(
        "deep_hole",
        "Speed kept in a hole this deep",
        figure(kept.speed_share * 100, "%", 0),
        formula="share of the published cutting speed, by depth ÷ diameter",
        working=f"{depth:.1f} ÷ {diameter:g} = {ratio:.1f} diameters: {kept.speed_share:.0%}",
        source=cited("drill-guide-deep", "peck-rule"),
        limits="for high-speed steel drills, up to 6 diameters",
        note=f"of the recommended feed {kept.feed_share:.0%} is kept",
    )
    _feed_in_deep(sheet, kept.feed_share)


def _depth(sheet: Sheet) -> float | None:
    if not sheet.has("diameter"):
        return None
    return drilled_depth_mm(sheet.case.drilling, sheet.values["diameter"])


def _ratio(depth: float, diameter: float) -> float:
    # 5.7 over 1.9 is 3.0000000000000004 to the machine, and three diameters are three.
    return round(peck.depth_ratio(depth, diameter), peck.RATIO_DECIMALS)


def _feed_in_deep(sheet: Sheet, share: float) -> None:
    wanted, entered = sheet.case.tool.feed, sheet.case.drilling.feed.value
    if wanted is not None and entered > wanted.high * share + 0.005:
        most = wanted.high * share
        sheet.doubts.append(
            f"In a hole this deep the feed should be {most:.2f} mm/rev at most for this tool."
        )


def pecks(sheet: Sheet) -> None:
    """Where to bring the drill right out; nothing is written where one go will do."""
    depth = _depth(sheet)
    if depth is None or not sheet.has("point"):
        return
    diameter, point = sheet.values["diameter"], sheet.values["point"]
    ratio = _ratio(depth, diameter)
    if not peck.PECK_ABOVE_RATIO < ratio <= peck.DEEPEST_RATIO:
        return
    stops = [stop + point for stop in peck.peck_plan(depth, diameter).depths_mm[:-1]]
    if sheet.case.drilling.hole is HoleKind.THROUGH:
        # With the point half through, a drill that comes out and goes in again grabs.
        stops = [stop for stop in stops if stop < depth]
    scale = ", ".join(f"{stop:.1f}" for stop in stops)
    sheet.write(
        "pecks",
        f"Pecks: bring the drill right out at {scale} mm",
        figure(len(stops) + 1, "pecks", 0),
        formula="first 2 diameters, then each half of the one before, half a diameter at least; "
        "none once the point is through",
        working=f"out at {scale} mm on the scale from first touch, then on to the stop",
        source=cited("peck-practice", "peck-rule"),
        limits="more often when chips pack or the drill squeals",
    )


def pilot_hole(sheet: Sheet) -> None:
    """A pilot for a large drill, from its chisel edge and web; the rule is one of the trade."""
    tool, entered = sheet.case.tool, sheet.case.drilling.pilot
    if not sheet.has("diameter") or tool.chisel_ratio is None:
        return
    diameter = sheet.values["diameter"]
    if diameter <= 0 or (entered is None and not pilot.pilot_advised(diameter)):
        return
    size = pilot.pilot_size(diameter, tool.chisel_ratio, _PILOT_STEP_MM)
    shown = figure(size.pilot_mm, "mm", 1)
    sheet.write(
        "pilot",
        "Pilot hole, at least",
        shown,
        other=told_in(shown, "length", "in", 3),
        formula="the chisel edge, up to the next half millimetre",
        working=f"{tool.chisel_ratio:g} × {diameter:g} = {size.chisel_mm:.1f} mm; "
        f"the web is {size.web_mm:.1f} mm thick",
        source=cited("mh31-table-7", "pilot-practice"),
        limits="half the drill's diameter at most",
    )
    if entered is None:
        sheet.cautions.append(
            f"A drill of this size wants a pilot hole of {shown.text} first: the chisel edge does "
            "not cut, it pushes."
        )


def life(sheet: Sheet) -> None:
    """Minutes and holes between grinds, where the tool has constants of its own."""
    tool = sheet.case.tool
    if tool.taylor is None or not sheet.has("cutting_speed"):
        return
    _write_life(sheet, tool, sheet.values["cutting_speed"])


def _write_life(sheet: Sheet, tool: Tool, speed: float) -> None:
    constants = tool.taylor
    assert constants is not None
    c = constants.c.low
    minutes = drill_life.tool_life_min(speed, constants.exponent, c)
    sheet.write(
        "life",
        "Drill life at that setting",
        figure(minutes, "min", 0),
        formula="T = (C ÷ cutting speed)^(1 ÷ n)",
        working=f"({c:g} ÷ {speed:.1f})^(1 ÷ {constants.exponent:g}) = {minutes:.0f} min",
        source=f"{cited('groover5-ex-22.1')}; constants: {constants.source}",
        limits="minutes in the cut; regrind at the first sign of wear, whatever the figure",
        note="good for planning only",
    )
    if sheet.has("time"):
        holes = drill_life.holes_between_grinds(minutes, sheet.values["time"])
        sheet.write(
            "holes_between_grinds",
            "Holes between grinds",
            figure(holes, "holes", 0),
            formula="holes = 60 × life ÷ time for one hole, rounded down",
            working=f"60 × {minutes:.0f} ÷ {sheet.values['time']:.1f} = {holes}",
            source=cited("groover5-ex-22.1"),
            limits="as good as the constants",
        )
