"""The shop's own rules for planning lessons and following up. Each has a usual value."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from .fields import Factor
from .marks import Example, Order
from .record import Record

Minutes = Annotated[Factor, Field(le=480)]


class LessonRule(Record):
    """How long a lesson takes. House values with no published source: correct them by your own.

    Lesson = get ready + steps × a step + key points × a key point + rounds × steps × a round step.
    """

    get_ready_minutes: Minutes = 15.0
    """To put the learner at ease and find out what they know."""
    step_minutes: Minutes = 3.0
    """To tell and show one step."""
    key_point_minutes: Minutes = 1.5
    """To tell and show one key point with its reason."""
    round_step_minutes: Minutes = 2.5
    """For the learner to do, or do and explain, one step in one of the four rounds."""
    least_session_minutes: Annotated[Factor, Field(ge=5, le=240)] = 20.0
    """The shortest part into which a lesson is divided; a shorter lesson is given in one."""
    change_minutes: Annotated[Factor, Field(le=240)] = 10.0
    """To change a station from the set-up of one job to that of another, between two sessions."""
    check_minutes: Annotated[Factor, Field(ge=5, le=60)] = 10.0
    """For one check on somebody who is on their own."""


class FollowUpStage(Record):
    """So many working days with so many checks each."""

    days: Annotated[int, Field(ge=1, le=60), Example("7")]
    """Working days that this stage lasts."""
    checks: Annotated[int, Field(ge=1, le=12), Example("3")]
    """Checks in each shift."""


def _usual_stages() -> tuple[FollowUpStage, ...]:
    return tuple(
        FollowUpStage(days=days, checks=checks) for days, checks in ((1, 4), (2, 2), (5, 1))
    )


class FollowUpRule(Record):
    """How checks on somebody on their own taper off.

    The published method fixes no days or numbers: it says to check often and taper off. These
    are the shop's own.
    """

    stages: Annotated[tuple[FollowUpStage, ...], Order.COUNTS] = Field(
        default_factory=_usual_stages, min_length=1
    )
    """Close checks first, then fewer."""
    then_every_days: Annotated[int, Field(ge=2, le=60), Example("10")] = 5
    """Working days between the last checks."""
    then_checks: Annotated[int, Field(ge=0, le=24), Example("2")] = 3
    """How many of those."""
    slow_percent: Annotated[Factor, Field(le=200)] = 10.0
    """While somebody is expected to be this much slower than the standard, in percent, they have
    one check a day at least."""
    again_checks: Annotated[int, Field(ge=0, le=24), Example("2")] = 1
    """Checks after a job was taught or checked again, one a working day."""


class Teaching(Record):
    """Rules for planning lessons, re-checks and follow-up."""

    lesson: LessonRule = LessonRule()
    """How long a lesson takes. House values with no published source: correct them by your own."""
    follow_up: FollowUpRule = FollowUpRule()
    """How checks on somebody on their own taper off: the shop's own numbers, none is published."""
    recheck_after_unused_days: Annotated[int, Field(ge=1, le=1000), Example("180")] = 90
    """Days without doing a job after which it is proved again before the next run.

    A house rule, about half of the time in which half the gain in accuracy is lost.
    """
    learning_percent: Annotated[Factor, Field(ge=51, le=100)] | None = None
    """Learning percentage of the unit model, used until three pieces of a learner are timed."""
