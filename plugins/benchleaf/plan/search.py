"""Which order of lessons gives the best plan: first that of due days, then others, by what is late.

What counts, in this order: lessons that find a place; cover that stays open; the last day on which
cover is missed; the greatest lateness, then all of it; checks that nobody has time for; how much
earlier people are told to be ready. What was promised stays in every attempt, so that no attempt
moves it for the sake of another.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from .attempt import Attempt, attempt
from .cover import cover_lines
from .lessons import Key
from .order import Work, in_order
from .setting import Setting
from .talks import Talk

MOST_ATTEMPTS = 24
MOST_TALKS = 2000
"""Attempts times talks that are tried at most, so that a large crew has its plan at once."""

Value = tuple[int, int, int, int, int, int, int]
"""What is compared, the least the best."""


@dataclass(frozen=True, slots=True)
class Gap:
    """Cover that is missed today: so many of these must end."""

    missing: int
    talks: tuple[Key, ...]


def gaps(setting: Setting) -> tuple[Gap, ...]:
    """Every gap that lessons can close."""
    lead = {one.key: talk.key for talk in setting.talks for one in talk.lessons}
    found = []
    for line in cover_lines(setting.situation):
        keys = [(code, line.job) for code in (*line.lapsed, *line.coming)]
        mine = tuple(lead[key] for key in keys if key in lead)
        if line.gap and mine:
            found.append(Gap(min(line.gap, len(mine)), mine))
    return tuple(found)


def best_attempt(setting: Setting) -> Attempt:
    """The best plan that a few orders give."""
    cover = gaps(setting)
    by_key = {one.key: one for one in setting.talks}
    closing = _with_needs({key for gap in cover for key in gap.talks}, by_key)
    due = {key: (setting.ranks[key], key) for key in by_key}
    first = {key: (key not in closing, *due[key]) for key in by_key}
    best, worth = None, None
    for ranks in (due, first) if closing else (due,):
        best, worth = _better(best, worth, _try(setting, ranks), cover)
    assert best is not None
    assert worth is not None
    return _pulled_forward(setting, best, worth, cover)


def _pulled_forward(setting: Setting, best: Attempt, worth: Value, cover: Sequence[Gap]) -> Attempt:
    """What is latest is put first, with all that it needs, for as long as that may help."""
    by_key = {one.key: one for one in setting.talks}
    pulled: dict[Key, int] = {}
    at = best
    for _ in range(min(MOST_ATTEMPTS, MOST_TALKS // max(1, len(by_key)))):
        late = _latest(setting, at, cover)
        if late is None:
            break
        for key in _with_needs({late}, by_key):
            pulled[key] = pulled.get(key, 0) + 1
        ranks = {key: (-pulled.get(key, 0), setting.ranks[key], key) for key in by_key}
        at = _try(setting, ranks)
        best, worth = _better(best, worth, at, cover)
    return best


def _better(
    best: Attempt | None, worth: Value | None, new: Attempt, cover: Sequence[Gap]
) -> tuple[Attempt, Value]:
    value = value_of(new, cover)
    if best is None or worth is None or value < worth:
        return new, value
    return best, worth


def _try(setting: Setting, ranks: Mapping[Key, object]) -> Attempt:
    works = [Work(one.key, one.minutes, math.inf, one.needs) for one in setting.talks]
    order = in_order(works, ranks)
    rest = [one.key for one in setting.talks if one.key not in set(order)]
    return attempt(setting, (*order, *rest))


def _with_needs(keys: set[Key], by_key: Mapping[Key, Talk]) -> set[Key]:
    found, waiting = set(keys), list(keys)
    while waiting:
        for need in by_key[waiting.pop()].needs:
            if need in by_key and need not in found:
                found.add(need)
                waiting.append(need)
    return found


def closing_days(made: Attempt, cover: Sequence[Gap]) -> Iterator[int | None]:
    """The day on which each gap is closed; None where it stays open."""
    for gap in cover:
        ends = sorted(made.given[key][-1].day for key in gap.talks if key in made.given)
        yield ends[gap.missing - 1] if len(ends) >= gap.missing else None


def late_days(made: Attempt) -> dict[Key, int]:
    """Days of the calendar past the due day, of each talk that is late."""
    found = {}
    for talk in made.setting.talks:
        due = made.setting.due_day(talk)
        if due is not None and talk.key in made.given:
            late = made.given[talk.key][-1].day - due
            if late > 0:
                found[talk.key] = late
    return found


def value_of(made: Attempt, cover: Sequence[Gap]) -> Value:
    """What is compared between plans."""
    closed = list(closing_days(made, cover))
    late = late_days(made)
    return (
        len(made.never),
        sum(day is None for day in closed),
        max((day for day in closed if day is not None), default=0),
        max(late.values(), default=0),
        sum(late.values()),
        made.unmet_checks,
        sum(one[-1].day for one in made.given.values()),
    )


def _latest(setting: Setting, made: Attempt, cover: Sequence[Gap]) -> Key | None:
    """What to pull forward: the lesson that is most late, else the one that closes cover last."""
    late = late_days(made)
    if late:
        return max(late, key=lambda key: (late[key], key))
    ends = [
        (made.given[key][-1].day, key)
        for gap in cover
        for key in sorted(gap.talks, key=lambda one: _end(made, one))[: gap.missing]
        if key in made.given
    ]
    latest = max(ends, default=None)
    return latest[1] if latest is not None and latest[0] > 0 else None


def _end(made: Attempt, key: Key) -> float:
    return made.given[key][-1].end if key in made.given else math.inf
