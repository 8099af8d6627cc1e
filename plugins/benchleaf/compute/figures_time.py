"""Figures of time, and of speed in a deep hole: pecks cost time, a wanted time asks for a speed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from benchleaf.formulas import peck, speeds

from .declaration import Declaration, Symbol
from .figures_cutting import CUTTING_SPEED, DEPTH_STOP, DIAMETER, FEED_A_MINUTE, SPEED, TIME
from .figures_holes import DEEP_HOLE

_TRAVEL = Symbol("quill travel", "mm", 1)
_FEED, _WANTED = Symbol("feed", "mm/rev"), Symbol("time", "s")
_PECKS, _OUT = Symbol("pecks"), Symbol("one withdrawal", "s")
_OUT_AND_IN = f"; one withdrawal is {peck.WITHDRAWAL_S:g} s, a guess: time your own"


def _diameters(values: Mapping[str, Any]) -> float:
    depth, diameter = values.get("depth"), values.get("diameter")
    if not isinstance(depth, float) or not isinstance(diameter, float):
        return 0.0
    return round(peck.depth_ratio(depth, diameter), peck.RATIO_DECIMALS)


def is_deep(values: Mapping[str, Any]) -> bool:
    """Whether speed and feed come down in this hole."""
    return _diameters(values) >= peck.PECK_ABOVE_RATIO


def _is_shallow(values: Mapping[str, Any]) -> bool:
    return not is_deep(values)


def is_pecked(values: Mapping[str, Any]) -> bool:
    """Whether the drill comes out on its way."""
    return _diameters(values) > peck.PECK_ABOVE_RATIO


def _in_one_go(values: Mapping[str, Any]) -> bool:
    return not is_pecked(values)


def _feed_kept(depth: float, diameter: float) -> str:
    share = 100 * peck.deep_hole_cut(depth, diameter).feed_share
    return f"In a hole this deep {share:.0f} % of the recommended feed is kept."


DEEP_ASKED = replace(
    DEEP_HOLE,
    suits=is_deep,
    doubt=_feed_kept,
    limits=f"{DEEP_HOLE.limits}; the cutting speed given is that for a shallow hole",
)
SPEED_IN_DEEP = replace(
    SPEED,
    label="Spindle speed in a deep hole",
    suits=is_deep,
    inputs=("cutting_speed", "deep_hole", "diameter"),
    run=lambda speed, kept, diameter: speeds.spindle_speed_rpm(speed, diameter) * kept / 100,
    formula="n = 1000 × cutting speed × kept ÷ 100 ÷ (π × diameter)",
    symbols=(Symbol("cutting speed", "m/min", 1), Symbol("kept", "%"), DIAMETER),
    sources=(*SPEED.sources, *DEEP_HOLE.sources),
    limits="kept is what a hole this deep leaves of the speed",
)
RIM_SPEED_IN_DEEP = replace(
    CUTTING_SPEED, suits=is_deep, name="rim_speed", label="Cutting speed in a deep hole"
)
SPEED_IN_SHALLOW = replace(SPEED, suits=_is_shallow)
RIM_SPEED = replace(CUTTING_SPEED, suits=_is_shallow)

TIME_IN_ONE_GO = replace(TIME, suits=_in_one_go)
TIME_PECKED = replace(
    TIME,
    suits=is_pecked,
    label="Time, each hole, with bringing the drill out",
    inputs=("quill_travel", "feed_rate", "pecks"),
    run=lambda way, rate, pecks: peck.pecked_time_s(way, rate, int(pecks)),
    formula="time = 60 × quill travel ÷ feed a minute + (pecks − 1) × one withdrawal",
    symbols=(_TRAVEL, FEED_A_MINUTE, _PECKS, _OUT),
    sources=(*TIME.sources, "peck-withdrawal"),
    limits=f"without handling the work{_OUT_AND_IN}",
    numbers=lambda way, rate, pecks: {
        "quill travel": way, "feed a minute": rate, "pecks": pecks,
        "one withdrawal": peck.WITHDRAWAL_S},
)  # fmt: skip


def _cutting(time: float, pecks: float) -> float:
    """Seconds that are left for the cut."""
    out = (pecks - 1) * peck.WITHDRAWAL_S
    if time <= out:
        raise ValueError(f"time is {time:g}; it must be above {out:g} s, the withdrawals alone")
    return time - out


_NO_SETTING = "What a wanted time asks for is no setting: hold it against the range for the metal."
SPEED_FOR_TIME = Declaration(
    "spindle_speed", "Spindle speed for the time wanted", "rpm", 0, 0,
    ("quill_travel", "feed", "time"),
    lambda way, feed, time: 60 * way / (feed * time), "n = 60 × quill travel ÷ (feed × time)",
    (_TRAVEL, _FEED, _WANTED), TIME.sources, "asked for by the time wanted, no setting",
    name="speed", doubt=lambda *_: _NO_SETTING, suits=_in_one_go,
)  # fmt: skip
SPEED_FOR_TIME_PECKED = replace(
    SPEED_FOR_TIME,
    label="Spindle speed for the time wanted, pecked",
    suits=is_pecked,
    inputs=("quill_travel", "feed", "time", "pecks"),
    run=lambda way, feed, time, pecks: 60 * way / (feed * _cutting(time, pecks)),
    formula="n = 60 × quill travel ÷ (feed × (time − (pecks − 1) × one withdrawal))",
    symbols=(_TRAVEL, _FEED, _WANTED, _PECKS, _OUT),
    sources=TIME_PECKED.sources,
    limits=f"asked for by the time wanted, no setting{_OUT_AND_IN}",
    numbers=lambda way, feed, time, pecks: {
        "quill travel": way, "feed": feed, "time": time, "pecks": pecks,
        "one withdrawal": peck.WITHDRAWAL_S},
)  # fmt: skip
FEED_FOR_TIME = replace(
    SPEED_FOR_TIME, key="feed", label="Feed for the time wanted", unit="mm/rev",
    shown=2, worked=3, name="", inputs=("quill_travel", "speed", "time"),
    formula="feed = 60 × quill travel ÷ (n × time)",
    symbols=(_TRAVEL, Symbol("n", "rpm", 0), _WANTED),
)  # fmt: skip
FEED_FOR_TIME_PECKED = replace(
    SPEED_FOR_TIME_PECKED, key="feed", label="Feed for the time wanted, pecked", unit="mm/rev",
    shown=2, worked=3, name="",
    inputs=("quill_travel", "speed", "time", "pecks"),
    formula="feed = 60 × quill travel ÷ (n × (time − (pecks − 1) × one withdrawal))",
    symbols=(_TRAVEL, Symbol("n", "rpm", 0), _WANTED, _PECKS, _OUT),
    numbers=lambda way, speed, time, pecks: {
        "quill travel": way, "n": speed, "time": time, "pecks": pecks,
        "one withdrawal": peck.WITHDRAWAL_S},
)  # fmt: skip
SOLVED = (SPEED_FOR_TIME, SPEED_FOR_TIME_PECKED, FEED_FOR_TIME, FEED_FOR_TIME_PECKED)
"""What a wanted time asks for, where speed or feed is not given."""
REAMED_STOP = replace(
    DEPTH_STOP,
    inputs=("depth", "overtravel"),
    run=lambda depth, beyond: depth + beyond,
    formula="stop = depth + overtravel",
    symbols=(Symbol("depth", "mm"), Symbol("overtravel", "mm")),
    limits="the reamer's lead is in neither: add it to the overtravel of a through hole, and keep "
    "it off the bottom of a blind one",
)
"""A reamer has no point; its lead cuts short of the size."""
