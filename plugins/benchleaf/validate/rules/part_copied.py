"""V406: a part has one record; a copy in its jobs is read, and told."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Related, Sample, Severity
from benchleaf.model import Shop

from ..places import Places
from ..rule import ShopRule

_OLD = """
            - file: jobs/vg-0010.yml
              find: |
                part: vg-r1
                takes: sawn
                leaves: drilled
              put: |
                part:
                  number: VG-R1
                  name: Rack plate
                  drawing: VG-R1 sheet 1
                  material: mild-steel
                  stock: sawn flat bar, 40 x 6 mm
"""

CODE = Code(
    "V406",
    "A part is copied into its jobs",
    why=(
        "A copy tells one form only, though the part arrives at each job in another. Where a "
        "record is there too, one of them is wrong in time."
    ),
    instead="Run `benchleaf tidy --parts`: it writes the record, and names it in the jobs.",
    bad=(
        Sample(
            f"""
            # The part has no record: the copies are read in its place.
            - file: parts/vg-r1.yml
              remove: true
            - file: jobs/vg-0020.yml
              find: |
                part: vg-r1
                takes: drilled
                leaves: deburred
              put: ""
            {_OLD.strip()}
            """,
            """
            content/jobs/vg-0010.yml:11:3: note V406 part VG-R1 has no record; VG-0010 holds
                    a copy
                run `benchleaf tidy --parts`, then give the part its states
            """,
        ),
        Sample(
            f"""
            # The part has a record, and a job holds a copy.
            {_OLD.strip()}
            """,
            """
            content/jobs/vg-0010.yml:11:3: error V406 part VG-R1 has a record, and VG-0010
                    holds a copy of it
                write `part: vg-r1` in its place, and `takes:` with one of its states
                see also content/parts/vg-r1.yml:1:1: the record
            """,
        ),
    ),
    good="""
        # One part for both jobs.
        - file: parts/vg-r1.yml
          find: "name: Rack plate"
          put: "name: Plate of the rack"
    """,
)


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """A note for each part that has no record; an error for a copy of one that has."""
    by_part: dict[str, list[str]] = {}
    for job_id, copy in sorted(shop.copied.items()):
        by_part.setdefault(copy.id, []).append(job_id)
    for part_id, jobs in by_part.items():
        source = places.sources.get(("parts", part_id))
        number = shop.copied[jobs[0]].number
        if source is None or source.document.kind != "parts":
            yield Finding(
                CODE.id,
                Severity.NOTE,
                places.of("jobs", jobs[0], ("part",)),
                f"part {number} has no record; {_named(jobs)} a copy",
                ("run `benchleaf tidy --parts`, then give the part its states",),
            )
            continue
        for job_id in jobs:
            yield Finding(
                CODE.id,
                Severity.ERROR,
                places.of("jobs", job_id, ("part",)),
                f"part {number} has a record, and {job_id.upper()} holds a copy of it",
                (f"write `part: {part_id}` in its place, and `takes:` with one of its states",),
                (Related(places.of("parts", part_id), "the record"),),
            )


def _named(jobs: list[str]) -> str:
    first, *others = (one.upper() for one in jobs)
    if not others:
        return f"{first} holds"
    return f"{first} and {others[0] if len(others) == 1 else f'{len(others)} other jobs'} hold"


RULE = ShopRule(check, (CODE,))
