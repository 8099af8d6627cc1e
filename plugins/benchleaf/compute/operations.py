"""Every operation that can be reckoned without content files: its inputs and its figures."""

from __future__ import annotations

from types import MappingProxyType

from benchleaf.formulas.clearance_holes import HOLE_SERIES
from benchleaf.formulas.tap_drills import Basis

from . import figures_cutting as cut
from . import figures_enlarging as enlarge
from . import figures_exit as grab
from . import figures_feel as held
from . import figures_holes as hole
from . import figures_practice as practice
from . import figures_tapping as tap
from .operation import Input, operation

_FULL = Basis.FULL_THREAD_HEIGHT
_SPEED_FIGURES = (cut.SPEED, cut.CUTTING_SPEED, cut.FEED_RATE, cut.SECONDS_FOR_10_MM)
_DIAMETER = Input("drill", "diameter of the tool: 8.5 mm, 7/8 in, #7, F")
_SPEED_INPUTS = {
    "diameter": _DIAMETER,
    "speed": Input("spindle speed", "spindle speed"),
    "cutting_speed": Input("cutting speed", "cutting speed, instead of speed"),
    "feed": Input("feed", "feed per turn"),
}
_FROM_DRILLING = {
    "drilling_speed": Input("cutting speed", "cutting speed for drilling the same metal"),
    "drilling_feed": Input("feed", "feed for drilling the same metal"),
}
_AT_THE_MOUTH = {name: one for name, one in _SPEED_INPUTS.items() if name != "diameter"}
"""A countersink cuts at the mouth: its own diameter sets no speed."""
_TORQUE_INPUTS = {
    "kd_torque": Input("number", "work material factor for torque, as for drilling"),
    "wear": Input("number", "1.0 sharp, 1.3 normal, 1.5 very dull"),
    "edges": Input("count", "cutting edges of the tool, 2 to 24"),
}
_BELOW_FLUSH = Input("length", "how far the head lies below the surface, 0 unless given")

DRILLING = operation(
    "drilling",
    "speed, feed, travel, time, thrust, torque, power and the pull at the lever",
    _SPEED_INPUTS | {
        "point_angle": Input("angle", "whole angle of the point"),
        "depth": Input("length", "depth of the full diameter; the thickness of a through hole"),
        "work_diameter": Input("length", "outside diameter of round work, crossed at its axis"),
        "start_clearance": Input("length", "height of the point above the work, 0 unless given"),
        "overtravel": Input("length", "how far past the far side, 0 unless given"),
        "kd_thrust": Input("number", "work material factor for thrust (steel of 200 BHN: 24000)"),
        "kd_torque": Input("number", "work material factor for torque"),
        "chisel_ratio": Input("number", "chisel edge over diameter (0.18 standard, 0.03 split)"),
        "wear": Input("number", "1.0 sharp, 1.3 normal, 1.5 very dull"),
        "efficiency": Input("number", "share of the motor's power at the spindle"),
        "pinion_radius": Input("length", "pitch radius of the pinion on the quill's rack"),
        "lever_radius": Input("length", "radius of the feed lever"),
        "lever_efficiency": Input("number", "share of the hand's work that reaches the quill"),
    },
    *_SPEED_FIGURES, cut.REMOVAL_RATE, cut.SADDLE, cut.ROUND_DEPTH, cut.POINT_LENGTH,
    cut.DEPTH_STOP, cut.QUILL_TRAVEL, cut.TIME, hole.DEPTH_RATIO, hole.PECKS, hole.FIRST_PECK,
    hole.PILOT, cut.THRUST, cut.TORQUE, cut.CUTTER_POWER, cut.MOTOR_POWER, cut.LEVER_FORCE,
    *grab.ASKED,
    zero_unless_given=("start_clearance", "overtravel"),
)  # fmt: skip

TAPPING = operation(
    "tapping",
    "tap drill, percentage of thread, drilled depth, turns, speed and torque",
    {
        "thread": Input("thread", "M8, M8x1, 1/4-20 UNC, #10-32 UNF"),
        "percent": Input("percent", "percentage of full thread height (1.299 P) wanted"),
        "hole": Input("drill", "diameter of the drilled hole, instead of percent"),
        "thread_length": Input("length", "length of full thread"),
        "chamfer": Input("number", "chamfer of the tap in pitches: taper 10, plug 5, bottoming 2"),
        "cutting_speed": Input("cutting speed", "cutting speed"),
        "kc": Input("number", "specific cutting resistance, N/mm2, of the torque model"),
        "tap_factor": Input("number", "factor K of the torque model"),
        "torque_limit": Input("torque", "what the tap or its clutch stands, by its maker"),
    },
    tap.MINOR_LIMITS, tap.HOLE_WANTED[_FULL], tap.TAP_DRILL[_FULL], tap.PERCENT_GOT[_FULL],
    tap.CHART_DRILL[_FULL],
    tap.DRILLED_DEPTH, tap.TURNS, tap.TAP_SPEED,
    tap.TAP_TORQUE, tap.DULL_TORQUE, tap.TORQUE_LIMIT,
)  # fmt: skip

REAMING = operation(
    "reaming",
    "hole to leave for the reamer, speed, feed and limits of the hole",
    _SPEED_INPUTS | _FROM_DRILLING | _TORQUE_INPUTS | {
        "tolerance": Input("class", "class of the hole: H7")},
    hole.BEFORE_REAMING, *hole.ratio_figures("reaming"), *_SPEED_FIGURES, hole.REAMED_LIMITS,
    *enlarge.asked_of("reaming", hole.BEFORE_REAMING.asked_as),
)  # fmt: skip

