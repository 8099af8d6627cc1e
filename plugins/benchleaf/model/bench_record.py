"""A record made at the bench: what a trainer and a learner did, on the page that they did it by.

A record never changes. What is wrong in one is put right by another one that names it.
"""

from __future__ import annotations

import hashlib
import json
import re
from datetime import date, time
from enum import StrEnum
from functools import cached_property
from typing import Annotated

from pydantic import AfterValidator, Field, WithJsonSchema
from pydantic_core import PydanticCustomError

from .crew import Fingerprint
from .fields import Duration
from .ids import Id, JobRef
from .marks import Example, Order
from .record import Record, Revision
from .rounds import ROUNDS, Hides, TeachingRound
from .staff_code import StaffCode

NAME_DIGITS = 12
"""Signs of the digest in a record's name: two records of one person on one day meet by chance once
in 10^14."""
_NAME = re.compile(r"\d{4}-\d\d-\d\d-[a-z]{1,4}-?\d{1,6}-[0-9a-f]{12}")


def _name(written: str) -> str:
    lowered = written.strip().lower().removesuffix(".yml")
    if not _NAME.fullmatch(lowered):
        raise PydanticCustomError("record_name", "'{value}' names no record", {"value": written})
    return lowered


RecordName = Annotated[
    str,
    AfterValidator(_name),
    WithJsonSchema(
        {
            "type": "string",
            "description": "The name of a record's file, with or without .yml.",
            "examples": ["2027-01-11-op-07-0f3a91c2b7d4"],
        }
    ),
]


class BenchKind(StrEnum):
    """What a record is of."""

    LESSON = "lesson"
    """Rounds of a job, some or all."""
    TRY_OUT = "try-out"
    """The same, judged at the end."""
    CHECK = "check"
    """A look at somebody who is on their own."""
    DONE = "done"
    """That somebody did a job they are signed off for."""
    ABSENCE = "absence"
    """That somebody is not there."""
    TAKEN_BACK = "taken back"
    """That another record should not have been made."""


class Result(StrEnum):
    """What a try-out or a check came to, in the words of the printed record."""

    ALONE = "can do it alone"
    MORE = "more practice"


class Gauged(StrEnum):
    """What the gauge said of a piece."""

    GOOD = "good"
    NOT_GOOD = "not good"
    NOT_GAUGED = "not gauged"


class StepSeen(Record):
    """A step as it was done: a line of the printed try-out record."""

    step: Id
    """The step, by id."""
    of: Annotated[int, Field(ge=1, le=99), Example("3")]
    """How many key points it has on that page."""
    right: Annotated[
        tuple[Annotated[int, Field(ge=1, le=len(ROUNDS))], ...], Order.FREE, Example("1")
    ] = ()
    """Rounds that are ticked, in which it was right without help."""
    points: Annotated[int | None, Field(ge=0, le=99), Example("3")] = None
    """How many key points the learner said of it, in the round of key points."""
    reasons: Annotated[int | None, Field(ge=0, le=99), Example("2")] = None
    """How many reasons the learner gave, in the round of reasons."""
    errors: Annotated[int, Field(ge=0, le=99), Example("1")] = 0
    """Errors that were stopped, shown again and tried again."""
    hard: bool = False
    """Said by the learner: this step is still hard."""

    def is_right(self, one: TeachingRound) -> bool:
        """Whether it was right in a round: ticked, or all of its key points said."""
        counted = self.points if one.hides is Hides.POINTS else self.reasons
        return counted == self.of if one.counts_points else one.number in self.right


class PieceSeen(Record):
    """A piece that the learner made in the session."""

    piece: Annotated[int, Field(ge=1, le=9999), Example("1")]
    """Its number in this session."""
    time: Annotated[Duration | None, Example("3.5 min")] = None
    """How long it took by the stop-watch; left out where nobody timed it."""
    gauge: Gauged = Gauged.NOT_GAUGED
    """What the gauge said."""


class FaultSeen(Record):
    """A fault that the trainer set on purpose at a step."""

    step: Id
    """The step, by id."""
    found: bool
    """Whether the learner found it."""
    put_right: bool
    """Whether the trainer put it right again."""


class BenchRecord(Record):
    """A record made at the bench: `records/NAME.yml` in the crew folder."""

    kind: BenchKind
    """What it is of."""
    person: Annotated[StaffCode, Example("op-07")]
    """Whom it is about, by staff code."""
    by: Annotated[StaffCode, Example("tr-01")]
    """Who made the record, by staff code."""
    said_by: Annotated[StaffCode | None, Example("op-07")] = None
    """Whose word it rests on, where that is not who made it."""
    day: Annotated[date, Example("2027-01-11")]
    """The day on which it happened; of an absence its first day."""
    begun: Annotated[time | None, Example("10:40")] = None
    """When it began, by the clock; of an absence, from when on each day."""
    ended: Annotated[time | None, Example("11:25")] = None
    """When it ended; of an absence, until when on each day."""
    last: Annotated[date | None, Example("2027-01-13")] = None
    """The last day of an absence."""
    page_made: Annotated[date, Example("2027-01-08")]
    """The day on which the page was made that the record was made on."""
    job: JobRef | None = None
    """The job, by id."""
    revision: Revision | None = None
    """The revision of the job on that page."""
    fingerprint: Fingerprint | None = None
    """The fingerprint of the job's meaning on that page."""
    language: Annotated[str | None, Field(max_length=40), Example("English")] = None
    """The language of teaching."""
    steps: tuple[StepSeen, ...] = ()
    """The steps as they were done, in the order of the job."""
    pieces: tuple[PieceSeen, ...] = ()
    """The pieces that were made in the session, in order."""
    made_before: Annotated[int | None, Field(ge=0, le=999999), Example("12")] = None
    """Pieces of this job that the learner had made before the session, where somebody counted."""
    faults: tuple[FaultSeen, ...] = ()
    """Faults that were set on purpose."""
    checks: Annotated[tuple[Id, ...], Example("gauge-hole")] = ()
    """Steps whose checks the learner was seen to make, by id."""
    result: Result | None = None
    """What a try-out or a check came to."""
    learned_before: Annotated[Revision | None, Example("4")] = None
    """Told what changed since this revision, which they had learned before."""
    helper: Annotated[StaffCode | None, Example("tr-02")] = None
    """Who helps them from now on, by staff code."""
    next_check: Annotated[date | None, Example("2027-01-15")] = None
    """The day of the next check, as it was agreed."""
    paper: Annotated[str | None, Field(max_length=120), Example("try-out records, folder 2")] = None
    """Where the paper lies that both have signed: it is the proof, and this record is none."""
    replaces: RecordName | None = None
    """The record that this one puts right, by its name."""

    @cached_property
    def said(self) -> dict[str, object]:
        """What is written of it: every key that says something, in the order of the keys."""
        return self.model_dump(mode="json", exclude_defaults=True)

    @cached_property
    def name(self) -> str:
        """Its name: day, person, and a digest of all it says. The same record has the same name."""
        text = json.dumps(self.said, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
        digest = hashlib.sha256(text.encode()).hexdigest()[:NAME_DIGITS]
        return f"{self.day}-{self.person}-{digest}"

    @cached_property
    def rounds(self) -> frozenset[int]:
        """The rounds that the learner came through whole, by what was ticked and counted."""
        return frozenset(
            one.number
            for one in ROUNDS
            if self.steps and all(each.is_right(one) for each in self.steps)
        )
