"""People and what they can do: the crew, kept outside the repository, by staff code only."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, time
from enum import StrEnum
from typing import Annotated

from pydantic import AfterValidator, Field, WithJsonSchema
from pydantic_core import PydanticCustomError

from .authority import AskedFor, Authority, Granted
from .checked import Checked, CheckResult
from .crew_time import Absence, Batch, Break, LessonFacts
from .fields import Duration
from .ids import Id, JobRef, ListRef, RefTo, normal_id
from .marks import Example, Order
from .promised import Promised
from .record import Record, Revision, revision_order
from .rounds import ROUNDS
from .staff_code import StaffCode

_FINGERPRINT = re.compile(r"[0-9a-f]{8,64}")


def _fingerprint(written: str) -> str:
    lowered = written.lower()
    if not _FINGERPRINT.fullmatch(lowered):
        raise PydanticCustomError("fingerprint", "'{value}' is none", {"value": written})
    return lowered


Fingerprint = Annotated[
    str,
    AfterValidator(_fingerprint),
    WithJsonSchema(
        {
            "type": "string",
            "pattern": "^[0-9A-Fa-f]{8,64}$",
            "description": "The first 8 digits or more of a fingerprint.",
            "examples": ["3fa19c0b"],
        }
    ),
]
ShiftRef = Annotated[str, AfterValidator(normal_id), RefTo("shifts")]


class Weekday(StrEnum):
    """Days of the week, Monday first (ISO 8601)."""

    MONDAY = "monday"
    TUESDAY = "tuesday"
    WEDNESDAY = "wednesday"
    THURSDAY = "thursday"
    FRIDAY = "friday"
    SATURDAY = "saturday"
    SUNDAY = "sunday"


WORKING_WEEK = tuple(Weekday)[:5]


class Shift(Record):
    """A shift of the shop."""

    id: Annotated[Id, Example("day")]
    """The shift's id, such as `day`."""
    name: Annotated[str, Example("Day shift")]
    """What the shift is called."""
    starts: Annotated[time, Example("06:00")]
    """When it begins, by the clock, such as 06:00."""
    hours: Annotated[Duration, Example("8 h")]
    """How long it is, such as 8 h."""
    breaks: Annotated[Duration | None, Example("30 min")] = None
    """Breaks in it, all together; a plan puts them in the middle, unless `breaks_at` says when."""
    breaks_at: tuple[Break, ...] = ()
    """Each break with its time; nothing is planned in it."""
    days: tuple[Weekday, ...] = Field(default=WORKING_WEEK, min_length=1)
    """Days on which it works; Monday to Friday unless given."""


class Cover(Record):
    """How many people must be able to do a job."""

    job: JobRef
    """The job, by id."""
    at_least: Annotated[int, Field(ge=1), Example("2")]
    """How many, in each shift named."""
    shifts: Annotated[tuple[ShiftRef, ...], Example("day")] = ()
    """In which shifts; all of them unless given."""


class Trainer(Record):
    """Somebody who trains, and for how long a shift."""

    id: Annotated[StaffCode, Example("tr-01")]
    """The trainer's staff code, never a name."""
    shift: Annotated[ShiftRef, Example("day")]
    """The shift they train in, by id."""
    hours: Annotated[Duration, Example("2 h")]
    """Time for training in each shift, such as 2 h."""
    teaches: tuple[JobRef, ...] = ()
    """Jobs they may teach; every job unless given."""
    absent: tuple[Absence, ...] = ()
    """When they are not there."""
    first_day: Annotated[date | None, Example("2026-12-07")] = None
    """The day on which they begin to train; left out, they train now."""
    last_day: Annotated[date | None, Example("2027-06-30")] = None
    """The last day on which they train; without end unless given."""


class CrewFacts(Record):
    """Facts of the crew as a whole: `crew.yml`."""

    shifts: tuple[Shift, ...] = Field(min_length=1)
    """The shifts of the shop."""
    cover: tuple[Cover, ...] = ()
    """Cover that the shop wants; a job not named needs none."""
    trainers: tuple[Trainer, ...] = ()
    """Who trains, and for how long a shift."""
    closed: Annotated[tuple[date, ...], Example("2026-12-24")] = ()
    """Days on which the shop is closed."""
    lessons: tuple[LessonFacts, ...] = ()
    """What a plan must know of the lessons of some jobs."""
    batches: tuple[Batch, ...] = ()
    """Pieces for practice; a job that is not named has as many as are wanted."""
    asks_for: tuple[AskedFor, ...] = ()
    """Licences from outside that jobs ask of whoever runs them."""
    as_of: Annotated[date | None, Example("2026-11-25")] = None
    """Plan as of this day instead of today; for a demonstration."""


