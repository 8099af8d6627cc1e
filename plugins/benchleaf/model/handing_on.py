"""Which job hands a part on to which: one leaves the state that another takes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from .job import Job
from .made_from import Made, work_of

StateKey = tuple[str, str]
"""A part and one of its states, by id."""


class Neighbours(NamedTuple):
    """The jobs before and after one by the states of the part, all that fit, in order of id."""

    before: tuple[str, ...]
    after: tuple[str, ...]


def neighbours(jobs: Iterable[Job]) -> dict[str, Neighbours]:
    """For each job those that leave what it takes, and those that take what it leaves."""
    jobs = tuple(jobs)
    leaving: dict[StateKey, list[str]] = {}
    taking: dict[StateKey, list[str]] = {}
    for job in jobs:
        for where, state in ((leaving, job.leaves), (taking, job.takes)):
            if job.part and state:
                where.setdefault((job.part, state), []).append(job.id)

    def of(where: Mapping[StateKey, list[str]], job: Job, state: str | None) -> tuple[str, ...]:
        found = where.get((job.part, state), ()) if job.part and state else ()
        return tuple(one for one in found if one != job.id)

    return {
        job.id: Neighbours(of(leaving, job, job.takes), of(taking, job, job.leaves)) for job in jobs
    }


def handed_on(jobs: Mapping[str, Job], made: Made | None = None) -> dict[str, Job]:
    """The jobs with the operations before and after them, where the states tell which.

    What a job says itself stays as it is. Where several jobs fit, the one that names this job; of
    one job on several machines of a group, the one on this job's machine, else the first.
    """
    found = neighbours(jobs.values())
    return {job_id: _joined(job, jobs, found, made or {}) for job_id, job in jobs.items()}


def _joined(job: Job, jobs: Mapping[str, Job], found: Mapping[str, Neighbours], made: Made) -> Job:
    def works(ids: Iterable[str]) -> set[str]:
        return {work_of(made, one) for one in ids}

    near, told = found[job.id], dict[str, str]()
    for key, back, ids in (
        ("operation_before", "operation_after", near.before),
        ("operation_after", "operation_before", near.after),
    ):
        if getattr(job, key) is None:
            naming = [one for one in ids if getattr(jobs[one], back) == job.id]
            is_alone = len(works(ids)) == 1 and works(
                getattr(found[ids[0]], back.split("_")[1])
            ) == works([job.id])
            fits = naming or [one for one in ids if is_alone and getattr(jobs[one], back) is None]
            if len(works(fits)) == 1:
                here = [one for one in fits if jobs[one].machine == job.machine]
                told[key] = (here or fits)[0]
    if not told:
        return job
    joined = job.model_copy(update=told)
    joined.__dict__.pop("marked", None)  # a copy keeps what was found in the old one
    return joined
