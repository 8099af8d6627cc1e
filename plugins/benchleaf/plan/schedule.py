"""Lessons to trainers and into their days, with checks, and what cannot be met.

A learner keeps one trainer of their shift, unless that trainer may not teach the job, another one
tells several people what changed in it, or the lesson would be late. Several orders of lessons are
tried (`order.py`, `search.py`), and the best plan is kept.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from benchleaf.model import Trainer

from .attempt import WAITS_FOR_NOBODY, Attempt
from .bounds import Known
from .clock import Session
from .days import Timeline
from .follow_up import FollowUp
from .lessons import Key, Lesson
from .may import Teaching
from .order import Work, adjusted_dues
from .promises import Moved, session_of
from .search import best_attempt
from .setting import Setting, setting_of
from .situation import Situation
from .talks import Talk
from .what_moved import moves


@dataclass(frozen=True, slots=True)
class Planned:
    """A lesson in the trainer's days."""

    lesson: Lesson
    trainer: Trainer
    sessions: tuple[Session, ...]
    together: tuple[str, ...] = ()
    """The codes of all whom one talk serves; empty for a lesson of one person."""

    @property
    def people(self) -> tuple[str, ...]:
        """The codes of all whom it serves."""
        return self.together or (self.lesson.person.id,)

    @property
    def working(self) -> str:
        """How the trainer's time comes about."""
        if not self.together:
            return self.lesson.working
        alone, each, more = self.lesson.minutes, self.lesson.own_minutes, len(self.together) - 1
        others = f"{more} more people" if more > 1 else "one more person"
        if not each:
            return f"{self.lesson.working}, for all together"
        total = alone + more * each
        return f"{self.lesson.working} for one; {alone:g} + {others} × {each:g} = {total:g} min"

    @property
    def leads(self) -> bool:
        """True but for a lesson that stands with another one of its talk already."""
        return self.people[0] == self.lesson.person.id

    @property
    def minutes(self) -> float:
        """The trainer's time that is booked, of a talk for all of its people."""
        return sum(one.minutes for one in self.sessions)

    @property
    def first(self) -> date:
        """The day it begins."""
        return self.sessions[0].day

    @property
    def last(self) -> date:
        """The day it ends, and the learner proves the job."""
        return self.sessions[-1].day

    @property
    def late_days(self) -> int:
        """Days of the calendar past the due day; 0 in time."""
        due = self.lesson.due
        return max(0, (self.last - due).days) if due is not None else 0


@dataclass(frozen=True, slots=True)
class PlannedCheck:
    """A check on somebody who is on their own."""

    person: str
    job: str
    trainer: str
    session: Session


@dataclass(frozen=True, slots=True)
class Unplanned:
    """A lesson that nobody can give."""

    lesson: Lesson
    why: str


@dataclass(frozen=True, slots=True)
class Load:
    """What one trainer is asked for, against the time there is."""

    trainer: Trainer
    minutes: float
    """All lessons together."""
    short_minutes: float
    """How much too little time there is for lessons alone, on the day when that is worst; or 0."""
    short_by: date | None
    """That day."""
    wanted_minutes_a_shift: float | None
    """Least time a shift without which some due day is missed; None where no time suffices."""
    check_minutes: float = 0.0
    """All checks together."""
    change_minutes: float = 0.0
    """All changes of stations before sessions."""


@dataclass(frozen=True, slots=True)
class Schedule:
    """The plan of all lessons."""

    planned: tuple[Planned, ...]
    unplanned: tuple[Unplanned, ...]
    loads: tuple[Load, ...]
    follow_ups: Mapping[Key, FollowUp]
    """The checks of each person and job, with the times at which trainers have time."""
    checks: tuple[PlannedCheck, ...]
    """All checks from the day of the plan on, in the order of time."""
    moved: tuple[Moved, ...]
    """What people were told and is otherwise now."""
    known: Known
    """How good this plan is known to be."""

    @property
    def late(self) -> tuple[Planned, ...]:
        """Lessons that end after their due day, latest first."""
        found = [one for one in self.planned if one.late_days]
        return tuple(sorted(found, key=lambda one: (-one.late_days, one.lesson.key)))