class TimedPiece(Record):
    """A piece that was timed while somebody learned."""

    piece: Annotated[int, Field(ge=1), Example("12")]
    """Its number, counted from the learner's first piece of this job."""
    time: Annotated[Duration, Example("3.5 min")]
    """How long it took, such as 3.5 min."""


class ToldOf(Record):
    """What changed in a job was taught to somebody: the short lesson was given, and shown back."""

    revision: Revision
    """The revision up to which they were taught."""
    day: Annotated[date, Example("2026-12-07")]
    """The day on which."""
    by: Annotated[StaffCode, Example("tr-01")]
    """Who taught it, by staff code."""


class RoundDone(Record):
    """A round that a learner came through."""

    round: Annotated[int, Field(ge=1, le=len(ROUNDS)), Example("1")]
    """Which of the rounds."""
    revision: Revision
    """The revision of the breakdown in that round."""


class SignOff(Record):
    """A job that somebody can do, as the shop's own record has it."""

    job: JobRef
    """The job, by id."""
    revision: Revision
    """The revision on which it was proved."""
    fingerprint: Fingerprint | None = None
    """The fingerprint of the job's meaning at that time, where it was recorded."""
    judged: Annotated[date, Example("2026-11-18")]
    """The day on which it was proved."""
    judged_by: Annotated[StaffCode, Example("tr-01")]
    """Who judged it."""
    first_proved: Annotated[date | None, Example("2026-03-02")] = None
    """The day on which they first proved it, where `judged` is a later one: fewer checks follow."""
    last_done: Annotated[date | None, Example("2026-11-20")] = None
    """The day on which they last did the job."""
    until: Annotated[date | None, Example("2027-11-17")] = None
    """The last day on which it holds, where it was given for a time only."""
    timed: tuple[TimedPiece, ...] = ()
    """Pieces timed while they learned it, and since they were put on their own."""
    told: tuple[ToldOf, ...] = ()
    """What changed in the job since, and was taught: the sign-off counts for that revision then."""
    checks: Annotated[tuple[Checked, ...], Order.COUNTS] = ()
    """Checks since then, as they were, in the order of time."""

    @property
    def last_told(self) -> ToldOf | None:
        """The last time that they were taught what changed since they proved it, or None."""
        found = (one for one in self.told if one.day >= self.judged)
        last = max(found, key=lambda one: (one.day, revision_order(one.revision)), default=None)
        later = last and revision_order(last.revision) > revision_order(self.revision)
        return last if later else None

    @property
    def counts_for(self) -> tuple[str, str | None]:
        """The revision that they were last taught, and the fingerprint where one was recorded."""
        last = self.last_told
        return (last.revision, None) if last else (self.revision, self.fingerprint)

    @property
    def checks_since(self) -> tuple[Checked, ...]:
        """The checks since they last proved it, in the order of days."""
        found = (one for one in self.checks if one.day >= self.judged)
        return tuple(sorted(found, key=lambda one: one.day))

    @property
    def stopped_on(self) -> date | None:
        """The first day since they proved it on which a check stopped their work, or None."""
        found = (one.day for one in self.checks_since if one.result is CheckResult.STOPPED)
        return next(found, None)


class Learning(Record):
    """A job that somebody is learning."""

    job: JobRef
    """The job, by id."""
    round: Annotated[int, Field(ge=0, le=len(ROUNDS)), Example("1")]
    """The last round they came through, 1 to 4; 0 before the first: the showing is not counted."""
    revision: Revision | None = None
    """The revision that they were taught; left out where nobody wrote it down."""
    rounds: Annotated[tuple[RoundDone, ...], Order.COUNTS] = ()
    """Rounds that they came through, each with its revision; `revision` stands for the others."""
    told: tuple[ToldOf, ...] = ()
    """What changed meanwhile and was taught."""
    trainer: Annotated[StaffCode | None, Example("tr-01")] = None
    """Who teaches them, by staff code."""
    timed: tuple[TimedPiece, ...] = ()
    """Pieces timed so far."""

    @property
    def taught(self) -> str | None:
        """The oldest revision of which they know all that is taught; None where it is not known.

        What changed after the earliest of their rounds counts until it was taught, on record: a
        later round that was done by a newer revision does not say that anybody told them. A round
        of which no revision is known, by itself or by `revision`, leaves it unknown.
        """
        told = [one.revision for one in self.told]
        known = {one.round: one.revision for one in self.rounds}
        each = [known.get(number, self.revision) for number in range(1, self.round + 1)]
        done = [one for one in (each or [self.revision]) if one is not None]
        if len(done) < len(each or [self.revision]) and not told:
            return None
        oldest = min(done, key=revision_order, default=None)
        newest = max(told, key=revision_order, default=None)
        return max((one for one in (oldest, newest) if one), key=revision_order, default=None)


