"""One clock for everybody: minutes counted from the midnight before the first day of a plan.

A shift that goes past midnight needs no care then, and two things clash where their spans do.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from typing import NamedTuple

DAY = 24 * 60
GRID = 5
"""Everything begins and ends at whole five minutes: times that people can keep. A house value."""


class Span(NamedTuple):
    """From one minute up to another."""

    begin: int
    end: int

    @property
    def minutes(self) -> int:
        """How long it is."""
        return self.end - self.begin


@dataclass(frozen=True, slots=True)
class Session:
    """When a trainer and a learner, or several, meet."""

    day: date
    """The day of the shift, which a night shift leaves behind at midnight."""
    begin: datetime
    """By the clock of the shop."""
    minutes: float
    change_minutes: int = 0
    """Right before it: the trainer changes the station from another set-up."""

    @property
    def end(self) -> datetime:
        """By the clock of the shop."""
        return self.begin + timedelta(minutes=self.minutes)

    @property
    def hours_said(self) -> str:
        """From when to when, such as 08:15 to 09:20."""
        return f"{self.begin:%H:%M} to {self.end:%H:%M}"


def whole(minutes: float) -> int:
    """Minutes up to the next five.

    >>> whole(64.5), whole(60.0000001), whole(3)
    (65, 60, 5)
    """
    return max(GRID, GRID * math.ceil((minutes - 1e-3) / GRID))


def up(minute: int) -> int:
    """The next minute at which something may begin."""
    return -(-minute // GRID) * GRID


def minute_of(clock: time) -> int:
    """Minutes since midnight."""
    return clock.hour * 60 + clock.minute


def moment(today: date, minute: int) -> datetime:
    """A minute of the plan by the clock of the shop."""
    return datetime.combine(today, time()) + timedelta(minutes=minute)


def both(some: Iterable[Span], others: Iterable[Span]) -> Iterator[Span]:
    """What lies in both, of spans in order.

    >>> list(both([Span(0, 60), Span(90, 120)], [Span(30, 100)]))
    [Span(begin=30, end=60), Span(begin=90, end=100)]
    """
    others = tuple(others)
    for one in some:
        for other in others:
            begin, end = max(one.begin, other.begin), min(one.end, other.end)
            if begin < end:
                yield Span(begin, end)


def without(some: Iterable[Span], taken: Iterable[Span]) -> Iterator[Span]:
    """What is left of spans; `taken` is in order.

    >>> list(without([Span(0, 60)], [Span(10, 20), Span(50, 70)]))
    [Span(begin=0, end=10), Span(begin=20, end=50)]
    """
    taken = tuple(taken)
    for one in some:
        begin = one.begin
        for each in taken:
            if each.end <= begin or each.begin >= one.end:
                continue
            if each.begin > begin:
                yield Span(begin, each.begin)
            begin = each.end
        if begin < one.end:
            yield Span(begin, one.end)
