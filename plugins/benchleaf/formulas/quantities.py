"""Quantities as a shop writes them: text to numbers in one stated unit per kind.

The grammar: `8.5 mm`, `1/4 in`, `1-1/2 in`, `24 to 30 m/min`, `8.5 +0.1/-0 mm`, `8.5 +/-0.1 mm`.
A decimal comma is refused with the cure. The units are exact by definition: the inch, foot and
pound of the agreement of 1959, standard free fall, the horsepower of 550 foot-pounds a second
(NIST SP 811, 2008, appendix B). A test holds each against Pint, which takes too long to start.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from types import MappingProxyType

MM_PER_INCH = 25.4
"""Exact by the international yard and pound agreement of 1959."""


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of quantity: its name, the unit we reckon in, and the spellings a shop may write."""

    name: str
    base: str
    units: MappingProxyType[str, float]
    """Spelling as written -> how many base units one of it is."""
    example: str
    zero_allowed: bool = False


def _kind(
    name: str, base: str, example: str, units: dict[str, float], *, zero: bool = False
) -> Kind:
    return Kind(name, base, MappingProxyType(units), example, zero_allowed=zero)


_POUND_KG = 0.45359237
_FREE_FALL_M_S2 = 9.80665
_LBF_N = _POUND_KG * _FREE_FALL_M_S2
_FOOT_M = 0.3048

KINDS: MappingProxyType[str, Kind] = MappingProxyType(
    {
        kind.name: kind
        for kind in (
            _kind(
                "length",
                "mm",
                "8.5 mm",
                {"mm": 1, "in": MM_PER_INCH, "cm": 10, "m": 1000, "um": 0.001},
                zero=True,
            ),
            _kind(
                "cutting speed",
                "m/min",
                "24 to 30 m/min",
                {"m/min": 1, "ft/min": _FOOT_M, "m/s": 60},
            ),
            _kind("feed rate", "mm/min", "150 mm/min", {"mm/min": 1, "in/min": MM_PER_INCH}),
            _kind("feed", "mm/rev", "0.15 mm/rev", {"mm/rev": 1, "in/rev": MM_PER_INCH}),
            _kind("spindle speed", "rpm", "850 rpm", {"rpm": 1, "rev/min": 1, "rev/s": 60}),
            _kind("force", "N", "4 kN", {"N": 1, "kN": 1000, "lbf": _LBF_N, "kgf": 9.80665}),
            _kind(
                "torque",
                "N m",
                "12 N m",
                {"N m": 1, "lbf ft": _LBF_N * _FOOT_M, "lbf in": _LBF_N * MM_PER_INCH / 1000},
            ),
            _kind("power", "kW", "0.75 kW", {"kW": 1, "W": 0.001, "hp": 0.55 * _LBF_N * _FOOT_M}),
            _kind("angle", "deg", "118 deg", {"deg": 1}),
            _kind(
                "mass", "kg", "0.4 kg", {"kg": 1, "g": 0.001, "lb": _POUND_KG, "oz": _POUND_KG / 16}
            ),
            _kind("time", "s", "30 s", {"s": 1, "min": 60, "h": 3600}),
            _kind(
                "pressure",
                "kPa",
                "200 kPa",
                {"kPa": 1, "bar": 100, "psi": _LBF_N * 1000 / MM_PER_INCH**2, "MPa": 1000},
            ),
        )
    }
)
"""Every kind of quantity that content may hold, by name."""


class QuantityError(ValueError):
    """Text that is no quantity of the kind asked for. `cure` says what to write instead."""

    def __init__(self, problem: str, cure: str, *, unit_is_wrong: bool = False) -> None:
        super().__init__(problem)
        self.problem = problem
        self.cure = cure
        self.unit_is_wrong = unit_is_wrong


@dataclass(frozen=True, slots=True)
class Quantity:
    """A quantity or a range: `low` and `high` in the base unit of its kind, and as written."""

    kind: str
    low: float
    high: float
    text: str
    """As the engineer wrote it, spaces folded."""

    @property
    def unit(self) -> str:
        """The unit of `low` and `high`."""
        return KINDS[self.kind].base

    @property
    def is_range(self) -> bool:
        """True when two different ends were written."""
        return self.low != self.high

    @property
    def value(self) -> float:
        """The one value; a range has none and raises ValueError."""
        if self.is_range:
            raise ValueError(f"{self.text} is a range, not one value")
        return self.low


