"""Figures solved backwards: the largest feed that is held, and the clamp or stop that is needed.

Each is a limit at the worst case with the full margin. None is a setting.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from benchleaf.formulas import drilling, feel, most_feed, peck, spread, worst_case
from benchleaf.formulas.holding import DEFAULT_MARGIN
from benchleaf.formulas.jaw_friction import WET_FACTOR, counted_friction
from benchleaf.formulas.rounding import to_step

from .declaration import Declaration, Symbol
from .figures_feel import JAWS_BY_FLUID, RATIO, STOP_RATIO, is_dry, is_wet_with
from .figures_time import is_deep
from .figures_worst import HOLD_SYMBOL, WORST_SYMBOL
from .operation import Feeds

NO_SETTING = "A limit, no setting."
_AT_MOST = f"and {most_feed.MOST_MM_REV:g} mm/rev at most"
_MARGIN = Symbol("margin")
_M1, _CAPACITY = Symbol("M1", "N m", 1), Symbol("capacity", "N m", 1)
_OR_HOLD = "or hold, where that is more"
_TORQUE_OF_ONE = "M1 is the torque at a feed of 1 mm/rev"
_SOURCES = ("mh31-drilling", "mh31-table-7", "mh31-table-8", "mh31-table-9", "worst-case")
_PARTS = "L the thrust that grows with the feed, at 1 mm/rev, N the chisel edge's"


def _at_one(d: float, kd: float, chisel: float, wear: float) -> float:
    """Torque at a feed of 1 mm/rev."""
    return drilling.torque_nm(d, 1.0, kd=kd, chisel_ratio=chisel, wear=wear)


def _thrust_at_one(d: float, kd: float, chisel: float, wear: float) -> dict[str, float]:
    """The two parts of the thrust at 1 mm/rev, and the lips' share of the first."""
    parts = drilling.thrust_split_n(d, 1.0, kd=kd, chisel_ratio=chisel, wear=wear)
    lips = parts.lips_n * (1 - feel.chisel_cutting_share(chisel))
    return {"L": parts.lips_n, "N": parts.chisel_n, "lips": lips}


def _spare(hold: float) -> float:
    """The full margin; or what the clamp may fall by, where that is more."""
    return max(DEFAULT_MARGIN, hold)


def _by_holding(
    capacity: float, worst: float, hold: float, d: float, kd: float, chisel: float, wear: float
) -> float:
    at_worst = worst * _at_one(d, kd, chisel, wear)
    return most_feed.feed_for_torque_mm_rev(capacity / _spare(hold), at_worst)


FEED_BY_HOLDING = Declaration(
    "feed_by_holding", "Feed at which the holding is used up", "mm/rev", 3, 3,
    ("capacity", "worst", "hold", "diameter", "kd_torque", "chisel_ratio", "wear"), _by_holding,
    f"feed = (capacity ÷ (margin × worst × M1))^(1 ÷ 0.8), {_AT_MOST}",
    (_CAPACITY, _MARGIN, WORST_SYMBOL, _M1), (*_SOURCES, "margin"),
    f"in full cut, with the full margin, {_OR_HOLD}; {_TORQUE_OF_ONE}",
    numbers=lambda capacity, worst, hold, d, kd, chisel, wear: {
        "capacity": capacity, "margin": _spare(hold), "worst": worst,
        "M1": _at_one(d, kd, chisel, wear)},
    missed_with=("capacity",),
)  # fmt: skip


def _by_exit(
    capacity: float, worst: float, hold: float, d: float, kd_torque: float, kd_thrust: float,
    chisel: float, wear: float,
) -> float:  # fmt: skip
    parts = _thrust_at_one(d, kd_thrust, chisel, wear)
    return most_feed.feed_for_exit_mm_rev(
        capacity, worst * hold * _at_one(d, kd_torque, chisel, wear), parts["lips"], parts["L"],
        parts["N"], chisel,
    )  # fmt: skip


def _exit_numbers(
    capacity: float, worst: float, hold: float, d: float, kd_torque: float, kd_thrust: float,
    chisel: float, wear: float,
) -> Mapping[str, float]:  # fmt: skip
    return {
        **_thrust_at_one(d, kd_thrust, chisel, wear), "capacity": capacity, "worst": worst,
        "hold": hold, "M1": _at_one(d, kd_torque, chisel, wear), "open part": chisel,
    }  # fmt: skip


