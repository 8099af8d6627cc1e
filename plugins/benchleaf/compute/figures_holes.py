"""Figures of the hole: pecks, pilot, reaming, countersinks, seats, clearance, limits, fits."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from benchleaf.formulas import clearance_holes, fits, peck, pilot, reaming, sinking, speed_ratios
from benchleaf.formulas.clearance_holes import HoleSeries
from benchleaf.formulas.threads import Thread

from .amounts import amount
from .declaration import IN_INCHES, Declaration, Symbol

_GEOMETRY = ("geometry",)
_PECK_SOURCES = ("peck-practice", "peck-rule")
_BY_TABLE = "a table gives it: nothing is worked out"
BY_TABLE = "by table"
PILOT_STEP_MM = 0.5
"""Pilots are taken from a set in half millimetres."""

DEPTH_RATIO = Declaration(
    "depth_ratio", "Depth in diameters", "times", 1, 1, ("depth", "diameter"), peck.depth_ratio,
    "ratio = depth ÷ diameter", (Symbol("depth", "mm", 1), Symbol("diameter", "mm")), _GEOMETRY,
)  # fmt: skip
DEPTH_IN_DIAMETERS = replace(DEPTH_RATIO, unit="diameters")
DEEP_HOLE = Declaration(
    "deep_hole", "Speed kept in a hole this deep", "%", 0, 0, ("depth", "diameter"),
    lambda depth, diameter: 100 * peck.deep_hole_cut(depth, diameter).speed_share,
    "share of the published cutting speed, by depth ÷ diameter", (),
    ("drill-guide-deep", "peck-rule"), "for high-speed steel drills, up to 6 diameters",
    looked_up="a table of depth in diameters gives it, row by row",
)  # fmt: skip
PECKS = Declaration(
    "pecks", "Pecks", "pecks", 0, 0, ("depth", "diameter"),
    lambda depth, diameter: len(peck.peck_plan(depth, diameter).pecks_mm),
    "first 2 diameters, then each half of the one before, half a diameter at least", (),
    _PECK_SOURCES, "to 6 diameters deep; 1 is no pecking",
    looked_up="a rule, peck after peck, until the hole is deep enough",
)  # fmt: skip
PECKS_OF_A_JOB = replace(PECKS, formula=f"{PECKS.formula}; none once the point is through")
FIRST_PECK = replace(
    PECKS, key="first_peck", label="First peck", unit="mm", shown=1, worked=1,
    run=lambda depth, diameter: peck.peck_plan(depth, diameter).pecks_mm[0],
    formula="2 diameters, or the whole depth where no pecking is needed",
    limits="to 6 diameters deep",
)  # fmt: skip
PILOT = Declaration(
    "pilot", "Pilot hole, at least", "mm", 1, 1, ("diameter", "chisel_ratio"),
    lambda diameter, chisel: pilot.pilot_size(diameter, chisel, PILOT_STEP_MM).pilot_mm,
    "pilot = chisel ratio × diameter, up to the next 0.5 mm",
    (Symbol("diameter", "mm"), Symbol("chisel ratio")), ("mh31-table-7", "pilot-practice"),
    "usual above half an inch", other=IN_INCHES, toward="up",
)  # fmt: skip


def _share(low: float, high: float) -> str:
    return f"{low:g}" if low == high else f"{low:g} to {high:g}"


def ratio_figures(operation: str) -> tuple[Declaration, Declaration]:
    """Speed and feed as shares of those of drilling; what follows starts from the low ends."""
    ratio = speed_ratios.SPEED_RATIOS[operation]
    low = (
        "; what follows is reckoned from the low end" if ratio.speed_low < ratio.speed_high else ""
    )

    def speed(drilling_speed: float) -> tuple[float, float]:
        found = speed_ratios.operation_speed_m_min(operation, drilling_speed)
        return found.low_m_min, found.high_m_min

    def feed(drilling_feed: float) -> tuple[float, float]:
        found = speed_ratios.operation_feed_mm_rev(operation, drilling_feed)
        return found.low_mm_rev, found.high_mm_rev

    word = f"ratio for {operation}"
    return (
        Declaration(
            "cutting_speed", "Cutting speed", "m/min", 1, 1, ("drilling_speed",), speed,
            f"cutting speed = cutting speed for drilling × {word}",
            (Symbol("cutting speed for drilling", "m/min", 1), Symbol(word)), ratio.sources,
            f"{word}: {_share(ratio.speed_low, ratio.speed_high)}{low}",
            numbers=lambda one: {
                "cutting speed for drilling": one, word: (ratio.speed_low, ratio.speed_high)},
        ),
        Declaration(
            "feed", "Feed", "mm/rev", 2, 2, ("drilling_feed",), feed,
            f"feed = feed for drilling × {word}", (Symbol("feed for drilling", "mm/rev"),
            Symbol(word)), ratio.sources,
            f"{word}: {_share(ratio.feed_low, ratio.feed_high)}{low}",
            numbers=lambda one: {
                "feed for drilling": one, word: (ratio.feed_low, ratio.feed_high)},
        ),
    )  # fmt: skip


def _by_ratio(operation: str) -> Declaration:
    """The range of cutting speed of a job, brought down from that of drilling."""
    ratio = speed_ratios.SPEED_RATIOS[operation]

    def run(low: float, high: float) -> tuple[float, float]:
        return (
            speed_ratios.operation_speed_m_min(operation, low).low_m_min,
            speed_ratios.operation_speed_m_min(operation, high).high_m_min,
        )

    base, _ = ratio_figures(operation)
    return replace(
        base, key="cutting_speed_range", label="Cutting speed, range by ratio",
        inputs=("low", "high"), run=run, inward=True, other=("cutting speed", "ft/min", 0),
        numbers=lambda low, high: {
            "cutting speed for drilling": (low, high),
            f"ratio for {operation}": (ratio.speed_low, ratio.speed_high)},
    )  # fmt: skip


BY_RATIO = {operation: _by_ratio(operation) for operation in speed_ratios.SPEED_RATIOS}


def _limit_numbers(tolerance: str, size: float) -> Mapping[str, float | tuple[float, float]]:
    found = fits.limits(tolerance, size)
    return {"size": size, "deviation": (found.lower_um, found.upper_um)}


def fit_limits_mm(tolerance: str, size_mm: float) -> tuple[float, float]:
    """Smallest and largest size in mm of a hole or shaft by its class."""
    limits = fits.limits(tolerance, size_mm)
    return limits.low_mm, limits.high_mm


_ISO = "ISO 286, to 500 mm"
_SIZES = (Symbol("size", "mm"), Symbol("deviation", "µm"))
LIMITS = Declaration(
    "limits", "Limits of size", "mm", 3, 3, ("tolerance", "size"), fit_limits_mm,
    "limit = size + deviation ÷ 1000", _SIZES, ("narayana-15",),
    f"{_ISO}; lower and upper deviation by table", numbers=_limit_numbers, step=0.001, is_set=True,
)  # fmt: skip


def reamed_limits_mm(tolerance: str, size: float) -> tuple[float, float]:
    """Smallest and largest hole in mm; a shaft's class is refused."""
    found = reaming.reamed_hole_limits(tolerance, size)
    return found.low_mm, found.high_mm


