"""L305: where a job hands its part on, the next job expects it, and the other way round."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Related, Sample, Severity
from benchleaf.model import Job, Shop, same_work

from ..places import Places
from ..rule import ShopRule
from .route_by_states import contradict

CODE = Code(
    "L305",
    "The route of a part does not join up",
    why="One operation hands on to a job that does not expect it.",
    instead="Make operation_after and operation_before name one another.",
    bad=(
        Sample(
            """
            # The next job does not name this one, and no state tells the route.
            - file: jobs/vg-0020.yml
              find: |
                operation_before: VG-0010
              put: ""
            - file: jobs/vg-0010.yml
              find: "leaves: drilled"
              put: "# nothing is told of the state in which it goes on"
            """,
            """
            content/jobs/vg-0010.yml:33:18: error L305 operation_after is VG-0020, but
                    operation_before of VG-0020 names none
                write 'operation_before: VG-0010' in VG-0020, or correct this line
                see also content/jobs/vg-0020.yml:1:1: the other half of the route
            content/parts/vg-r1.yml:11:9: note V410 no job leaves the state 'drilled' of
                    part VG-R1
                write that job, or take the state out
            """,
        ),
        Sample(
            """
            # The next job names another one.
            - file: jobs/vg-0020.yml
              find: |
                operation_before: VG-0010
              put: |
                operation_before: VG-0020
            """,
            """
            content/jobs/vg-0010.yml:33:18: error L305 operation_after is VG-0020, but
                    operation_before of VG-0020 names VG-0020
                write 'operation_before: VG-0010' in VG-0020, or correct this line
                see also content/jobs/vg-0020.yml:18:19: the other half of the route
            content/jobs/vg-0020.yml:18:19: error L305 operation_before of VG-0020 is the job itself
                name the other job, or take the key out
            """,
        ),
    ),
    good="""
        # A route that joins up.
        - file: jobs/vg-0010.yml
          find: "operation_after: VG-0020"
          put: "operation_after: vg-0020"
    """,
)

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
            CODE.id,
            Severity.ERROR,
            places.of("jobs", job.id, (here,)),
            f"{here} of {job.id.upper()} is the job itself",
            ("name the other job, or take the key out",),
        )
        return
    if other is None or same_work(shop.made, getattr(other, there) or "", job.id):
        return
    if contradict(shop, *((job, other) if here == "operation_after" else (other, job))):
        return  # told there
    said = getattr(other, there)
    names = f"names {said.upper()}" if said else "names none"
    yield Finding(
        CODE.id,
        Severity.ERROR,
        places.of("jobs", job.id, (here,)),
        f"{here} is {other.id.upper()}, but {there} of {other.id.upper()} {names}",
        (f"write '{there}: {job.id.upper()}' in {other.id.upper()}, or correct this line",),
        (Related(places.of("jobs", other.id, (there,)), "the other half of the route"),),
    )


RULE = ShopRule(check, (CODE,))