class SignedPage(Record):
    """A page of the manual, such as the safety preface, that somebody has signed."""

    page: Annotated[str, Example("safety.md")]
    """The page, by its file name."""
    fingerprint: Fingerprint | None = None
    """The fingerprint of the page's words at that time, where it was recorded."""
    signed: Annotated[date, Example("2026-11-30")]
    """The day on which they signed."""
    signed_by: Annotated[StaffCode | None, Example("tr-01")] = None
    """Who signed with them."""


class MustBeAble(Record):
    """A job that somebody must be able to do by a day."""

    job: JobRef
    """The job, by id."""
    by: Annotated[date, Example("2026-12-15")]
    """The day by which they must be able to do it."""


class Follows(Record):
    """A list for new people that somebody follows."""

    list: ListRef
    """The list, by id."""
    first_day: Annotated[date, Example("2026-12-07")]
    """Its first day for them; the working days of the list are counted from it."""


class Person(Record):
    """One person's record: `people/CODE.yml`."""

    id: StaffCode
    """The person's staff code, never a name; the file is called after it."""
    shift: Annotated[ShiftRef, Example("day")]
    """The shift they work in, by id."""
    can_do: tuple[SignOff, ...] = ()
    """Jobs they can do, as the shop's own record has it."""
    learning: tuple[Learning, ...] = ()
    """Jobs they are learning."""
    must_be_able: tuple[MustBeAble, ...] = ()
    """Jobs they must be able to do by a day."""
    follows: tuple[Follows, ...] = ()
    """Lists for new people that they follow; jobs that a list teaches are planned by its days."""
    not_needed: tuple[JobRef, ...] = ()
    """Jobs that this person need not learn."""
    signed: tuple[SignedPage, ...] = ()
    """Pages that they have signed, such as the safety preface."""
    authorities: tuple[Authority, ...] = ()
    """What they may do beside running jobs: set, lock off, teach, judge, and licences."""
    absent: tuple[Absence, ...] = ()
    """When they are not there."""
    first_day: Annotated[date | None, Example("2026-12-07")] = None
    """Their first day of work; left out, they are there now."""
    last_day: Annotated[date | None, Example("2027-06-30")] = None
    """Their last day of work; without end unless given."""

    def sign_off(self, job_id: str) -> SignOff | None:
        """Their sign-off for a job, or None."""
        return next((one for one in self.can_do if one.job == job_id), None)

    def lesson(self, job_id: str) -> Learning | None:
        """How far they are with a job that they are learning, or None."""
        return next((one for one in self.learning if one.job == job_id), None)

    def signing(self, page: str) -> SignedPage | None:
        """Their last signing of a page, or None."""
        found = [one for one in self.signed if one.page == page]
        return max(found, key=lambda one: one.signed, default=None)

    def due(self, job_id: str) -> date | None:
        """The day by which they must be able to do a job, or None."""
        return next((one.by for one in self.must_be_able if one.job == job_id), None)


@dataclass(frozen=True, slots=True)
class Crew:
    """Everybody, by staff code."""

    facts: CrewFacts
    people: Mapping[str, Person] = field(default_factory=dict)
    promised: Promised | None = None
    """What people were told of an earlier plan."""

    @property
    def codes(self) -> frozenset[str]:
        """Everybody of whom the records know: who has a file, and who trains."""
        return frozenset((*self.people, *(one.id for one in self.facts.trainers)))

    def records(self, granted: Granted) -> bool:
        """True where the shop's records hold this authority of anybody."""
        every = (each for one in self.people.values() for each in one.authorities)
        return any(one.may is granted for one in every)

    def shift(self, shift_id: str) -> Shift:
        """A shift that exists."""
        return next(one for one in self.facts.shifts if one.id == shift_id)

    def lesson_facts(self, job_id: str) -> LessonFacts | None:
        """What is said of a job's lessons, or None."""
        return next((one for one in self.facts.lessons if one.job == job_id), None)

    def on_shift(self, shift_id: str) -> tuple[Person, ...]:
        """The people of a shift, by their codes."""
        return tuple(one for one in self.people.values() if one.shift == shift_id)