@dataclass(frozen=True, slots=True)
class Toleranced:
    """A size with its limits, all in mm: `8.5 +0.1/-0 mm` is 8.5, low 8.5, high 8.6."""

    nominal: float
    low: float
    high: float
    text: str


_NUMBER = r"(?:[0-9]+[ -][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
_UNIT = r"([^\W\d_].*|[°%\"″′'µμ].*)?"
_QUANTITY = re.compile(rf"^({_NUMBER})(?:\s*(?:to|-|–)\s*({_NUMBER}))?\s*{_UNIT}$")
_TOLERANCED = re.compile(
    rf"^({_NUMBER})\s*(?:(?:\+/-|±)\s*({_NUMBER})|\+\s*({_NUMBER})\s*/\s*-\s*({_NUMBER}))"
    rf"\s*{_UNIT}$"
)
_COMMA = re.compile(r"[0-9],[0-9]")
_THOUSANDS = re.compile(r"\d,\d{3}(?!\d)")
_MINUS = re.compile(r"^-\s*\d")


def parse_quantity(text: str, kind_name: str, *, range_allowed: bool = False) -> Quantity:
    """Read `text` as a quantity of the kind named.

    >>> parse_quantity("1-1/2 in", "length").value
    38.1
    >>> quantity = parse_quantity("24 to 30 m/min", "cutting speed", range_allowed=True)
    >>> quantity.low, quantity.high
    (24.0, 30.0)

    Raises QuantityError with the cure where the text is no such quantity.
    """
    kind = KINDS[kind_name]
    folded = " ".join(text.split())
    match = _QUANTITY.match(folded)
    if match is None:
        raise _not_understood(folded, kind)
    unit = _known_unit(match[3], folded, kind)
    low = _to_base(_number(match[1], folded, kind), unit, kind)
    high = _to_base(_number(match[2], folded, kind), unit, kind) if match[2] else low
    _check_ends(low, high, folded, kind, range_allowed=range_allowed)
    return Quantity(kind.name, low, high, folded)


def parse_toleranced(text: str) -> Toleranced:
    """Read a size with limits, such as `8.5 +0.1/-0 mm`; a range `8.5 to 8.6 mm` will do too.

    >>> size = parse_toleranced("8.5 +0.1/-0 mm")
    >>> size.low, size.high
    (8.5, 8.6)
    """
    kind = KINDS["length"]
    folded = " ".join(text.split())
    match = _TOLERANCED.match(folded)
    if match is None:
        return _from_range(folded)
    unit = _known_unit(match[5], folded, kind)
    nominal, up, down = (
        _to_base(_number(part, folded, kind), unit, kind)
        for part in (match[1], match[2] or match[3], match[2] or match[4])
    )
    if down >= nominal:
        raise QuantityError(f"'{folded}' reaches zero or below", "check the lower limit")
    return Toleranced(nominal, round(nominal - down, 9), round(nominal + up, 9), folded)


def inches(length_mm: float) -> float:
    """Length in inches from `length_mm` in mm."""
    return length_mm / MM_PER_INCH


def _is_other_kind(folded: str) -> bool:
    """True where the unit at its end is one of another kind, such as a torque."""
    units = {unit for kind in KINDS.values() for unit in kind.units if kind.name != "length"}
    return bool(re.search(rf"(?:{'|'.join(map(re.escape, units))}|Nm)$", folded))


_LIMITS = "write limits like '8.5 +0.1/-0 mm' or '8.5 to 8.6 mm'"


def _from_range(folded: str) -> Toleranced:
    try:
        size = parse_quantity(folded, "length", range_allowed=True)
    except QuantityError as error:
        cure = error.cure.partition("; write it like")[0]
        cure = f"{cure}; {_LIMITS}" if error.unit_is_wrong else _LIMITS
        if _COMMA.search(folded):
            cure = error.cure
        if "is no unit of" in error.problem and _is_other_kind(folded):
            cure = "limits hold a size: tell any other figure in words, under 'how'"
        raise QuantityError(error.problem, cure, unit_is_wrong=error.unit_is_wrong) from error
    if not size.is_range:
        raise QuantityError(f"'{folded}' has no limits", "write both limits, like '8.5 +0.1/-0 mm'")
    return Toleranced(size.low, size.low, size.high, folded)


def _number(text: str, whole: str, kind: Kind) -> float:
    parts = [part for part in re.split(r"[ -]", text) if part]
    try:
        return float(sum(_part(part) for part in parts))
    except ZeroDivisionError:
        problem = f"'{whole}' divides by zero"
    except (OverflowError, ValueError):  # more digits than any number here has
        problem = f"'{shortened(whole)}' is too large"
    raise QuantityError(problem, f"write it like '{kind.example}'")


