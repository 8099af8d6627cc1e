"""L305: where a job hands its part on, the next job expects it, and the other way round."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding, Related, Severity
from benchleaf.model import Job, Shop

from ..places import Places

_PAIRS = (("operation_after", "operation_before"), ("operation_before", "operation_after"))


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """A finding for each half of a route that the other half does not confirm."""
    for job in shop.jobs.values():
        for here, there in _PAIRS:
            yield from _half(shop, places, job, here, there)


def _half(shop: Shop, places: Places, job: Job, here: str, there: str) -> Iterator[Finding]:
    other = shop.jobs.get(getattr(job, here) or "")
    if other is job:
        yield Finding(
            "L305",
            Severity.ERROR,
            places.of("jobs", job.id, (here,)),
            f"{here} of {job.id.upper()} is the job itself",
            ("name the other job, or take the key out",),
        )
        return
    if other is None or getattr(other, there) == job.id:
        return
    said = getattr(other, there)
    names = f"names {said.upper()}" if said else "names none"
    yield Finding(
        "L305",
        Severity.ERROR,
        places.of("jobs", job.id, (here,)),
        f"{here} is {other.id.upper()}, but {there} of {other.id.upper()} {names}",
        (f"write '{there}: {job.id.upper()}' in {other.id.upper()}, or correct this line",),
        (Related(places.of("jobs", other.id, (there,)), "the other half of the route"),),
    )