FEED_BY_EXIT = Declaration(
    "feed_by_exit", "Feed at which break-through is just held", "mm/rev", 3, 3,
    ("capacity", "worst", "hold", "diameter", "kd_torque", "kd_thrust", "chisel_ratio", "wear"),
    _by_exit,
    "feed = ((capacity × (1 + open part) × lips ÷ (2 × worst × hold × M1) − N) ÷ L)^(1 ÷ 0.8), "
    f"{_AT_MOST}",
    (_CAPACITY, Symbol("open part", "", 3), Symbol("lips", "N", 0), WORST_SYMBOL, HOLD_SYMBOL, _M1,
     Symbol("N", "N", 0), Symbol("L", "N", 0)),
    (*_SOURCES, "statics", "chisel-share", "feel-spread"),
    "a pull that is kept until the drill is through, without a pilot or a feed stop; no feed that "
    f"is drawn in passes it; {_TORQUE_OF_ONE}, lips and {_PARTS}",
    numbers=_exit_numbers, missed_with=("capacity",),
)  # fmt: skip


def _by_power(
    power: float, share: float, n: float, worst: float, d: float, kd: float, chisel: float,
    wear: float,
) -> float:  # fmt: skip
    at_worst = worst * _at_one(d, kd, chisel, wear)
    return most_feed.feed_for_power_mm_rev(power, share, n, at_worst)


FEED_BY_POWER = Declaration(
    "feed_by_power", "Feed at which the motor gives all it has", "mm/rev", 3, 3,
    ("motor_rating", "efficiency", "speed", "worst", "diameter", "kd_torque", "chisel_ratio",
     "wear"),
    _by_power, f"feed = (9550 × P × efficiency ÷ (n × worst × M1))^(1 ÷ 0.8), {_AT_MOST}",
    (Symbol("P", "kW"), Symbol("efficiency"), Symbol("n", "rpm", 0), WORST_SYMBOL, _M1), _SOURCES,
    f"P is the motor's rated power, n the spindle speed; {_TORQUE_OF_ONE}",
    numbers=lambda power, share, n, worst, d, kd, chisel, wear: {
        "P": power, "efficiency": share, "n": n, "worst": worst,
        "M1": _at_one(d, kd, chisel, wear)},
    missed_with=("capacity", "motor_rating"),
)  # fmt: skip


_PUSHED_MORE = spread.MODEL["thrust"] / spread.MODEL["torque"]
"""The worst is that of the torque: other publications have a thrust that is higher by this."""


def _by_thrust(
    rated: float, worst: float, d: float, kd: float, chisel: float, wear: float
) -> float:
    parts = _thrust_at_one(d, kd, chisel, wear)
    return most_feed.feed_for_thrust_mm_rev(
        rated, worst * _PUSHED_MORE, parts["L"], parts["N"]
    )  # fmt: skip


def _thrust_numbers(
    rated: float, worst: float, d: float, kd: float, chisel: float, wear: float
) -> Mapping[str, float]:
    parts = _thrust_at_one(d, kd, chisel, wear)
    return {
        "T": rated, "worst": worst, "model": _PUSHED_MORE, "N": parts["N"], "L": parts["L"],
    }  # fmt: skip


