"""Stop 4: a job with its machine, tool and material to set-up rows that show their working."""

from collections.abc import Mapping
from types import MappingProxyType

from benchleaf.formulas.tap_drills import Basis
from benchleaf.model import Job, Shop, Units

from . import figures_cutting as cut
from . import figures_enlarging as enlarge
from . import figures_exit as grab
from . import figures_feel as held
from . import figures_holes as hole
from . import figures_tapping as tap
from .amounts import (
    amount,
    entered,
    first,
    in_both,
    span,
    told,
    told_entered,
    was_written_in_inches,
)
from .borne import borne_from_below
from .break_through import FEED_STOP_ONLY, kept_to_the_end
from .capacity import by_spindle, fits_the_machine
from .codes import CODES
from .deep import deep_hole, drill_diameter, life, pecks, pilot_hole
from .enlarging import torque_of_enlarging
from .feel import what_the_hand_feels
from .figures_holes import fit_limits_mm
from .forces import KD_TOO_LOW, factor_of_its_metal, power, thrust, torque
from .found import Bored, Drilled, Found, Reamed, Sunk, Tapped
from .held_down import LIFTS, drawn_out, held_down, turned_back
from .holding import BARELY_HELD, NOT_SHOWN, work_holding
from .hole_finishing import (
    clearance_hole,
    counterbored_seat,
    countersink,
    reamed_hole,
)
from .lever import eased_pull, feed_lever
from .on_hold import all_with_holds, held_reasons, reasons_not_to_run, with_holds
from .results import (
    Doubt,
    FeelCurve,
    FeelZone,
    Figure,
    Row,
    SetUpSheet,
    Side,
    SpeedStep,
    Stop,
    inside,
)
from .shape import fits_the_shape, shape_of_work, thin_work
from .sheet import AND, Sheet, Stage, are_missing, case_of, when
from .shown_text import as_read, figures_of, shown_job, shown_shop, shown_text
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
from .travel import depth_stop, point_length, quill_travel, reamed_travel, time_per_hole

_SPEED = (
    Stage(cutting_speed_range, cut.PUBLISHED_SPEED),
    Stage(deep_hole),
    Stage(spindle_speed_range, cut.SPEED_RANGE),
    Stage(spindle_speed, cut.SPEED_TO_SET),
    Stage(true_cutting_speed, cut.CUTTING_SPEED),
)
_FEED = (Stage(feed, cut.FEED), Stage(feed_rate, cut.FEED_RATE, cut.SECONDS_FOR_10_MM))
_HOLDING = Stage(work_holding, held.HOLDING)

_DRILLING = (
    Stage(drill_diameter),
    Stage(clearance_hole, hole.CLEARANCE_HOLE),
    *_SPEED,
    *_FEED,
    Stage(shape_of_work, cut.ENTRY_SADDLE),
    Stage(point_length, cut.POINT_LENGTH),
    Stage(thin_work),
    Stage(depth_stop, cut.DEPTH_STOP),
    Stage(pecks),
    Stage(quill_travel, cut.QUILL_TRAVEL),
    Stage(time_per_hole, cut.TIME),
    Stage(pilot_hole, hole.PILOT),
    Stage(factor_of_its_metal),
    Stage(thrust, cut.THRUST),
    Stage(feed_lever, cut.LEVER_FORCE),
    Stage(torque, cut.TORQUE),
    Stage(power, cut.CUTTER_POWER, cut.MOTOR_POWER),
    _HOLDING,
    Stage(what_the_hand_feels, held.EASE_IN_FLAT, held.EASE_TO, held.KEPT_FEED),
    Stage(kept_to_the_end, grab.EXIT_TORQUE, grab.EXIT_AT_FEED),
    Stage(held_down),
    Stage(borne_from_below),
    Stage(life, cut.LIFE),
    Stage(fits_the_machine),
    Stage(fits_the_shape),
)
_TAPPING = (
    Stage(thread_sizes, tap.PITCH),
    Stage(hole_before, tap.TAP_DRILL[Basis.FULL_THREAD_HEIGHT]),
    Stage(entered_drill, tap.DRILLED_BY_JOB[Basis.FULL_THREAD_HEIGHT]),
    Stage(drilled_depth, tap.DRILLED_DEPTH),
    Stage(turns, tap.TURNS),
    *(Stage(when(machine_only, one.run), *one.rows) for one in _SPEED),
    Stage(when(machine_only, feed_of_tap), tap.TAP_FEED),
    Stage(torque_of_tap, tap.TAP_TORQUE),
    Stage(tap_holding, *_HOLDING.rows),
    Stage(when(machine_only, turned_back)),
)
_FINISHING = (
    *(Stage(when(by_spindle, one.run), *one.rows) for one in _SPEED),
    *_FEED,
    Stage(factor_of_its_metal),
    Stage(torque_of_enlarging, enlarge.ENLARGING),
    Stage(power, cut.CUTTER_POWER, cut.MOTOR_POWER),
    _HOLDING,
    Stage(fits_the_machine),
)