REAMED_LIMITS = replace(
    LIMITS, key="hole_limits", label="Finished hole", run=reamed_limits_mm, name="limits",
    inputs=("tolerance", "diameter"), other=("length", "in", 4),
    limits="the gauge maker's own tolerance is not in it",
)  # fmt: skip


def _gauge(key: str, label: str, end: str, *, is_go: bool) -> Declaration:
    def run(tolerance: str, size: float) -> float:
        sizes = fits.gauge_sizes(tolerance, size)
        return sizes.go_mm if is_go else sizes.not_go_mm

    def numbers(tolerance: str, size: float) -> dict[str, float]:
        found = fits.limits(tolerance, size)
        is_lower = tolerance[:1].isupper() is is_go
        return {"size": size, "deviation": found.lower_um if is_lower else found.upper_um}

    return replace(
        LIMITS, key=key, label=label, run=run, numbers=numbers,
        formula=f"{label.split(' g')[0].lower()} = size + deviation ÷ 1000",
        limits=f"{end}; the gauge maker's tolerance is not in it",
    )  # fmt: skip


GO = _gauge("go", "Go gauge", "low limit of a hole, high limit of a shaft", is_go=True)
NOT_GO = _gauge("not_go", "Not-go gauge", "high limit of a hole, low limit of a shaft", is_go=False)


