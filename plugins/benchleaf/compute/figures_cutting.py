"""Figures of the cut: speed, feed, travel, time, thrust, torque, power, lever, drill life."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from benchleaf.formulas import (
    drill_factors,
    drill_life,
    drilling,
    feel,
    lever,
    round_work,
    speeds,
    travel,
)
from benchleaf.formulas.quantities import Quantity

from .amounts import amount, entered, span
from .declaration import IN_INCHES, Declaration, Symbol

DIAMETER = Symbol("diameter", "mm")
N = Symbol("n", "rpm", 0)
FEED_A_MINUTE = Symbol("feed a minute", "mm/min", 0)
POINT = Symbol("point", "mm", 2)
_SPEED_SOURCE = ("groover5-ex-21.2",)
_GEOMETRY = ("geometry",)
_MH = ("mh31-drilling", "mh31-table-7", "mh31-table-8", "mh31-table-9", "mh31-table-3")
_FACTORS = (
    "Kd is the work material's factor, for one hardness of it, Ff the feed's, FT and FM the "
    "diameter's, A, B and J the chisel edge's, W the wear's, all from the handbook's tables"
)
_COVERED = (
    f"{span(1.6, 76.2, 'mm')}, {span(0.01, 1.27, 'mm/rev')}, Kd 4000 to 70000, "
    "chisel 0.03 to 0.40, wear 1 to 2"
)
GOOD_TO_A_THIRD = "good to about a third: two published models differ by 28 to 34 %"
_TWO_DIGITS = "good to two digits at best"

SPEED = Declaration(
    "spindle_speed", "Spindle speed", "rpm", 0, 0, ("cutting_speed", "diameter"),
    speeds.spindle_speed_rpm, "n = 1000 × cutting speed ÷ (π × diameter)",
    (Symbol("cutting speed", "m/min", 1), DIAMETER), _SPEED_SOURCE, name="speed",
)  # fmt: skip


def _speeds(low: float, high: float, diameter: float) -> tuple[float, float]:
    return speeds.spindle_speed_rpm(low, diameter), speeds.spindle_speed_rpm(high, diameter)


SPEED_RANGE = replace(
    SPEED, key="spindle_speed_range", label="Spindle speed, range wanted", inward=True,
    inputs=("low", "high", "diameter"), run=_speeds,
    numbers=lambda low, high, diameter: {"cutting speed": (low, high), "diameter": diameter},
)  # fmt: skip
PUBLISHED_SPEED = Declaration(
    "cutting_speed_range", "Cutting speed, published range", "m/min", 1, 1, ("low", "high"),
    lambda low, high: (low, high), "from the table of the work material", (), (),
    "for a sharp tool with plenty of fluid", other=("cutting speed", "ft/min", 0), inward=True,
    looked_up="the table of the work material gives it",
)  # fmt: skip
SPEED_TO_SET = Declaration(
    "spindle_speed", "Spindle speed to set", "rpm", 0, 0, ("chosen",), float,
    "the fastest speed of the machine inside the range; if none lies inside, "
    "the fastest one below it, because slower is the safe side", (), ("step-rule",),
    looked_up="a rule chooses it among the speeds of the machine", is_set=True,
)  # fmt: skip
SLOW_SPEED_TO_SET = replace(
    SPEED_TO_SET,
    formula="the slowest speed of the machine inside the range, because sources disagree on the "
    "range",
)
FEED = Declaration(
    "feed", "Feed per turn", "mm/rev", 2, 2, ("entered",), float, "entered by the engineer", (),
    (), looked_up="the engineer entered it",
)  # fmt: skip
CUTTING_SPEED = Declaration(
    "cutting_speed", "Cutting speed at that setting", "m/min", 1, 1, ("speed", "diameter"),
    speeds.cutting_speed_m_min, "cutting speed = π × diameter × n ÷ 1000",
    (N, DIAMETER), _SPEED_SOURCE, other=("cutting speed", "ft/min", 0),
)  # fmt: skip
FEED_RATE = Declaration(
    "feed_rate", "Feed a minute", "mm/min", 0, 0, ("feed", "speed"),
    speeds.feed_rate_mm_min, "feed a minute = feed per turn × n",
    (Symbol("feed per turn", "mm/rev"), N), _SPEED_SOURCE, "with the whole point in the metal",
    other=("feed rate", "in/min", 1), asked=1,
)  # fmt: skip
_TEN_MM = entered(Quantity("length", 10.0, 10.0, "10 mm"))
SECONDS_FOR_10_MM = Declaration(
    "seconds_for_10_mm", f"Time for {_TEN_MM} of travel", "s", 1, 1, ("feed_rate",),
    lambda rate: speeds.seconds_for_travel(10, rate), "time = 60 × travel ÷ feed a minute",
    (Symbol("travel", "mm"), FEED_A_MINUTE), _SPEED_SOURCE,
    numbers=lambda rate: {"travel": 10.0, "feed a minute": rate},
)  # fmt: skip
REMOVAL_RATE = Declaration(
    "removal_rate", "Metal removed", "mm3/min", 0, 0, ("diameter", "feed_rate"),
    speeds.removal_rate_mm3_min, "removal = π ÷ 4 × diameter² × feed a minute",
    (DIAMETER, FEED_A_MINUTE), _SPEED_SOURCE, "no pilot hole",
)  # fmt: skip


def _radii(surface: float, drill: float) -> dict[str, float]:
    return {"R": surface / 2, "r": drill / 2}


SADDLE = Declaration(
    "saddle", "Saddle of round work", "mm", 1, 2, ("work_diameter", "diameter"),
    round_work.saddle_mm, "saddle = R − √(R² − r²)", (Symbol("R", "mm"), Symbol("r", "mm")),
    _GEOMETRY, "square through the axis; R and r are half the work's and the drill's diameter",
    other=IN_INCHES, numbers=_radii,
)  # fmt: skip
ENTRY_SADDLE = replace(
    SADDLE, label="Saddle where the drill enters",
    limits="for a hole square through the axis of the work",
    note="over this travel the drill cuts on part of its turn only",
)  # fmt: skip
EXIT_SADDLE = replace(ENTRY_SADDLE, key="exit_saddle", label="Saddle where the drill leaves")
ROUND_DEPTH = Declaration(
    "depth", "Depth through round work", "mm", 1, 2, ("work_diameter", "diameter"),
    round_work.bar_depth_mm, "depth = outside diameter", (Symbol("outside diameter", "mm"),),
    _GEOMETRY, numbers=lambda outside, drill: {"outside diameter": outside}, is_stand_in=True,
)  # fmt: skip
POINT_LENGTH = Declaration(
    "point_length", "Length of the drill's point", "mm", 1, 2, ("diameter", "point_angle"),
    travel.point_length_mm, "point = (diameter ÷ 2) ÷ tan(point angle ÷ 2)",
    (DIAMETER, Symbol("point angle", "°")), ("groover5-eq-21.10",), "angles from 60° to 180°",
    other=IN_INCHES,
)  # fmt: skip
DEPTH_STOP = Declaration(
    "depth_stop", "Depth stop, from first touch", "mm", 1, 1,
    ("depth", "point_length", "overtravel"), travel.stop_travel_mm,
    "stop = depth + point + overtravel", (Symbol("depth", "mm"), POINT, Symbol("overtravel", "mm")),
    _GEOMETRY, other=IN_INCHES, asked=2, step=0.1, is_set=True,
)  # fmt: skip


def _wall_stop(wall: float, saddle: float, point: float, beyond: float) -> float:
    return travel.stop_travel_mm(wall + saddle, point, beyond)


def _through(word: str) -> Declaration:
    """The stop of a through hole, its depth by the name that the work gives it."""
    return replace(
        DEPTH_STOP,
        formula=f"stop = {word} + point + overtravel",
        symbols=(Symbol(word, "mm"), *DEPTH_STOP.symbols[1:]),
    )


STOP_IN_FLAT, STOP_IN_BAR = _through("thickness"), _through("outside diameter")
STOP_IN_ONE_WALL = replace(
    DEPTH_STOP,
    run=_wall_stop,
    formula="stop = wall + saddle of the bore + point + overtravel",
    symbols=(Symbol("wall", "mm"), Symbol("saddle of the bore", "mm", 2), *DEPTH_STOP.symbols[1:]),
)
STOP_IN_BLIND = replace(
    DEPTH_STOP,
    run=lambda depth, point: travel.stop_travel_mm(depth, point, 0.0),
    formula="stop = depth + point",
    symbols=DEPTH_STOP.symbols[:2],
)
QUILL_TRAVEL = Declaration(
    "quill_travel", "Quill travel", "mm", 1, 1, ("start_clearance", "depth_stop"),
    lambda start, stop: start + stop, "quill travel = start clearance + depth stop",
    (Symbol("start clearance", "mm"), Symbol("depth stop", "mm", 1)), _GEOMETRY,
    other=IN_INCHES, asked=2,
)  # fmt: skip
TIME = Declaration(
    "time", "Time under feed, each hole", "s", 0, 1, ("quill_travel", "feed_rate"),
    speeds.seconds_for_travel, "time = 60 × quill travel ÷ feed a minute",
    (Symbol("quill travel", "mm", 1), FEED_A_MINUTE), _SPEED_SOURCE,
)  # fmt: skip

_D, _KD, _W = Symbol("D", "mm"), Symbol("Kd", "", 0), Symbol("W")
_FF, _FT, _FM = Symbol("Ff", "", 3), Symbol("FT", "", 2), Symbol("FM", "", 1)


def _thrust(d: float, f: float, kd: float, chisel: float, wear: float) -> float:
    return drilling.thrust_n(d, f, kd=kd, chisel_ratio=chisel, wear=wear)


def _lips(d: float, f: float, kd: float, chisel: float, wear: float) -> dict[str, float]:
    """Numbers of the lips' part of the thrust."""
    factors = drill_factors.chisel_factors(chisel)
    return {
        "Kd": kd,
        "Ff": drill_factors.feed_factor(f),
        "FT": drill_factors.thrust_diameter_factor(d),
        "B": factors.thrust_b,
        "W": wear,
    }