OPERATIONS: Mapping[str, tuple[Stage, ...]] = MappingProxyType(
    {
        "drilling": _DRILLING,
        "tapping": _TAPPING,
        "reaming": (
            Stage(reamed_hole, hole.REAMED_LIMITS, hole.BEFORE_REAMING),
            *_FINISHING,
            Stage(reamed_travel),
            Stage(drawn_out),
        ),
        "countersinking": (Stage(countersink, hole.SINK_DEPTH), *_FINISHING),
        "counterboring": (Stage(counterbored_seat, hole.BORE_DIAMETER), *_FINISHING),
    }
)
"""The stages of each operation, in the order of its rows."""


OUT_OF_RANGE = "a value that the formula covers"
"""Begins what is missing where a value was given that a formula does not cover."""


HELD_ONLY_JUST = frozenset(
    {BARELY_HELD, FEED_STOP_ONLY, LIFTS, KD_TOO_LOW},
)
"""Doubts about what holds the work: to accept another is not to accept these."""

_HELD_BY = ("holding", "exit_torque")
"""Rows without which nobody knows whether the work is held."""


def set_up_sheets(shop: Shop, job: Job, units: Units | None = None) -> tuple[SetUpSheet, ...]:
    """Every set-up of a job, computed; set-ups that name missing records are left out.

    `units` stand first for whoever reads them; left out, those of the job's own pages.
    """
    cases = (case_of(shop, job, index, units) for index in range(len(job.set_ups)))
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
        for one in stage.rows:
            if one.key not in written:
                sheet.lacks(one, f"{OUT_OF_RANGE} ({error})")
        if any(one.key in _HELD_BY for one in stage.rows):
            reason = f"the holding cannot be reckoned: {error}"
            sheet.stop(NOT_SHOWN, reason, "correct the holding", sheet.case.holding_path)


__all__ = [
    "AND",
    "CODES",
    "HELD_ONLY_JUST",
    "OPERATIONS",
    "OUT_OF_RANGE",
    "Bored",
    "Doubt",
    "Drilled",
    "FeelCurve",
    "FeelZone",
    "Figure",
    "Found",
    "Reamed",
    "Row",
    "SetUpSheet",
    "Side",
    "SpeedStep",
    "Stop",
    "Sunk",
    "Tapped",
    "all_with_holds",
    "amount",
    "are_missing",
    "as_read",
    "eased_pull",
    "entered",
    "figures_of",
    "first",
    "fit_limits_mm",
    "held_reasons",
    "in_both",
    "inside",
    "reasons_not_to_run",
    "set_up_operations",
    "set_up_sheets",
    "shown_job",
    "shown_shop",
    "shown_text",
    "span",
    "told",
    "told_entered",
    "was_written_in_inches",
    "with_holds",
]