def _clearances(hole: str, shaft: str, size: float) -> tuple[float, float]:
    found = fits.fit(f"{hole}/{shaft}", size)
    return found.min_clearance_um / 1000, found.max_clearance_um / 1000


def _clearance_numbers(
    hole: str, shaft: str, size: float
) -> Mapping[str, float | tuple[float, float]]:
    wide, thick = fit_limits_mm(hole, size), fit_limits_mm(shaft, size)
    return {"hole": wide, "shaft": thick[::-1]}


FIT_CLEARANCE = Declaration(
    "clearance", "Clearance of the two", "mm", 3, 3, ("hole", "shaft", "size"), _clearances,
    "clearance = hole − shaft", (Symbol("hole", "mm", 3), Symbol("shaft", "mm", 3)),
    ("narayana-15",), f"{_ISO}; least and most; below 0, a press fit", numbers=_clearance_numbers,
)  # fmt: skip
POSITION = Declaration(
    "position", "Diameter that the hole's place uses up", "mm", 3, 3, ("x_error", "y_error"),
    fits.positional_diameter_mm, "position = 2 × √(x² + y²)",
    (Symbol("x", "mm"), Symbol("y", "mm")), _GEOMETRY,
    "compare with the tolerance on the drawing, itself a diameter",
)  # fmt: skip

_OVERCUT = "what a drill cuts over"


def before_reaming_mm(size: float, light_metal: bool = False) -> tuple[float, float]:
    """Smallest and largest drill in mm that leave a reamer its allowance."""
    drills = reaming.hole_before_reaming_mm(size, light_metal=light_metal)
    return drills.smallest_mm, drills.largest_mm


def _before_numbers(
    size: float, light_metal: bool = False
) -> Mapping[str, float | tuple[float, float]]:
    row = next(one for top, one in reaming.REAMING_ALLOWANCE.items() if size <= top)
    factor = reaming.LIGHT_METAL_FACTOR if light_metal else 1.0
    return {
        "reamer": size,
        "allowance": (factor * row.high_mm, factor * row.low_mm),
        _OVERCUT: reaming.DRILL_OVERSIZE_MM,
    }


BEFORE_REAMING = Declaration(
    "hole_before", "Drill before the reamer", "mm", 2, 2, ("diameter",), before_reaming_mm,
    f"drill = reamer − allowance − {_OVERCUT}",
    (Symbol("reamer", "mm"), Symbol("allowance", "mm"), Symbol(_OVERCUT, "mm")),
    ("gtz-reaming", "iti-reaming", "carvill-179"),
    "allowance by table, for steel; half as much again is left in light metals",
    numbers=_before_numbers,
)  # fmt: skip

_ANGLE, _HOLE = Symbol("angle", "°"), Symbol("hole", "mm")


def _mouth(head: float, hole: float, angle: float, below_flush: float) -> float:
    return sinking.flat_head_sink(head, hole, angle, below_flush).mouth_mm


