"""V401: jobs that hold copies of one part say the same about it."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Related, Sample, Severity
from benchleaf.model import PartCopy, Shop

from ..places import Places
from ..rule import ShopRule

_COPIES = """
            - file: parts/vg-r1.yml
              remove: true
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
            - file: jobs/vg-0020.yml
              find: |
                part: vg-r1
                takes: drilled
                leaves: deburred
              put: |
                part:
                  number: VG-R1
                  name: {name}
                  drawing: VG-R1 sheet {sheet}
                  material: mild-steel
                  stock: {stock}
"""
_SAWN = "sawn flat bar, 40 x 6 mm"


def _copies(*, name: str = "Rack plate", sheet: int = 1, stock: str = _SAWN) -> str:
    return _COPIES.format(name=name, sheet=sheet, stock=stock).strip()


CODE = Code(
    "V401",
    "Jobs disagree about one part",
    why="Two drawings of one part number cannot both be right.",
    instead="Make name, drawing and material the same in each job, or give the part a record.",
    bad=(
        Sample(
            f"""
            # Two drawings of one part.
            {_copies(sheet=2)}
            """,
            """
            content/jobs/vg-0010.yml:11:3: note V406 part VG-R1 has no record; VG-0010 and
                    VG-0020 hold a copy
                run `benchleaf tidy --parts`, then give the part its states
            content/jobs/vg-0020.yml:13:12: error V401 drawing of part VG-R1 is 'VG-R1 sheet
                    2' here and 'VG-R1 sheet 1' in VG-0010
                one part number has one drawing: make them the same
                see also content/jobs/vg-0010.yml:13:12: said differently here
            """,
        ),
        Sample(
            f"""
            # Two names of one part; that it arrives in two forms is no fault.
            {_copies(name="Plate for racks", stock="plate with its guide hole")}
            """,
            """
            content/jobs/vg-0010.yml:11:3: note V406 part VG-R1 has no record; VG-0010 and
                    VG-0020 hold a copy
                run `benchleaf tidy --parts`, then give the part its states
            content/jobs/vg-0020.yml:12:9: error V401 name of part VG-R1 is 'Plate for
                    racks' here and 'Rack plate' in VG-0010
                one part number has one drawing: make them the same
                see also content/jobs/vg-0010.yml:12:9: said differently here
            """,
        ),
    ),
    good="""
        # The part has a record: nothing is said twice.
        - file: parts/vg-r1.yml
          find: "name: Rack plate"
          put: "name: Guide plate"
    """,
)

_SAME = ("number", "name", "drawing", "material")


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """A finding for each detail in which a job differs from the first job on the part."""
    first: dict[str, tuple[str, PartCopy]] = {}
    for job_id, copy in sorted(shop.copied.items()):
        other_id, other = first.setdefault(copy.id, (job_id, copy))
        for key in _SAME:
            if getattr(copy, key) != getattr(other, key):
                yield _finding(places, job_id, other_id, key, copy, other)


def _finding(
    places: Places, job_id: str, other_id: str, key: str, part: PartCopy, other: PartCopy
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
