"""What a plan is worth: what counts, and in which order.

Lessons that find a place; cover that stays open; the last day on which cover is missed; the
greatest lateness, then all of it; checks that nobody has time for; how early people are ready.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from .attempt import Attempt
from .cover import cover_lines
from .lessons import Key
from .setting import Setting

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
