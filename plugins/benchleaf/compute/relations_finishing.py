"""Relations of the operations that finish a hole or give it its size."""

from __future__ import annotations

from benchleaf.formulas import clearance_holes, fits, reaming, sinking, speed_ratios
from benchleaf.formulas.clearance_holes import HoleSeries
from benchleaf.formulas.threads import Thread

from .hole_finishing import fit_limits_mm
from .relation import SPEED_INPUTS, SPEED_RELATIONS, Input, Relation, operation

_FROM_DRILLING = {
    "drilling_speed": Input("cutting speed", "cutting speed for drilling the same metal"),
    "drilling_feed": Input("feed", "feed for drilling the same metal"),
}


def _ratios(name: str, *sources: str) -> tuple[Relation, ...]:
    """Speed and feed as shares of those of drilling; what follows starts from the low ends."""

    def speed(drilling_speed: float) -> tuple[float, float]:
        found = speed_ratios.operation_speed_m_min(name, drilling_speed)
        return found.low_m_min, found.high_m_min

    def feed(drilling_feed: float) -> tuple[float, float]:
        found = speed_ratios.operation_feed_mm_rev(name, drilling_feed)
        return found.low_mm_rev, found.high_mm_rev

    ratio = speed_ratios.SPEED_RATIOS[name]
    times = _share(ratio.speed_low, ratio.speed_high)
    feeds = _share(ratio.feed_low, ratio.feed_high)
    low = "what follows is reckoned from the low end" if ratio.speed_low < ratio.speed_high else ""
    return (
        Relation("cutting_speed", "Cutting speed", "m/min", 1, ("drilling_speed",), speed,
                 f"{times} × cutting speed of drilling", sources, low),
        Relation("feed", "Feed", "mm/rev", 2, ("drilling_feed",), feed,
                 f"{feeds} × feed of drilling", sources, low),
    )  # fmt: skip


def _share(low: float, high: float) -> str:
    return f"{low:g}" if low == high else f"{low:g} to {high:g}"


def _hole_limits(tolerance: str, size: float) -> tuple[float, float]:
    found = reaming.reamed_hole_limits(tolerance, size)
    return found.low_mm, found.high_mm


def _before_reaming(reamer: float) -> tuple[float, float]:
    drills = reaming.hole_before_reaming_mm(reamer)
    return drills.smallest_mm, drills.largest_mm


REAMING = operation(
    "reaming",
    "hole to leave for the reamer, speed, feed and limits of the hole",
    SPEED_INPUTS | _FROM_DRILLING | {"tolerance": Input("class", "class of the hole: H7")},
    Relation("hole_before", "Drilled hole before the reamer", "mm", 2, ("diameter",),
             _before_reaming, "reamer − (allowance by table + 0.05)",
             ("gtz-reaming", "iti-reaming", "carvill-179"),
             "steel; half as much again is left in light metals"),
    *_ratios("reaming", "tc-9-524-reaming", "kibbe-reaming", "mh30-reaming"),
    *SPEED_RELATIONS,
    Relation("limits", "Limits of the hole", "mm", 3, ("tolerance", "diameter"), _hole_limits,
             "by table: size + deviations", ("narayana-15",)),
)  # fmt: skip


_AT_THE_MOUTH = {name: one for name, one in SPEED_INPUTS.items() if name != "diameter"}
"""A countersink cuts at the mouth: its own diameter sets no speed."""


def _mouth(head: float, hole: float, angle: float, below_flush: float) -> float:
    return sinking.flat_head_sink(head, hole, angle, below_flush).mouth_mm


COUNTERSINKING = operation(
    "countersinking",
    "mouth and depth of a cone, and spindle speed",
    _AT_THE_MOUTH | _FROM_DRILLING | {
        "mouth": Input("length", "diameter at the surface, instead of head"),
        "head": Input("length", "diameter of the screw's flat head, to the sharp edge"),
        "below_flush": Input("length", "how far the head lies below the surface, 0 unless given"),
        "hole": Input("drill", "diameter of the hole"),
        "angle": Input("angle", "whole angle of the cone"),
    },
    Relation("mouth", "Diameter at the surface", "mm", 2,
             ("head", "hole", "angle", "below_flush"), _mouth,
             "head + 2 × depth below flush × tan(angle ÷ 2)", ("geometry",)),
    Relation("depth", "Depth of the countersink", "mm", 2, ("mouth", "hole", "angle"),
             sinking.countersink_depth_mm, "(mouth − hole) ÷ (2 × tan(angle ÷ 2))",
             ("geometry",), "angles from 60° to 140°"),
    Relation("diameter", "Diameter that sets the speed", "mm", 2, ("mouth",), float,
             "the diameter at the surface, where the edge runs fastest", ("geometry",)),
    *_ratios("countersinking", "florida-dml"),
    *SPEED_RELATIONS,
    zero_unless_given=("below_flush",),
)  # fmt: skip

