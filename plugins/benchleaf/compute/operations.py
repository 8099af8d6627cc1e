"""Every operation that can be reckoned without content files: its inputs and its figures."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

from benchleaf.formulas.clearance_holes import HOLE_SERIES
from benchleaf.formulas.spread import CUTS
from benchleaf.formulas.tap_drills import Basis

from . import figures_cutting as cut
from . import figures_enlarging as enlarge
from . import figures_exit as grab
from . import figures_feel as held
from . import figures_holes as hole
from . import figures_limits as limit
from . import figures_practice as practice
from . import figures_tapping as tap
from . import figures_time as timed
from . import figures_trials as tried
from . import figures_worst as worst
from .between import IN_DRILLING, IN_FIT, IN_HOLDING, IN_REAMING, IN_SINKING
from .declaration import Declaration
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
_EFFICIENCY = {"efficiency": Input("number", "share of the motor's power at the spindle")}
_POWER = (cut.CUTTER_POWER, cut.MOTOR_POWER)
_WAY = {
    "start_clearance": Input("length", "height of the tool above the work, 0 unless given"),
    "overtravel": Input("length", "how far past the far side, 0 unless given"),
    "time": Input("time", "time wanted under feed for one hole, instead of speed or feed"),
}
_BELOW_FLUSH = Input("length", "how far the head lies below the surface, 0 unless given")


def _unpecked(*figures: Declaration) -> tuple[Declaration, ...]:
    """The same for a tool that goes through in one go, however deep."""
    return tuple(replace(one, suits=None) for one in figures)


DRILLING = operation(
    "drilling",
    "speed, feed, travel, time, thrust, torque, power and the pull at the lever",
    _SPEED_INPUTS | {
        "point_angle": Input("angle", "whole angle of the point"),
        "depth": Input("length", "depth of the full diameter; the thickness of a through hole"),
        "work_diameter": Input("length", "outside diameter of round work, crossed at its axis"),
        **_WAY,
        "kd_thrust": Input("number", "work material factor for thrust (steel of 200 BHN: 24000)"),
        "kd_torque": Input("number", "work material factor for torque"),
        "chisel_ratio": Input("number", "chisel edge over diameter (0.18 standard, 0.03 split)"),
        "wear": Input("number", "1.0 sharp, 1.3 normal, 1.5 very dull"),
        **_EFFICIENCY,
        "motor_rating": Input("power", "rated power of the motor"),
        "rated_thrust": Input("force", "thrust that the machine is rated for"),
        "capacity": Input("torque", "torque that the holding resists; see holding"),
        "hold": Input("number", "how many times less it may resist at worst; see holding"),
        "metal": Input("metal", "metal of the work, steel unless given: grey cast iron, brass"),
        "feed_stop": Input("feed", "coarsest feed that a stop on the feed lets through"),
        "tool_feed": Input("feed", "coarsest feed that the drill's maker gives"),
        "feeds": Input("feeds", "feeds that the machine can be set to: 0.1 mm/rev, 0.16 mm/rev"),
        "pinion_radius": Input("length", "pitch radius of the pinion on the quill's rack"),
        "lever_radius": Input("length", "radius of the feed lever"),
        "lever_efficiency": Input("number", "share of the hand's work that reaches the quill"),
    },
    cut.SADDLE, cut.ROUND_DEPTH, hole.DEPTH_RATIO, timed.DEEP_ASKED, timed.SPEED_IN_DEEP,
    timed.RIM_SPEED_IN_DEEP, timed.SPEED_IN_SHALLOW, timed.RIM_SPEED, cut.FEED_RATE,
    cut.SECONDS_FOR_10_MM, cut.REMOVAL_RATE, cut.POINT_LENGTH, cut.DEPTH_STOP, cut.QUILL_TRAVEL,
    hole.PECKS, hole.FIRST_PECK, *timed.SOLVED, timed.TIME_IN_ONE_GO, timed.TIME_PECKED,
    hole.PILOT, cut.THRUST, limit.THRUST_RATIO, cut.TORQUE, *_POWER, limit.MOTOR_RATIO,
    cut.LEVER_FORCE, *grab.ASKED, limit.HELD, limit.EXIT_HELD, limit.STOPPED_HELD, worst.WORST,
    worst.HOLD_BY_FEEL, limit.HELD_AT_WORST, limit.EXIT_AT_WORST, limit.STOPPED_AT_WORST,
    *limit.FEEDS,
    zero_unless_given=("start_clearance", "overtravel"),
    between=IN_DRILLING,
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
        "speed": Input("spindle speed", "spindle speed"),
        "cutting_speed": Input("cutting speed", "cutting speed, instead of speed"),
        "kc": Input("number", "specific cutting resistance, N/mm2, of the torque model"),
        "tap_factor": Input("number", "factor K of the torque model"),
        "torque_limit": Input("torque", "what the tap or its clutch stands, by its maker"),
    },
    tap.MINOR_LIMITS, tap.HOLE_WANTED[_FULL], tap.TAP_DRILL[_FULL], tap.PERCENT_GOT[_FULL],
    tap.CHART_DRILL[_FULL],
    tap.DRILLED_DEPTH, tap.TURNS, tap.TAP_SPEED, tried.TAP_RIM_SPEED,
    tap.TAP_TORQUE, tap.DULL_TORQUE, tap.TORQUE_LIMIT,
)  # fmt: skip

REAMING = operation(
    "reaming",
    "hole to leave for the reamer, limits of the hole, speed, feed, travel, time and torque",
    _SPEED_INPUTS | _FROM_DRILLING | _TORQUE_INPUTS | _EFFICIENCY | _WAY | {
        "depth": Input("length", "depth of the reamed hole; the thickness of a through hole"),
        "tolerance": Input("hole class", "class of the hole: H7")},
    hole.BEFORE_REAMING, *_SPEED_FIGURES, *hole.ratio_figures("reaming"), timed.REAMED_STOP,
    cut.QUILL_TRAVEL, *_unpecked(timed.SPEED_FOR_TIME, timed.FEED_FOR_TIME), cut.TIME,
    hole.REAMED_LIMITS, *enlarge.asked_of("reaming", hole.BEFORE_REAMING.asked_as), *_POWER,
    zero_unless_given=("start_clearance", "overtravel"),
    between=IN_REAMING,
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
    } | _TORQUE_INPUTS | _EFFICIENCY,
    hole.MOUTH, hole.SINK_DEPTH, hole.SPEED_DIAMETER, *_SPEED_FIGURES,
    *hole.ratio_figures("countersinking"), *enlarge.asked_of("countersinking", "hole"), *_POWER,
    zero_unless_given=("below_flush",),
    between=IN_SINKING,
)  # fmt: skip

COUNTERBORING = operation(
    "counterboring",
    "diameter, depth and pilot of a seat for a socket head cap screw, and spindle speed",
    _SPEED_INPUTS | _FROM_DRILLING | {
        "screw": Input("thread", "M3 to M12"),
        "below_flush": _BELOW_FLUSH,
    } | _TORQUE_INPUTS | _EFFICIENCY,
    hole.BORE_DIAMETER, hole.BORE_DEPTH, hole.BORE_PILOT, *_SPEED_FIGURES,
    *hole.ratio_figures("counterboring"),
    *enlarge.asked_of("counterboring", hole.BORE_PILOT.asked_as), *_POWER,
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
        "hole": Input("hole class", "class of the hole, where two parts fit: H7"),
        "shaft": Input("shaft class", "class of the shaft that goes in: g6"),
        "x_error": Input("error", "how far the hole is off in one direction; + and − are alike"),
        "y_error": Input("error", "how far it is off square to that, 0 unless given"),
    },
    hole.LIMITS, hole.GO, hole.NOT_GO, hole.FIT_CLEARANCE, hole.POSITION,
    zero_unless_given=("y_error",),
    between=IN_FIT,
)  # fmt: skip

HOLDING = operation(
    "holding",
    "torque that clamps or a stop resist, and the clamp or stop that a torque needs",
    {
        "clamp_force": Input("force", "clamp force"),
        "force_known_by": Input("known by", "feel (unless given), torque handle, lowest measured"),
        "friction": Input("number", "coefficient of friction; left out, by the table"),
        "friction_source": Input("text", "where a friction above the table's was tried"),
        "work": Input("work surface", "surface of the work: ground, machined, unmachined"),
        "jaws": Input("jaw surface", "surface of the jaws: smooth, diamond serrated, serrated"),
        "metal": Input("metal", "metal of the work: steel, aluminium alloy, brass, grey cast iron"),
        "fluid": Input("wetness", "wet where fluid reaches the jaws; dry unless given"),
        "arm": Input("length", "from the spindle's axis to the clamped face"),
        "stop_force": Input("force", "rated force of a positive stop"),
        "stop_arm": Input("length", "from the spindle's axis, square to the push of the stop"),
        "torque": Input("torque", "torque of the cut; of a tap, of the dull one"),
        "cut": Input("cut", f"{', '.join(CUTS)}: what cuts; drilling unless given"),
        "exit_torque": Input("torque", "torque at break-through if the pull is kept; see drilling"),
        "wear": Input("number", "wear factor that the torques were reckoned with"),
    },
    held.FRICTION_BY_TABLE,
    *held.CLAMPS_ASKED,
    held.STOP,
    limit.CLAMPS_HELD,
    limit.STOP_HELD,
    limit.CLAMPED_TO_THE_END,
    limit.STOP_TO_THE_END,
    limit.MOST_TORQUE,
    worst.WORST_OF_CUT,
    worst.WORST,
    worst.WORST_OF_TORQUE,
    worst.WORST_OF_EXIT,
    worst.HOLD,
    limit.CLAMPED_AT_WORST,
    limit.STOPPED_IN_CUT_AT_WORST,
    limit.CLAMPED_TO_THE_END_AT_WORST,
    limit.STOP_TO_THE_END_AT_WORST,
    *limit.CLAMP_NEEDED,
    *limit.CLAMP_AT_EXIT,
    limit.STOP_NEEDED,
    between=IN_HOLDING,
)

DRILL_LIFE = operation(
    "drill-life",
    "minutes in the cut and holes between grinds, by Taylor's equation; or its constants",
    {
        "trials": Input("trials", "two speeds and their lives: 25 m/min: 40 min, 32 m/min: 12 min"),
        "cutting_speed": Input("cutting speed", "cutting speed"),
        "life": Input("life", "life in the cut wanted, or had, instead of one of the others"),
        "exponent": Input("number", "n of v T^n = C"),
        "c": Input("cutting speed", "C: cutting speed for a life of one minute"),
        "time": Input("time", "time in the cut for one hole"),
    },
    tried.EXPONENT_OF_TRIALS, tried.C_OF_TRIALS, tried.SPEED_FOR_LIFE, tried.C_OF_LIFE,
    tried.EXPONENT_OF_LIFE, cut.LIFE, cut.HOLES_BETWEEN_GRINDS,
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
        "points": Input("two pieces", "two pieces that were timed, instead: 1: 5 min, 8: 3 min"),
        "observed": Input("timed pieces", "pieces that were timed, instead: 1: 5 min, 3: 4 min"),
        "piece": Input("count", "number of a piece, counted from the first"),
        "standard": Input("time", "standard time of a piece"),
    },
    tried.PERCENT_OF_TWO, tried.FIRST_OF_TWO,
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
