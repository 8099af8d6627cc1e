"""Every operation that can be reckoned without content files, and its relations."""

from __future__ import annotations

from types import MappingProxyType

from benchleaf.formulas import (
    drill_life,
    drilling,
    holding,
    lever,
    peck,
    pilot,
    round_work,
    speeds,
    tap_drills,
    tapping,
    travel,
)
from benchleaf.formulas.tap_drills import Basis
from benchleaf.formulas.threads import Thread, minor_limits_mm

from .relation import SPEED_INPUTS, SPEED_RELATIONS, Input, Relation, operation
from .relations_finishing import FINISHING
from .relations_practice import PRACTICE

_MH = ("mh31-drilling", "mh31-table-7", "mh31-table-8", "mh31-table-9")
_FACTORS = (
    "Kd is the work material's factor, Ff the feed's, FT and FM the diameter's, A, B and J the "
    "chisel edge's, W the wear's, all from the handbook's tables"
)
_COVERED = "1.6 to 76.2 mm, 0.01 to 1.27 mm/rev, Kd 4000 to 70000, chisel 0.03 to 0.40, wear 1 to 2"


def _thrust(d: float, f: float, kd: float, chisel: float, wear: float) -> float:
    return drilling.thrust_n(d, f, kd=kd, chisel_ratio=chisel, wear=wear)


def _torque(d: float, f: float, kd: float, chisel: float, wear: float) -> float:
    return drilling.torque_nm(d, f, kd=kd, chisel_ratio=chisel, wear=wear)


def _under_size(drill: float, outside: float) -> float:
    return round_work.saddle_mm(outside, drill)


