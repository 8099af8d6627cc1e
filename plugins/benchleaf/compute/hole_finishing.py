"""Reaming, countersinking and counterboring: sizes, what goes before, and how the work is held."""

from __future__ import annotations

from benchleaf.formulas import clearance_holes, fits, reaming, sinking
from benchleaf.formulas.quantities import MM_PER_INCH, in_unit
from benchleaf.model import ClearanceSeries, CounterboringSetUp, CountersinkingSetUp, ReamingSetUp

from .holding import capacity_of, holding_unknown
from .results import Figure, figure, rough, told_in
from .sheet import Sheet, cited

_HOLD = (
    "No number shows that the holding is enough: the torque of this cut is not computed. Hold the "
    "work as for drilling the hole, never less, and never with a hand."
)


def fit_limits_mm(tolerance: str, size_mm: float) -> tuple[float, float]:
    """Smallest and largest size in mm of a hole or shaft by its class."""
    limits = fits.limits(tolerance, size_mm)
    return limits.low_mm, limits.high_mm


def reamed_hole(sheet: Sheet) -> None:
    """The hole's limits from its class, as go and not-go sizes."""
    operation, tool = sheet.case.operation, sheet.case.tool
    if not isinstance(operation, ReamingSetUp):
        raise TypeError(f"{operation.operation} is no reaming")
    if tool.size is None:
        sheet.lacks("hole_limits", "Finished hole", f"size in tools/{tool.id}")
        return
    size = tool.size.value
    sheet.values["diameter"] = size
    limits = reaming.reamed_hole_limits(operation.tolerance, size)
    sheet.values |= {"hole_low": limits.low_mm, "hole_high": limits.high_mm}
    sheet.write(
        "hole_limits",
        f"Finished hole, {operation.tolerance}",
        Figure(limits.low_mm, limits.high_mm, "mm", 3),
        other=Figure(
            round(limits.low_mm / MM_PER_INCH, 4), round(limits.high_mm / MM_PER_INCH, 4), "in", 4
        ),
        formula="by table: size + lower and upper deviation",
        working=f"{size:g} mm {limits.lower_um:+g} to {limits.upper_um:+g} µm; "
        f"go {limits.low_mm:.3f} mm, not go {limits.high_mm:.3f} mm",
        source=cited("narayana-15"),
        limits="the gauge maker's own tolerance is not in it",
    )
    _before_reaming(sheet, operation, size)


def _before_reaming(sheet: Sheet, operation: ReamingSetUp, size: float) -> None:
    drills = reaming.hole_before_reaming_mm(size, light_metal=operation.light_metal)
    sheet.write(
        "hole_before",
        "Drill before the reamer",
        Figure(round(drills.smallest_mm, 2), round(drills.largest_mm, 2), "mm", 2),
        formula="drill = reamer − allowance − 0.05 mm that a drill cuts over",
        working=f"{size:g} mm reamer" + (", light metal" if operation.light_metal else ""),
        source=cited("gtz-reaming", "iti-reaming", "carvill-179"),
        limits="too much breaks the reamer, too little lets it rub",
    )
    entered = sheet.hole_drill_mm
    if entered is not None and not drills.smallest_mm <= entered <= drills.largest_mm:
        sheet.doubts.append(
            f"The drill of this job, {entered:g} mm, does not leave the reamer its allowance: "
            f"{drills.smallest_mm:.2f} to {drills.largest_mm:.2f} mm."
        )


def countersink(sheet: Sheet) -> None:
    """Mouth and depth of the cone."""
    operation, tool = sheet.case.operation, sheet.case.tool
    if not isinstance(operation, CountersinkingSetUp):
        raise TypeError(f"{operation.operation} is no countersinking")
    if tool.point_angle is None:
        sheet.lacks("sink_depth", "Depth of the countersink", f"point_angle in tools/{tool.id}")
        return
    angle, hole = tool.point_angle.value, operation.hole_diameter.value
    if operation.head is not None:
        below = operation.below_flush.value if operation.below_flush else 0.0
        mouth = sinking.flat_head_sink(operation.head.value, hole, angle, below).mouth_mm
    elif operation.mouth is not None:
        mouth = operation.mouth.value
    else:
        wanted = f"mouth or head of set-up {operation.id} in jobs/{sheet.case.job.id}"
        sheet.lacks("sink_depth", "Depth of the countersink", wanted)
        return
    _cone(sheet, mouth, hole, angle)


