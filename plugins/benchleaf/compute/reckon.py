"""Reckons an operation from what was given: all that follows, and what is missing for the rest."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from benchleaf.formulas.domain import NotKnownError
from benchleaf.formulas.quantities import in_unit
from benchleaf.formulas.rounding import shown
from benchleaf.formulas.unit_order import Units

from .agreement import check_agreement, not_both, suits
from .amounts import as_said, in_inches, told
from .declaration import Declaration, ends, working
from .domains import domain_of
from .given import InputError, value_of
from .operation import Given, Operation
from .operations import OPERATIONS
from .results import Figure, Sum, rough
from .sheet import cited
from .told_sheet import second

_OTHER_UNITS = {
    "mm": ("length", "in", 2),
    "m/min": ("cutting speed", "ft/min", -1),
    "N": ("force", "lbf", 0),
    "N m": ("torque", "lbf in", 0),
    "kW": ("power", "hp", 0),
}
"""Kind, the other unit, and how many more decimals it takes to lose nothing and feign nothing."""


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
    inputs: tuple[str, ...] = ()
    """What it was reckoned from."""


@dataclass(frozen=True, slots=True)
class NotComputed:
    """A quantity that cannot be had, and why."""

    key: str
    label: str
    why: str
    is_refused: bool = False
    """True where something given lies outside what the formula covers."""


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

    @property
    def covers_all(self) -> bool:
        """False where something given lies outside what a formula covers."""
        return not any(one.is_refused for one in self.not_computed)


def reckon(
    operation: Operation, given: Mapping[str, str], units: Units = Units.METRIC
) -> Reckoning:
    """Reckon from texts such as `7/8 in`; raises InputError for what cannot be taken.

    Nothing is passed over: whatever is given and could also be reckoned must agree with that.
    """
    values = {name: value_of(operation, name, text) for name, text in given.items()}
    not_both(values)
    for name in operation.zero_unless_given:
        values.setdefault(name, 0.0)
    results: dict[str, Result] = {}
    failed: dict[str, NotComputed] = {}
    while _one_round(operation, values, results, failed):
        pass
    check_agreement(operation, given, values, {one: each.inputs for one, each in results.items()})
    missing = _missing(operation, given, values, failed)
    found = tuple(_told_in(one, units) for one in results.values())
    lacking = tuple(
        replace(one, label=told(one.label, units), why=told(one.why, units)) for one in missing
    )
    return Reckoning(operation.name, dict(given), found, lacking)


def _told_in(one: Result, units: Units) -> Result:
    """The result as its reader has it: the units asked for first, its sentences in words."""
    names = ("label", "limits", "doubt", "note")
    texts: dict[str, Any] = {name: told(getattr(one, name), units) for name in names}
    one = replace(one, **texts)
    if units is Units.METRIC:
        return one
    digits = one.declared.asked_digits
    inch = in_inches(one.low, one.high, one.declared.unit, digits, one.declared.toward)
    return replace(one, figure=inch, other=second(one.figure, one.other)) if inch else one


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
        if not known or name in values or name in failed or not suits(one, values):
            continue
        try:
            results[name] = _result(one, values)
        except ValueError as error:
            failed[name] = _refused(one, values, error)
            continue
        values[name] = results[name].low
        went = True
    return went


def _refused(one: Declaration, values: Mapping[str, Given], error: ValueError) -> NotComputed:
    """Why a figure cannot be had from what it needs: its range, with the source."""
    if isinstance(error, NotKnownError):
        return NotComputed(one.asked_as, one.label, str(error))
    from_ = ", ".join(f"{name} {_put_in(values[name])}" for name in one.inputs)
    source = f"; source: {cited(*one.sources)}" if one.sources else ""
    return NotComputed(one.asked_as, one.label, f"{error}; from {from_}{source}", is_refused=True)


def _result(one: Declaration, values: Mapping[str, Given]) -> Result:
    names = (*one.inputs, *(name for name in one.regards if name in values))
    inputs = [*(values[name] for name in one.inputs), *(values.get(name) for name in one.regards)]
    worked = one.work(*inputs, digits=one.asked_digits)
    low, high = (float(end) for end in ends(worked.value))
    domain = domain_of(one.asked_as, one.unit)
    if not (domain.holds(low) and domain.holds(high)):
        raise ValueError(
            f"{one.label} is {shown(low if high <= domain.high else high, 6)} {one.unit}; it must "
            f"be from {domain.text}: {domain.why}"
        )
    figure, sums = _figure(one, low, high), worked.sums
    put_in = ", ".join(f"{name} {_put_in(values[name])}" for name in names)
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
        cited(*one.sources) or "as it was given",
        one.limits or f"{as_said(domain.low, domain.high, one.unit, domain.text)}: {domain.why}",
        _breaks(one, low, high),
        sums,
        one.looked_up,
        one.doubt(*inputs) if one.doubt else "",
        one.note_of(*inputs),
        names,
    )


def _breaks(one: Declaration, low: float, high: float) -> bool:
    too_little = one.least is not None and low < one.least
    return too_little or (one.most is not None and high > one.most)


def _put_in(value: Given) -> str:
    if isinstance(value, float):
        return shown(value, 6)
    return value if isinstance(value, str) else value.name


def _figure(one: Declaration, low: float, high: float) -> Figure:
    digits = one.asked_digits
    if digits < 0:
        return rough(low, one.unit, -digits, toward=one.rough_toward)
    return Figure(round(low, digits), round(high, digits), one.unit, digits)


def _other(one: Declaration, low: float, high: float) -> Figure | None:
    """The same in the other unit, rounded from the same value and no finer."""
    if one.unit not in _OTHER_UNITS:
        return None
    kind, unit, more = _OTHER_UNITS[one.unit]
    if one.asked_digits < 0:
        return rough(in_unit(low, kind, unit), unit, -one.asked_digits, toward=one.rough_toward)
    decimals = one.asked_digits + more
    least, most = (round(in_unit(end, kind, unit), decimals) for end in (low, high))
    return Figure(least, most, unit, decimals)


def _is_missed(one: Declaration, given: Mapping[str, str], values: Mapping[str, Given]) -> bool:
    """Whether a figure that is not there is told: with nothing given, all that there is."""
    if not given:
        return True
    is_asked = not one.missed_with or any(name in given for name in one.missed_with)
    return is_asked and suits(one, values)


def _missing(
    operation: Operation,
    given: Mapping[str, str],
    values: Mapping[str, Given],
    failed: Mapping[str, NotComputed],
) -> tuple[NotComputed, ...]:
    """What could not be had: for want of an input, or outside what a formula covers."""
    left: dict[str, NotComputed] = dict(failed)
    for one in operation.figures:
        if one.asked_as in values or one.asked_as in left or not _is_missed(one, given, values):
            continue
        wanted = [name for name in one.inputs if name not in values]
        why = f"give {', '.join(wanted)}"
        left[one.asked_as] = NotComputed(one.asked_as, one.label, why)
    return tuple(left.values())


__all__ = ["OPERATIONS", "InputError", "NotComputed", "Reckoning", "Result", "reckon"]
