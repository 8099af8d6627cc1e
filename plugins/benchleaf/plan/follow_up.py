"""Checks on a learner who is on their own: close at first, then tapering off.

The published method (Job Instruction, 1944) fixes no days: it says to check often and to taper
off. The stages are the shop's own rule. Where pieces are timed, the learner's curve keeps a check
a day for as long as they are expected to be slower than the standard by more than the rule allows.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from benchleaf.compute.practice import Curve
from benchleaf.formulas import work_rate
from benchleaf.model import FollowUpRule, Shift

from .days import working_days

MOST_DAYS = 60
"""Longest follow-up by the curve, in working days; beyond it something else is wrong."""

WHAT = (
    "Watch one piece. Are all steps there, in their order?",
    "Ask for the key points and the reasons of one step.",
    "Ask what they would change, and what is still hard.",
)
"""What a check is, in the method's words of asking and looking."""


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

    @property
    def checks(self) -> int:
        """How many checks in all."""
        return sum(len(one.times) for one in self.days)


@dataclass(frozen=True, slots=True)
class Pace:
    """A learner's curve against the standard, for planning by days."""

    curve: Curve
    standard_s: float
    done: int
    """Pieces made before the first day on their own."""


def follow_up(
    rule: FollowUpRule,
    shift: Shift,
    closed: Collection[date],
    start: date,
    pace: Pace | None,
    missing: str = "",
    *,
    again: bool = False,
) -> FollowUp:
    """The checks from the first working day after `start` on.

    `missing` says why there is no pace, where there is none. Who is taught or checked `again` could
    do it before, and has fewer.
    """
    if again:
        return _again(rule, shift, closed, start)
    wanted = dict(_by_rule(rule))
    days = list(working_days(shift, closed, start + timedelta(days=1)))
    expected = _expected(pace, shift, len(days)) if pace else ()
    slow = _slow_days(expected, rule, pace)
    for number in range(1, slow + 1):
        wanted.setdefault(number, 1)
    found = tuple(
        _day(number, days[number - 1], wanted[number], shift, expected, rule)
        for number in sorted(wanted)
        if number <= len(days)
    )
    return FollowUp(start, found, _note(rule, slow, expected, pace, missing))


def _again(rule: FollowUpRule, shift: Shift, closed: Collection[date], start: date) -> FollowUp:
    days = working_days(shift, closed, start + timedelta(days=1))
    found = tuple(
        FollowUpDay(number, day, tuple(_times(day, 1, shift)), "taught or checked again")
        for number, day in zip(range(1, rule.again_checks + 1), days, strict=False)
    )
    return FollowUp(start, found, "They could do the job before, so that fewer checks follow.")


def _by_rule(rule: FollowUpRule) -> Iterator[tuple[int, int]]:
    """Working day and checks of that day."""
    number = 0
    for stage in rule.stages:
        for _ in range(stage.days):
            number += 1
            yield number, stage.checks
    for _ in range(rule.then_checks):
        number += rule.then_every_days
        yield number, 1


def _working_s(shift: Shift) -> float:
    return shift.hours.value - (shift.breaks.value if shift.breaks else 0.0)


def _expected(pace: Pace, shift: Shift, days: int) -> tuple[work_rate.DayOfLearning, ...]:
    curve = pace.curve
    return work_rate.days_of_learning(
        "unit",
        curve.first_s,
        curve.learning_percent,
        pace.standard_s,
        _working_s(shift),
        pace.done,
        min(days, MOST_DAYS),
    )


def _slow_days(
    expected: tuple[work_rate.DayOfLearning, ...], rule: FollowUpRule, pace: Pace | None
) -> int:
    """How many days begin with the learner slower than the rule allows."""
    if pace is None:
        return 0
    most = pace.standard_s * (1 + rule.slow_percent / 100)
    slow = [
        number
        for number, one in enumerate(expected, 1)
        if pace.curve.expected_s(one.first_piece) > most
    ]
    return max(slow, default=0)


def _day(
    number: int,
    day: date,
    checks: int,
    shift: Shift,
    expected: tuple[work_rate.DayOfLearning, ...],
    rule: FollowUpRule,
) -> FollowUpDay:
    by_rule = number in dict(_by_rule(rule))
    why = "the shop's rule" if by_rule else "still slower than the standard"
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
            f"By their curve they do not come within {rule.slow_percent:g} % of the standard in "
            f"{len(expected)} working days. Look for what holds them back."
        )
    if slow == 0:
        return (
            f"By their curve they are within {rule.slow_percent:g} % of the standard from the "
            "first day: the rule alone decides."
        )
    return (
        f"By their curve they are within {rule.slow_percent:g} % of the standard after {slow} "
        f"working day{'s' if slow != 1 else ''}; until then there is a check a day at least."
    )
