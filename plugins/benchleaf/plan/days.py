"""Working days of a shift, and a trainer's time counted along them."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from benchleaf.model import Shift, Weekday

HORIZON_DAYS = 400
"""How far ahead plans look, in days of the calendar."""

_WEEK = tuple(Weekday)


def works_on(shift: Shift, closed: Collection[date], day: date) -> bool:
    """True where the shift works that day."""
    return _WEEK[day.weekday()] in shift.days and day not in closed


def working_days(shift: Shift, closed: Collection[date], first: date) -> Iterator[date]:
    """The shift's working days from `first` on, as far as plans look ahead."""
    for ahead in range(HORIZON_DAYS):
        day = first + timedelta(days=ahead)
        if works_on(shift, closed, day):
            yield day


@dataclass(frozen=True, slots=True)
class Timeline:
    """A trainer's time for training, counted in minutes along the days on which they have any."""

    days: tuple[date, ...]
    minutes_a_day: float

    def until(self, day: date | None) -> float:
        """Minutes up to the end of that day; without end for None."""
        if day is None:
            return math.inf
        return self.minutes_a_day * sum(1 for one in self.days if one <= day)

    def day_at(self, minutes: float) -> date | None:
        """The day in which so many minutes are used up; None beyond the horizon."""
        place = max(0, math.ceil(minutes / self.minutes_a_day - 1e-9) - 1)
        return self.days[place] if place < len(self.days) else None