FEED_BY_THRUST = Declaration(
    "feed_by_thrust", "Feed at which the machine's thrust is used up", "mm/rev", 3, 3,
    ("rated_thrust", "worst", "diameter", "kd_thrust", "chisel_ratio", "wear"), _by_thrust,
    f"feed = ((T ÷ (worst × model) − N) ÷ L)^(1 ÷ 0.8), {_AT_MOST}",
    (Symbol("T", "N", 0), WORST_SYMBOL, Symbol("model", "", 2), Symbol("N", "N", 0),
     Symbol("L", "N", 0)), (*_SOURCES, "force-spread"),
    f"T is the thrust that the machine is rated for, model the highest published thrust; {_PARTS}",
    numbers=_thrust_numbers, missed_with=("rated_thrust",),
)  # fmt: skip
FEED_BY_TOOL = Declaration(
    "feed_by_tool", "Feed that the drill allows", "mm/rev", 3, 3, ("tool_feed",), float,
    "as entered", (), (), "by the drill's maker",
    looked_up="the engineer entered it", suits=lambda values: not is_deep(values),
    missed_with=("capacity", "tool_feed"),
)  # fmt: skip
FEED_BY_TOOL_IN_DEEP = replace(
    FEED_BY_TOOL,
    inputs=("tool_feed", "depth", "diameter"),
    run=lambda feed, depth, d: feed * peck.deep_hole_cut(depth, d).feed_share,
    formula="feed = feed of the tool × kept ÷ 100",
    symbols=(Symbol("feed of the tool", "mm/rev"), Symbol("kept", "%")),
    sources=("drill-guide-deep", "peck-rule"),
    limits="by the drill's maker; kept is what a hole this deep leaves of it",
    numbers=lambda feed, depth, d: {
        "feed of the tool": feed, "kept": 100 * peck.deep_hole_cut(depth, d).feed_share},
    looked_up="", suits=is_deep,
)  # fmt: skip

_BY = ("feed_by_holding", "feed_by_exit", "feed_by_power", "feed_by_tool", "feed_by_thrust")
_NAMES = (
    "the holding in full cut", "the holding at break-through", "the power of the motor",
    "the drill", "the thrust of the machine",
)  # fmt: skip


def _least(*feeds: float) -> float:
    return to_step(min(feeds), 0.01, direction="down")


def _binds(*feeds: float) -> str:
    which = _NAMES[feeds.index(min(feeds))]
    if min(feeds) >= most_feed.MOST_MM_REV:
        which = "the handbook, whose feeds end there"
    return (
        f"What binds is {which}. {NO_SETTING} Set the feed of the drill's maker, where it is "
        "finer, and try on scrap."
    )


MOST_FEED = Declaration(
    "most_feed", "Largest feed that all of them allow", "mm/rev", 2, 2, _BY, _least,
    "the least of the feeds above, rounded down to 0.01 mm/rev", (), _SOURCES[-1:],
    "a limit at the worst case with the full margin, no setting; holding, break-through, motor, "
    "drill and thrust are looked at, the hand on the lever is not",
    looked_up="the least of several feeds", doubt=_binds, missed_with=("capacity",),
    toward="down",
)  # fmt: skip
MOST_FEED_UNRATED = replace(
    MOST_FEED, inputs=_BY[:-1], is_stand_in=True, label=f"{MOST_FEED.label}, but for the thrust",
    limits="a limit at the worst case with the full margin, no setting; holding, break-through, "
    "motor and drill are looked at, the hand on the lever and the machine's thrust are not: give "
    "rated_thrust",
)  # fmt: skip


def _to_set(*given: float | Feeds) -> float:
    *limits, feeds = given
    assert isinstance(feeds, Feeds)
    most = min(float(one) for one in limits if isinstance(one, float))
    fine = [one for one in feeds.feeds_mm_rev if one <= most]
    if not fine:
        raise ValueError(
            f"feeds are {feeds.name}; one must be {most:.3g} mm/rev or finer: none of them is held"
        )
    return max(fine)


MOST_FEED_SET = replace(
    MOST_FEED, key="most_feed_set", label="Coarsest feed of the machine that they allow",
    worked=3, shown=3, inputs=(*_BY, "feeds"), run=_to_set,
    formula="the coarsest feed of the machine that is no coarser than the least of the feeds above",
    doubt=lambda *_: NO_SETTING, missed_with=("feeds",),
)  # fmt: skip
MOST_FEED_SET_UNRATED = replace(
    MOST_FEED_SET,
    inputs=(*_BY[:-1], "feeds"),
    is_stand_in=True,
    limits=MOST_FEED_UNRATED.limits,
    label=f"{MOST_FEED_SET.label}, but for the thrust",
)

FEEDS = (
    FEED_BY_HOLDING, FEED_BY_EXIT, FEED_BY_POWER, FEED_BY_THRUST, FEED_BY_TOOL,
    FEED_BY_TOOL_IN_DEEP, MOST_FEED, MOST_FEED_UNRATED, MOST_FEED_SET, MOST_FEED_SET_UNRATED,
)  # fmt: skip

