"""Reckons an operation from what was given: all that follows, and what is missing for the rest."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from benchleaf.formulas import clearance_holes, drill_sizes, fits
from benchleaf.formulas.learning_curve import MOST_PIECES, PERCENT_RANGE
from benchleaf.formulas.quantities import KINDS, QuantityError, in_unit, parse_quantity
from benchleaf.formulas.rounding import shown
from benchleaf.formulas.threads import thread

from .declaration import Declaration, ends, working
from .operation import Elements, Given, Input, Observed, Operation
from .operations import OPERATIONS
from .results import Figure, Sum, rough
from .sheet import cited

_OTHER_UNITS = {
    "mm": ("length", "in", 2),
    "m/min": ("cutting speed", "ft/min", -1),
    "N": ("force", "lbf", 0),
    "N m": ("torque", "lbf in", 0),
    "kW": ("power", "hp", 0),
}
"""Kind, the other unit, and how many more decimals it takes to lose nothing and feign nothing."""
_INSTEAD = (
    ("speed", "cutting_speed"),
    ("mouth", "head"),
    ("observed", "first"),
    ("observed", "learning_percent"),
    ("observed", "mean_percent"),
    ("elements", "basic"),
)
_PERCENT = (40.0, 100.0)
"""Percentages of thread that anybody wants; a share such as 0.75 is a slip."""
_DRILL_MM = (0.1, 100.0)


class InputError(ValueError):
    """Something given that cannot be taken; `cure` says what to give instead."""

    def __init__(self, problem: str, cure: str) -> None:
        super().__init__(problem)
        self.problem = problem
        self.cure = cure


@dataclass(frozen=True, slots=True)
class Result:
    """One quantity reckoned, with its working."""

    declared: Declaration
    key: str
    label: str
    low: float
    high: float
    """The same as `low` where it is no range; neither is rounded."""
    figure: Figure
    other: Figure | None
    formula: str
    working: str
    source: str
    limits: str
    is_broken: bool = False
    """True where the value is outside its limits: do not run."""
    sums: tuple[Sum, ...] = ()
    """The arithmetic of the working, one for each end of a range."""
    looked_up: str = ""
    """Why the working is no arithmetic: the table or rule that it comes from."""
    doubt: str = ""
    """What somebody should look at before it is used."""
    note: str = ""
    """How good it is, and what else belongs to it."""


@dataclass(frozen=True, slots=True)
class NotComputed:
    """A quantity that cannot be had, and why."""

    key: str
    label: str
    why: str


@dataclass(frozen=True, slots=True)
class Reckoning:
    """All that follows from what was given."""

    operation: str
    given: Mapping[str, str]
    results: tuple[Result, ...]
    not_computed: tuple[NotComputed, ...]

    @property
    def within_limits(self) -> bool:
        """False where a result says do not run."""
        return not any(one.is_broken for one in self.results)


def reckon(operation: Operation, given: Mapping[str, str]) -> Reckoning:
    """Reckon from texts such as `7/8 in`; raises InputError for what cannot be taken."""
    values = {name: _value(operation, name, text) for name, text in given.items()}
    _not_both(values)
    for name in operation.zero_unless_given:
        values.setdefault(name, 0.0)
    results: dict[str, Result] = {}
    failed: dict[str, NotComputed] = {}
    while _one_round(operation, values, results, failed):
        pass
    missing = _missing(operation, values, results, failed)
    return Reckoning(operation.name, dict(given), tuple(results.values()), missing)


def _not_both(values: Mapping[str, Given]) -> None:
    """Two ways to say one thing may contradict one another."""
    for one, other in _INSTEAD:
        if one in values and other in values:
            raise InputError(f"{one} and {other} are both given", "give one of them")


def _one_round(
    operation: Operation,
    values: dict[str, Given],
    results: dict[str, Result],
    failed: dict[str, NotComputed],
) -> bool:
    """Every figure that can go and has not; True when one did."""
    went = False
    for one in operation.figures:
        name = one.asked_as
        known = all(needed in values for needed in one.inputs)
        if not known or name in values or name in failed:
            continue
        try:
            results[name] = _result(one, values)
        except ValueError as error:
            failed[name] = NotComputed(name, one.label, str(error))
            continue
        values[name] = results[name].low
        went = True
    return went


def _result(one: Declaration, values: Mapping[str, Given]) -> Result:
    inputs = [values[name] for name in one.inputs]
    worked = one.work(*inputs, digits=one.asked_digits)
    low, high = (float(end) for end in ends(worked.value))
    figure, sums = _figure(one, low, high), worked.sums
    put_in = ", ".join(
        f"{name} {_told(each)}" for name, each in zip(one.inputs, inputs, strict=True)
    )
    return Result(
        one,
        one.asked_as,
        one.label,
        low,
        high,
        figure,
        _other(one, low, high),
        one.formula,
        working(sums) if sums else f"{put_in}: {figure.text}",
        cited(*one.sources),
        one.limits,
        _breaks(one, low, high),
        sums,
        one.looked_up,
        one.doubt(*inputs) if one.doubt else "",
        one.note_of(*inputs),
    )


def _breaks(one: Declaration, low: float, high: float) -> bool:
    too_little = one.least is not None and low < one.least
    return too_little or (one.most is not None and high > one.most)


def _told(value: Given) -> str:
    if isinstance(value, float):
        return shown(value, 6)
    return value if isinstance(value, str) else value.name


def _figure(one: Declaration, low: float, high: float) -> Figure:
    digits = one.asked_digits
    if digits < 0:
        return rough(low, one.unit, -digits)
    return Figure(round(low, digits), round(high, digits), one.unit, digits)


def _other(one: Declaration, low: float, high: float) -> Figure | None:
    """The same in the other unit, rounded from the same value and no finer."""
    if one.unit not in _OTHER_UNITS:
        return None
    kind, unit, more = _OTHER_UNITS[one.unit]
    if one.asked_digits < 0:
        return rough(in_unit(low, kind, unit), unit, -one.asked_digits)
    decimals = one.asked_digits + more
    least, most = (round(in_unit(end, kind, unit), decimals) for end in (low, high))
    return Figure(least, most, unit, decimals)


def _missing(
    operation: Operation,
    values: Mapping[str, Given],
    results: Mapping[str, Result],
    failed: Mapping[str, NotComputed],
) -> tuple[NotComputed, ...]:
    """What could not be had: for want of an input, or outside what a formula covers."""
    left: dict[str, NotComputed] = dict(failed)
    for one in operation.figures:
        if one.asked_as in values or one.asked_as in left:
            continue
        wanted = [name for name in one.inputs if name not in values]
        why = f"give {', '.join(wanted)}"
        left[one.asked_as] = NotComputed(one.asked_as, one.label, why)
    return tuple(left.values())


def _value(operation: Operation, name: str, text: str) -> Given:
    known = operation.inputs.get(name)
    if known is None:
        raise InputError(f"'{name}' is no input of {operation.name}", "")
    return _read(name, known, text, zero=name in operation.zero_unless_given)


def _read(name: str, known: Input, text: str, *, zero: bool) -> Given:
    try:
        reader = _READERS.get(known.kind)
        return reader(text) if reader else _quantity(known.kind, text, zero=zero)
    except QuantityError as error:
        raise InputError(f"{name}: {error.problem}", error.cure) from error
    except ValueError as error:
        raise InputError(f"{name}: '{text}' cannot be taken", str(error)) from error


def _quantity(kind: str, text: str, *, zero: bool = False) -> float:
    value = parse_quantity(text, kind).value
    if value == 0 and not zero:
        raise QuantityError(f"'{text}' is zero", f"a {KINDS[kind].name} is above zero here")
    return value


def _drill(text: str) -> float:
    if drill_sizes.is_known(text):
        return drill_sizes.diameter_mm(text)
    value = _quantity("length", text)
    if not _DRILL_MM[0] <= value <= _DRILL_MM[1]:
        raise QuantityError(f"'{text}' is no size of a drill", "0.1 mm to 100 mm")
    return value


def _class(text: str) -> str:
    fits.limits(text, 20.0)
    return text


def _error(text: str) -> float:
    """How far off: to which side does not matter, and nothing is as good as anything."""
    return _quantity("length", text.strip().lstrip("+-−"), zero=True)


def _series(text: str) -> str:
    if text not in clearance_holes.HOLE_SERIES:
        raise ValueError(f"write one of {', '.join(clearance_holes.HOLE_SERIES)}")
    return text


def _percent(text: str) -> float:
    low, high = _PERCENT
    value = _number(text.removesuffix("%").strip())
    if not low <= value <= high:
        raise QuantityError(
            f"'{text}' is no percentage of thread", f"write {low:g} to {high:g}, such as 75"
        )
    return value


def _number_within(low: float, high: float, cure: str) -> Callable[[str], float]:
    def read(text: str) -> float:
        bare = text.removesuffix("%").strip()
        value = 0.0 if bare == "0" else _number(bare)
        if not low <= value <= high:
            raise ValueError(cure)
        return value

    return read


def _count(text: str) -> float:
    if not text.isascii() or not text.isdigit() or not 1 <= int(text) <= MOST_PIECES:
        raise ValueError(f"write a whole number from 1 to {MOST_PIECES}")
    return float(text)


def _observed(text: str) -> Observed:
    """`1: 5 min, 3: 4 min`."""
    pairs = [part.partition(":") for part in text.split(",")]
    if not all(sign for _, sign, _ in pairs):
        raise ValueError("write each piece as number: time, like 1: 5 min, 3: 4 min")
    pieces = tuple(int(_count(number.strip())) for number, _, _ in pairs)
    return Observed(text, pieces, tuple(_quantity("time", time.strip()) for _, _, time in pairs))


def _elements(text: str) -> Elements:
    """`12 s, 4 s x 2`."""
    pairs = [part.partition(" x ") for part in text.split(",")]
    times = tuple(_quantity("time", time.strip()) for time, _, _ in pairs)
    return Elements(text, times, tuple(_number(often.strip() or "1") for _, _, often in pairs))


def _number(text: str) -> float:
    if "," in text:
        raise QuantityError(f"'{text}' has a comma", f"write '{text.replace(',', '.')}'")
    try:
        value = float(text)
    except ValueError:
        raise QuantityError(f"'{text}' is no number", "write a plain number, no unit") from None
    if not 0 < value < float("inf"):
        raise ValueError("write a number above zero")
    return value


_READERS: Mapping[str, Callable[[str], Given]] = MappingProxyType(
    {
        "thread": thread,
        "class": _class,
        "series": _series,
        "percent": _percent,
        "number": _number,
        "drill": _drill,
        "error": _error,
        "count": _count,
        "learning": _number_within(*PERCENT_RANGE, "write 51 to 100, such as 80"),
        "allowance": _number_within(0.0, 100.0, "write 0 to 100, such as 12"),
        "timed pieces": _observed,
        "times": _elements,
    }
)
"""Kinds of input that are no plain quantity."""


__all__ = ["OPERATIONS", "InputError", "NotComputed", "Reckoning", "Result", "reckon"]
