"""What a plan must know of each job: where, in which set-up, when in a shift, whether at all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from benchleaf.compute import SetUpSheet
from benchleaf.model import Batch, Drafts, Job, LessonFacts, ShiftEdge, drafts, station_ids

from .lessons import Lesson, LessonKind
from .situation import Situation


@dataclass(frozen=True, slots=True)
class JobAtWork:
    """A job, as a plan meets it."""

    job: Job
    stations: tuple[str, ...]
    """Every station that it takes up."""
    set_up: str | None
    """What must be changed where another job was done before; None where nothing is set up."""
    edge: ShiftEdge | None
    pieces: int
    """Pieces that a new learner practises on."""
    batches: tuple[int, ...]
    """Places of its batches in the crew's list; empty where none is counted."""
    never: str
    """Why nobody may be taught it, or nothing."""


def jobs_at_work(situation: Situation) -> dict[str, JobAtWork]:
    """Every job of the shop."""
    unfinished = drafts(situation.shop)
    batches = situation.crew.facts.batches
    found = {}
    for job in situation.shop.jobs.values():
        sheets = situation.sheets(job)
        never = why_never(situation, job, unfinished)
        facts = situation.crew.lesson_facts(job.id)
        found[job.id] = _at_work(situation, job, sheets, facts, batches, never)
    return found


def _at_work(
    situation: Situation,
    job: Job,
    sheets: Sequence[SetUpSheet],
    facts: LessonFacts | None,
    batches: Sequence[Batch],
    never: str,
) -> JobAtWork:
    stations = station_ids(situation.shop, job.machine)
    pieces = (facts.pieces or 0) if facts else 0
    mine = tuple(n for n, one in enumerate(batches) if one.job == job.id) if pieces else ()
    edge = facts.done_at if facts else None
    return JobAtWork(job, stations, set_up_key(job, sheets), edge, pieces, mine, never)


def why_never(situation: Situation, job: Job, unfinished: Drafts) -> str:
    """Why nobody may run or be taught a job, or nothing."""
    if not unfinished.is_complete(job.id):
        return f"{job.id.upper()} is a draft: nobody is taught from it"
    held = situation.shop.holds.get(job.id, ())  # told whole once, not at each thing that waits
    reasons = tuple(one.since for one in held) or situation.not_to_run(job)
    return f"{job.id.upper()} must not run: {reasons[0]}" if reasons else ""


def set_up_key(job: Job, sheets: Sequence[SetUpSheet]) -> str | None:
    """The same for jobs between which nothing is changed: how work is held, and spindle speeds.

    Speeds are those to set; where none is reckoned, no other job counts as alike.
    """
    holdings = [one.holding or job.holding for one in job.set_ups] or [job.holding]
    held = sorted(
        {f"{one.method}, {one.how}, {one.bolted_down}" for one in holdings if one is not None}
    )
    speeds = sorted({f"{step.rpm:g}" for sheet in sheets for step in sheet.speed_steps
                     if step.chosen})  # fmt: skip
    if not held and not sheets:
        return None
    own = [] if speeds or not sheets else [job.id]
    return " | ".join((*held, *speeds, *own))


def pieces_wanted(lesson: Lesson, work: JobAtWork) -> int:
    """How many pieces a lesson uses up; somebody who could do the job before shows it on one."""
    if not work.pieces:
        return 0
    return work.pieces if lesson.kind in (LessonKind.NEW, LessonKind.GO_ON) else 1