MOUTH = Declaration(
    "mouth", "Diameter at the surface", "mm", 1, 2, ("head", "hole", "angle", "below_flush"),
    _mouth, "mouth = head + 2 × depth below flush × tan(angle ÷ 2)",
    (Symbol("head", "mm"), Symbol("depth below flush", "mm"), _ANGLE), _GEOMETRY,
    "measured across the edge of the cone", other=IN_INCHES,
    numbers=lambda head, hole, angle, below: {
        "head": head, "depth below flush": below, "angle": angle},
)  # fmt: skip
MOUTH_ENTERED = replace(
    MOUTH, inputs=("mouth",), run=float, formula="as entered", symbols=(), numbers=None,
    looked_up="the engineer entered it",
)  # fmt: skip
SINK_DEPTH = Declaration(
    "sink_depth", "Depth of the countersink", "mm", 1, 2, ("mouth", "hole", "angle"),
    sinking.countersink_depth_mm, "depth = (mouth − hole) ÷ (2 × tan(angle ÷ 2))",
    (Symbol("mouth", "mm"), _HOLE, _ANGLE), _GEOMETRY, "angles from 60° to 140°",
    other=IN_INCHES, name="depth", step=0.1, is_set=True,
)  # fmt: skip
SPEED_DIAMETER = Declaration(
    "diameter", "Diameter that sets the speed", "mm", 1, 2, ("mouth",), float,
    "diameter = mouth", (Symbol("mouth", "mm"),), _GEOMETRY,
    "at the surface the edge runs fastest",
)  # fmt: skip

_SEAT = ("somta-33", "iso-4762")
_SCREWS = "socket head cap screws M3 to M12, without M3.5"


def _seat(key: str, label: str, name: str, part: str) -> Declaration:
    def run(screw: Thread) -> float:
        return float(getattr(sinking.counterbore(screw, 0), part))

    return Declaration(
        key, label, "mm", 1, 1, ("screw",), run, BY_TABLE, (), _SEAT, _SCREWS, other=IN_INCHES,
        name=name, looked_up=_BY_TABLE,
    )  # fmt: skip


BORE_DIAMETER = _seat("bore_diameter", "Counterbore", "diameter", "diameter_mm")


def _beside_the_standard(screw: Thread) -> str:
    """What is to be known where the maker's pilot is no medium hole of ISO 273."""
    pilot = sinking.counterbore(screw, 0).pilot_mm
    hole = clearance_holes.clearance_hole_mm(screw, "medium").diameter_mm
    if pilot == hole:
        return ""
    return (
        f"the medium hole of ISO 273 is {amount(hole, 'mm')}, which this pilot does not enter: "
        "measure yours"
    )


BORE_PILOT = replace(
    _seat("bore_pilot", "Hole for the pilot", "pilot", "pilot_mm"), told=_beside_the_standard
)
BORE_DEPTH = Declaration(
    "bore_depth", "Depth of the counterbore", "mm", 1, 1, ("screw", "below_flush"),
    lambda screw, below: sinking.counterbore(screw, below).depth_mm,
    "depth = height of the head + depth below flush",
    (Symbol("height of the head", "mm"), Symbol("depth below flush", "mm")), _SEAT, _SCREWS,
    other=IN_INCHES, name="depth", step=0.1, is_set=True,
    numbers=lambda screw, below: {
        "height of the head": sinking.SOCKET_HEAD_HEIGHT_MM[screw.major_mm],
        "depth below flush": below},
)  # fmt: skip


def _clearance_in_lists(screw: Thread, series: HoleSeries) -> tuple[float, float]:
    hole = clearance_holes.clearance_hole_mm(screw, series)
    both = (hole.diameter_mm, hole.other_mm or hole.diameter_mm)
    return min(both), max(both)


CLEARANCE_HOLE = Declaration(
    "clearance", "Clearance hole", "mm", 1, 1, ("screw", "series"),
    lambda screw, series: clearance_holes.clearance_hole_mm(screw, series).diameter_mm,
    BY_TABLE, (), ("iso-273",), "M2 to M24", other=IN_INCHES, name="hole", looked_up=_BY_TABLE,
)  # fmt: skip
CLEARANCE_IN_LISTS = replace(
    CLEARANCE_HOLE, key="hole_in_lists", label="The same, in all the lists compared", name="",
    run=_clearance_in_lists,
    limits="ISO 273 is the lower end; at M12, M14 and M16, medium and coarse, other lists have "
    "0.5 mm more",
)  # fmt: skip
