"""Reaming, countersinking and counterboring: sizes, what goes before, and how the work is held."""

from __future__ import annotations

from dataclasses import replace

from benchleaf.formulas import clearance_holes, sinking
from benchleaf.model import ClearanceSeries, CounterboringSetUp, CountersinkingSetUp, ReamingSetUp

from . import figures_holes as holes
from .amounts import amount, entered, span
from .figures_feel import HELD
from .found import Bored, Reamed, Sunk
from .holding import capacity_of, holding_unknown, write_capacity
from .results import side_of
from .sheet import Sheet

_HOLD = (
    "No number shows that the holding is enough: the torque of this cut is not computed. Hold the "
    "work as for drilling a hole of the thread's outside diameter, and never with a hand."
)


def reamed_hole(sheet: Sheet) -> None:
    """The hole's limits from its class, as go and not-go sizes."""
    operation, tool = sheet.case.operation, sheet.case.tool
    if not isinstance(operation, ReamingSetUp):
        raise TypeError(f"{operation.operation} is no reaming")
    if tool.size is None:
        sheet.lacks(holes.REAMED_LIMITS, f"size in tools/{tool.id}")
        return
    size, one = tool.size.value, holes.REAMED_LIMITS
    sheet.found = found = Reamed(reamer_mm=size)
    low, high = holes.reamed_limits_mm(operation.tolerance, size)
    after = f"; go {amount(low, 'mm', 3, 'up')}, not go {amount(high, 'mm', 3, 'down')}"
    label = f"{one.label}, {operation.tolerance}"
    sheet.work(one, operation.tolerance, size, label=label, after=after)
    sheet.found = replace(found, hole_low=low, hole_high=high)
    _before_reaming(sheet, operation, size)


def _before_reaming(sheet: Sheet, operation: ReamingSetUp, size: float) -> None:
    after = "; light metal" if operation.light_metal else ""
    limits = "too much breaks the reamer, too little lets it rub"
    smallest, largest = sheet.work(
        holes.BEFORE_REAMING, size, operation.light_metal, after=after, limits=limits
    )
    drilled = sheet.hole_drill_mm
    if drilled is not None and not smallest <= drilled <= largest:
        sheet.doubt(
            "reamer-allowance",
            side_of(drilled, smallest),
            f"The drill of this job, {amount(drilled, 'mm')}, does not leave the reamer its "
            f"allowance: {span(smallest, largest, 'mm', 2)}.",
        )


def countersink(sheet: Sheet) -> None:
    """Mouth and depth of the cone."""
    operation, tool = sheet.case.operation, sheet.case.tool
    if not isinstance(operation, CountersinkingSetUp):
        raise TypeError(f"{operation.operation} is no countersinking")
    if tool.point_angle is None:
        sheet.lacks(holes.SINK_DEPTH, f"point_angle in tools/{tool.id}")
        return
    angle, hole = tool.point_angle.value, operation.hole_diameter.value
    if operation.head is not None:
        below = operation.below_flush.value if operation.below_flush else 0.0
        _cone(sheet, (operation.head.value, hole, angle, below), hole, angle)
    elif operation.mouth is not None:
        _cone(sheet, (operation.mouth.value,), hole, angle)
    else:
        wanted = f"mouth or head of set-up {operation.id} in jobs/{sheet.case.job.id}"
        sheet.lacks(holes.SINK_DEPTH, wanted)


def _cone(sheet: Sheet, head: tuple[float, ...], hole: float, angle: float) -> None:
    """Rows of the cone, from the screw's head or from the mouth entered."""
    over = f"; over a hole of {amount(hole, 'mm')}"
    if len(head) == 1:
        (mouth,), one = head, holes.MOUTH_ENTERED
        depth = sinking.countersink_depth_mm(mouth, hole, angle)
        told = f"as entered: {amount(mouth, 'mm')}{over}"
        sheet.tell(one, mouth, told)
    else:
        sink = sinking.flat_head_sink(*head)
        mouth, depth = sink.mouth_mm, sink.depth_mm
        sheet.work(holes.MOUTH, *head, after=over)
    limits = "from where the cone first touches the edge of the hole"
    sheet.work(holes.SINK_DEPTH, mouth, hole, angle, limits=limits)
    sheet.found = Sunk(mouth_mm=mouth, hole_mm=hole, depth=depth, angle=angle)


def counterbored_seat(sheet: Sheet) -> None:
    """Diameter, depth and pilot for the screw's head."""
    operation, tool = sheet.case.operation, sheet.case.tool
    if not isinstance(operation, CounterboringSetUp):
        raise TypeError(f"{operation.operation} is no counterboring")
    below = operation.below_flush.value if operation.below_flush else 0.0
    seat = sinking.counterbore(operation.screw, below)
    sheet.found = Bored(seat_mm=seat.diameter_mm, depth=seat.depth_mm, pilot_mm=seat.pilot_mm)
    screw, limits = operation.screw, "socket head cap screws M3 to M12"
    wide, pilot = holes.BORE_DIAMETER, holes.BORE_PILOT
    sheet.tell(
        wide,
        seat.diameter_mm,
        f"{screw.name}: {amount(seat.diameter_mm, 'mm')}",
        label=f"{wide.label} for {screw.name}",
        limits=limits,
    )
    sheet.work(holes.BORE_DEPTH, screw, below, limits=limits)
    told, note = f"{screw.name}: {amount(seat.pilot_mm, 'mm')}", pilot.note_of(screw)
    sheet.tell(pilot, seat.pilot_mm, told, limits=limits, note=note)
    if tool.size is not None and abs(tool.size.value - seat.diameter_mm) > 0.25:
        sheet.doubt(
            "counterbore-size",
            side_of(tool.size.value, seat.diameter_mm),
            f"The counterbore of this job is {entered(tool.size)}; the table says "
            f"{amount(seat.diameter_mm, 'mm')}.",
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
    one, size = holes.CLEARANCE_HOLE, hole.diameter_mm
    lists = (
        ""
        if not hole.other_mm
        else (f"; lists that are no ISO 273 print {amount(hole.other_mm, 'mm')}")
    )
    sheet.tell(
        one,
        size,
        f"{screw.name}, {series}: {amount(size, 'mm')}{lists}",
        label=f"{one.label} for {screw.name}, {series}",
        limits=f"tolerance {hole.tolerance_class}",
    )
    fitting = (hole.diameter_mm, hole.other_mm or hole.diameter_mm)
    drill = sheet.drilled.drill_mm
    if drill is not None and all(abs(drill - one) > 0.05 for one in fitting):
        sheet.doubt(
            "clearance-drill",
            side_of(drill, hole.diameter_mm),
            f"The drill is {amount(drill, 'mm')}; a {series} clearance hole for "
            f"{screw.name} is {amount(hole.diameter_mm, 'mm')}.",
        )


def held_without_torque(sheet: Sheet) -> None:
    """A tap in a wrench: the holding is shown; without one nobody may start."""
    held = sheet.case.holding
    if held is None or capacity_of(held) is None:
        holding_unknown(sheet, held)
        return
    sheet.cautions.append(_HOLD)
    limits = "not compared: the torque of this cut is not computed"
    write_capacity(sheet, held, HELD, limits)
