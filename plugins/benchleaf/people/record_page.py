"""The record page of each job: what happens at the bench is written down by touch, from disk.

It goes with the printed try-out record line by line. What it saves is taken in by `benchleaf book`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from benchleaf.html.issue import issue_of
from benchleaf.html.lookup import Lookup
from benchleaf.html.site_facts import day_of_build
from benchleaf.model import BenchKind, Crew, Job, Result, Step, drafts

RECORD_WORDS = (
    (BenchKind.LESSON, "Lesson"),
    (BenchKind.TRY_OUT, "Try-out"),
    (BenchKind.CHECK, "Check on somebody"),
    (BenchKind.DONE, "Did the job"),
    (BenchKind.ABSENCE, "Absent"),
    (BenchKind.TAKEN_BACK, "Take a record back"),
)
"""What can be recorded on the page, and its words."""


def record_address(job_id: str) -> str:
    """The record page of a job; no staff code looks like it.

    >>> record_address("tr-0140")
    'people/record-tr-0140.html'
    """
    return f"people/record-{job_id}.html"


def record_mark(job: Job, fingerprint: str) -> str:
    """What the symbol of the printed record holds: the page that the record is of.

    >>> from types import SimpleNamespace
    >>> record_mark(SimpleNamespace(id="tr-0140", revision="3"), "3fa19c0b77")
    'TR-0140 3 3fa19c0b'
    """
    return f"{job.id.upper()} {job.revision} {fingerprint[:8]}"


@dataclass(frozen=True, slots=True)
class RecordView:
    """Everything on the record page of a job."""

    job: Job
    number: str
    issue: str
    fingerprint: str
    """All of it: a record carries it."""
    mark: str
    """What the symbol of the printed record says."""
    made: date
    """The day on which the page was made."""
    against: tuple[str, ...]
    """Why nobody is taught the job now; then there is nothing to fill in."""
    steps: tuple[tuple[int, Step], ...]
    faults: tuple[tuple[int, Step], ...]
    """Steps at which the trainer sets something wrong on purpose."""
    checks: tuple[tuple[int, Step], ...]
    """Steps with something to check."""
    results: tuple[str, ...]
    people: tuple[str, ...]
    """Codes to choose from; empty where no crew is named."""
    trainers: tuple[str, ...]


def record_view(lookup: Lookup, job: Job, crew: Crew | None) -> RecordView:
    """The view of one job's record page."""
    steps = tuple(enumerate(job.steps, 1))
    mark = lookup.fingerprints.get(job.id, "")
    trainers = {one.id: None for one in crew.facts.trainers} if crew is not None else {}
    return RecordView(
        job,
        job.id.upper(),
        issue_of(job, lookup.shop.drafts),
        mark,
        record_mark(job, mark),
        day_of_build(),
        tuple(_against(lookup, job)),
        steps,
        tuple((number, step) for number, step in steps if step.planted),
        tuple((number, step) for number, step in steps if step.checks),
        tuple(Result),
        tuple(crew.people) if crew is not None else (),
        tuple(trainers),
    )


def _against(lookup: Lookup, job: Job) -> Iterator[str]:
    if job.id in lookup.shop.drafts or not drafts(lookup.shop).is_complete(job.id):
        yield "it is a draft: nobody is taught from it"
    yield from lookup.not_to_run(job)