def _cone(sheet: Sheet, mouth: float, hole: float, angle: float) -> None:
    depth = sinking.countersink_depth_mm(mouth, hole, angle)
    sheet.values |= {"diameter": mouth, "mouth": mouth, "hole": hole, "sink": depth, "angle": angle}
    across = figure(mouth, "mm", 1)
    sheet.write(
        "mouth",
        "Diameter at the surface",
        across,
        other=told_in(across, "length", "in", 3),
        formula="as entered, or head + 2 × depth below flush × tan(angle ÷ 2)",
        working=f"{mouth:.2f} mm over a hole of {hole:g} mm",
        source=cited("geometry"),
        limits="measured across the edge of the cone",
    )
    deep = figure(depth, "mm", 1)
    sheet.write(
        "sink_depth",
        "Depth of the countersink",
        deep,
        other=told_in(deep, "length", "in", 3),
        formula="depth = (mouth − hole) ÷ (2 × tan(angle ÷ 2))",
        working=f"({mouth:g} − {hole:g}) ÷ (2 × tan({angle:g}° ÷ 2)) = {depth:.2f} mm",
        source=cited("geometry"),
        limits="from where the cone first touches the edge of the hole",
    )


def counterbored_seat(sheet: Sheet) -> None:
    """Diameter, depth and pilot for the screw's head."""
    operation, tool = sheet.case.operation, sheet.case.tool
    if not isinstance(operation, CounterboringSetUp):
        raise TypeError(f"{operation.operation} is no counterboring")
    below = operation.below_flush.value if operation.below_flush else 0.0
    seat = sinking.counterbore(operation.screw, below)
    sheet.values |= {"diameter": seat.diameter_mm, "seat": seat.depth_mm, "hole": seat.pilot_mm}
    for key, label, value in (
        ("bore_diameter", f"Counterbore for {operation.screw.name}", seat.diameter_mm),
        ("bore_depth", "Depth of the counterbore", seat.depth_mm),
        ("bore_pilot", "Hole for the pilot", seat.pilot_mm),
    ):
        shown = figure(value, "mm", 1)
        sheet.write(
            key,
            label,
            shown,
            other=told_in(shown, "length", "in", 3),
            formula="by table; depth = height of the head + depth below flush",
            working=f"{operation.screw.name}: {value:g} mm",
            source=cited("somta-33", "iso-4762"),
            limits="socket head cap screws M3 to M12",
        )
    if tool.size is not None and abs(tool.size.value - seat.diameter_mm) > 0.25:
        sheet.doubts.append(
            f"The counterbore of this job is {tool.size.text}; the table says "
            f"{seat.diameter_mm:g} mm."
        )


_SERIES: dict[ClearanceSeries, clearance_holes.HoleSeries] = {
    ClearanceSeries.FINE: "fine",
    ClearanceSeries.MEDIUM: "medium",
    ClearanceSeries.COARSE: "coarse",
}


def clearance_hole(sheet: Sheet) -> None:
    """The hole that lets a screw through, against the drill of the set-up."""
    operation = sheet.case.drilling
    screw = operation.clearance_for
    if screw is None:
        return
    series = _SERIES[operation.clearance]
    hole = clearance_holes.clearance_hole_mm(screw, series)
    shown = figure(hole.diameter_mm, "mm", 1)
    other = f"; other lists print {hole.other_mm:g} mm" if hole.other_mm else ""
    sheet.write(
        "clearance",
        f"Clearance hole for {screw.name}, {series}",
        shown,
        other=told_in(shown, "length", "in", 3),
        formula="by table",
        working=f"{screw.name}, {series}: {hole.diameter_mm:g} mm{other}",
        source=cited("iso-273"),
        limits=f"tolerance {hole.tolerance_class}",
    )
    fitting = (hole.diameter_mm, hole.other_mm or hole.diameter_mm)
    if sheet.has("diameter") and all(abs(sheet.values["diameter"] - one) > 0.05 for one in fitting):
        sheet.doubts.append(
            f"The drill is {sheet.values['diameter']:g} mm; a {series} clearance hole for "
            f"{screw.name} is {hole.diameter_mm:g} mm."
        )


def held_as_for_drilling(sheet: Sheet) -> None:
    """The holding is shown; without one nobody may start. The torque of the cut is not known."""
    held = sheet.case.holding
    capacity = capacity_of(held)
    if capacity is None:
        holding_unknown(sheet, held)
        return
    sheet.cautions.append(_HOLD)
    sheet.write(
        "holding",
        "Holding, not compared with this cut",
        rough(capacity, "N m"),
        other=rough(in_unit(capacity, "torque", "lbf in"), "lbf in"),
        formula="as for drilling",
        working="see the set-up that drills the hole",
        source=cited("statics"),
        limits="not compared: the torque of this cut is not computed",
    )
