"""V401: every job on a part says the same about it."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Related, Sample, Severity
from benchleaf.model import Part, Shop

from ..places import Places
from ..rule import ShopRule

CODE = Code(
    "V401",
    "Jobs disagree about one part",
    why="Two drawings of one part number cannot both be right.",
    instead="Make name, drawing, material and stock the same in each job.",
    bad=(
        Sample(
            """
            # Two drawings of one part.
            - file: jobs/vg-0020.yml
              find: "  drawing: VG-R1 sheet 1"
              put: "  drawing: VG-R1 sheet 2"
            """,
            """
            content/jobs/vg-0020.yml:13:12: error V401 drawing of part VG-R1 is 'VG-R1 sheet
                    2' here and 'VG-R1 sheet 1' in VG-0010
                one part number has one drawing: make them the same
                see also content/jobs/vg-0010.yml:13:12: said differently here
            """,
        ),
        Sample(
            """
            # Two details differ.
            - file: jobs/vg-0020.yml
              find: "  name: Rack plate"
              put: "  name: Plate for racks"
            - file: jobs/vg-0020.yml
              find: "  stock: sawn flat bar, 40 x 6 mm"
              put: "  stock: sawn flat bar, 40 x 8 mm"
            """,
            """
            content/jobs/vg-0020.yml:12:9: error V401 name of part VG-R1 is 'Plate for
                    racks' here and 'Rack plate' in VG-0010
                one part number has one drawing: make them the same
                see also content/jobs/vg-0010.yml:12:9: said differently here
            content/jobs/vg-0020.yml:15:10: error V401 stock of part VG-R1 is 'sawn flat
                    bar, 40 x 8 mm' here and 'sawn flat bar, 40 x 6 mm' in VG-0010
                one part number has one drawing: make them the same
                see also content/jobs/vg-0010.yml:15:10: said differently here
            """,
        ),
    ),
    good="""
        # Jobs that agree about the part.
        - file: jobs/vg-0010.yml
          find: "  name: Rack plate"
          put: "  name: Guide plate"
        - file: jobs/vg-0020.yml
          find: "  name: Rack plate"
          put: "  name: Guide plate"
    """,
)

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
        CODE.id,
        Severity.ERROR,
        places.of("jobs", job_id, ("part", key)),
        f"{key} of part {part.number} is '{getattr(part, key)}' here and "
        f"'{getattr(other, key)}' in {other_id.upper()}",
        ("one part number has one drawing: make them the same",),
        (Related(places.of("jobs", other_id, ("part", key)), "said differently here"),),
    )


RULE = ShopRule(check, (CODE,))