DRILLING = operation(
    "drilling",
    "speed, feed, travel, time, thrust, torque, power and the pull at the lever",
    SPEED_INPUTS | {
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
    *SPEED_RELATIONS,
    Relation("removal_rate", "Metal removed", "mm3/min", 0, ("diameter", "feed_rate"),
             speeds.removal_rate_mm3_min, "π ÷ 4 × diameter² × feed a minute",
             ("groover5-ex-21.2",), "no pilot hole"),
    Relation("saddle", "Saddle of round work", "mm", 2, ("diameter", "work_diameter"),
             _under_size, "saddle = R − √(R² − r²)", ("geometry",), "square through the axis"),
    Relation("depth", "Depth through round work", "mm", 2, ("work_diameter", "diameter"),
             round_work.bar_depth_mm, "depth = outside diameter", ("geometry",)),
    Relation("point_length", "Length of the point", "mm", 2, ("diameter", "point_angle"),
             travel.point_length_mm, "(diameter ÷ 2) ÷ tan(angle ÷ 2)", ("groover5-eq-21.10",),
             "angles from 60° to 180°"),
    Relation("depth_stop", "Depth stop, from first touch", "mm", 2,
             ("depth", "point_length", "overtravel"), travel.stop_travel_mm,
             "stop = depth + point + overtravel", ("geometry",)),
    Relation("quill_travel", "Quill travel", "mm", 2, ("depth_stop", "start_clearance"),
             lambda stop, start: stop + start, "travel = start clearance + stop", ("geometry",)),
    Relation("time", "Time under feed", "s", 1, ("quill_travel", "feed_rate"),
             speeds.seconds_for_travel, "60 × travel ÷ feed a minute", ("groover5-ex-21.2",)),
    Relation("depth_ratio", "Depth in diameters", "times", 1, ("depth", "diameter"),
             peck.depth_ratio, "depth ÷ diameter", ("geometry",)),
    Relation("pecks", "Pecks", "pecks", 0, ("depth", "diameter"),
             lambda depth, diameter: len(peck.peck_plan(depth, diameter).pecks_mm),
             "2 diameters, then each half of the one before, half a diameter at least",
             ("peck-practice", "peck-rule"), "to 6 diameters deep; 1 is no pecking"),
    Relation("first_peck", "First peck", "mm", 1, ("depth", "diameter"),
             lambda depth, diameter: peck.peck_plan(depth, diameter).pecks_mm[0],
             "2 diameters, or the whole depth where no pecking is needed",
             ("peck-practice", "peck-rule"), "to 6 diameters deep"),
    Relation("pilot", "Smallest pilot drill, to 0.5 mm", "mm", 1, ("diameter", "chisel_ratio"),
             lambda diameter, chisel: pilot.pilot_size(diameter, chisel, 0.5).pilot_mm,
             "chisel edge = ratio × diameter, up to the next 0.5 mm",
             ("mh31-table-7", "pilot-practice"), "usual above half an inch"),
    Relation("thrust", "Thrust", "N", -2,
             ("diameter", "feed", "kd_thrust", "chisel_ratio", "wear"), _thrust,
             "0.05 × Kd × Ff × FT × B × W + 0.007 × Kd × D² × J × W", _MH,
             f"{_COVERED}; {_FACTORS}"),
    Relation("torque", "Torque", "N m", -2,
             ("diameter", "feed", "kd_torque", "chisel_ratio", "wear"), _torque,
             "Kd × Ff × FM × A × W ÷ 40000", _MH, f"{_COVERED}; good to about a third; {_FACTORS}"),
    Relation("cutter_power", "Power at the drill", "kW", 2, ("torque", "speed"),
             drilling.cutter_power_kw, "torque × n ÷ 9550", ("mh31-drilling",)),
    Relation("motor_power", "Power asked of the motor", "kW", 2, ("cutter_power", "efficiency"),
             drilling.motor_power_kw, "power at the drill ÷ efficiency", ("mh31-drilling",)),
    Relation("lever_force", "Pull at the feed lever", "N", -2,
             ("thrust", "pinion_radius", "lever_radius", "lever_efficiency"),
             lever.lever_force_n, "thrust × pinion radius ÷ (lever radius × efficiency)",
             ("statics", "ilo-levers"), "one hand: 118 N is easy, 216 N the most",
             most=lever.ONE_HAND_MOST_N),
    zero_unless_given=("start_clearance", "overtravel"),
)  # fmt: skip


def _hole(thread: Thread, percent: float) -> float:
    return tap_drills.hole_for_percent_mm(thread, percent, Basis.FULL_THREAD_HEIGHT)


def _tap_drill(thread: Thread, percent: float) -> float:
    kinds = tap_drills.own_kinds(thread)
    return tap_drills.tap_drill(thread, percent, Basis.FULL_THREAD_HEIGHT, kinds).diameter_mm


def _percent(thread: Thread, hole: float) -> float:
    return tap_drills.percent_of_thread(thread, hole, Basis.FULL_THREAD_HEIGHT)


def _minor(thread: Thread) -> tuple[float, float]:
    limits = minor_limits_mm(thread)
    if limits is None:
        raise ValueError(f"no limits of the minor diameter are known here for {thread.name}")
    return limits.low_mm, limits.high_mm


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
    },
    Relation("minor_limits", "Limits of the minor diameter", "mm", 3, ("thread",), _minor,
             "by table", ("iso-965-1", "asme-b1.1"), "class 6H or 2B"),
    Relation("hole_wanted", "Hole for the percentage", "mm", 3, ("thread", "percent"), _hole,
             "major − 1.299 P × percent ÷ 100", ("tapmatic-formulas",)),
    Relation("hole", "Drill that exists", "mm", 2, ("thread", "percent"), _tap_drill,
             "nearest drill inside the minor limits", ("drill-choice",)),
    Relation("percent_got", "Thread that the hole leaves", "%", 0, ("thread", "hole"), _percent,
             "100 × (major − hole) ÷ (1.299 P)", ("tapmatic-formulas",),
             "of full thread height, 1.299 P"),
    Relation("drilled_depth", "Drilled depth, blind", "mm", 2,
             ("thread", "thread_length", "chamfer"),
             lambda t, length, chamfer: tap_drills.blind_tap_depth_mm(
                 t, length, chamfer, tap_drills.LEAST_CLEARANCE_PITCHES),
             "length + (chamfer + 1) × pitch", ("eisc-depth", "osg-9535", "mh26-taps")),
    Relation("turns", "Turns from the first bite", "turns", 1,
             ("thread", "thread_length", "chamfer"), tapping.turns_to_depth,
             "length ÷ pitch + chamfer", ("geometry",)),
    Relation("speed", "Spindle speed", "rpm", 0, ("cutting_speed", "thread"),
             tapping.tapping_speed_rpm, "1000 × cutting speed ÷ (π × major)",
             ("groover5-ex-21.2",)),
    Relation("torque", "Torque of a sharp tap", "N m", -2, ("thread", "hole", "kc", "tap_factor"),
             tapping.tapping_torque_nm,
             "tan 30° × kc × K × (D − d)² × (D + 2 d) ÷ 24000, D major and d hole",
             ("yamawa-640",), "two published models differ widely: rough"),
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
    Relation("capacity", "Torque that the clamps resist", "N m", -2,
             ("clamp_force", "friction", "arm"),
             lambda force, friction, arm: holding.friction_torque_nm(force, friction, arm, 1),
             "clamp force × friction × arm ÷ 1000", ("statics",), "friction counted on one face"),
    Relation("stop_capacity", "Torque that the stop resists", "N m", -2,
             ("stop_force", "stop_arm"), holding.stop_torque_nm, "force × arm ÷ 1000",
             ("statics",)),
    Relation("ratio", "Capacity over torque", "times", 1, ("capacity", "torque"),
             holding.holding_ratio, "capacity ÷ torque", ("statics", "margin"),
             "2 at least is wanted", least=2.0),
    Relation("stop_ratio", "Capacity of the stop over torque", "times", 1,
             ("stop_capacity", "torque"), holding.holding_ratio, "capacity ÷ torque",
             ("statics", "margin"), "2 at least is wanted", least=2.0),
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
    Relation("life", "Drill life", "min", 1, ("cutting_speed", "exponent", "c"),
             drill_life.tool_life_min, "(C ÷ cutting speed)^(1 ÷ n)", ("groover5-ex-22.1",),
             "with constants from your own trials; those printed are for turning"),
    Relation("holes", "Holes between grinds", "holes", 0, ("life", "time"),
             drill_life.holes_between_grinds, "60 × life ÷ time, rounded down",
             ("groover5-ex-22.1",)),
)  # fmt: skip

OPERATIONS = MappingProxyType(
    {one.name: one for one in (DRILLING, TAPPING, *FINISHING, HOLDING, DRILL_LIFE, *PRACTICE)}
)
"""Operations by name, as `benchleaf reckon` takes them."""
