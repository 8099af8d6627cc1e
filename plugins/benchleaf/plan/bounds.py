"""How good a plan is known to be: what no plan can do better, reckoned without making one.

Two things hold for every plan. No lesson ends earlier than it would with nobody else to teach. And
all lessons of a shift that are due by a day take the time that its trainers have until then, or
until so many days later.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from .attempt import Attempt
from .clock import GRID
from .days import HORIZON_DAYS
from .lessons import Key
from .placing import Ask, place_in_parts
from .promises import minutes_left
from .setting import Setting
from .talks import Talk
from .worth import Gap, last_closed, late_days, spread


@dataclass(frozen=True, slots=True)
class Known:
    """By how much the plan may be worse than the best one there is, given what was promised."""

    cover_days: int
    """Of the last day on which cover is missed."""
    late_days: int
    """Of the greatest lateness."""
    is_whole: bool
    """False where a lesson found no place that might have one."""
    keeps: bool = False
    """True where promises are kept, and what they ask for counts as the best."""
    total_late_days: int = 0
    """Of all lateness together."""
    spread_minutes: int = 0
    """Of the minutes that a trainer has more lessons than their share; a learner keeps theirs."""

    @property
    def is_best(self) -> bool:
        """True where no plan closes cover earlier, or has less lateness."""
        return self.is_whole and not self.cover_days and not self.is_late

    @property
    def is_all_best(self) -> bool:
        """True where trainers cannot share the lessons more evenly either."""
        return self.is_best and not self.spread_minutes

    @property
    def is_late(self) -> bool:
        """True where another plan may have less lateness."""
        return bool(self.late_days or self.total_late_days)

    @property
    def says(self) -> str:
        """In words."""
        if not self.is_whole:
            return "Not proved: a lesson found no place, and nobody knows whether there is one."
        shares = (
            f"Trainers' shares of the lessons are within {self.spread_minutes} minutes of the best."
            if self.spread_minutes
            else ""
        )
        if self.is_best:
            kept = " that keeps what people were told" if self.keeps else ""
            best = (
                f"Best possible: no plan{kept} closes the last gap in cover on an earlier day, and "
                "none has less lateness."
            )
            return f"{best} {shares}".strip()
        parts = [
            f"{what} within {_days(days)} of the best"
            for what, days in (
                ("cover", self.cover_days),
                ("lateness", self.late_days),
                ("all lateness together", self.total_late_days),
            )
            if days
        ]
        last = parts.pop()
        return f"Not proved to be the best: {', '.join(parts)}{' and ' * bool(parts)}{last}."


def _days(count: int) -> str:
    return f"{count} day{'s' if count > 1 else ''}"


@dataclass(frozen=True, slots=True)
class Least:
    """What no plan can fall below."""

    last_closed: int
    """The day of the plan on which the last gap in cover is closed."""
    late: int
    """The greatest lateness in days of the calendar."""
    total_late: int = 0
    """All lateness together, in the same days."""
    spread: int = 0
    """Minutes of lessons that a trainer has more than their share."""


def least_of(setting: Setting, made: Attempt, cover: Sequence[Gap]) -> Least:
    """Reckoned with all lessons that some plan has found a place for."""
    alone = _alone(setting, made)
    late = max(late_days(made).values(), default=0)
    mine = tuple(_late_alone(setting, alone))
    least_late = max(0, max(mine, default=0))
    if late > least_late:
        least_late = max(least_late, _late_together(setting, made, late))
    closed = max(_closes(cover, alone), default=0)
    return Least(closed, least_late, sum(one for one in mine if one > 0))


def known(made: Attempt, least: Least, cover: Sequence[Gap]) -> Known:
    """Hold a plan against what no plan can do better."""
    late = late_days(made).values()
    is_whole = all(why.startswith(("it waits", "no batch")) for why in made.never.values())
    return Known(
        max(0, last_closed(made, cover) - least.last_closed),
        max(0, max(late, default=0) - least.late),
        is_whole,
        bool(made.kept.lessons),
        max(0, sum(late) - least.total_late),
        max(0, spread(made) - least.spread),
    )


def _alone(setting: Setting, made: Attempt) -> dict[Key, int]:
    """The earliest day on which each talk may end, whoever gives it, with no other in the way."""
    found: dict[Key, int] = {}
    ends: dict[Key, int] = {}
    for talk in _needs_first(setting, made):
        ready = max((setting.opens(talk), *(ends[need] for need in talk.needs)))
        kept = made.kept.lessons.get(talk.key, ())
        wanted = minutes_left(setting, talk, setting.promised.get(talk.key))
        left = wanted - sum(one.minutes for one in kept)
        last = [(one.end, one.day) for one in kept]
        if left >= GRID:
            last.append(min(_ends(setting, talk, left, ready), default=(0, 0)))
        ends[talk.key], found[talk.key] = max(last, default=(0, 0))
    return found


def _needs_first(setting: Setting, made: Attempt) -> Iterator[Talk]:
    """Talks that have a place, each after what it needs: the attempt found them in that order."""
    by_key = {one.key: one for one in setting.talks}
    return (by_key[key] for key in made.given)


def _ends(setting: Setting, talk: Talk, minutes: int, ready: int) -> Iterator[tuple[int, int]]:
    job = setting.jobs[talk.lessons[0].job.id]
    for number in setting.able(talk):
        wish = setting.wish(talk, number)
        ask = Ask(wish, minutes, ready, None, GRID, job.edge, lambda _: True)
        parts = place_in_parts(setting.books(), ask, HORIZON_DAYS)
        if parts:
            yield parts[-1].end, parts[-1].day


def _closes(cover: Sequence[Gap], alone: dict[Key, int]) -> Iterator[int]:
    for gap in cover:
        ends = sorted(alone[key] for key in gap.talks if key in alone)
        if len(ends) >= gap.missing:
            yield ends[gap.missing - 1]


def _late_alone(setting: Setting, alone: dict[Key, int]) -> Iterator[int]:
    for talk in setting.talks:
        due = setting.due_day(talk)
        if due is not None and talk.key in alone:
            yield alone[talk.key] - due


def _late_together(setting: Setting, made: Attempt, late: int) -> int:
    """The least lateness with which the trainers of each shift have time for what is due."""
    shifts = {one.shift for one in setting.trainers}
    return next(
        (
            days
            for days in range(late)
            if all(_has_time(setting, made, shift, days) for shift in shifts)
        ),
        late,
    )


def _has_time(setting: Setting, made: Attempt, shift: str, days: int) -> bool:
    """True where all that is due by each day may be given until so many days later."""
    mine = [
        (setting.due_day(talk), sum(one.minutes for one in made.given[talk.key]))
        for talk in setting.talks
        if talk.key in made.given and talk.lessons[0].person.shift == shift
    ]
    dues = sorted({due for due, _ in mine if due is not None})
    for due in dues:
        demand = sum(minutes for each, minutes in mine if each is not None and each <= due)
        if demand > _time_until(setting, shift, due + days):
            return False
    return True


def _time_until(setting: Setting, shift: str, day: int) -> int:
    last = setting.presence.day(day)
    return sum(
        sum(1 for one in line.days if one <= last) * (int(line.minutes_a_day + 1e-6) // GRID * GRID)
        for trainer, line in zip(setting.trainers, setting.lines, strict=True)
        if trainer.shift == shift
    )
