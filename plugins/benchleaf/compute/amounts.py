"""How a quantity becomes text: in the shop's units first, and never allowing more than is true.

A sentence of the reckoning holds an amount as a mark, since the order of units is known only
where the sentence is told: `amount(6.0, "mm", 1)` is a mark, `told(text, units)` gives the words.
Rows hold figures; `in_inches` makes the one that an inch shop reads first.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import NamedTuple

from benchleaf.formulas import drill_sizes
from benchleaf.formulas.quantities import KINDS, Quantity, Toleranced, inches
from benchleaf.formulas.rounding import Direction, significant, to_step
from benchleaf.formulas.unit_order import Units

from .results import Figure, rough

_UM_PER_THOU = 25.4


class Way(NamedTuple):
    """How an inch shop tells a metric unit."""

    unit: str
    each: float
    """How many of the metric unit one of it is."""
    more: int
    """Digits after the point beyond those of the metric figure."""
    least: int
    most: int
    """Digits after the point at least, and at most."""


def _way(kind: str, unit: str, more: int, least: int, most: int) -> Way:
    return Way(unit, KINDS[kind].units[unit], more, least, most)


WAYS: Mapping[str, Way] = MappingProxyType(
    {
        "mm": _way("length", "in", 2, 2, 4),
        "mm/rev": _way("feed", "in/rev", 2, 3, 4),
        "mm/min": _way("feed rate", "in/min", 1, 1, 2),
        "m/min": _way("cutting speed", "ft/min", -1, 0, 1),
        "N": _way("force", "lbf", 0, 0, 2),
        "N m": _way("torque", "lbf in", -1, 0, 2),
        "kW": _way("power", "hp", 0, 2, 3),
        "kg": _way("mass", "lb", 0, 1, 3),
        "kPa": _way("pressure", "psi", 0, 0, 1),
        "kN": Way("lbf", KINDS["force"].units["lbf"] / 1000, -3, 0, 0),
        "mm3/min": Way("in3/min", KINDS["length"].units["in"] ** 3, 2, 2, 3),
        "µm": Way("thou", _UM_PER_THOU, 1, 1, 2),
    }
)
"""Metric unit -> how an inch shop tells it; a unit that is not here is the same in both."""

SHOP_DIGITS = MappingProxyType({"in": 3, "in/rev": 3})
"""A fourth digit that is nothing at all is left out: 0.257 in, 0.005 in/rev."""


def in_inches(
    low: float, high: float, unit: str, decimals: int, toward: Direction = "nearest"
) -> Figure | None:
    """A metric value as an inch shop tells it; None for a unit that is the same in both.

    A range is rounded inward, so that no end shown lies outside it. `decimals` are those of the
    metric figure; -2 stands for two significant digits.

    >>> in_inches(6.5278, 6.5278, "mm", 2).text
    '0.257 in'
    >>> in_inches(24, 30, "m/min", 1).text
    '79 to 98 ft/min'
    """
    way = WAYS.get(unit)
    if way is None:
        return None
    ends = low / way.each, high / way.each
    if decimals < 0:
        return _rough_in_inches(ends[1], way.unit, -decimals, toward)
    digits = _digits(way, decimals, ends)
    ways: tuple[Direction, Direction] = (toward, toward) if low == high else ("up", "down")
    for digit in range(digits, digits + _FINER):
        shown = _stepped(ends, digit, ways)
        if shown[0] <= shown[1]:
            break  # else narrower than a step: another digit tells the ends apart
    else:
        digit, shown = digits, _stepped(ends, digits, ("nearest", "nearest"))
    return Figure(*shown, way.unit, _without_idle(shown, way.unit, digit))


_FINER = 9
"""So many more digits are tried at most to tell the ends of a narrow range apart."""


def _stepped(
    ends: tuple[float, float], digits: int, ways: tuple[Direction, Direction]
) -> tuple[float, float]:
    step = 10.0**-digits
    low, high = (to_step(end, step, direction=one) for end, one in zip(ends, ways, strict=True))
    return low, high


def _digits(way: Way, decimals: int, ends: tuple[float, float]) -> int:
    """Digits after the point: as many as the metric figure has, two significant at least."""
    digits = min(max(decimals + way.more, way.least), way.most)
    small = min((abs(end) for end in ends if end), default=1.0)
    wanted = 1 - math.floor(math.log10(small)) if small < 10 else 0
    return max(digits, wanted)


def _without_idle(shown: tuple[float, ...], unit: str, digits: int) -> int:
    least = SHOP_DIGITS.get(unit, digits)
    while digits > least and all(round(end, digits - 1) == round(end, digits) for end in shown):
        digits -= 1
    return digits


def _rough_in_inches(value: float, unit: str, digits: int, toward: Direction) -> Figure:
    """The same with the digits of a small value, too: 0.056 hp, not 0.06."""
    shown = rough(value, unit, digits, toward=toward)
    before = math.floor(math.log10(abs(shown.low))) + 1 if shown.low else 0
    return replace(shown, decimals=max(0, digits - before))


def first(
    low: float, high: float, unit: str, decimals: int, units: Units, toward: Direction = "nearest"
) -> Figure:
    """A metric value in the units that stand first; a range in inches is rounded inward."""
    inch = in_inches(low, high, unit, decimals, toward) if units is Units.INCH else None
    if inch is not None:
        return inch
    if decimals < 0:
        return rough(high, unit, -decimals)
    return Figure(round(low, decimals), round(high, decimals), unit, decimals)


_BEGIN, _PART, _END = "\ue000", "\ue001", "\ue002"
"""Signs of the private area, which no keyboard has; whatever else holds one stays as it is."""
_MARK = re.compile(
    f"{_BEGIN}([-+.e0-9;]+){_PART}([-+.e0-9;]+){_PART}([^{_PART}{_END}]+){_PART}(-?[0-9]|[gs]){_PART}"
    f"(nearest|down|up){_PART}([^{_PART}{_END}]*){_END}"
)
_AS_IT_IS, _SAFE = "g", "s"
"""In place of digits: a size with no idle zeros; two digits on the safe side in either unit."""


def amount(
    value: float, unit: str, decimals: int | None = None, toward: Direction = "nearest"
) -> str:
    """A mark for one value in a sentence. Left out, `decimals` are those that the value has.

    `toward` says on which side a limit is rounded in inches: a greatest one down.
    """
    return span(value, value, unit, decimals, toward)


def span(
    low: float,
    high: float,
    unit: str,
    decimals: int | None = None,
    toward: Direction = "nearest",
) -> str:
    """A mark for a range in a sentence."""
    digits = _AS_IT_IS if decimals is None else str(decimals)
    return _marked(low, high, unit, digits, toward)


def listed(values: Sequence[float], unit: str, decimals: int) -> str:
    """A mark for several values with one unit after the last, such as `2.4, 4.8 mm`."""
    each = ";".join(repr(float(one)) for one in values)
    return each and f"{_BEGIN}{_PART.join((each, each, unit, str(decimals), 'nearest', ''))}{_END}"


def safe(value: float, unit: str, toward: Direction) -> str:
    """A mark for two digits on the safe side in either unit: a load up, what resists down."""
    return _marked(value, value, unit, _SAFE, toward)


def _marked(
    low: float, high: float, unit: str, digits: str, toward: Direction, written: str = ""
) -> str:
    parts = (repr(float(low)), repr(float(high)), unit, digits, toward, written)
    return f"{_BEGIN}{_PART.join(parts)}{_END}"


def entered(size: Quantity | Toleranced, toward: Direction = "nearest") -> str:
    """A mark for a quantity of a record: it is told as it was written, or in inches first."""
    unit = size.unit if isinstance(size, Quantity) else "mm"
    return _marked(size.low, size.high, unit, _AS_IT_IS, toward, size.text)


def as_said(low: float, high: float, unit: str, text: str) -> str:
    """A mark for a range that has its own words; in inches they stand second, in brackets."""
    return _marked(low, high, unit, _AS_IT_IS, "nearest", text) if unit in WAYS else text


def told(text: str, units: Units) -> str:
    """A sentence with its amounts in words.

    >>> told(f"the point is {amount(2.4, 'mm', 1)} long", Units.INCH)
    'the point is 0.094 in long'
    """
    return _MARK.sub(lambda found: _told(found, units), text) if has_amounts(text) else text


def has_amounts(text: str) -> bool:
    """True where marks stand in it."""
    return _BEGIN in text


def in_both(size_mm: float, units: Units) -> str:
    """A diameter in both units, such as `6.53 mm, 0.2570 in`; in an inch shop inches first."""
    if units is Units.METRIC:
        return f"{size_mm:.2f} mm, {inches(size_mm):.4f} in"
    return f"{first(size_mm, size_mm, 'mm', 2, units).text}, {size_mm:.2f} mm"


def told_entered(size: Quantity | Toleranced, units: Units, toward: Direction = "nearest") -> str:
    """A quantity of a record in words: as written, in an inch shop with inches first."""
    return told(entered(size, toward), units)


def _told(mark: re.Match[str], units: Units) -> str:
    unit, digits, written = mark[3], mark[4], mark[6]
    if ";" in mark[1]:
        figures = [
            first(float(one), float(one), unit, int(digits), units) for one in mark[1].split(";")
        ]
        return ", ".join((*(one.number for one in figures[:-1]), figures[-1].text))
    low, high, toward = float(mark[1]), float(mark[2]), _DIRECTIONS[mark[5]]
    if written:
        return written if units is Units.METRIC else _inches_first(low, high, unit, written, toward)
    decimals = {_AS_IT_IS: 2, _SAFE: -2}.get(digits)
    decimals = int(digits) if decimals is None else decimals
    inch = in_inches(low, high, unit, decimals, toward) if units is Units.INCH else None
    if inch is not None:
        return inch.text
    if decimals < 0:
        side: Direction = toward if digits == _SAFE else "nearest"
        return rough(high, unit, -decimals, toward=side).text
    if digits == _AS_IT_IS:
        words = [f"{end:g}" for end in (low, high)]
    else:
        words = [f"{end:.{digits}f}" for end in (low, high)]
    return f"{words[0]} {unit}" if low == high else f"{words[0]} to {words[1]} {unit}"


_DIRECTIONS: Mapping[str, Direction] = MappingProxyType(
    {"nearest": "nearest", "down": "down", "up": "up"}
)


def _inches_first(low: float, high: float, unit: str, written: str, toward: Direction) -> str:
    """A size as an inch shop reads it; one written in mm stands in brackets as it was written."""
    if was_written_in_inches(written):
        return written
    inch = in_inches(low, high, unit, _decimals_of(low, high, unit), toward)
    return f"{inch.text} ({written})" if inch is not None else written


def was_written_in_inches(text: str) -> bool:
    """True for inches, feet, pounds and horsepower, and for a drill by its name."""
    return drill_sizes.is_known(text) or text.rpartition(" ")[2] in _OF_INCHES


_OF_INCHES = frozenset(("in", "ft", "ft/min", "in/min", "in/rev", "lbf", "hp", "lb", "oz", "psi"))
"""The last word of a quantity that an inch shop wrote."""


def _decimals_of(low: float, high: float, unit: str) -> int:
    """Digits after the point that the written value has in its base unit; limits have all."""
    if unit == "mm" and low != high:
        return 2
    digits = max(len(f"{significant(end, 6):g}".partition(".")[2]) for end in (low, high))
    return max(digits, 1) if unit == "mm" else digits
