"""Checks on a learner who is on their own: close at first, then tapering off.

`cadence.py` says the rule. Here it gets its days. Without a result on record the days go by the
calendar from the first day on; else they go on from the last check. Where pieces are timed, the
learner's curve keeps a check a day for as long as they are expected to be slower than the basic
time by more than the rule allows.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from benchleaf.compute.practice import Curve
from benchleaf.formulas import work_rate
from benchleaf.model import FollowUpRule, Shift

from .cadence import Looked, Place, cadence_of, walked
from .days import working_days
from .looked import Revisit

MOST_DAYS = 60
"""Longest follow-up by the curve, in working days; beyond it something else is wrong."""

WHAT = (
    "Watch one piece. Are all steps there, in their order?",
    "Ask for the key points and the reasons of one step.",
    "Ask what they would change, and what is still hard.",
)
"""What a check is, in the method's words of asking and looking."""

AGAIN = "They could do the job before, so that fewer checks follow."


@dataclass(frozen=True, slots=True)
class FollowUpDay:
    """A working day with checks."""

    number: int
    """Working day, 1 for the first on their own."""
    day: date
    times: tuple[datetime, ...]
    """When to look, by the clock of the shop: spread over the shift, where trainers have time."""
    why: str
    expected_s: float | None = None
    """Expected time of the last piece of that day, where a curve is there."""
    first_piece: int | None = None
    last_piece: int | None = None
    by: tuple[str, ...] = ()
    """Which trainer looks, one for each time; empty before the plan gives it to one."""
    unmet: int = 0
    """Checks that no trainer has time for."""


@dataclass(frozen=True, slots=True)
class FollowUp:
    """The plan of checks after somebody was put on their own."""

    start: date
    days: tuple[FollowUpDay, ...]
    note: str
    """What the curve adds, or why it adds nothing."""
    place: Place
    """The cadence, and how far they are with it."""
    revisit: tuple[Revisit, ...] = ()
    """What the next check begins with."""
    overdue: date | None = None
    """The day on which the next check was due, where that is past."""
    beyond: int = 0
    """Checks for which there is no working day of theirs any more."""

    @property
    def is_recorded(self) -> bool:
        """True where the result of a check is on record."""
        return self.place.last is not None

    @property
    def checks(self) -> int:
        """How many checks in all."""
        return sum(len(one.times) for one in self.days)


@dataclass(frozen=True, slots=True)
class Pace:
    """A learner's curve against the basic time, for planning by days."""

    curve: Curve
    basic_s: float
    """Time of a piece without allowances, as a stop-watch takes it."""
    done: int
    """Pieces made before the first day on their own."""
    allowance_percent: float = 0.0
    """What the shift holds besides work, in percent of the work."""


@dataclass(frozen=True, slots=True)
class Record:
    """What is on record of a follow-up, on a day."""

    today: date
    looked: tuple[Looked, ...] = ()
    """The checks that were made, in the order of time."""
    revisit: tuple[Revisit, ...] = ()
    """What the next check begins with."""


def follow_up(
    rule: FollowUpRule,
    shift: Shift,
    closed: Collection[date],
    start: date,
    pace: Pace | None,
    missing: str = "",
    *,
    again: bool = False,
    record: Record | None = None,
) -> FollowUp:
    """The checks from the first working day after `start` on, of those made already none.

    `missing` says why there is no pace, where there is none. Who is taught or checked `again` could
    do it before, and has fewer.
    """
    place, today = cadence_of(rule, again=again), None
    if record is not None and record.looked:
        place, today = walked(place, record.looked), record.today
    days = _days_of(shift, closed, start, today)
    soonest = sum(1 for one in days if one < today) + 1 if today else 1
    wanted, due = _wanted(place, days, today, soonest)
    expected = () if again or pace is None else _expected(pace, shift, len(days))
    slow = _slow_days(expected, rule, pace)
    for number in range(soonest, slow + 1):
        wanted.setdefault(number, (1, "still slower than the basic time"))
    found = tuple(
        _day(number, days[number - 1], wanted[number], shift, expected)
        for number in sorted(wanted)
        if number <= len(days)
    )
    note = AGAIN if again else _note(rule, slow, expected, pace, missing)
    overdue = days[due - 1] if due < soonest and not place.is_over else None
    beyond = sum(checks for number, (checks, _) in wanted.items() if number > len(days))
    again_first = record.revisit if record else ()
    return FollowUp(start, found, note, place, again_first, overdue, beyond)


