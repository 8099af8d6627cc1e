"""V401: every job on a part says the same about it."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding, Related, Severity
from benchleaf.model import Part, Shop

from ..places import Places

_SAME = ("number", "name", "drawing", "material", "stock")


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """A finding for each detail in which a job differs from the first job on the part."""
    first: dict[str, tuple[str, Part]] = {}
    for job in shop.jobs.values():
        if job.part is None:
            continue
        other_id, other = first.setdefault(job.part.id, (job.id, job.part))
        for key in _SAME:
            if getattr(job.part, key) != getattr(other, key):
                yield _finding(places, job.id, other_id, key, job.part, other)


def _finding(
    places: Places, job_id: str, other_id: str, key: str, part: Part, other: Part
) -> Finding:
    return Finding(
        "V401",
        Severity.ERROR,
        places.of("jobs", job_id, ("part", key)),
        f"{key} of part {part.number} is '{getattr(part, key)}' here and "
        f"'{getattr(other, key)}' in {other_id.upper()}",
        ("one part number has one drawing: make them the same",),
        (Related(places.of("jobs", other_id, ("part", key)), "said differently here"),),
    )
