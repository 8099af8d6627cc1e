"""Stop 4: a job with its machine, tool and material to set-up rows that show their working."""

from collections.abc import Mapping
from types import MappingProxyType

from benchleaf.model import Job, Shop

from .capacity import fits_the_machine
from .deep import deep_hole, drill_diameter, life, pecks, pilot_hole
from .feel import ROWS as FEEL_ROWS
from .feel import what_the_hand_feels
from .forces import power, thrust, torque
from .holding import work_holding
from .hole_finishing import (
    clearance_hole,
    counterbored_seat,
    countersink,
    fit_limits_mm,
    held_as_for_drilling,
    reamed_hole,
)
from .lever import eased_pull, feed_lever
from .results import FeelCurve, FeelZone, Figure, Row, SetUpSheet, SpeedStep, Stop
from .shape import fits_the_shape, shape_of_work, thin_work
from .sheet import Sheet, Stage, case_of, when
from .spindle import (
    cutting_speed_range,
    feed,
    feed_rate,
    spindle_speed,
    spindle_speed_range,
    true_cutting_speed,
)
from .tapping import (
    drilled_depth,
    entered_drill,
    feed_of_tap,
    hole_before,
    machine_only,
    tap_holding,
    thread_sizes,
    torque_of_tap,
    turns,
)
from .travel import depth_stop, point_length, quill_travel, time_per_hole

_SPEED = (
    Stage(cutting_speed_range, ("cutting_speed_range", "Cutting speed, published range")),
    Stage(deep_hole),
    Stage(spindle_speed_range, ("spindle_speed_range", "Spindle speed, range wanted")),
    Stage(spindle_speed, ("spindle_speed", "Spindle speed to set")),
    Stage(true_cutting_speed, ("cutting_speed", "Cutting speed at that setting")),
)
_FEED = (
    Stage(feed, ("feed", "Feed per turn")),
    Stage(
        feed_rate,
        ("feed_rate", "Feed a minute"),
        ("seconds_for_10_mm", "Time for 10 mm of travel"),
    ),
)
_HOLDING = Stage(work_holding, ("holding", "Holding, torque it can resist"))
_HELD = Stage(held_as_for_drilling, ("holding", "Holding, not compared with this cut"))

_DRILLING = (
    Stage(drill_diameter),
    Stage(clearance_hole, ("clearance", "Clearance hole")),
    *_SPEED,
    *_FEED,
    Stage(shape_of_work, ("saddle", "Saddle where the drill enters")),
    Stage(point_length, ("point_length", "Length of the drill's point")),
    Stage(thin_work),
    Stage(depth_stop, ("depth_stop", "Depth stop, from first touch")),
    Stage(pecks),
    Stage(quill_travel, ("quill_travel", "Quill travel")),
    Stage(time_per_hole, ("time", "Time under feed, each hole")),
    Stage(pilot_hole, ("pilot", "Pilot hole, at least")),
    Stage(thrust, ("thrust", "Thrust along the drill")),
    Stage(feed_lever, ("lever_force", "Pull at the feed lever")),
    Stage(torque, ("torque", "Torque on the work")),
    Stage(
        power,
        ("cutter_power", "Power at the drill"),
        ("motor_power", "Power asked of the motor"),
    ),
    _HOLDING,
    Stage(what_the_hand_feels, *FEEL_ROWS),
    Stage(life, ("life", "Drill life at that setting")),
    Stage(fits_the_machine),
    Stage(fits_the_shape),
)
_TAPPING = (
    Stage(thread_sizes, ("pitch", "Pitch")),
    Stage(hole_before, ("tap_drill", "Drill for the hole")),
    Stage(entered_drill, ("percent", "Thread that the drill of this job leaves")),
    Stage(drilled_depth, ("drilled_depth", "Drilled depth, full diameter, at least")),
    Stage(turns, ("turns", "Turns from the first bite")),
    *(Stage(when(machine_only, one.run), *one.rows) for one in _SPEED),
    Stage(when(machine_only, feed_of_tap), ("feed_rate", "Feed a minute, one pitch a turn")),
    Stage(torque_of_tap, ("torque", "Torque of the tap")),
    Stage(tap_holding, *_HOLDING.rows),
)
_FINISHING = (*_SPEED, *_FEED, _HELD, Stage(fits_the_machine))

OPERATIONS: Mapping[str, tuple[Stage, ...]] = MappingProxyType(
    {
        "drilling": _DRILLING,
        "tapping": _TAPPING,
        "reaming": (
            Stage(
                reamed_hole,
                ("hole_limits", "Finished hole"),
                ("hole_before", "Drill before the reamer"),
            ),
            *_FINISHING,
        ),
        "countersinking": (
            Stage(countersink, ("sink_depth", "Depth of the countersink")),
            *_FINISHING,
        ),
        "counterboring": (
            Stage(counterbored_seat, ("bore_diameter", "Counterbore")),
            *_FINISHING,
        ),
    }
)
"""The stages of each operation, in the order of its rows."""


OUT_OF_RANGE = "a value that the formula covers"
"""Begins what is missing where a value was given that a formula does not cover."""


def set_up_sheets(shop: Shop, job: Job) -> tuple[SetUpSheet, ...]:
    """Every set-up of a job, computed; set-ups that name missing records are left out."""
    cases = (case_of(shop, job, index) for index in range(len(job.set_ups)))
    sheets = []
    for case in cases:
        if case is not None:
            sheet = Sheet(case)
            for stage in OPERATIONS[case.operation.operation]:
                _run(stage, sheet)
            sheets.append(sheet.finished())
    return tuple(sheets)


def set_up_operations(job: Job) -> frozenset[str]:
    """The names of the operations in a job's set-ups."""
    return frozenset(one.operation for one in job.set_ups)


def _run(stage: Stage, sheet: Sheet) -> None:
    """One stage; a value outside a formula's range leaves its rows not computed, saying why."""
    try:
        stage.run(sheet)
    except ValueError as error:
        written = {row.key for row in sheet.rows}
        for key, label in stage.rows:
            if key not in written:
                sheet.lacks(key, label, f"{OUT_OF_RANGE} ({error})")
        if "holding" in dict(stage.rows):
            reason = f"the holding cannot be reckoned: {error}"
            sheet.stop("S506", reason, "correct the holding", sheet.case.holding_path)


__all__ = [
    "OPERATIONS",
    "OUT_OF_RANGE",
    "FeelCurve",
    "FeelZone",
    "Figure",
    "Row",
    "SetUpSheet",
    "SpeedStep",
    "Stop",
    "eased_pull",
    "fit_limits_mm",
    "set_up_operations",
    "set_up_sheets",
]
