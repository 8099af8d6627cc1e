"""Each job's revision and fingerprint on either side, and whether the revision must advance."""

from __future__ import annotations

from dataclasses import dataclass

from benchleaf.meaning import Meanings, fingerprint_of
from benchleaf.model import Job, revision_order

from .change import Consequence, JobState, Side
from .renames import Renames


def job_states(old: Side, new: Side, renames: Renames) -> tuple[JobState, ...]:
    """Every job of either side, by its new id. The old side is as it was read, ids and all."""
    olds, news = _states(old), _states(new)
    found = []
    gone = {renames.new_id("jobs", job_id): state for job_id, state in olds.items()}
    for job_id in dict.fromkeys((*news, *gone)):
        before, after = gone.get(job_id), news.get(job_id)
        found.append(_state(job_id, before, after))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class _One:
    """A job on one side."""

    job: Job
    fingerprint: str
    alike: frozenset[str]
    issue: str
    """Its revision; `draft` where it is none."""


def _states(side: Side) -> dict[str, _One]:
    meanings = Meanings(side.shop)
    found = {}
    for job_id, job in side.shop.jobs.items():
        own = side.fingerprints.get(job_id) or fingerprint_of(
            meanings.of(job, side.sheets.get(job_id, ()))
        )
        alike = side.alike.get(job_id, frozenset((own,)))
        found[job_id] = _One(
            job, own, alike, "draft" if job_id in side.shop.drafts else job.revision
        )
    return found


def _state(job_id: str, before: _One | None, after: _One | None) -> JobState:
    one = after or before
    assert one is not None
    return JobState(
        job_id,
        one.job.title,
        before.issue if before else None,
        after.issue if after else None,
        before.fingerprint if before else None,
        after.fingerprint if after else None,
        Consequence.NOTHING,
        after.job.effective.isoformat() if after else "",
        _lags(before, after),
        before.job.id if before and before.job.id != job_id else "",
        before.alike if before else frozenset(),
        after.alike if after else frozenset(),
    )


def _lags(before: _One | None, after: _One | None) -> bool:
    """True where the meaning changed and the revision did not go on."""
    if before is None or after is None or before.fingerprint == after.fingerprint:
        return False
    if after.issue == "draft":  # it gets its number when it is released
        return False
    return revision_order(after.job.revision) <= revision_order(before.job.revision)