def _days_of(shift: Shift, closed: Collection[date], start: date, today: date | None) -> list[date]:
    """The working days of a follow-up, also of one that began long ago and goes on by a record."""
    days = list(working_days(shift, closed, start + timedelta(days=1)))
    while today is not None and days and days[-1] < today + timedelta(days=MOST_DAYS):
        days += working_days(shift, closed, days[-1] + timedelta(days=1))
    return days


def _why(place: Place, stage: int) -> str:
    if stage == place.begun > 0:
        return "taught or checked again"
    return f"stage {stage + 1} of {len(place.stages)}"


def _wanted(
    place: Place, days: Sequence[date], today: date | None, soonest: int
) -> tuple[dict[int, tuple[int, str]], int]:
    """Checks and reason of each working day to come, and the one on which the first is due.

    What is overdue is put on the first day from today on.
    """
    number = due = 0
    is_begun_today = False
    if place.last is not None:
        number = sum(1 for one in days if one <= place.last)
        is_begun_today = place.checks_done > 0 and place.last == today
    found: dict[int, tuple[int, str]] = {}
    for at, (stage, checks, gap) in enumerate(place.to_come()):
        number += 0 if at == 0 and is_begun_today and number else gap
        due = due or number
        number = max(number, soonest)
        found[number] = checks, _why(place, stage)
    return found, due


def _working_s(shift: Shift) -> float:
    return shift.hours.value - (shift.breaks.value if shift.breaks else 0.0)


def _expected(pace: Pace, shift: Shift, days: int) -> tuple[work_rate.DayOfLearning, ...]:
    curve = pace.curve
    return work_rate.days_of_learning(
        "unit",
        curve.first_s,
        curve.learning_percent,
        pace.basic_s,
        _working_s(shift) / (1 + pace.allowance_percent / 100),
        pace.done,
        min(days, MOST_DAYS),
    )


def _slow_days(
    expected: tuple[work_rate.DayOfLearning, ...], rule: FollowUpRule, pace: Pace | None
) -> int:
    """How many days begin with the learner slower than the rule allows."""
    if pace is None:
        return 0
    most = pace.basic_s * (1 + rule.slow_percent / 100)
    slow = [
        number
        for number, one in enumerate(expected, 1)
        if pace.curve.expected_s(one.first_piece) > most
    ]
    return max(slow, default=0)


def _day(
    number: int,
    day: date,
    wanted: tuple[int, str],
    shift: Shift,
    expected: tuple[work_rate.DayOfLearning, ...],
) -> FollowUpDay:
    checks, why = wanted
    times = tuple(_times(day, checks, shift))
    if number > len(expected):
        return FollowUpDay(number, day, times, why)
    one = expected[number - 1]
    last = one.first_piece + one.pieces - 1
    return FollowUpDay(number, day, times, why, one.last_time_s, one.first_piece, last)


def _times(day: date, checks: int, shift: Shift) -> Iterator[datetime]:
    """In the middle of as many equal parts of the shift, to whole five minutes."""
    begin = datetime.combine(day, time(shift.starts.hour, shift.starts.minute))
    for number in range(checks):
        minutes = shift.hours.value / 60 * (number + 0.5) / checks
        yield begin + timedelta(minutes=5 * round(minutes / 5))


def _note(
    rule: FollowUpRule,
    slow: int,
    expected: tuple[work_rate.DayOfLearning, ...],
    pace: Pace | None,
    missing: str,
) -> str:
    if pace is None:
        return f"The learner's curve adds nothing: not computed, missing {missing}."
    if slow >= len(expected):
        return (
            f"By their curve they do not come within {rule.slow_percent:g} % of the basic time in "
            f"{len(expected)} working days. Look for what holds them back."
        )
    if slow == 0:
        return (
            f"By their curve they are within {rule.slow_percent:g} % of the basic time from the "
            "first day: the rule alone decides."
        )
    return (
        f"By their curve they are within {rule.slow_percent:g} % of the basic time after {slow} "
        f"working day{'s' if slow != 1 else ''}; until then there is a check a day at least."
    )