def _thrust_numbers(d: float, f: float, kd: float, chisel: float, wear: float) -> dict[str, float]:
    edge = drill_factors.chisel_factors(chisel).thrust_j
    return {**_lips(d, f, kd, chisel, wear), "D": d, "J": edge}


THRUST = Declaration(
    "thrust", "Thrust along the drill", "N", -2, 0,
    ("diameter", "feed", "kd_thrust", "chisel_ratio", "wear"), _thrust,
    "T = 0.05 × Kd × Ff × FT × B × W + 0.007 × Kd × D² × J × W",
    (_KD, _FF, _FT, Symbol("B"), _W, _D, Symbol("J")), _MH, f"{_COVERED}; {_FACTORS}",
    _TWO_DIGITS, ("force", "lbf", -2), _thrust_numbers,
)  # fmt: skip


def _piloted(d: float, f: float, kd: float, chisel: float, wear: float, pilot: float) -> float:
    whole = drilling.thrust_split_n(d, f, kd=kd, chisel_ratio=chisel, wear=wear).lips_n
    lips = whole * (1 - feel.chisel_cutting_share(chisel))
    return lips * (d - pilot) / (d - d * chisel)


def _piloted_numbers(
    d: float, f: float, kd: float, chisel: float, wear: float, pilot: float
) -> Mapping[str, float]:
    return {
        **_lips(d, f, kd, chisel, wear),
        "share of the chisel edge": feel.chisel_cutting_share(chisel),
        "D": d,
        "pilot": pilot,
        "chisel edge": d * chisel,
    }


