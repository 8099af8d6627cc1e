"""What a trainer saw who looked in on somebody on their own: the result of one check."""

from __future__ import annotations

from datetime import date
from enum import StrEnum
from typing import Annotated

from pydantic import model_validator
from pydantic_core import PydanticCustomError

from .ids import Id
from .job import Job, KeyPoint
from .marks import Example, Order
from .record import Record
from .staff_code import StaffCode


class CheckResult(StrEnum):
    """What came of a check."""

    NOTHING_MISSED = "nothing missed"
    MISSED = "missed"
    """Something was missed, and put right with them there and then."""
    STOPPED = "stopped"
    """The trainer stopped the work: they prove the job again before they go on alone."""


class Missed(Record):
    """A key point, or a whole step, that was missed."""

    step: Annotated[Id, Example("clamp-plate")]
    """The step, by id."""
    point: Annotated[str | None, Example("Push the plate against the stop")] = None
    """The key point, by its words or how they begin; left out, the step itself was missed."""


class Checked(Record):
    """A check on somebody on their own, as it was."""

    day: Annotated[date, Example("2026-11-19")]
    """The day on which somebody looked."""
    by: Annotated[StaffCode, Example("tr-01")]
    """Who looked, by staff code."""
    result: Annotated[CheckResult, Example("nothing missed")]
    """One of: nothing missed, missed, stopped."""
    missed: Annotated[tuple[Missed, ...], Order.COUNTS] = ()
    """What was missed; it stands on top of the next check."""

    @model_validator(mode="after")
    def _missed_says_what(self) -> Checked:
        if self.result is CheckResult.NOTHING_MISSED and self.missed:
            raise PydanticCustomError("missed_nothing", "", {"field": "missed"})
        if self.result is CheckResult.MISSED and not self.missed:
            raise PydanticCustomError("missed_what", "", {"field": "missed"})
        return self


def key_point(job: Job, missed: Missed) -> KeyPoint | None:
    """The one key point of the step that begins so; None for a step, and where none or two do."""
    if missed.point is None:
        return None
    wanted = _plain(missed.point)
    step = next((one for one in job.steps if one.id == missed.step), None)
    points = step.key_points if step else ()
    found = [one for one in points if _plain(one.point).startswith(wanted)]
    return found[0] if len(found) == 1 else None


def _plain(words: str) -> str:
    return " ".join(words.casefold().split()).rstrip(".")
