"""What people were told of a plan: `promised.yml`, written by `benchleaf timetable --promise`."""

from __future__ import annotations

from datetime import date, time
from typing import Annotated

from pydantic import Field

from .ids import JobRef
from .marks import Example, Order
from .record import Record
from .rounds import ROUNDS
from .staff_code import StaffCode


class PromisedTime(Record):
    """When a trainer and people meet."""

    day: Annotated[date, Example("2026-12-14")]
    """The day of the shift in which it begins."""
    starts: Annotated[time, Example("08:15")]
    """When it begins, by the clock."""
    minutes: Annotated[int, Field(ge=5, le=1440), Example("65")]
    """How long it takes."""


class PromisedLesson(Record):
    """A lesson that people were told of."""

    job: JobRef
    """The job, by id."""
    people: Annotated[tuple[StaffCode, ...], Order.COUNTS, Example("op-07")] = Field(min_length=1)
    """Who is taught, by staff code."""
    trainer: Annotated[StaffCode, Example("tr-01")]
    """Who teaches, by staff code."""
    round: Annotated[int, Field(ge=0, le=len(ROUNDS)), Example("0")] = 0
    """The last round that they had come through when it was promised."""
    sessions: Annotated[tuple[PromisedTime, ...], Order.COUNTS] = Field(min_length=1)
    """When, in their order."""


class PromisedCheck(Record):
    """A check on somebody on their own, that trainer and learner were told of."""

    job: JobRef
    """The job, by id."""
    person: Annotated[StaffCode, Example("op-07")]
    """Who is looked at, by staff code."""
    trainer: Annotated[StaffCode, Example("tr-01")]
    """Who looks, by staff code."""
    day: Annotated[date, Example("2026-12-14")]
    """The day of the shift."""
    starts: Annotated[time, Example("08:15")]
    """When it begins, by the clock."""


class Promised(Record):
    """The plan as people were last told it. A command writes this file; nobody types it."""

    made: Annotated[date, Example("2026-12-14")]
    """The day from which that plan was made."""
    lessons: Annotated[tuple[PromisedLesson, ...], Order.COUNTS] = ()
    """Its lessons."""
    checks: Annotated[tuple[PromisedCheck, ...], Order.COUNTS] = ()
    """Its checks."""
