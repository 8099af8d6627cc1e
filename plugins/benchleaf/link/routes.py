"""Parts and their routes: the jobs on one part, in the order in which it meets them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from benchleaf.model import Job, Made, Part, Shop, same_work


@dataclass(frozen=True, slots=True)
class Route:
    """A part and its jobs in order."""

    id: str
    """The part's id: its number in lower case, hyphens between."""
    part: Part
    jobs: tuple[Job, ...]


def routes(shop: Shop) -> tuple[Route, ...]:
    """Every part, in the order of its id; one that no job works on has no jobs."""
    jobs: dict[str, list[Job]] = {}
    for job in shop.jobs.values():
        if job.part is not None:
            jobs.setdefault(job.part, []).append(job)
    return tuple(
        Route(part.id, part, tuple(_in_order(jobs.get(part.id, []), shop.made)))
        for part in shop.parts.values()
    )


def _in_order(jobs: list[Job], made: Made) -> Iterable[Job]:
    """From each job that nothing hands on to, along the route; each job once.

    One job on several machines of a group stands together.
    """
    by_id = {job.id: job for job in jobs}
    starts = [job for job in jobs if job.operation_before not in by_id]
    seen: dict[str, Job] = {}
    for start in (*starts, *jobs):
        job: Job | None = start
        while job is not None and job.id not in seen:
            seen |= {one.id: one for one in jobs if same_work(made, one.id, job.id)}
            job = by_id.get(job.operation_after or "")
    return seen.values()
