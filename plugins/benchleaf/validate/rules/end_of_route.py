"""V524: a job on a part says which job comes next, or where the part goes."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V524",
    "Nothing says what comes after a job",
    why="A part that nobody takes on lies in the way, or goes out unfinished.",
    instead="Write `operation_after`, or `end_of_route` where no operation follows.",
    bad=(
        Sample(
            """
            # The route stops without a word.
            - file: jobs/vg-0020.yml
              find: |
                end_of_route: The finished plates go to the store.
              put: ''
            """,
            """
            content/jobs/vg-0020.yml:10:7: warning V524 nothing says what comes after this job
                write `operation_after: ID`, or `end_of_route: ...` where no operation follows
                where it does not fit this job: accept: [{code: V524, reason: ...}]
            """,
        ),
    ),
    good="""
        # Neither is needed without a part.
        - file: jobs/vg-0020.yml
          find: |
            end_of_route: The finished plates go to the store.
          put: ''
        - file: jobs/vg-0020.yml
          find: |
            part: vg-r1
            takes: drilled
            leaves: deburred
          put: ''
        - file: jobs/vg-0010.yml
          find: |
            leaves: drilled
          put: ''
        - file: parts/vg-r1.yml
          find: |2
              - id: drilled
                name: Drilled plate
                looks_like: plate with its guide hole, a burr on both sides
              - id: deburred
                name: Finished plate
                looks_like: plate with its guide hole, no burr
          put: ''
    """,
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding where the part's way ends without a word, or has two ends."""
    job = case.job
    if job.part is not None and job.operation_after is None and job.end_of_route is None:
        yield from case.practice(
            CODE,
            ("part",),
            "nothing says what comes after this job",
            "write `operation_after: ID`, or `end_of_route: ...` where no operation follows",
        )
    if job.operation_after is not None and job.end_of_route is not None:
        yield from case.practice(
            CODE,
            ("end_of_route",),
            f"the route ends here, and goes on to {job.operation_after.upper()}",
            "take one of the two out",
        )


RULE = JobRule(check, (CODE,))