PILOTED_THRUST = replace(
    THRUST,
    inputs=(*THRUST.inputs, "pilot"),
    run=_piloted,
    formula="T = 0.05 × Kd × Ff × FT × B × W × (1 − share of the chisel edge) × (D − pilot) ÷ "
    "(D − chisel edge)",
    symbols=(
        *(_KD, _FF, _FT, Symbol("B"), _W, Symbol("share of the chisel edge", "", 3), _D),
        *(Symbol("pilot", "mm"), Symbol("chisel edge", "mm", 2)),
    ),
    sources=("mh31-drilling", "mh31-table-7", "feel-spread", "chisel-share"),
    numbers=_piloted_numbers,
)
"""After a pilot hole only the lips push; the handbook's formula is for solid metal."""


def _torque(d: float, f: float, kd: float, chisel: float, wear: float) -> float:
    return drilling.torque_nm(d, f, kd=kd, chisel_ratio=chisel, wear=wear)


def _torque_numbers(d: float, f: float, kd: float, chisel: float, wear: float) -> dict[str, float]:
    return {
        "Kd": kd,
        "Ff": drill_factors.feed_factor(f),
        "FM": drill_factors.torque_diameter_factor(d),
        "A": drill_factors.chisel_factors(chisel).torque_a,
        "W": wear,
    }


TORQUE = Declaration(
    "torque", "Torque on the work", "N m", -2, 1,
    ("diameter", "feed", "kd_torque", "chisel_ratio", "wear"), _torque,
    "M = Kd × Ff × FM × A × W ÷ 40000", (_KD, _FF, _FM, Symbol("A"), _W), _MH,
    f"{_COVERED}; good to about a third; {_FACTORS}", GOOD_TO_A_THIRD,
    ("torque", "lbf in", -2), _torque_numbers,
)  # fmt: skip
CUTTER_POWER = Declaration(
    "cutter_power", "Power at the drill", "kW", -2, 2, ("torque", "speed"),
    drilling.cutter_power_kw, "Pc = M × n ÷ 9550", (Symbol("M", "N m", 1), N),
    ("mh31-drilling",), "M is the torque, n the spindle speed", GOOD_TO_A_THIRD,
    ("power", "hp", -2),
)  # fmt: skip
MOTOR_POWER = Declaration(
    "motor_power", "Power asked of the motor", "kW", -2, 2, ("cutter_power", "efficiency"),
    drilling.motor_power_kw, "Pm = Pc ÷ efficiency", (Symbol("Pc", "kW", 2), Symbol("efficiency")),
    ("mh31-drilling",), "Pc is the power at the drill", GOOD_TO_A_THIRD, ("power", "hp", -2),
)  # fmt: skip


