"""What a plan is worth: what counts, and in which order.

Lessons that find a place; cover that stays open; the last day on which cover is missed; the
greatest lateness, then all of it; what people were told and is otherwise now; checks that nobody
has time for; how evenly trainers share the lessons; how early people are ready.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from .attempt import Attempt
from .books import minutes_a_shift
from .cover import cover_lines
from .lessons import Key
from .setting import Setting
from .what_moved import moves

Value = tuple[int, int, int, int, int, int, int, int, int]
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


def last_closed(made: Attempt, cover: Sequence[Gap]) -> int:
    """The day of the plan on which the last gap that is closed is closed; 0 for none."""
    return max((day for day in closing_days(made, cover) if day is not None), default=0)


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


def loads(made: Attempt) -> dict[int, int]:
    """Minutes of lessons of each trainer, by place in the list."""
    places = {id(one): number for number, one in enumerate(made.setting.trainers)}
    found = dict.fromkeys(places.values(), 0)
    for sessions in made.given.values():
        found[places[id(sessions[-1].trainer)]] += sum(one.minutes for one in sessions)
    return found


def uneven(shares: Mapping[int, int], hours: Mapping[int, int]) -> int:
    """Minutes that the trainer who has most too many has more than their share by their hours.

    >>> uneven({0: 300, 1: 100}, {0: 60, 1: 60}), uneven({0: 300, 1: 100}, {0: 180, 1: 60})
    (100, 0)
    """
    every = max(1, sum(hours.values()))
    total = sum(shares.values())
    over = (-((hours[n] * total - minutes * every) // every) for n, minutes in shares.items())
    return max(0, max(over, default=0))


def spread(made: Attempt) -> int:
    """How unevenly lessons are shared in the shift where that is worst, in minutes."""
    trainers, found = made.setting.trainers, loads(made)
    worst = 0
    for shift in {one.shift for one in trainers}:
        mine = [number for number, one in enumerate(trainers) if one.shift == shift]
        hours = {number: minutes_a_shift(trainers[number]) for number in mine}
        worst = max(worst, uneven({number: found[number] for number in mine}, hours))
    return worst


def value_of(made: Attempt, cover: Sequence[Gap]) -> Value:
    """What is compared between plans."""
    late = late_days(made)
    return (
        len(made.never),
        sum(day is None for day in closing_days(made, cover)),
        last_closed(made, cover),
        max(late.values(), default=0),
        sum(late.values()),
        len(moves(made.setting, made)),
        made.unmet_checks,
        spread(made),
        sum(one[-1].day for one in made.given.values()),
    )
