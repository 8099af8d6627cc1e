"""Each job's revision and fingerprint on either side, and whether the revision must advance."""

from __future__ import annotations

from benchleaf.model import Job, revision_order

from .change import Consequence, JobState, Side
from .fingerprint import Fingerprints
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


_One = tuple[Job, str]


def _states(side: Side) -> dict[str, _One]:
    prints = Fingerprints(side.shop)
    return {
        job_id: (job, side.fingerprints.get(job_id) or prints.of(job, side.sheets.get(job_id, ())))
        for job_id, job in side.shop.jobs.items()
    }


def _state(job_id: str, before: _One | None, after: _One | None) -> JobState:
    job = (after or before)[0]  # type: ignore[index]
    must = False
    if before is not None and after is not None and before[1] != after[1]:
        must = revision_order(after[0].revision) <= revision_order(before[0].revision)
    return JobState(
        job_id,
        job.title,
        before[0].revision if before else None,
        after[0].revision if after else None,
        before[1] if before else None,
        after[1] if after else None,
        Consequence.NOTHING,
        after[0].effective.isoformat() if after else "",
        must,
        before[0].id if before and before[0].id != job_id else "",
    )
