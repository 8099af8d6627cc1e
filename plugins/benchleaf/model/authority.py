"""What somebody may do beside the jobs they are signed off for, each with its proof and its end."""

from __future__ import annotations

from datetime import date
from enum import StrEnum
from typing import Annotated, Self

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from .ids import JobRef, MachineRef
from .marks import Example
from .record import Record
from .staff_code import StaffCode


class Granted(StrEnum):
    """What the shop itself lets somebody do; to run a job is proved by its sign-off."""

    SET = "set"
    LOCK_OFF = "lock off"
    TEACH = "teach"
    JUDGE = "judge"


class Authority(Record):
    """Something that somebody may do, what proves it, and its last day."""

    may: Granted | None = None
    """What the shop lets them do. To run a job is no authority: that is a sign-off."""
    licence: Annotated[str | None, Example("forklift licence")] = None
    """In place of `may`: a licence from outside, by the name that `asks_for` in crew.yml has."""
    jobs: tuple[JobRef, ...] = ()
    """For which jobs, by id; for every job unless given."""
    stations: Annotated[tuple[MachineRef, ...], Example("pillar-drill")] = ()
    """At which stations, by id; at every one unless given. With `jobs`, for those jobs there."""
    given: Annotated[date, Example("2026-06-15")]
    """The day from which on they may."""
    until: Annotated[date, Example("2027-06-14")]
    """The last day on which they may, unless it is given anew."""
    proof: Annotated[str, Example("lockout list, sheet 4, in the shift lead's office")]
    """What proves it, and where that lies."""
    given_by: Annotated[StaffCode | None, Example("tr-01")] = None
    """Who gave it, where that is somebody of the shop."""

    @model_validator(mode="after")
    def _says_one_thing(self) -> Self:
        if (self.may is None) == (self.licence is None):
            raise PydanticCustomError("may_or_licence", "one of the two", {"field": "may"})
        if self.until < self.given:
            raise PydanticCustomError("ends_early", "it ends before it begins", {"field": "until"})
        return self

    def is_at(self, job_id: str, here: tuple[str, ...]) -> bool:
        """True where it counts for a job at the stations `here`, a cell before what stands in it.

        Of a cell one must have the cell itself, or all that stands in it.
        """
        if self.jobs and job_id not in self.jobs:
            return False
        inside = here[1:]
        whole = bool(inside) and all(one in self.stations for one in inside)
        return not self.stations or here[0] in self.stations or whole

    def holds_on(self, day: date) -> bool:
        """True from its first day to its last."""
        return self.given <= day <= self.until


class AskedFor(Record):
    """A licence from outside that is asked of whoever runs some jobs."""

    licence: Annotated[str, Example("forklift licence")]
    """What it is called."""
    jobs: tuple[JobRef, ...] = Field(min_length=1)
    """The jobs that nobody runs without it, by id."""


def same_licence(one: str, other: str) -> bool:
    """Whether two names are of one licence, capitals and spaces aside.

    >>> same_licence("Forklift  licence", "forklift licence")
    True
    """
    return one.casefold().split() == other.casefold().split()
