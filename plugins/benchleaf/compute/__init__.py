"""Stop 4: a job with its machine, tool and material to set-up rows that show their working."""

from collections.abc import Mapping
from types import MappingProxyType

from benchleaf.model import Job, Shop

from .capacity import fits_the_machine
from .forces import power, thrust, torque
from .holding import work_holding
from .lever import feed_lever
from .results import Figure, Row, SetUpSheet, SpeedStep, Stop
from .shape import fits_the_shape, shape_of_work
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
            cutting_speed_range,
            spindle_speed_range,
            spindle_speed,
            true_cutting_speed,
            feed,
            feed_rate,
            shape_of_work,
            point_length,
            depth_stop,
            quill_travel,
            time_per_hole,
            thrust,
            feed_lever,
            torque,
            power,
            work_holding,
            fits_the_machine,
            fits_the_shape,
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
    """One stage; a value outside a formula's range leaves a row that says so."""
    try:
        stage(sheet)
    except ValueError as error:
        words = stage.__name__.replace("_", " ")
        sheet.lacks(stage.__name__, words.capitalize(), f"a value the formula covers ({error})")
        if stage is work_holding:
            sheet.stop("S506", f"the holding cannot be reckoned: {error}", "correct the holding")


__all__ = ["OPERATIONS", "Figure", "Row", "SetUpSheet", "SpeedStep", "Stop", "set_up_sheets"]
