"""Stop 4: a job with its machine, tool and material to set-up rows that show their working."""

from collections.abc import Mapping
from types import MappingProxyType

from benchleaf.model import Job, Shop

from .capacity import fits_the_machine
from .deep import deep_hole, drill_diameter, life, pecks, pilot_hole
from .feel import what_the_hand_feels
from .forces import power, thrust, torque
from .holding import work_holding
from .lever import feed_lever
from .results import FeelCurve, FeelZone, Figure, Row, SetUpSheet, SpeedStep, Stop
from .shape import fits_the_shape, shape_of_work, thin_work
from .sheet import Sheet, Stage, case_of
from .spindle import (
    cutting_speed_range,
    feed,
    feed_rate,
    spindle_speed,
    spindle_speed_range,
    true_cutting_speed,
)
from .travel import depth_stop, point_length, quill_travel, time_per_hole

OPERATIONS: Mapping[str, tuple[Stage, ...]] = MappingProxyType(
    {
        "drilling": (
            Stage(drill_diameter),
            Stage(cutting_speed_range, ("cutting_speed_range", "Cutting speed, published range")),
            Stage(deep_hole, ("deep_hole", "Speed kept in a hole this deep")),
            Stage(spindle_speed_range, ("spindle_speed_range", "Spindle speed, range wanted")),
            Stage(spindle_speed, ("spindle_speed", "Spindle speed to set")),
            Stage(true_cutting_speed, ("cutting_speed", "Cutting speed at that setting")),
            Stage(feed, ("feed", "Feed per turn")),
            Stage(
                feed_rate,
                ("feed_rate", "Feed a minute"),
                ("seconds_for_10_mm", "Time for 10 mm of travel"),
            ),
            Stage(shape_of_work, ("saddle", "Saddle where the drill enters")),
            Stage(point_length, ("point_length", "Length of the drill's point")),
            Stage(thin_work),
            Stage(depth_stop, ("depth_stop", "Depth stop, from first touch")),
            Stage(pecks),
            Stage(quill_travel, ("quill_travel", "Quill travel")),
            Stage(time_per_hole, ("time", "Time under feed, each hole")),
            Stage(pilot_hole),
            Stage(thrust, ("thrust", "Thrust along the drill")),
            Stage(feed_lever, ("lever_force", "Pull at the feed lever")),
            Stage(torque, ("torque", "Torque on the work")),
            Stage(
                power,
                ("cutter_power", "Power at the drill"),
                ("motor_power", "Power asked of the motor"),
            ),
            Stage(work_holding, ("holding", "Holding, torque it can resist")),
            Stage(what_the_hand_feels),
            Stage(life),
            Stage(fits_the_machine),
            Stage(fits_the_shape),
        )
    }
)
"""The stages of each operation, in the order of its rows."""


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


def _run(stage: Stage, sheet: Sheet) -> None:
    """One stage; a value outside a formula's range leaves its rows not computed, saying why."""
    try:
        stage.run(sheet)
    except ValueError as error:
        written = {row.key for row in sheet.rows}
        for key, label in stage.rows:
            if key not in written:
                sheet.lacks(key, label, f"a value that the formula covers ({error})")
        if stage.run is work_holding:
            reason = f"the holding cannot be reckoned: {error}"
            sheet.stop("S506", reason, "correct the holding", sheet.case.holding_path)


__all__ = [
    "OPERATIONS",
    "FeelCurve",
    "FeelZone",
    "Figure",
    "Row",
    "SetUpSheet",
    "SpeedStep",
    "Stop",
    "set_up_sheets",
]