HELD = replace(RATIO, label="Holding over torque", missed_with=("capacity",))
EXIT_HELD = replace(
    RATIO, key="exit_ratio", label="Holding over the torque at break-through",
    inputs=("capacity", "exit_torque"), limits="1 at least, without a feed stop", least=1.0,
    suits=lambda values: "feed_stop" not in values, missed_with=("capacity",),
)  # fmt: skip
CLAMPED_TO_THE_END = replace(
    EXIT_HELD, label="Capacity over the torque at break-through", suits=None,
    limits="1 at least, for the torque at break-through that was given",
    missed_with=("exit_torque",),
)  # fmt: skip
STOP_TO_THE_END = replace(
    CLAMPED_TO_THE_END, key="stop_exit_ratio", inputs=("stop_capacity", "exit_torque"),
    label="Capacity of the stop over the torque at break-through",
    missed_with=("stop_force",),
)  # fmt: skip
STOPPED_HELD = replace(
    EXIT_HELD, key="stopped_ratio", label="Holding over the torque with the feed stop",
    inputs=("capacity", "feed_stop_torque"), limits="1 at least: prove the feed stop first",
    suits=None, missed_with=("feed_stop",),
)  # fmt: skip


def _at_worst(ratio: Declaration, *falls: str) -> Declaration:
    """The same with the load at its worst; `hold` where a clamp may fall short, too."""
    capacity, load = ratio.symbols
    return replace(
        ratio, key=f"{ratio.key}_at_worst", label=f"{ratio.label}, at worst", shown=2, worked=2,
        inputs=(*ratio.inputs, "worst", *falls),
        run=lambda resisted, asked, *times: worst_case.at_worst(resisted / asked, times),
        formula=f"at worst = capacity ÷ ({' × '.join(('torque', 'worst', *falls))})",
        symbols=(capacity, load, WORST_SYMBOL, *((HOLD_SYMBOL,) if falls else ())),
        sources=("statics", "worst-case"), least=1.0,
        limits="1 at least: below it the work comes loose with every input at its bad end at once",
        missed_with=("hold",),
    )  # fmt: skip


HELD_AT_WORST, EXIT_AT_WORST, STOPPED_AT_WORST = (
    _at_worst(one, "hold") for one in (HELD, EXIT_HELD, STOPPED_HELD)
)
CLAMPED_AT_WORST = _at_worst(RATIO, "hold")
CLAMPED_TO_THE_END_AT_WORST = _at_worst(CLAMPED_TO_THE_END, "hold")
STOP_TO_THE_END_AT_WORST = _at_worst(STOP_TO_THE_END)
STOPPED_IN_CUT_AT_WORST = replace(_at_worst(STOP_RATIO), missed_with=("stop_force",))
_THROUGH = (
    "2 at least is wanted, in full cut; where a drill comes through, exit_torque asks for more"
)
CLAMPS_HELD, STOP_HELD = (replace(one, limits=_THROUGH) for one in (RATIO, STOP_RATIO))

MOTOR_RATIO = Declaration(
    "motor_ratio", "Rated power over the power asked", "times", 1, 1,
    ("motor_rating", "motor_power"), lambda rated, asked: rated / asked, "ratio = P ÷ Pm",
    (Symbol("P", "kW"), Symbol("Pm", "kW", 2)), ("mh31-drilling",),
    "1 at least; P is the rated power, Pm the power asked of the motor", least=1.0,
    missed_with=("motor_rating",),
)  # fmt: skip
THRUST_RATIO = Declaration(
    "thrust_ratio", "Rated thrust over the thrust", "times", 1, 1, ("rated_thrust", "thrust"),
    lambda rated, pushed: rated / pushed, "ratio = rated thrust ÷ thrust",
    (Symbol("rated thrust", "N", 0), Symbol("thrust", "N", 0)), ("mh31-drilling",), "1 at least",
    least=1.0, missed_with=("rated_thrust",),
)  # fmt: skip

_UP = "up to the next 100 N"
_ARM, _FRICTION = Symbol("arm", "mm"), Symbol("friction")


def _hundreds(force: float) -> float:
    return to_step(force, 100.0, direction="up")


