"""In which order trainers give lessons so that the greatest lateness is least, day by day.

Earliest due date first gives the least greatest lateness on one machine (Jackson 1955). Where
one piece of work must come before another, its due date is first made no later than the latest
start of whatever waits for it; earliest due date first is then still the best (Lawler 1973).
Lateness is counted in the trainer's time, so every due day is met where any order meets it; tests
try every order on small cases. Where work waits for another trainer's, it begins on a later day,
and the order is only a good one.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from graphlib import TopologicalSorter
from typing import Generic, TypeVar

from .days import Timeline

K = TypeVar("K", int, str, tuple[str, str])

NOISE_MINUTES = 1e-6
"""Less than this is nothing left."""


@dataclass(frozen=True, slots=True)
class Work(Generic[K]):
    """A piece of work for one trainer."""

    key: K
    minutes: float
    due: float
    """Minutes of the trainer's time until its due day ends; without end where there is none."""
    needs: tuple[K, ...] = ()


@dataclass(frozen=True, slots=True)
class Session:
    """A trainer's time with a learner on one day."""

    day: date
    minutes: float


def book(works: Sequence[Sequence[Work[K]]], lines: Sequence[Timeline]) -> dict[K, list[Session]]:
    """The sessions of all work that could be booked whole, in the order it begins.

    `works` are those of each trainer, `lines` the trainers' time. Work that needs what nobody
    does is never begun.
    """
    return _Booking(works, lines, _dues(works, lines)).run()


def adjusted_dues(works: Iterable[Work[K]]) -> dict[K, float]:
    """Due times made no later than the latest start of whatever waits for the work."""
    by_key = {one.key: one for one in works}
    needs = {one.key: [key for key in one.needs if key in by_key] for one in by_key.values()}
    dues = {key: one.due for key, one in by_key.items()}
    for key in reversed(list(TopologicalSorter(needs).static_order())):
        for before in needs[key]:
            dues[before] = min(dues[before], dues[key] - by_key[key].minutes)
    return dues


def _dues(works: Sequence[Sequence[Work[K]]], lines: Sequence[Timeline]) -> dict[K, float]:
    """Adjusted due times, each in its own trainer's minutes."""
    given = {one.key: number for number, mine in enumerate(works) for one in mine}
    dues: dict[K, float] = {}
    for _ in lines:  # what one trainer's lessons ask of another's comes round
        for number, mine in enumerate(works):
            moved = [
                Work(one.key, one.minutes, min(one.due, dues.get(one.key, math.inf)), one.needs)
                for one in mine
            ]
            dues |= adjusted_dues(moved)
            _ask_others(mine, number, given, lines, dues)
    return dues


def _ask_others(
    mine: Sequence[Work[K]],
    number: int,
    given: Mapping[K, int],
    lines: Sequence[Timeline],
    dues: dict[K, float],
) -> None:
    """Another trainer's lesson must end on the day before the one that waits for it begins."""
    for one in mine:
        start = dues[one.key] - one.minutes
        if not math.isfinite(start):
            continue
        day = lines[number].day_at(max(start, 0.0))
        for need in one.needs:
            other = given.get(need)
            if other is not None and other != number and day is not None:
                before = sum(1 for each in lines[other].days if each < day)
                asked = before * lines[other].minutes_a_day
                dues[need] = min(dues.get(need, math.inf), asked)


@dataclass(slots=True)
class _Booking(Generic[K]):
    """Goes through the days and books each trainer's time."""

    works: Sequence[Sequence[Work[K]]]
    lines: Sequence[Timeline]
    dues: Mapping[K, float]
    left: dict[K, float] = field(default_factory=dict)
    booked: dict[K, list[Session]] = field(default_factory=dict)
    ended: dict[K, tuple[date, int]] = field(default_factory=dict)
    """Day on which a lesson ended, and with which trainer."""

    def run(self) -> dict[K, list[Session]]:
        queues = [
            sorted(mine, key=lambda one: (self.dues[one.key], one.key)) for mine in self.works
        ]
        self.left = {one.key: one.minutes for mine in queues for one in mine}
        for day in sorted({day for line in self.lines for day in line.days}):
            if len(self.ended) == len(self.left):
                break
            for number, line in enumerate(self.lines):
                if day in line.days:
                    self._day(day, number, line.minutes_a_day, queues[number])
        return {key: sessions for key, sessions in self.booked.items() if key in self.ended}

    def _day(self, day: date, number: int, free: float, mine: Sequence[Work[K]]) -> None:
        while free > NOISE_MINUTES:
            one = next((each for each in mine if self._may_go_on(each, day, number)), None)
            if one is None:
                return
            spent = min(free, self.left[one.key])
            self.booked.setdefault(one.key, []).append(Session(day, spent))
            self.left[one.key] -= spent
            free -= spent
            if self.left[one.key] <= NOISE_MINUTES:
                self.ended[one.key] = (day, number)

    def _may_go_on(self, work: Work[K], day: date, number: int) -> bool:
        if work.key in self.ended:
            return False
        for need in work.needs:
            end = self.ended.get(need)
            if end is None or (end[1] != number and end[0] >= day):
                return False
        return True
