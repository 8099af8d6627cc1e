"""What is wrong with a printed working: formula, numbers put in, result, unit and figure shown.

Nothing here asks the product how to print or to read arithmetic. Each problem is one line.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Protocol

from oracles.arithmetic import NUMBER, value_of, word
from oracles.units import converted

UNITS = {
    "spindle_speed": "rpm", "spindle_speed_range": "rpm", "cutting_speed": "m/min",
    "cutting_speed_range": "m/min", "feed": "mm/rev", "feed_rate": "mm/min",
    "seconds_for_10_mm": "s", "removal_rate": "mm3/min", "saddle": "mm", "exit_saddle": "mm",
    "depth": "mm", "point_length": "mm", "depth_stop": "mm", "quill_travel": "mm", "time": "s",
    "depth_ratio": "times", "deep_hole": "%", "pecks": "pecks", "first_peck": "mm", "pilot": "mm",
    "thrust": "N", "torque": "N m", "cutter_power": "kW", "motor_power": "kW",
    "travel_per_turn": "mm", "travel_per_quarter": "mm", "lever_force": "N", "life": "min",
    "holes_between_grinds": "holes", "ease_off": "mm", "lips_left": "mm", "eased_travel": "mm",
    "ease_to": "% of the pull", "kept_feed": "mm/rev", "kept_torque": "times the torque",
    "swing": "° of lever", "capacity": "N m", "stop_capacity": "N m", "holding": "N m",
    "held_down": "N", "pull_up": "N",
    "wanted": "N m", "ratio": "times", "stop_ratio": "times", "limits": "mm", "hole_limits": "mm",
    "go": "mm", "not_go": "mm", "clearance": "mm", "position": "mm", "hole_before": "mm",
    "mouth": "mm", "sink_depth": "mm", "diameter": "mm", "bore_diameter": "mm",
    "bore_pilot": "mm", "bore_depth": "mm", "hole_in_lists": "mm", "pitch": "mm",
    "minor_limits": "mm", "hole_wanted": "mm", "percent": "%", "tap_drill": "mm",
    "chart_drill": "mm",
    "drilled_depth": "mm", "turns": "turns", "back_off": "turn forward", "first": "s",
    "learning_percent": "%", "scatter": "%", "piece_time": "min", "piece_band": "min",
    "hours_to_piece": "h", "pieces_to_standard": "pieces", "hours_to_standard": "h",
    "mean_first": "s", "mean_percent": "%", "mean_time": "min", "mean_model_piece_time": "min",
    "mean_model_pieces": "pieces", "mean_model_hours": "h", "basic": "s", "standard": "s",
    "exit_torque": "N m", "exit_at_feed": "N m", "feed_stop_torque": "N m",
    "dull_torque": "N m", "torque_limit": "times", "lips": "N", "thinner": "times",
    "kept": "times the lips' thrust", "second": "N m",
    "worst": "times", "hold": "times", "ratio_at_worst": "times",
    "exit_ratio_at_worst": "times", "stopped_ratio_at_worst": "times",
    "stop_exit_ratio_at_worst": "times", "stop_ratio_at_worst": "times",
    "feed_by_holding": "mm/rev", "feed_by_exit": "mm/rev",
    "feed_by_power": "mm/rev", "feed_by_thrust": "mm/rev", "feed_by_tool": "mm/rev",
    "most_feed": "mm/rev", "most_feed_set": "mm/rev", "exit_ratio": "times",
    "stop_exit_ratio": "times",
    "stopped_ratio": "times", "motor_ratio": "times", "thrust_ratio": "times",
    "clamp_needed": "N", "clamp_at_exit": "N", "stop_needed": "N", "most_torque": "N m",
    "friction": "times", "exponent": "times", "c": "m/min",
    "an_hour": "pieces", "working": "h", "a_shift": "pieces",
}  # fmt: skip
"""The unit that each figure is told in."""

INWARD = {"cutting_speed_range", "spindle_speed_range"}
"""Ranges whose shown ends lie inside them."""

ROUNDED = {
    "rounded down": lambda value: math.floor(round(value, 9)),
    "rounded down to 0.1 N m": lambda value: math.floor(round(value / 0.1, 6)) * 0.1,
    "up to the next 100 N": lambda value: math.ceil(round(value / 100, 9)) * 100,
    "and 1.27 mm/rev at most": lambda value: min(value, 1.27),
    "1 at least": lambda value: max(value, 1.0),
    "up to a whole piece": lambda value: math.ceil(round(value, 9)),
    "up to the next 0.5 mm": lambda value: math.ceil(round(value / 0.5, 9)) * 0.5,
}
"""Words after a formula, and what they do."""

MADE = "then a drill that exists"

LOOKED_UP = {
    "from the table of the work material",
    "the fastest speed of the machine inside the range; if none lies inside, the fastest one "
    "below it, because slower is the safe side",
    "the slowest speed of the machine inside the range, because sources disagree on the range",
    "entered by the engineer",
    "as entered",
    "by table",
    "share of the published cutting speed, by depth ÷ diameter",
    "first 2 diameters, then each half of the one before, half a diameter at least",
    "first 2 diameters, then each half of the one before, half a diameter at least; none once "
    "the point is through",
    "2 diameters, or the whole depth where no pecking is needed",
    "the least of the feeds above, rounded down to 0.01 mm/rev",
    "the coarsest feed of the machine that is no coarser than the least of the feeds above",
    "rule of the trade",
    "least squares: ln T = ln T1 + b ln n",
    "least squares: ln mean(n) = ln T1 + b ln n",
    "standard deviation of ln T about the line",
    "T1 + T2 + ... + Tn",
    "first n whose time is no longer",
    "sum of time × how often",
}
"""Every formula that is no arithmetic: a table, a rule or a fit, each tested by itself."""

_LINE = re.compile(rf"^(.*) = (−?{NUMBER}) (.+?)$")


class Sum(Protocol):
    """A formula with its numbers put in."""

    @property
    def formula(self) -> str: ...
    @property
    def numbers(self) -> tuple[tuple[str, float], ...]: ...
    @property
    def value(self) -> float: ...
    @property
    def text(self) -> str: ...


class Figure(Protocol):
    """A value as it is shown."""

    @property
    def low(self) -> float: ...
    @property
    def high(self) -> float: ...
    @property
    def unit(self) -> str: ...
    @property
    def decimals(self) -> int: ...
    @property
    def text(self) -> str: ...


def same(one: float, other: float) -> bool:
    """Equal but for the noise of doubles."""
    return math.isclose(one, other, rel_tol=1e-9, abs_tol=1e-9)


def digits(printed: str) -> int:
    """Digits after the point."""
    return len(printed.partition(".")[2])


def fits_printed(value: float, printed: str) -> bool:
    """Whether a value rounds to what is printed."""
    return abs(value - float(printed.replace("−", "-"))) <= 0.5 * 10.0 ** -digits(printed) + 1e-9


def split(formula: str) -> tuple[str, str]:
    """The arithmetic of a formula, and the words after it."""
    name, sign, rest = formula.partition(" = ")
    if not sign or not name.strip():
        raise ValueError(f"'{formula}' names nothing that it gives")
    arithmetic, _, words = rest.partition(", ")
    return arithmetic, words


def rounded(value: float, words: str) -> float:
    """The value after the words of its formula."""
    if words in ("", MADE):
        return value
    if words not in ROUNDED:
        raise ValueError(f"nobody knows how to go on: '{words}'")
    return float(ROUNDED[words](value))


def sum_problems(one: Sum) -> Iterator[str]:
    """What is wrong with one sum by itself."""
    try:
        arithmetic, words = split(one.formula)
        found = value_of(arithmetic, dict(one.numbers))
        if not same(rounded(found, words), one.value):
            yield f"{one.formula} gives {found}, and {one.value} was reckoned"
        yield from _printed(one, arithmetic, words)
    except (ValueError, ArithmeticError) as error:
        yield f"{one.formula}: {error}"


def _printed(one: Sum, arithmetic: str, words: str) -> Iterator[str]:
    """The numbers put in, against the formula and against the result."""
    line = one.text
    if words:
        if not line.endswith(f", {words}"):
            yield f"'{line}' leaves out '{words}'"
            return
        line = line.removesuffix(f", {words}")
    found = _LINE.match(line)
    if not found:
        yield f"'{line}' shows no result with its unit"
        return
    put_in, result, _ = found.groups()
    captured = _put_in(arithmetic, dict(one.numbers)).search(put_in)
    if not captured:
        yield f"'{put_in}' is not '{arithmetic}' with numbers"
        return
    bare = put_in[captured.start() :]
    if not fits_printed(value_of(bare), result):
        yield f"'{bare}' is {value_of(bare)}, and {result} is printed"
    for name, text in zip(_order(arithmetic, dict(one.numbers)), captured.groups(), strict=True):
        if not fits_printed(dict(one.numbers)[name], text):
            yield f"{name} is {dict(one.numbers)[name]}, and {text} is put in"


def _order(arithmetic: str, numbers: Mapping[str, float]) -> list[str]:
    """The symbols as they come in the formula."""
    longest = sorted(numbers, key=len, reverse=True)
    return re.findall("|".join(word(name) for name in longest), arithmetic) if longest else []


def _put_in(arithmetic: str, numbers: Mapping[str, float]) -> re.Pattern[str]:
    """The formula as a pattern: each symbol is any number, all else stands as it is."""
    order = _order(arithmetic, numbers)
    if set(order) != set(numbers):
        raise ValueError(f"'{arithmetic}' does not use {set(numbers) - set(order)}")
    longest = sorted(numbers, key=len, reverse=True)
    parts = re.split("|".join(word(name) for name in longest), arithmetic)
    number = rf"\(?(−?{NUMBER})°?\)?"
    pattern = number.join(re.escape(part) for part in parts)
    return re.compile(rf"{pattern}$")


def unit_of(one: Sum) -> str:
    """The unit that a sum is printed with."""
    _, words = split(one.formula)
    found = _LINE.match(one.text.removesuffix(f", {words}") if words else one.text)
    return found.group(3) if found else ""


def figure_problems(key: str, shown: Figure, sums: Sequence[Sum]) -> Iterator[str]:
    """The figure shown against its arithmetic."""
    key = key.removesuffix("_far_wall")
    wanted = UNITS.get(key)
    if shown.unit != wanted:
        yield f"{key} is told in {shown.unit}, and {wanted} is its unit"
    for one in sums:
        if unit_of(one) != wanted:
            yield f"'{one.text}' ends in another unit than {wanted}"
    if sums[0].formula.endswith(MADE):
        if not math.isclose(shown.low, sums[0].value, abs_tol=0.3):
            yield f"{shown.text} is no drill for a hole of {sums[0].value}"
        return
    values = sorted(one.value for one in sums)
    ends = (values[0], values[-1]) if len(values) == 2 and key != "holding" else (values[-1],) * 2
    for end, value, up in ((shown.low, ends[0], True), (shown.high, ends[1], False)):
        if key in RESIST:
            step = 10.0 ** (math.floor(math.log10(value)) - 1)
            if not value - step < end <= value * (1 + 1e-9):
                yield f"{key} is {value}, and {shown.text} is shown"
        elif not _shown(end, value, shown, inward_up=up if key in INWARD else None):
            yield f"{key} is {value}, and {shown.text} is shown"


RESIST = frozenset({"holding", "held_down", "capacity", "stop_capacity"})
"""What resists: it is shown rounded down, and never better than it is."""


def _shown(end: float, value: float, shown: Figure, inward_up: bool | None) -> bool:
    step = 10.0**-shown.decimals
    if inward_up is not None:
        inside = (value - 1e-9 <= end <= value + step) if inward_up else (
            value - step <= end <= value + 1e-9)  # fmt: skip
        return inside or (shown.low == shown.high and abs(end - value) <= step)
    if shown.unit in ("N", "N m", "lbf", "lbf in", "kgf") and value:  # two significant digits
        step = 10.0 ** (math.floor(math.log10(abs(value))) - 1)
    return abs(end - value) <= step / 2 * (1 + 1e-9) + 1e-9


def other_problems(
    shown: Figure, other: Figure | None, values: Sequence[float], *, is_down: bool = False
) -> Iterator[str]:
    """The same figure in the other unit, by pint; `values` are those reckoned."""
    if other is None:
        return
    if other.unit in ("threads an inch",):
        if not same(25.4 / values[0], round(25.4 / values[0])) or round(25.4 / values[0]) != (
            other.low
        ):
            yield f"{other.text} is no pitch of {values[0]} mm"
        return
    for end, mine, value in zip(
        (other.low, other.high), (shown.low, shown.high), (min(values), max(values)), strict=True
    ):
        both = [converted(one, shown.unit, other.unit) for one in (mine, value)]
        step = 10.0**-other.decimals
        if shown.unit in ("N", "N m"):
            step = 10.0 ** (math.floor(math.log10(abs(both[1]))) - 1)
        if min(abs(end - one) for one in both) > step * (
            1.01 if shown.low != shown.high or is_down else 0.501
        ):
            yield f"{shown.text} is {both[0]} {other.unit}, and {other.text} is shown"
