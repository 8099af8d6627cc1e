"""Figures of a drill that comes through under a kept pull: how far the torque can grow."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from benchleaf.formulas import break_through, drill_factors, feel

from .amounts import amount
from .declaration import Declaration, Symbol

_SOURCES = ("statics", "chisel-share", "feel-spread")
_GOOD_TO = "derived here; no measurement is known. A torn edge that hooks a lip is worse"
_TORQUE, _KEPT = Symbol("torque in full cut", "N m", 1), Symbol("kept", "", 2)
_OPEN, _FEED = Symbol("open part", "", 3), Symbol("feed", "mm/rev")
_MOST = Symbol("most feed", "mm/rev")


def _lips(d: float, f: float, kd: float, chisel: float, wear: float) -> float:
    case = {"kd_thrust": kd, "kd_torque": kd, "chisel_ratio": chisel, "wear": wear}
    return feel.edge_loads(d, f, **case).lips_n


LIPS = Declaration(
    "lips", "Thrust of the lips alone", "N", -2, 0,
    ("diameter", "feed", "kd_thrust", "chisel_ratio", "wear"), _lips,
    "lips = 0.05 × Kd × Ff × FT × B × W × (1 − share of the chisel edge)",
    (Symbol("Kd"), Symbol("Ff", "", 3), Symbol("FT", "", 2), Symbol("B"), Symbol("W"),
     Symbol("share of the chisel edge", "", 3)),
    ("mh31-drilling", "mh31-table-7", "chisel-share"), "in full cut, at the set feed",
    numbers=lambda d, f, kd, chisel, wear: {
        "Kd": kd, "Ff": drill_factors.feed_factor(f), "W": wear,
        "FT": drill_factors.thrust_diameter_factor(d),
        "B": drill_factors.chisel_factors(chisel).thrust_b,
        "share of the chisel edge": feel.chisel_cutting_share(chisel)},
)  # fmt: skip
KEPT = Declaration(
    "kept", "The pull over that of the lips", "times the lips' thrust", 2, 2, ("thrust", "lips"),
    break_through.kept_ratio, "kept = thrust ÷ lips in full cut",
    (Symbol("thrust", "N", 0), Symbol("lips in full cut", "N", 0)), _SOURCES,
    lead="the pull is ",
)  # fmt: skip
EXIT_TORQUE = Declaration(
    "exit_torque", "Torque if the pull is kept until the drill is through", "N m", -2, 1,
    ("torque", "kept", "open_part"), break_through.exit_torque_limit_nm,
    "limit = torque in full cut × kept × 2 ÷ (1 + open part)", (_TORQUE, _KEPT, _OPEN), _SOURCES,
    "no feed passes it", _GOOD_TO, ("torque", "lbf in", -2),
)  # fmt: skip
_END_FEED = amount(break_through.END_FEED_MM_REV, "mm/rev", toward="down")
_PART = replace(
    EXIT_TORQUE, key="exit_at_feed",
    label=f"Torque if the pull is kept, up to {_END_FEED}",
    inputs=("torque", "kept", "open_part", "feed", "most_feed"),
    run=break_through.exit_torque_at_feed_nm,
    formula="torque = torque in full cut × kept × (2 − kept × (feed ÷ most feed)^0.8 × "
    "(1 − open part)) ÷ (1 + open part)",
    symbols=(_TORQUE, _KEPT, _OPEN, _FEED, _MOST), sources=(*_SOURCES, "mh31-table-8"),
)  # fmt: skip
EXIT_AT_FEED = _PART
_WHOLE = replace(
    _PART, formula="torque = torque in full cut × (most feed ÷ feed)^0.8",
    symbols=(_TORQUE, _MOST, _FEED),
    numbers=lambda torque, kept, part, feed, most: {
        "torque in full cut": torque, "most feed": most, "feed": feed},
)  # fmt: skip
"""Where the whole lips still cut at that feed."""


def exit_at_feed(kept: float, feed: float, most: float) -> Declaration:
    """The torque while nothing passes a feed, by the formula that holds there."""
    return _WHOLE if break_through.lips_left(kept, feed, most) == 1.0 else _PART


def with_feed_stop(kept: float, feed: float, most: float) -> Declaration:
    """The torque that a stop on the feed lets through."""
    one = exit_at_feed(kept, feed, most)
    return replace(
        one, key="feed_stop_torque", label="Torque if the pull is kept, with the feed stop"
    )


_WHOLE_WORD = ", while the whole lips cut"
_ASKED_OF = ("torque", "kept", "chisel_ratio", "feed")


def _whole_lips(values: Mapping[str, Any], most: float | None) -> bool:
    """Whether the whole lips still cut at the coarsest feed."""
    kept, feed = values.get("kept"), values.get("feed")
    if kept is None or feed is None or most is None:
        return False
    return bool(kept * (feed / most) ** drill_factors.FEED_EXPONENT >= 1.0)


def _at_end(one: Declaration, *, is_whole: bool) -> Declaration:
    """Up to the coarsest feed of the handbook, asked for."""
    end = break_through.END_FEED_MM_REV
    numbers = one.numbers or _numbers
    return replace(
        one, label=f"{one.label}{_WHOLE_WORD if is_whole else ''}", inputs=_ASKED_OF,
        run=lambda torque, kept, part, feed:
            break_through.exit_torque_at_feed_nm(torque, kept, part, feed, end),
        numbers=lambda torque, kept, part, feed: numbers(torque, kept, part, feed, end),
        limits=f"through hole without a pilot, at {_END_FEED}, where the handbook ends",
        suits=lambda values: _whole_lips(values, end) is is_whole,
    )  # fmt: skip


def _at_stop(one: Declaration, *, is_whole: bool) -> Declaration:
    """Up to the coarsest feed that a stop on the feed lets through, asked for."""
    return replace(
        one, key="feed_stop_torque", inputs=(*_ASKED_OF, "feed_stop"),
        label="Torque if the pull is kept, with the feed stop"
        f"{_WHOLE_WORD if is_whole else ''}", missed_with=("feed_stop",),
        limits="through hole without a pilot, at the coarsest feed that the feed stop lets through",
        suits=lambda values: _whole_lips(values, values.get("feed_stop")) is is_whole,
    )  # fmt: skip


def _numbers(torque: float, kept: float, part: float, feed: float, most: float) -> dict[str, float]:
    return {"torque in full cut": torque, "kept": kept, "open part": part, "feed": feed,
            "most feed": most}  # fmt: skip


ASKED = (
    LIPS,
    replace(KEPT, lead=""),
    replace(
        EXIT_TORQUE, inputs=("torque", "kept", "chisel_ratio"),
        limits="through hole without a pilot; no feed passes it",
    ),
    _at_end(_PART, is_whole=False),
    _at_end(_WHOLE, is_whole=True),
    _at_stop(_PART, is_whole=False),
    _at_stop(_WHOLE, is_whole=True),
)  # fmt: skip
"""The same as `reckon` asks for them."""