def _by_stages(at_drill: float, efficiency: float, stages: int) -> float:
    return drilling.motor_power_kw(at_drill, efficiency**stages)


MOTOR_POWER_BY_STAGES = replace(
    MOTOR_POWER, inputs=(*MOTOR_POWER.inputs, "stages"), run=_by_stages,
    formula="Pm = Pc ÷ efficiency^stages", symbols=(*MOTOR_POWER.symbols, Symbol("stages")),
    limits="Pc is the power at the drill; each belt or pair of gears passes on its share",
)  # fmt: skip
"""Two belts in a row are not one: each loses its part."""

_PINION = Symbol("pinion radius", "mm")
TRAVEL_PER_TURN = Declaration(
    "travel_per_turn", "Travel for one turn of the lever", "mm", 0, 1, ("pinion_radius",),
    lever.travel_per_turn_mm, "travel = 2 × π × pinion radius", (_PINION,), _GEOMETRY,
    other=("length", "in", 2),
)  # fmt: skip
TRAVEL_PER_QUARTER = replace(
    TRAVEL_PER_TURN,
    key="travel_per_quarter",
    label="Travel for a quarter-turn of the lever",
    run=lambda pinion: lever.travel_per_turn_mm(pinion) / 4,
    formula="travel = 2 × π × pinion radius ÷ 4",
)
_STANDING = amount(lever.STANDING_LIMIT_N, "N", 0, "down")
_ONE_HAND = amount(lever.ONE_HAND_MOST_N, "N", 0, "down")
HAND_LIMITS = (
    f"one hand, standing: a design should not pass {_STANDING}; "
    f"{_ONE_HAND} is the greatest force of one hand, and nobody runs above it"
)


def who_reaches(pull: float) -> str:
    """Which share of women reaches a pull, by arm alone: the two ways that a lever is moved."""
    down, towards = (
        lever.told_share(lever.share_who_reach(pull, way)) for way in ("down", "towards")
    )
    return (
        f"by arm alone, once, {down} women press this hard straight down, and {towards} pull this "
        "hard towards themselves"
    )


def pull_doubt(thrust: float, pinion: float, radius: float, efficiency: float) -> str:
    """What is wrong with a pull that a design should not ask for; empty where nothing is."""
    pull = lever.lever_force_n(thrust, pinion, radius, efficiency)
    if not lever.STANDING_LIMIT_N < pull <= lever.ONE_HAND_MOST_N:
        return ""
    return (
        f"The pull at the lever is above {_STANDING}: "
        f"{who_reaches(pull)}. Use a finer feed, a pilot hole, a split point or a power feed."
    )


LEVER_FORCE = Declaration(
    "lever_force", "Pull at the feed lever", "N", -2, 0,
    ("thrust", "pinion_radius", "lever_radius", "lever_efficiency"), lever.lever_force_n,
    "pull = thrust × pinion radius ÷ (lever radius × efficiency)",
    (Symbol("thrust", "N", 0), _PINION, Symbol("lever radius", "mm"), Symbol("efficiency")),
    ("statics", "kodak-forces", "ilo-levers", "arm-force"), HAND_LIMITS,
    "as good as the thrust: two digits at best; the return spring is not in it",
    ("force", "kgf", -2), most=lever.ONE_HAND_MOST_N,
    advised_most=lever.STANDING_LIMIT_N, doubt=pull_doubt,
)  # fmt: skip

LIFE = Declaration(
    "life", "Drill life at that setting", "min", 0, 1, ("cutting_speed", "exponent", "c"),
    drill_life.tool_life_min, "T = (C ÷ cutting speed)^(1 ÷ n)",
    (Symbol("cutting speed", "m/min", 1), Symbol("n"), Symbol("C", "m/min")),
    ("groover5-ex-22.1",), "with constants from your own trials; those printed are for turning",
    "good for planning only",
)  # fmt: skip
HOLES_BETWEEN_GRINDS = Declaration(
    "holes_between_grinds", "Holes between grinds", "holes", 0, 1, ("life", "time"),
    drill_life.holes_between_grinds, "holes = 60 × life ÷ time for one hole, rounded down",
    (Symbol("life", "min", 1), Symbol("time for one hole", "s", 1)), ("groover5-ex-22.1",),
    "as good as the constants", name="holes", asked=0,
)  # fmt: skip