_SEAT = ("somta-33", "iso-4762")
_SCREWS = "socket head cap screws M3 to M12, without M3.5"
COUNTERBORING = operation(
    "counterboring",
    "diameter, depth and pilot of a seat for a socket head cap screw, and spindle speed",
    SPEED_INPUTS | _FROM_DRILLING | {
        "screw": Input("thread", "M3 to M12"),
        "below_flush": Input("length", "how far the head lies below the surface, 0 unless given"),
    },
    Relation("diameter", "Counterbore", "mm", 1, ("screw",),
             lambda screw: sinking.counterbore(screw, 0).diameter_mm, "by table", _SEAT, _SCREWS),
    Relation("depth", "Depth of the counterbore", "mm", 1, ("screw", "below_flush"),
             lambda screw, below: sinking.counterbore(screw, below).depth_mm,
             "height of the head + depth below flush", _SEAT, _SCREWS),
    Relation("pilot", "Hole for the pilot", "mm", 1, ("screw",),
             lambda screw: sinking.counterbore(screw, 0).pilot_mm, "by table", _SEAT, _SCREWS),
    *_ratios("counterboring", "somta-33"),
    *SPEED_RELATIONS,
    zero_unless_given=("below_flush",),
)  # fmt: skip


def _clearance(screw: Thread, series: HoleSeries) -> float:
    return clearance_holes.clearance_hole_mm(screw, series).diameter_mm


def _clearance_in_lists(screw: Thread, series: HoleSeries) -> tuple[float, float]:
    hole = clearance_holes.clearance_hole_mm(screw, series)
    both = (hole.diameter_mm, hole.other_mm or hole.diameter_mm)
    return min(both), max(both)


CLEARANCE = operation(
    "clearance-hole",
    "hole that lets a metric screw through",
    {
        "screw": Input("thread", "M2 to M24"),
        "series": Input("series", f"{', '.join(clearance_holes.HOLE_SERIES)}"),
    },
    Relation("hole", "Clearance hole", "mm", 1, ("screw", "series"), _clearance,
             "by table", ("iso-273",), "M2 to M24"),
    Relation("hole_in_lists", "The same, in all the lists compared", "mm", 1,
             ("screw", "series"), _clearance_in_lists, "by table", ("iso-273",),
             "the lists differ by 0.5 mm at M12, M14 and M16, medium and coarse"),
)  # fmt: skip


def _clearances(hole: str, shaft: str, size: float) -> tuple[float, float]:
    found = fits.fit(f"{hole}/{shaft}", size)
    return found.min_clearance_um / 1000, found.max_clearance_um / 1000


_ISO = "ISO 286, to 500 mm"
FIT = operation(
    "fit",
    "limits of a hole or shaft by ISO 286, go and not-go sizes, the fit of two, hole position",
    {
        "size": Input("length", "nominal size"),
        "tolerance": Input("class", "class of hole or shaft: H7, g6"),
        "hole": Input("class", "class of the hole, where two parts fit: H7"),
        "shaft": Input("class", "class of the shaft that goes in: g6"),
        "x_error": Input("length", "how far the hole is off in one direction"),
        "y_error": Input("length", "how far it is off square to that, 0 unless given"),
    },
    Relation("limits", "Limits of size", "mm", 3, ("tolerance", "size"), fit_limits_mm,
             "by table: size + deviations", ("narayana-15",), _ISO),
    Relation("go", "Go gauge", "mm", 3, ("tolerance", "size"),
             lambda tolerance, size: fits.gauge_sizes(tolerance, size).go_mm,
             "low limit of a hole, high limit of a shaft", ("narayana-15",),
             "the gauge maker's tolerance is not in it"),
    Relation("not_go", "Not-go gauge", "mm", 3, ("tolerance", "size"),
             lambda tolerance, size: fits.gauge_sizes(tolerance, size).not_go_mm,
             "high limit of a hole, low limit of a shaft", ("narayana-15",),
             "the gauge maker's tolerance is not in it"),
    Relation("clearance", "Clearance of the two", "mm", 3, ("hole", "shaft", "size"), _clearances,
             "hole − shaft, least and most", ("narayana-15",), f"{_ISO}; below 0, a press fit"),
    Relation("position", "Diameter that the hole's place uses up", "mm", 3,
             ("x_error", "y_error"), fits.positional_diameter_mm, "2 × √(x² + y²)",
             ("geometry",), "compare with the tolerance on the drawing, itself a diameter"),
    zero_unless_given=("y_error",),
)  # fmt: skip

FINISHING = (REAMING, COUNTERSINKING, COUNTERBORING, CLEARANCE, FIT)
"""Operations of this module, in the order of the manual."""