def _needed(
    key: str, label: str, torque: str, spare: Callable[[float], float]
) -> tuple[Declaration, ...]:
    """The clamp force that resists a torque at worst; `spare` is what stands against the clamp."""
    dry = _needed_dry(key, label, torque, spare)
    return (dry, *(_needed_wet(dry, *jaws) for jaws in JAWS_BY_FLUID))


def _needed_wet(dry: Declaration, *jaws: str) -> Declaration:
    """The same where fluid takes part of the friction."""
    wet = WET_FACTOR[jaws[0]]

    def numbers(*given: Any) -> Mapping[str, float]:
        turning, worst, hold, friction, arm, _ = given
        assert dry.numbers is not None
        put_in = dict(dry.numbers(turning, worst, hold, friction, arm))
        del put_in["friction"]
        return {**put_in, "counted": counted_friction(friction, wet)}

    symbols = (*dry.symbols[:3], Symbol("counted", "", 3), dry.symbols[4])
    return replace(
        dry, inputs=(*dry.inputs, "fluid"), symbols=symbols, numbers=numbers,
        run=lambda turning, worst, hold, friction, arm, _:
            dry.run(turning, worst, hold, counted_friction(friction, wet), arm),
        formula=dry.formula.replace("friction", "counted"),
        sources=(*dry.sources, "jaw-wet"), suits=is_wet_with(*jaws),
        limits=dry.limits.replace("face, dry;", f"face, wet: divided by {wet:.2f};"),
    )  # fmt: skip


def _needed_dry(key: str, label: str, torque: str, spare: Callable[[float], float]) -> Declaration:
    """The same for dry work."""
    word, name = torque.replace("_", " "), "margin" if spare is _spare else "hold"
    symbol = _MARGIN if spare is _spare else HOLD_SYMBOL
    told = f"margin is {DEFAULT_MARGIN:g}, {_OR_HOLD}; " if spare is _spare else ""
    return Declaration(
        key, label, "N", 0, 0, (torque, "worst", "hold", "friction", "arm"),
        lambda turning, worst, hold, friction, arm:
            _hundreds(1000 * turning * worst * spare(hold) / (friction * arm)),
        f"clamp force = 1000 × {word} × worst × {name} ÷ (friction × arm), {_UP}",
        (Symbol(word, "N m", 1), WORST_SYMBOL, symbol, _FRICTION, _ARM),
        ("statics", "margin", "worst-case"),
        f"{told}friction counted on one face, dry; a limit, no setting: clamp at least so hard",
        missed_with=(torque,), suits=is_dry,
        numbers=lambda turning, worst, hold, friction, arm: {
            word: turning, "worst": worst, name: spare(hold), "friction": friction, "arm": arm},
    )  # fmt: skip


CLAMP_NEEDED = _needed("clamp_needed", "Clamp force needed in full cut", "torque", _spare)
CLAMP_AT_EXIT = _needed(
    "clamp_at_exit", "Clamp force needed at break-through", "exit_torque", float
)
STOP_NEEDED = Declaration(
    "stop_needed", "Rated force needed of the stop", "N", 0, 0, ("torque", "worst", "stop_arm"),
    lambda turning, worst, arm: _hundreds(1000 * turning * worst * DEFAULT_MARGIN / arm),
    f"stop force = 1000 × torque × worst × margin ÷ arm, {_UP}",
    (Symbol("torque", "N m", 1), WORST_SYMBOL, _MARGIN, _ARM), ("statics", "margin", "worst-case"),
    "in full cut; a limit, no setting", missed_with=("stop_arm",),
    numbers=lambda turning, worst, arm: {
        "torque": turning, "worst": worst, "margin": DEFAULT_MARGIN, "arm": arm},
)  # fmt: skip
MOST_TORQUE = Declaration(
    "most_torque", "Largest torque that may be held", "N m", 1, 1, ("capacity", "hold"),
    lambda capacity, hold: math.floor(round(10 * capacity / _spare(hold), 6)) / 10,
    "torque = capacity ÷ margin, rounded down to 0.1 N m", (_CAPACITY, _MARGIN), ("margin",),
    f"of the tool at its worst; margin is {DEFAULT_MARGIN:g}, {_OR_HOLD}; a limit, no setting",
    asked=2,
    numbers=lambda capacity, hold: {"capacity": capacity, "margin": _spare(hold)},
)  # fmt: skip
