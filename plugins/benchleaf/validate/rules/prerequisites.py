"""L302: jobs to know first never lead back to where they started."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Related, Sample, Severity
from benchleaf.model import Shop

from ..places import Places
from ..rule import ShopRule

CODE = Code(
    "L302",
    "Jobs need one another first",
    why="A learner could never start either.",
    instead="Take one of the prerequisites out.",
    bad=(
        Sample(
            """
            # Each of two jobs needs the other.
            - file: jobs/vg-0010.yml
              find: "must_know:"
              put: |-
                know_first:
                  - VG-0020
                must_know:
            """,
            """
            content/jobs/vg-0010.yml:32:5: error L302 no learner could start: VG-0010 needs
                    VG-0020 needs VG-0010
                take one of these out of know_first
                see also content/jobs/vg-0020.yml:17:5: VG-0020 needs VG-0010
            """,
        ),
        Sample(
            """
            # A job needs itself.
            - file: jobs/vg-0020.yml
              find: |
                know_first:
                  - VG-0010
              put: |
                know_first:
                  - VG-0020
            """,
            """
            content/jobs/vg-0020.yml:17:5: error L302 no learner could start: VG-0020 needs VG-0020
                take one of these out of know_first
            """,
        ),
    ),
    good="""
        # One job needs the other.
        - file: jobs/vg-0020.yml
          find: |
            know_first:
              - VG-0010
          put: |
            know_first:
              - vg-0010
    """,
)


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """One finding for each ring of jobs, naming every place that makes it."""
    seen: set[frozenset[str]] = set()
    for job_id in shop.jobs:
        ring = _ring(shop, job_id)
        if ring and frozenset(ring) not in seen:
            seen.add(frozenset(ring))
            yield _finding(ring, shop, places)


def _ring(shop: Shop, start: str) -> tuple[str, ...]:
    """The shortest way from `start` back to itself, or nothing."""
    ways: list[tuple[str, ...]] = [(start,)]
    visited: set[str] = set()
    while ways:
        way = ways.pop(0)
        job = shop.jobs.get(way[-1])
        for wanted in job.know_first if job else ():
            if wanted == start:
                return way
            if wanted not in visited:
                visited.add(wanted)
                ways.append((*way, wanted))
    return ()


def _finding(ring: tuple[str, ...], shop: Shop, places: Places) -> Finding:
    spoken = " needs ".join(job_id.upper() for job_id in (*ring, ring[0]))
    all_places = [
        (
            places.of("jobs", job_id, ("know_first", shop.jobs[job_id].know_first.index(wanted))),
            job_id,
            wanted,
        )
        for job_id, wanted in zip(ring, (*ring[1:], ring[0]), strict=True)
    ]
    others = tuple(
        Related(place, f"{job_id.upper()} needs {wanted.upper()}")
        for place, job_id, wanted in all_places[1:]
    )
    text = f"no learner could start: {spoken}"
    return Finding(
        CODE.id,
        Severity.ERROR,
        all_places[0][0],
        text,
        ("take one of these out of know_first",),
        others,
    )


RULE = ShopRule(check, (CODE,))
