"""The one cadence of checks on somebody on their own, and where the results have brought them.

The published method (Job Instruction, 1944) gives no intervals: it says to check often and to taper
off. Whether intervals grow or stay alike makes no difference in the end, and growing ones keep more
in mind meanwhile (a comparison of spacings, read as an abstract). What follows is a house rule:

- a stage is over when its checks have been made, not when its days are past;
- a miss goes one stage back, and the checks of that stage are made again;
- a grave one goes to the first stage: a step left out, a key point that can injure, or work that
  the trainer stopped; so does a key point that the breakdown does not have, for nobody knows which
  kind it is;
- where no check of a stage found anything, the next stage is half as long; never again in that
  follow-up once anything was missed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import IntEnum

from benchleaf.model import FollowUpRule


class Miss(IntEnum):
    """How grave it is what a check found."""

    NONE = 0
    SOME = 1
    GRAVE = 2


@dataclass(frozen=True, slots=True)
class Stage:
    """A part of the cadence."""

    days: int
    """How many days with checks."""
    checks: int
    """Checks on each of them."""
    every: int = 1
    """Working days from one such day to the next."""

    @property
    def says(self) -> str:
        """In words.

        >>> Stage(1, 4).says, Stage(3, 1, 5).says
        ('4 checks in one working day', '1 check each 5th working day, 3 times')
        """
        checks = f"{self.checks} check{'s' if self.checks > 1 else ''}"
        if self.every > 1:
            return f"{checks} each {_ordinal(self.every)} working day, {_times(self.days)}"
        if self.days == 1:
            return f"{checks} in one working day"
        return f"{checks} a day for {self.days} working days"


@dataclass(frozen=True, slots=True)
class Looked:
    """A check that was made."""

    day: date
    miss: Miss


@dataclass(frozen=True, slots=True)
class Turn:
    """A result that made the cadence longer or shorter."""

    day: date
    says: str


@dataclass(frozen=True, slots=True)
class Place:
    """How far somebody is with the cadence."""

    stages: tuple[Stage, ...]
    at: int
    """The stage that goes on; as many as there are stages where all are over."""
    days_done: int = 0
    """Days of that stage whose checks are all made."""
    checks_done: int = 0
    """Checks made of the next day of it."""
    is_half: bool = False
    """True where that stage is half as long, since the one before found nothing."""
    last: date | None = None
    """The day of the last check."""
    turns: tuple[Turn, ...] = ()
    begun: int = 0
    """The stage that it began with."""
    went_back: bool = False
    """True where a miss made it longer."""

    @property
    def is_over(self) -> bool:
        """True where no check is left."""
        return self.at == len(self.stages)

    def days(self, stage: int) -> int:
        """How many days with checks a stage has for them."""
        days = self.stages[stage].days
        return -(-days // 2) if stage == self.at and self.is_half else days

    def to_come(self) -> Iterator[tuple[int, int, int]]:
        """Each day with checks still to come: its stage, checks, and working days since the last.

        None of them is taken to go well or badly beforehand.
        """
        for number in range(self.at, len(self.stages)):
            stage = self.stages[number]
            done = self.days_done if number == self.at else 0
            for day in range(done, self.days(number)):
                is_begun = number == self.at and day == done and self.checks_done > 0
                checks = stage.checks - (self.checks_done if is_begun else 0)
                yield number, checks, 1 if is_begun else stage.every


def cadence_of(rule: FollowUpRule, *, again: bool = False) -> Place:
    """Where somebody stands who was just put on their own.

    Who could do it before (`again`) begins with the last, short stage; a miss puts them among the
    others.
    """
    stages = [Stage(one.days, one.checks) for one in rule.stages]
    if again:
        last = [Stage(rule.again_checks, 1)] if rule.again_checks else []
        return Place((*stages, *last), len(stages), begun=len(stages))
    last = [Stage(rule.then_checks, 1, rule.then_every_days)] if rule.then_checks else []
    return Place((*stages, *last), 0)


def walked(begin: Place, looked: Sequence[Looked]) -> Place:
    """Where the checks that were made, in their order, have brought somebody.

    Of more checks than a day of the cadence asks for, those too many count where they found a miss.
    """
    stages = begin.stages
    at, days, checks, is_half = begin.at, 0, 0, False
    turns: list[Turn] = []
    may_halve, counted = True, None
    for look in looked:
        if look.miss is not Miss.NONE:
            back = 0 if look.miss is Miss.GRAVE else max(min(at, len(stages)) - 1, 0)
            turns.append(Turn(look.day, _back(stages[back], look.miss)))
            at, days, checks, is_half, may_halve, counted = back, 0, 0, False, False, look.day
            continue
        if at == len(stages) or not _is_due(stages[at], look.day, counted, checks):
            continue
        checks += 1
        if checks < stages[at].checks:
            continue
        days, checks, counted = days + 1, 0, look.day
        if days == (-(-stages[at].days // 2) if is_half else stages[at].days):
            over, at, days = stages[at], at + 1, 0
            is_half = may_halve and at < len(stages) and stages[at].days > 1
            if is_half:
                says = f"nothing missed in {over.says}: the next stage is half as long"
                turns.append(Turn(look.day, says))
    last = looked[-1].day if looked else None
    return Place(stages, at, days, checks, is_half, last, tuple(turns), begin.begun, not may_halve)


def _is_due(stage: Stage, day: date, counted: date | None, checks: int) -> bool:
    """Whether a check may count for the next day of a stage: not sooner than the stage asks."""
    if checks or counted is None:
        return True
    return day >= counted + timedelta(days=stage.every)


def _back(stage: Stage, miss: Miss) -> str:
    grave = "a grave miss" if miss is Miss.GRAVE else "something missed"
    return f"{grave}: back to {stage.says}"


def _ordinal(number: int) -> str:
    """A number in its place.

    >>> [_ordinal(n) for n in (2, 3, 5, 11, 21)]
    ['2nd', '3rd', '5th', '11th', '21st']
    """
    ends = {1: "st", 2: "nd", 3: "rd"}
    return f"{number}{'th' if 10 < number % 100 < 14 else ends.get(number % 10, 'th')}"


def _times(number: int) -> str:
    return "once" if number == 1 else f"{number} times"
