"""Deep holes and large drills: what is left of speed and feed, pecks, pilot hole, drill life."""

from __future__ import annotations

from dataclasses import replace

from benchleaf.formulas import peck, pilot
from benchleaf.model import HoleKind, Tool

from . import figures_cutting as cut
from . import figures_holes as holes
from .amounts import amount, listed
from .declaration import working
from .results import Side
from .shape import drilled_depth_mm
from .sheet import Sheet


def drill_diameter(sheet: Sheet) -> None:
    """The diameter that most rows need."""
    if sheet.case.tool.size is not None:
        sheet.found = replace(sheet.drilled, drill_mm=sheet.case.tool.size.value)


def deep_hole(sheet: Sheet) -> None:
    """In a deep hole the published range of speed comes down; nothing is written for others."""
    if sheet.case.operation.operation != "drilling":
        return
    depth, diameter = _depth(sheet), sheet.drilled.drill_mm
    if depth is None or diameter is None:
        return
    ratio = _ratio(depth, diameter)
    if ratio < peck.PECK_ABOVE_RATIO:
        return
    if ratio > peck.DEEPEST_RATIO:
        sheet.doubt(
            "deeper-than-published",
            Side.ABOVE,
            f"The hole is {ratio:.1f} diameters deep. The published cut in speed and feed ends at "
            "6: ask before you drill.",
        )
        return
    kept = peck.deep_hole_cut(depth, diameter)
    low, high = sheet.found.vc_low, sheet.found.vc_high
    if low is not None and high is not None:
        share = kept.speed_share
        sheet.found = replace(sheet.found, vc_low=low * share, vc_high=high * share)
    sums = holes.DEPTH_IN_DIAMETERS.sums(depth, diameter)
    told = f"{working(sums)}: {kept.speed_share:.0%}"
    note = f"of the recommended feed {kept.feed_share:.0%} is kept"
    shown = holes.DEEP_HOLE.run(depth, diameter)
    sheet.tell(holes.DEEP_HOLE, shown, told, sums=sums, note=note)
    _feed_in_deep(sheet, kept.feed_share)


def _depth(sheet: Sheet) -> float | None:
    drill = sheet.drilled.drill_mm
    return None if drill is None else drilled_depth_mm(sheet.case.drilling, drill)


def _ratio(depth: float, diameter: float) -> float:
    # 5.7 over 1.9 is 3.0000000000000004 to the machine, and three diameters are three.
    return round(peck.depth_ratio(depth, diameter), peck.RATIO_DECIMALS)


def _feed_in_deep(sheet: Sheet, share: float) -> None:
    wanted, entered = sheet.case.tool.feed, sheet.case.drilling.feed.value
    if wanted is not None and entered > wanted.high * share + 0.005:
        most = wanted.high * share
        sheet.doubt(
            "feed-in-deep-hole",
            Side.ABOVE,
            f"In a hole this deep the feed should be {amount(most, 'mm/rev', 2, 'down')} at most "
            "for this tool.",
        )


def pecks(sheet: Sheet) -> None:
    """Where to bring the drill right out; nothing is written where one go will do."""
    depth, diameter, point = _depth(sheet), sheet.drilled.drill_mm, sheet.drilled.point
    if depth is None or diameter is None or point is None:
        return
    ratio = _ratio(depth, diameter)
    if not peck.PECK_ABOVE_RATIO < ratio <= peck.DEEPEST_RATIO:
        return
    stops = [stop + point for stop in peck.peck_plan(depth, diameter).depths_mm[:-1]]
    if sheet.case.drilling.hole is HoleKind.THROUGH:
        # With the point half through, a drill that comes out and goes in again grabs.
        stops = [stop for stop in stops if stop < depth]
    scale = listed(stops, "mm", 1)
    sheet.found = replace(sheet.drilled, pecks=len(stops) + 1)
    told = f"out at {scale} on the scale from first touch, then on to the stop"
    sheet.tell(
        holes.PECKS_OF_A_JOB,
        len(stops) + 1,
        told,
        label=f"Pecks: bring the drill right out at {scale}",
        limits="more often when chips pack or the drill squeals",
    )


def pilot_hole(sheet: Sheet) -> None:
    """A pilot for a large drill, from its chisel edge and web; the rule is one of the trade."""
    tool, entered = sheet.case.tool, sheet.case.drilling.pilot
    diameter = sheet.drilled.drill_mm
    if diameter is None or tool.chisel_ratio is None:
        return
    if diameter <= 0 or (entered is None and not pilot.pilot_advised(diameter)):
        return
    size = pilot.pilot_size(diameter, tool.chisel_ratio, holes.PILOT_STEP_MM)
    after = f"; the web is {amount(size.web_mm, 'mm', 1)} thick"
    limits = "half the drill's diameter at most"
    sheet.work(holes.PILOT, diameter, tool.chisel_ratio, after=after, limits=limits)
    shown = amount(size.pilot_mm, "mm", 1, "up")
    if entered is None:
        sheet.cautions.append(
            f"A drill of this size wants a pilot hole of {shown} first: the chisel edge does "
            "not cut, it pushes."
        )


def life(sheet: Sheet) -> None:
    """Minutes and holes between grinds, where the tool has constants of its own."""
    tool, speed = sheet.case.tool, sheet.found.cutting_speed
    if tool.taylor is None or speed is None:
        return
    _write_life(sheet, tool, speed)


def _write_life(sheet: Sheet, tool: Tool, speed: float) -> None:
    constants = tool.taylor
    assert constants is not None
    minutes = sheet.work(
        cut.LIFE,
        speed,
        constants.exponent,
        constants.c.low,
        limits="minutes in the cut; regrind at the first sign of wear, whatever the figure",
        also=f"constants: {constants.source}",
    )
    if sheet.drilled.time_in_cut is not None:
        sheet.work(cut.HOLES_BETWEEN_GRINDS, minutes, sheet.drilled.time_in_cut)
