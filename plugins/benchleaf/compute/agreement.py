"""Whether what is given to `benchleaf reckon` agrees: every declared figure is a relation to hold.

A figure whose inputs are all known, and whose result is known in another way, is reckoned once
more. Where the two differ, something given contradicts something else that is given, and nobody
can know which is meant.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from benchleaf.formulas.rounding import shown

from .declaration import Declaration, ends
from .given import InputError
from .operation import Given, Operation

SAME_SHARE = 0.005
"""Two figures are the same within half a per cent: what somebody typed was rounded."""

_INSTEAD = (
    ("speed", "cutting_speed"),
    ("mouth", "head"),
    ("observed", "first"),
    ("observed", "learning_percent"),
    ("observed", "mean_percent"),
    ("observed", "points"),
    ("points", "first"),
    ("points", "learning_percent"),
    ("elements", "basic"),
    ("trials", "exponent"),
    ("trials", "c"),
)


def not_both(values: Mapping[str, Given]) -> None:
    """Two ways to say one thing may contradict one another."""
    for one, other in _INSTEAD:
        if one in values and other in values:
            raise InputError(f"{one} and {other} are both given", "give one of them")


def suits(one: Declaration, values: Mapping[str, Given]) -> bool:
    """Whether a figure is the way to go with what is known."""
    return one.suits is None or one.suits(values)


def check_agreement(
    operation: Operation,
    given: Mapping[str, str],
    values: Mapping[str, Given],
    came_from: Mapping[str, tuple[str, ...]],
) -> None:
    """Raise InputError where two things that are known contradict one another, naming both."""
    for rule in operation.between:
        if all(name in values for name in rule.names):
            names = (*rule.names, *rule.also)
            wrong = rule.broken(*(values.get(name) for name in names))
            if wrong:
                raise InputError(f"{_told(given, names, came_from)}: {wrong}", rule.cure)
    for one in operation.figures:
        _hold(one, given, values, came_from)


def _hold(
    one: Declaration,
    given: Mapping[str, str],
    values: Mapping[str, Given],
    came_from: Mapping[str, tuple[str, ...]],
) -> None:
    """One figure against what is known in another way."""
    known = values.get(one.asked_as)
    is_known = isinstance(known, float) and all(name in values for name in one.inputs)
    if not is_known or one.is_stand_in or not suits(one, values):
        return
    assert isinstance(known, float)
    try:
        low, high = ends(one.run(*(values[name] for name in one.inputs)))
    except ValueError as error:
        if one.asked_as in given:
            names = (one.asked_as, *one.inputs)
            raise InputError(f"{_told(given, names, came_from)}: {error}", _FEWER) from error
        return
    if _same(one, known, low) or _same(one, known, high) or low <= known <= high:
        return
    reckoned = shown(low, 4) if low == high else f"{shown(low, 4)} to {shown(high, 4)}"
    raise InputError(
        f"{_told(given, (one.asked_as, *one.inputs), came_from)} contradict one another: "
        f"'{one.label}' would be {reckoned} {one.unit}, and {shown(known, 4)} {one.unit} at once",
        _FEWER,
    )


_FEWER = "give fewer of them, and the rest is reckoned"


def _same(one: Declaration, known: float, reckoned: float) -> bool:
    step = 0.5 * 10.0**-one.asked_digits if one.asked_digits >= 0 else 0.0
    return abs(known - reckoned) <= max(step, SAME_SHARE * abs(reckoned))


def _told(
    given: Mapping[str, str], names: Iterable[str], came_from: Mapping[str, tuple[str, ...]]
) -> str:
    """What was given and leads to the names, as it was written."""
    found: dict[str, None] = {}
    left = list(names)
    seen: set[str] = set()
    while left:
        name = left.pop(0)
        if name in seen:
            continue
        seen.add(name)
        if name in given:
            found[name] = None
        left += came_from.get(name, ())
    said = [f"{name} {given[name]}" for name in given if name in found]
    return " and ".join(said) if len(said) < 3 else f"{', '.join(said[:-1])} and {said[-1]}"
