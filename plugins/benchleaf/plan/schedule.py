"""Lessons to trainers and into their days, and what cannot be met.

A learner keeps one trainer of their shift, unless that trainer may not teach the job, or another
one tells several people what changed in it. The order is that of `order.py`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from benchleaf.model import Trainer

from .days import Timeline, working_days
from .lessons import Key, Lesson
from .order import Session, Work, adjusted_dues, book
from .situation import Situation
from .talks import Talk, Teller, talks, teller


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
        return (
            f"{self.lesson.working} for one; {alone:g} + {others} × {each:g} = {self.minutes:g} min"
        )

    @property
    def leads(self) -> bool:
        """True but for a lesson that stands with another one of its talk already."""
        return self.people[0] == self.lesson.person.id

    @property
    def minutes(self) -> float:
        """The trainer's time, of a talk for all of its people."""
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
    """How much too little time there is by the day on which that is worst; 0 where all fit."""
    short_by: date | None
    """That day."""
    wanted_minutes_a_shift: float | None
    """Least time a shift with which every due day would be met; None where no time suffices."""


@dataclass(frozen=True, slots=True)
class Schedule:
    """The plan of all lessons."""

    planned: tuple[Planned, ...]
    unplanned: tuple[Unplanned, ...]
    loads: tuple[Load, ...]

    @property
    def late(self) -> tuple[Planned, ...]:
        """Lessons that end after their due day, latest first."""
        found = [one for one in self.planned if one.late_days]
        return tuple(sorted(found, key=lambda one: (-one.late_days, one.lesson.key)))


def schedule(situation: Situation, lessons: Sequence[Lesson]) -> Schedule:
    """Plan lessons from the situation's day on."""
    trainers = situation.crew.facts.trainers
    lines = [_timeline(situation, one) for one in trainers]
    given, unplanned = _assigned(trainers, lessons)
    every = talks(lessons, given)
    mine = [[one for one in every if given[one.key] == n] for n in range(len(trainers))]
    works = [[_work(one, line) for one in some] for some, line in zip(mine, lines, strict=True)]
    booked = book(works, lines)
    planned = [
        Planned(one, trainers[given[one.key]], tuple(booked[talk.key]), talk.people)
        for talk in every
        if talk.key in booked
        for one in talk.lessons
    ]
    given_somewhere = {one.lesson.key for one in planned}
    lost = [
        Unplanned(one, unplanned.get(one.key) or "it waits for a lesson that nobody can give, or "
                  "does not fit within the next 400 days")
        for one in lessons
        if one.key not in given_somewhere
    ]  # fmt: skip
    place = {key: number for number, key in enumerate(booked)}
    begun = {one.key: place.get(talk.key, 0) for talk in every for one in talk.lessons}
    planned.sort(key=lambda one: (one.first, begun[one.lesson.key]))
    loads = [
        _load(one, some, line, situation)
        for one, some, line in zip(trainers, mine, lines, strict=True)
    ]
    return Schedule(tuple(planned), tuple(lost), tuple(loads))


def _timeline(situation: Situation, trainer: Trainer) -> Timeline:
    crew = situation.crew
    days = working_days(crew.shift(trainer.shift), crew.facts.closed, situation.today)
    return Timeline(tuple(days), trainer.hours.value / 60)


def _assigned(
    trainers: Sequence[Trainer], lessons: Sequence[Lesson]
) -> tuple[dict[Key, int], dict[Key, str]]:
    """Which trainer gives each lesson, by place in the list; and why nobody gives some."""
    given: dict[Key, int] = {}
    nobody: dict[Key, str] = {}
    load = [0.0] * len(trainers)
    own: dict[str, int] = {}
    telling: dict[tuple[Teller, str], int] = {}
    for lesson in sorted(lessons, key=lambda one: (one.due or date.max, one.key)):
        able = _able(trainers, lesson)
        if not able:
            nobody[lesson.key] = f"no trainer of the {lesson.person.shift} shift may teach it"
            continue
        talk = (teller(lesson), lesson.person.shift)
        wanted = (
            _asked(trainers, lesson),
            telling.get(talk) if lesson.talk else None,
            own.get(lesson.person.id),
            min(able, key=lambda n: (load[n] / trainers[n].hours.value, n)),
        )
        chosen = next(one for one in wanted if one is not None and one in able)
        is_told_already = bool(lesson.talk) and telling.get(talk) == chosen
        if lesson.talk:
            telling.setdefault(talk, chosen)
        if not is_told_already:
            own.setdefault(lesson.person.id, chosen)
        given[lesson.key] = chosen
        load[chosen] += lesson.own_minutes if is_told_already else lesson.minutes
    return given, nobody


def _able(trainers: Sequence[Trainer], lesson: Lesson) -> list[int]:
    return [
        number
        for number, one in enumerate(trainers)
        if one.shift == lesson.person.shift and (not one.teaches or lesson.job.id in one.teaches)
    ]


def _asked(trainers: Sequence[Trainer], lesson: Lesson) -> int | None:
    """The trainer whom the learner's record names for this job, or for any other."""
    records = sorted(lesson.person.learning, key=lambda one: one.job != lesson.job.id)
    codes = [one.trainer for one in records if one.trainer is not None]
    places = {one.id: number for number, one in enumerate(trainers)}
    return places.get(codes[0]) if codes else None


def _work(talk: Talk, line: Timeline) -> Work[Key]:
    return Work(talk.key, talk.minutes, line.until(talk.due), talk.needs)


def _load(trainer: Trainer, mine: Sequence[Talk], line: Timeline, situation: Situation) -> Load:
    """The feasibility check: demand by each due day against the time until then."""
    short, day = _shortage(mine, line)
    most = situation.crew.shift(trainer.shift).hours.value / 60
    wanted = _least_minutes(mine, line, most) if short > 0 else line.minutes_a_day
    return Load(trainer, sum(one.minutes for one in mine), short, day, wanted)


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
    """Least time a shift, in whole minutes, with which nothing would be late."""
    low, high = math.floor(line.minutes_a_day), math.floor(most)
    if _shortage(mine, Timeline(line.days, high))[0] > 0:
        return None
    while high - low > 1:
        middle = (low + high) // 2
        is_short = _shortage(mine, Timeline(line.days, middle))[0] > 0
        low, high = (middle, high) if is_short else (low, middle)
    return float(high)
