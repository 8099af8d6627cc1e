"""Figures of what the hand feels at break-through, and of what holds the work."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from benchleaf.formulas import feel, holding, jaw_friction
from benchleaf.formulas.drill_factors import FEED_EXPONENT

from .declaration import Declaration, Symbol
from .figures_cutting import POINT
from .grip import is_wet_trial

_SOURCES = ("mh31-drilling", "mh31-table-7", "chisel-share", "feel-spread", "statics")
_ORDER = "derived here, no measurement: it shows the order of things and their size"
_FULL, _LIPS = Symbol("thrust in full cut", "N", 0), Symbol("thrust of the lips", "N", 0)


def _from(*words: str, formula: str = "") -> Declaration:
    """Where easing begins, by the sizes that end the metal there."""
    return Declaration(
        "ease_off", "Ease off from", "mm", 1, 1, words, lambda *sizes: sizes[0],
        f"from = {formula or words[0]}",
        tuple(Symbol(one, "mm", 2 if one.startswith(("saddle", "point")) else None)
              for one in words),
        _SOURCES, "a hand is slower than this: begin a little early", _ORDER,
    )  # fmt: skip


EASE_IN_FLAT, EASE_IN_BAR = _from("thickness"), _from("outside diameter")
EASE_IN_WALL = _from("wall")
EASE_AT_THE_SIDES = replace(
    _from("outside diameter", "point", "saddle", formula="outside diameter + point − saddle"),
    run=lambda outside, point, saddle: outside + point - saddle,
)
"""At the sides of a small bar a large drill loses metal before its tip comes out."""


def _until(word: str) -> Declaration:
    """Where the lips have left."""
    return Declaration(
        "lips_left", "The lips have left at", "mm", 1, 1, (word, "point"),
        lambda size, point: size + point, f"until = {word} + point",
        (Symbol(word, "mm"), POINT), _SOURCES, lead="the lips have left at ",
    )  # fmt: skip


LEFT_IN_FLAT, LEFT_IN_BAR = _until("thickness"), _until("outside diameter")
LEFT_IN_WALL = Declaration(
    "lips_left", "The lips have left at", "mm", 1, 1, ("wall", "point", "saddle of the bore"),
    lambda wall, point, saddle: wall + point + saddle, "until = wall + point + saddle of the bore",
    (Symbol("wall", "mm"), POINT, Symbol("saddle of the bore", "mm", 2)), _SOURCES,
    lead="the lips have left at ",
)  # fmt: skip
EASED_TRAVEL = Declaration(
    "eased_travel", "Eased over", "mm", 1, 1, ("until", "from"),
    lambda until, begin: until - begin, "eased = until − from",
    (Symbol("until", "mm", 1), Symbol("from", "mm", 1)), _SOURCES, lead="eased over ",
)  # fmt: skip
SWING = Declaration(
    "swing", "Swing of the lever", "° of lever", 0, 0, ("travel", "turn"),
    feel.lever_swing_deg, "swing = 360 × travel ÷ travel for one turn",
    (Symbol("travel", "mm", 1), Symbol("travel for one turn", "mm", 1)), ("geometry",),
)  # fmt: skip
EASE_TO = Declaration(
    "ease_to", "Ease the pull to", "% of the pull", 0, 0, ("thrust", "lips"),
    lambda full, lips: 100 * lips / full,
    "share = 100 × thrust of the lips ÷ thrust in full cut", (_FULL, _LIPS), _SOURCES,
    "it goes on falling to nothing as the lips leave", _ORDER,
)  # fmt: skip
KEPT_FEED = Declaration(
    "kept_feed", "Feed if the hand keeps its pull", "mm/rev", 2, 2, ("feed", "thrust", "lips"),
    lambda feed, full, lips: feed * (full / lips) ** (1 / FEED_EXPONENT),
    "kept feed = feed × (thrust in full cut ÷ thrust of the lips)^(1 ÷ 0.8)",
    (Symbol("feed", "mm/rev"), _FULL, _LIPS), (*_SOURCES, "mh31-table-8"),
    "this is the grab: the work, or the drill, gives way", _ORDER, ("feed", "in/rev", 4),
)  # fmt: skip
KEPT_TORQUE = Declaration(
    "kept_torque", "Torque if the hand keeps its pull", "times the torque", 1, 1,
    ("thrust", "lips", "lips_torque", "torque"),
    lambda full, lips, through, torque: full / lips * through / torque,
    "times = thrust in full cut ÷ thrust of the lips × torque of the lips ÷ torque in full cut",
    (_FULL, _LIPS, Symbol("torque of the lips", "N m", 1), Symbol("torque in full cut", "N m", 1)),
    _SOURCES, lead="the torque is then ",
)  # fmt: skip


def _clamped(force: float, friction: float, arm: float, faces: int = 1) -> float:
    return holding.friction_torque_nm(force, friction, arm, faces)


CLAMPS = Declaration(
    "capacity", "Torque that the clamps resist", "N m", -2, 1, ("clamp_force", "friction", "arm"),
    _clamped,
    "capacity = clamp force × friction × arm × faces ÷ 1000",
    (Symbol("clamp force", "N", 0), Symbol("friction"), Symbol("arm", "mm"), Symbol("faces")),
    ("statics",), "friction counted on one face", other=("torque", "lbf in", -2), toward="down",
    numbers=lambda force, friction, arm, faces=1: {
        "clamp force": force, "friction": friction, "arm": arm, "faces": faces},
)  # fmt: skip
STOP = Declaration(
    "stop_capacity", "Torque that the stop resists", "N m", -2, 1, ("stop_force", "stop_arm"),
    holding.stop_torque_nm, "capacity = rated force of the stop × arm ÷ 1000",
    (Symbol("rated force of the stop", "N", 0), Symbol("arm", "mm")), ("statics",),
    other=("torque", "lbf in", -2), toward="down",
)  # fmt: skip
HOLDING = replace(
    CLAMPS, key="holding", label="Holding, torque it can resist", formula="capacity",
    note="the margin is for torque that is good to a third, and for friction that oil or chips "
    "have lowered; at worst means metal, edge, clamp and friction at their bad ends at once; "
    "break-through is compared by itself; how far quill and tool stick out is not computed, as no "
    "published limit is known",
)  # fmt: skip
"""The better of clamps and stop; its formula is theirs."""
HELD = replace(HOLDING, label="Holding, not compared with this cut", note="")
WANTED = Declaration(
    "wanted", "Torque that the holding must resist", "N m", -2, 1, ("torque", "margin"),
    lambda torque, margin: torque * margin, "wanted = torque × margin",
    (Symbol("torque", "N m", 1), Symbol("margin")), ("margin",), lead="wanted ", toward="up",
)  # fmt: skip
WANTED_DULL = replace(
    WANTED, formula="wanted = torque of a dull tap × margin",
    symbols=(Symbol("torque of a dull tap", "N m", 1), Symbol("margin")),
)  # fmt: skip


_NO_PULL = "no publication gives a pull: this is the most that statics allows, without friction"
PULL_UP = Declaration(
    "pull_up", "Pull of the drill on the work, at most", "N", -2, 0,
    ("torque", "diameter", "helix"), jaw_friction.pull_up_n,
    "pull = 2000 × torque × tan(helix angle) ÷ D",
    (Symbol("torque", "N m", 1), Symbol("D", "mm"), Symbol("helix angle", "°")),
    ("statics", "helix"), _NO_PULL, other=("force", "lbf", -2), lead="the drill pulls ",
    toward="up",
)  # fmt: skip
PULL_UP_KEPT = replace(
    PULL_UP, lead="if the hand keeps its pull, it pulls ",
    formula="pull = 2000 × torque if the pull is kept × tan(helix angle) ÷ D",
    symbols=(Symbol("torque if the pull is kept", "N m", 1), *PULL_UP.symbols[1:]),
)  # fmt: skip
"""The same at break-through, of a pull that nobody eases."""
HELD_DOWN = Declaration(
    "held_down", "Holding down at break-through", "N", -2, 0, ("clamp_force", "friction"),
    jaw_friction.held_down_n, "hold down = 2 × clamp force × friction",
    (Symbol("clamp force", "N", 0), Symbol("friction")), ("statics", "helix"),
    "both jaws grip", _NO_PULL, ("force", "lbf", -2), toward="down",
)  # fmt: skip
PRESSED_DOWN = replace(
    HELD_DOWN, inputs=("clamp_force",), run=float, formula="hold down = clamp force",
    symbols=(Symbol("clamp force", "N", 0),), limits="clamps that press down",
)  # fmt: skip
"""A clamp that presses the work down gives way only above its own force."""


def _ratio(key: str, label: str, capacity: str) -> Declaration:
    return Declaration(
        key, label, "times", 1, 1, (capacity, "torque"), holding.holding_ratio,
        "ratio = capacity ÷ torque", (Symbol("capacity", "N m", 1), Symbol("torque", "N m", 1)),
        ("statics", "margin"), "2 at least is wanted", least=2.0,
    )  # fmt: skip


RATIO = _ratio("ratio", "Capacity over torque", "capacity")
STOP_RATIO = _ratio("stop_ratio", "Capacity of the stop over torque", "stop_capacity")


FRICTION_BY_TABLE = Declaration(
    "friction", "Friction by the table", "times", 3, 3, ("work", "jaws", "metal"),
    jaw_friction.table_friction, "friction = that of steel × factor of the metal",
    (Symbol("that of steel", "", 2), Symbol("factor of the metal", "", 2)), ("jaw-table",),
    "unmeasured, dry; fluid takes a sixth of it, which the clamps below count", is_stand_in=True,
    numbers=lambda work, jaws, metal: {
        "that of steel": jaw_friction.JAW_FRICTION[work, jaws],
        "factor of the metal": jaw_friction.METAL_FACTOR[metal]},
)  # fmt: skip


def is_wet_with(*jaws: str) -> Callable[[Mapping[str, Any]], bool]:
    """Whether fluid takes part of a friction that was not tried wet, in such jaws."""

    def suits(values: Mapping[str, Any]) -> bool:
        tried = values.get("friction_source")
        is_wet = values.get("fluid") == "wet" and not is_wet_trial(tried)
        return is_wet and values.get("jaws", "smooth") in jaws

    return suits


def is_dry(values: Mapping[str, Any]) -> bool:
    """Whether the friction is counted as it was given."""
    return values.get("fluid") != "wet" or is_wet_trial(values.get("friction_source"))


def _wet_clamps(*jaws: str) -> Declaration:
    wet = jaw_friction.WET_FACTOR[jaws[0]]

    def counted(friction: float) -> float:
        return jaw_friction.counted_friction(friction, wet)

    return replace(
        CLAMPS, inputs=(*CLAMPS.inputs, "fluid"),
        run=lambda force, friction, arm, _: _clamped(force, counted(friction), arm),
        formula="capacity = clamp force × counted × arm ÷ 1000",
        symbols=(CLAMPS.symbols[0], Symbol("counted", "", 3), CLAMPS.symbols[2]),
        sources=("statics", "jaw-wet"),
        limits=f"friction counted on one face, wet: it is divided by {wet:.2f}, and rounded down "
        "to 0.001",
        numbers=lambda force, friction, arm, _: {
            "clamp force": force, "counted": counted(friction), "arm": arm},
        suits=is_wet_with(*jaws),
    )  # fmt: skip


JAWS_BY_FLUID = (("smooth",), ("diamond serrated", "serrated"))
"""Jaws that lose alike by fluid."""
CLAMPS_ASKED = (
    replace(CLAMPS, suits=is_dry, limits="friction counted on one face, dry unless fluid is wet"),
    *(_wet_clamps(*jaws) for jaws in JAWS_BY_FLUID),
)