COUNTERSINKING = operation(
    "countersinking",
    "mouth and depth of a cone, and spindle speed",
    _AT_THE_MOUTH | _FROM_DRILLING | {
        "mouth": Input("length", "diameter at the surface, instead of head"),
        "head": Input("length", "diameter of the screw's flat head, to the sharp edge"),
        "below_flush": _BELOW_FLUSH,
        "hole": Input("drill", "diameter of the hole"),
        "angle": Input("angle", "whole angle of the cone"),
    } | _TORQUE_INPUTS,
    hole.MOUTH, hole.SINK_DEPTH, hole.SPEED_DIAMETER, *hole.ratio_figures("countersinking"),
    *_SPEED_FIGURES, *enlarge.asked_of("countersinking", "hole"),
    zero_unless_given=("below_flush",),
)  # fmt: skip

COUNTERBORING = operation(
    "counterboring",
    "diameter, depth and pilot of a seat for a socket head cap screw, and spindle speed",
    _SPEED_INPUTS | _FROM_DRILLING | {
        "screw": Input("thread", "M3 to M12"),
        "below_flush": _BELOW_FLUSH,
    } | _TORQUE_INPUTS,
    hole.BORE_DIAMETER, hole.BORE_DEPTH, hole.BORE_PILOT, *hole.ratio_figures("counterboring"),
    *_SPEED_FIGURES, *enlarge.asked_of("counterboring", hole.BORE_PILOT.asked_as),
    zero_unless_given=("below_flush",),
)  # fmt: skip

CLEARANCE = operation(
    "clearance-hole",
    "hole that lets a metric screw through",
    {
        "screw": Input("thread", "M2 to M24"),
        "series": Input("series", f"{', '.join(HOLE_SERIES)}"),
    },
    hole.CLEARANCE_HOLE, hole.CLEARANCE_IN_LISTS,
)  # fmt: skip

FIT = operation(
    "fit",
    "limits of a hole or shaft by ISO 286, go and not-go sizes, the fit of two, hole position",
    {
        "size": Input("length", "nominal size"),
        "tolerance": Input("class", "class of hole or shaft: H7, g6"),
        "hole": Input("class", "class of the hole, where two parts fit: H7"),
        "shaft": Input("class", "class of the shaft that goes in: g6"),
        "x_error": Input("error", "how far the hole is off in one direction; + and − are alike"),
        "y_error": Input("error", "how far it is off square to that, 0 unless given"),
    },
    hole.LIMITS, hole.GO, hole.NOT_GO, hole.FIT_CLEARANCE, hole.POSITION,
    zero_unless_given=("y_error",),
)  # fmt: skip

HOLDING = operation(
    "holding",
    "torque that clamps or a stop resist",
    {
        "clamp_force": Input("force", "clamp force"),
        "friction": Input("number", "coefficient of friction"),
        "arm": Input("length", "from the spindle's axis to the clamped face"),
        "stop_force": Input("force", "rated force of a positive stop"),
        "stop_arm": Input("length", "from the spindle's axis to the stop"),
        "torque": Input("torque", "torque of the cut"),
    },
    held.CLAMPS, held.STOP, held.RATIO, held.STOP_RATIO,
)  # fmt: skip

DRILL_LIFE = operation(
    "drill-life",
    "minutes in the cut and holes between grinds, by Taylor's equation",
    {
        "cutting_speed": Input("cutting speed", "cutting speed"),
        "exponent": Input("number", "n of v T^n = C"),
        "c": Input("cutting speed", "C: cutting speed for a life of one minute"),
        "time": Input("time", "time in the cut for one hole"),
    },
    cut.LIFE, cut.HOLES_BETWEEN_GRINDS,
)  # fmt: skip

RATE = operation(
    "rate",
    "standard time of a piece from its elements, pieces an hour and a shift",
    {
        "elements": Input("times", "times of the elements, with how often: 12 s, 4 s x 2"),
        "basic": Input("time", "basic time of a piece, instead of elements"),
        "allowance": Input("allowance", "allowances in percent of the basic time: 12"),
        "shift": Input("time", "length of the shift"),
        "breaks": Input("time", "breaks in it, 0 unless given"),
    },
    practice.BASIC, practice.STANDARD, practice.AN_HOUR, practice.WORKING, practice.A_SHIFT,
    zero_unless_given=("breaks",),
)  # fmt: skip

LEARNING = operation(
    "learning-curve",
    "time of a learner's pieces, and pieces and hours to the standard, by two named models",
    {
        "first": Input("time", "time of the first piece"),
        "learning_percent": Input("learning", "unit model: time left after a doubling: 80"),
        "mean_percent": Input("learning", "mean model: mean time left after a doubling: 80"),
        "observed": Input("timed pieces", "pieces that were timed, instead: 1: 5 min, 3: 4 min"),
        "piece": Input("count", "number of a piece, counted from the first"),
        "standard": Input("time", "standard time of a piece"),
    },
    practice.FIRST, practice.LEARNING_PERCENT, practice.SCATTER, practice.PIECE_TIME,
    practice.PIECE_BAND, practice.HOURS_TO_PIECE, practice.PIECES_TO_STANDARD,
    practice.HOURS_TO_STANDARD, practice.MEAN_FIRST, practice.MEAN_FIRST_GIVEN,
    practice.MEAN_PERCENT, practice.MEAN_TIME, practice.MEAN_PIECE_TIME, practice.MEAN_PIECES,
    practice.MEAN_HOURS,
)  # fmt: skip

OPERATIONS = MappingProxyType(
    {
        one.name: one
        for one in (
            DRILLING, TAPPING, REAMING, COUNTERSINKING, COUNTERBORING, CLEARANCE, FIT, HOLDING,
            DRILL_LIFE, RATE, LEARNING,
        )
    }
)  # fmt: skip
"""Operations by name, as `benchleaf reckon` takes them."""
