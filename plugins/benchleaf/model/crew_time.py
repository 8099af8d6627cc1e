"""When people are there, and what a plan must know of a job's lessons beyond the breakdown."""

from __future__ import annotations

from datetime import date, time
from enum import StrEnum
from typing import Annotated, Self

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from .fields import Duration
from .ids import JobRef
from .marks import Example
from .record import Record


class Break(Record):
    """A break at a time of its own."""

    starts: Annotated[time, Example("09:00")]
    """When it begins, by the clock."""
    lasts: Annotated[Duration, Example("15 min")]
    """How long it is."""


class Absence(Record):
    """Days, or hours of days, on which somebody is not there."""

    first: Annotated[date, Example("2026-12-14")]
    """The first day."""
    last: Annotated[date | None, Example("2026-12-16")] = None
    """The last day; the first one unless given."""
    starts: Annotated[time | None, Example("08:00")] = None
    """From when on each of these days, by the clock; from the start of the shift unless given."""
    ends: Annotated[time | None, Example("09:00")] = None
    """Until when; to the end of the shift unless given."""

    @model_validator(mode="after")
    def _ends_after_it_starts(self) -> Self:
        if self.last is not None and self.last < self.first:
            raise PydanticCustomError(
                "ends_before", "the last day comes before the first", {"field": "last"}
            )
        return self


class ShiftEdge(StrEnum):
    """The end of a shift at which a job is done, and so taught."""

    START = "start of shift"
    END = "end of shift"


class LessonFacts(Record):
    """What a plan must know of the lessons of one job."""

    job: JobRef
    """The job, by id."""
    takes: Annotated[Duration | None, Example("2 h")] = None
    """How long the whole lesson takes, as you measured it; by the shop's rule unless given."""
    done_at: ShiftEdge | None = None
    """Where the job is done at one end of the shift only: lessons and checks are put there."""
    pieces: Annotated[int | None, Field(ge=0, le=10000), Example("12")] = None
    """Pieces that a learner needs to practise on; counted against `batches` of the job."""


class Batch(Record):
    """Pieces of a job that are there for practice."""

    job: JobRef
    """The job, by id."""
    pieces: Annotated[int, Field(ge=1, le=1000000), Example("40")]
    """How many pieces."""
    first: Annotated[date, Example("2026-12-07")]
    """The day from which on they are there."""
    last: Annotated[date | None, Example("2026-12-11")] = None
    """The last day on which they are; without end unless given."""

    def is_there(self, day: date) -> bool:
        """Whether its pieces are there on a day."""
        return self.first <= day and (self.last is None or day <= self.last)