def schedule(
    situation: Situation,
    lessons: Sequence[Lesson],
    teaching: Teaching,
    *,
    use_solver: bool = True,
) -> Schedule:
    """Plan lessons from the situation's day on, with trainers who may give them."""
    setting = setting_of(situation, lessons, teaching)
    made, how_good = best_attempt(setting, use_solver=use_solver)
    planned = tuple(_planned(setting, made))
    there = {one.lesson.key for one in planned}
    lead = {one.key: talk.key for talk in setting.talks for one in talk.lessons}
    why = {**made.never, **setting.never}
    lost = tuple(
        Unplanned(one, why.get(one.key) or why.get(lead.get(one.key, one.key), WAITS_FOR_NOBODY))
        for one in lessons
        if one.key not in there
    )
    checks = [
        PlannedCheck(*key, one.trainer.id, session_of(setting, one))
        for key, found in made.checks.items()
        for one in found
    ]
    checks.sort(key=lambda one: (one.session.begin, one.trainer, one.person))
    loads = tuple(_load(setting, made, number) for number in range(len(setting.trainers)))
    return Schedule(
        planned, lost, loads, made.follow_ups, tuple(checks), moves(setting, made), how_good,
    )  # fmt: skip


def _planned(setting: Setting, made: Attempt) -> list[Planned]:
    found = [
        Planned(
            one,
            made.given[talk.key][-1].trainer,
            tuple(session_of(setting, each) for each in made.given[talk.key]),
            talk.people,
        )
        for talk in setting.talks
        if talk.key in made.given
        for one in talk.lessons
    ]
    return sorted(found, key=lambda one: (one.sessions[0].begin, one.trainer.id, one.people))


def _load(setting: Setting, made: Attempt, number: int) -> Load:
    """The feasibility check: demand by each due day against the time until then."""
    trainer, line = setting.trainers[number], setting.lines[number]
    mine = [
        talk for talk in setting.talks
        if talk.key in made.given and made.given[talk.key][-1].trainer is trainer
    ]  # fmt: skip
    lessons = [one for talk in mine for one in made.given[talk.key]]
    checks = [one for found in made.checks.values() for one in found if one.trainer is trainer]
    short, day = _shortage(mine, line)
    most = setting.situation.crew.shift(trainer.shift).hours.value / 60
    wanted = _least_minutes(mine, line, most) if short > 0 else line.minutes_a_day
    return Load(
        trainer,
        sum(one.minutes for one in lessons),
        short,
        day,
        wanted,
        sum(one.minutes for one in checks),
        sum(one.change for one in (*lessons, *checks)),
    )


def _work(talk: Talk, line: Timeline) -> Work[Key]:
    return Work(talk.key, talk.minutes, line.until(talk.due), talk.needs)


def _shortage(mine: Sequence[Talk], line: Timeline) -> tuple[float, date | None]:
    """The greatest excess of demand over time, and by which due day; 0 and None where all fit."""
    works = [_work(one, line) for one in mine]
    dues = adjusted_dues(works)
    worst, at = 0.0, math.inf
    for due in sorted(set(dues.values())):
        demand = sum(one.minutes for one in works if dues[one.key] <= due + 1e-9)
        if demand - due > worst + 1e-6:
            worst, at = demand - due, due
    if not worst:
        return 0.0, None
    own = [one.due for one in mine if one.due is not None and line.until(one.due) >= at - 1e-9]
    return worst, min(own, default=None)


def _least_minutes(mine: Sequence[Talk], line: Timeline, most: float) -> float | None:
    """Least time a shift, in whole minutes, with which lessons alone would not be late."""
    low, high = math.floor(line.minutes_a_day), math.floor(most)
    if _shortage(mine, Timeline(line.days, high))[0] > 0:
        return None
    while high - low > 1:
        middle = (low + high) // 2
        is_short = _shortage(mine, Timeline(line.days, middle))[0] > 0
        low, high = (middle, high) if is_short else (low, middle)
    return float(high)
