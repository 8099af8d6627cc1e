"""Lessons to trainers and into their days, and what cannot be met.

A learner keeps one trainer of their shift, unless that trainer may not teach the job. The order
is that of `order.py`.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from benchleaf.model import Trainer

from .days import Timeline, working_days
from .lessons import Key, Lesson
from .order import Session, Work, adjusted_dues, book
from .situation import Situation


@dataclass(frozen=True, slots=True)
class Planned:
    """A lesson in the trainer's days."""

    lesson: Lesson
    trainer: Trainer
    sessions: tuple[Session, ...]

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
    works = [
        [_work(one, line) for one in lessons if given.get(one.key) == number]
        for number, line in enumerate(lines)
    ]
    booked = book(works, lines)
    planned = [
        Planned(one, trainers[given[one.key]], tuple(booked[one.key]))
        for one in lessons
        if one.key in booked and one.key not in unplanned
    ]
    given_somewhere = {one.lesson.key for one in planned}
    lost = [
        Unplanned(one, unplanned.get(one.key) or "it waits for a lesson that nobody can give, or "
                  "does not fit within the next 400 days")
        for one in lessons
        if one.key not in given_somewhere
    ]  # fmt: skip
    begun = {key: place for place, key in enumerate(booked)}
    planned.sort(key=lambda one: (one.first, begun[one.lesson.key]))
    loads = [_load(one, n, lines[n], lessons, given, situation) for n, one in enumerate(trainers)]
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
    for lesson in sorted(lessons, key=lambda one: (one.due or date.max, one.key)):
        able = _able(trainers, lesson)
        if not able:
            nobody[lesson.key] = f"no trainer of the {lesson.person.shift} shift may teach it"
            continue
        chosen = _asked(trainers, lesson)
        if chosen not in able:
            chosen = own.get(lesson.person.id)
        if chosen not in able:
            chosen = min(able, key=lambda n: (load[n] / trainers[n].hours.value, n))
        assert chosen is not None
        own.setdefault(lesson.person.id, chosen)
        given[lesson.key] = chosen
        load[chosen] += lesson.minutes
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


def _work(lesson: Lesson, line: Timeline) -> Work[Key]:
    needs = tuple((lesson.person.id, job_id) for job_id in lesson.needs)
    return Work(lesson.key, lesson.minutes, line.until(lesson.due), needs)


def _load(
    trainer: Trainer,
    number: int,
    line: Timeline,
    lessons: Sequence[Lesson],
    given: Mapping[Key, int],
    situation: Situation,
) -> Load:
    """The feasibility check: demand by each due day against the time until then."""
    mine = [one for one in lessons if given.get(one.key) == number]
    short, day = _shortage(mine, line)
    most = situation.crew.shift(trainer.shift).hours.value / 60
    wanted = _least_minutes(mine, line, most) if short > 0 else line.minutes_a_day
    return Load(trainer, sum(one.minutes for one in mine), short, day, wanted)


def _shortage(mine: Sequence[Lesson], line: Timeline) -> tuple[float, date | None]:
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


def _least_minutes(mine: Sequence[Lesson], line: Timeline, most: float) -> float | None:
    """Least time a shift, in whole minutes, with which nothing would be late."""
    low, high = math.floor(line.minutes_a_day), math.floor(most)
    if _shortage(mine, Timeline(line.days, high))[0] > 0:
        return None
    while high - low > 1:
        middle = (low + high) // 2
        is_short = _shortage(mine, Timeline(line.days, middle))[0] > 0
        low, high = (middle, high) if is_short else (low, middle)
    return float(high)