def _part(text: str) -> float:
    top, slash, bottom = text.partition("/")
    return int(top) / int(bottom) if slash else float(text)


def _known_unit(written: str | None, whole: str, kind: Kind) -> str:
    allowed = ", ".join(kind.units)
    if not written:
        raise QuantityError(
            f"'{whole}' has no unit",
            f"{_a(kind)} needs one of: {allowed}; write it like '{kind.example}'",
            unit_is_wrong=True,
        )
    unit = written.strip().replace("·", " ")
    if unit in kind.units:
        return unit
    folded = {name.lower(): name for name in kind.units}
    near = folded.get(unit.lower()) or _HABITS.get(unit.lower())
    near = _POUNDS.get(kind.name) if unit.lower() in ("lb", "lbs", "pounds") else near
    hint = f"write '{near}'; " if near in kind.units else ""
    raise QuantityError(
        f"'{shortened(whole)}' has the unit '{shortened(unit)}', which is no unit of {kind.name}",
        f"{hint}{_a(kind)} needs one of: {allowed}",
        unit_is_wrong=True,
    )


def _a(kind: Kind) -> str:
    return f"{'an' if kind.name[0] in 'aeiou' else 'a'} {kind.name}"


_POUNDS = MappingProxyType({"force": "lbf", "mass": "lb"})
_HABITS = MappingProxyType(
    {
        "inch": "in",
        "ft-lb": "lbf ft",
        "ft-lbs": "lbf ft",
        "ft lb": "lbf ft",
        "in-lb": "lbf in",
        "in-lbs": "lbf in",
        "sfpm": "ft/min",
        "inches": "in",
        "millimetre": "mm",
        "millimetres": "mm",
        "mm.": "mm",
        "sfm": "ft/min",
        "fpm": "ft/min",
        "r/min": "rpm",
        "rpm.": "rpm",
        "ipr": "in/rev",
        "nm": "N m",
        "n.m": "N m",
        "degrees": "deg",
        "degree": "deg",
        "°": "deg",
        '"': "in",
        "″": "in",
        "''": "in",
        "µm": "um",
        "μm": "um",
        "micron": "um",
        "microns": "um",
        "newton": "N",
        "watts": "W",
        "sec": "s",
        "seconds": "s",
        "minutes": "min",
    }
)
"""Spellings people use, and the one this manual takes."""


def _to_base(number: float, unit: str, kind: Kind) -> float:
    if unit == kind.base:
        return number
    # Twelve digits: enough for any gauge, and 0.1 in stays 2.54 mm exactly.
    return float(f"{number * kind.units[unit]:.12g}")


def _check_ends(low: float, high: float, whole: str, kind: Kind, *, range_allowed: bool) -> None:
    if not (math.isfinite(low) and math.isfinite(high)):
        raise QuantityError(f"'{whole}' is too large", f"write it like '{kind.example}'")
    if high < low:
        raise QuantityError(f"'{whole}' runs backwards", "write the smaller end first")
    if low != high and not range_allowed:
        raise QuantityError(f"'{whole}' is a range", f"one value is wanted, like '{kind.example}'")
    if low == 0 and not kind.zero_allowed:
        raise QuantityError(f"'{whole}' is zero", f"{_a(kind)} is above zero")


def shortened(text: str, most: int = 60) -> str:
    """`text` for a message: one line, cut where it is very long."""
    folded = " ".join(text.split())
    return folded if len(folded) <= most else f"{folded[:most]}…"


def _comma_cure(folded: str) -> str:
    cure = f"write the decimal mark as a point: '{folded.replace(',', '.')}'"
    if _THOUSANDS.search(folded):
        return f"{cure}; if thousands are meant, write '{folded.replace(',', '')}'"
    return cure


def _not_understood(folded: str, kind: Kind) -> QuantityError:
    if _COMMA.search(folded):
        return QuantityError(f"'{folded}' has a comma in its number", _comma_cure(folded))
    if _MINUS.match(folded):
        return QuantityError(f"'{folded}' is below zero", f"{_a(kind)} is never negative")
    return QuantityError(f"'{folded}' is no {kind.name}", f"write it like '{kind.example}'")


def in_unit(value: float, kind_name: str, unit: str) -> float:
    """`value`, in the base unit of its kind, told in another unit of that kind.

    >>> in_unit(25.4, "length", "in")
    1.0
    """
    return value if unit == KINDS[kind_name].base else value / KINDS[kind_name].units[unit]
