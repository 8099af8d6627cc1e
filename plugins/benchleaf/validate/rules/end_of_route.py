"""V524: a job on a part says which job comes next, or where the part goes."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding

from ..case import JobCase


def check(case: JobCase) -> Iterator[Finding]:
    """A finding where the part's way ends without a word, or has two ends."""
    job = case.job
    if job.part is not None and job.operation_after is None and job.end_of_route is None:
        yield from case.practice(
            "V524",
            ("part",),
            "nothing says what comes after this job",
            "write `operation_after: ID`, or `end_of_route: ...` where no operation follows",
        )
    if job.operation_after is not None and job.end_of_route is not None:
        yield from case.practice(
            "V524",
            ("end_of_route",),
            f"the route ends here, and goes on to {job.operation_after.upper()}",
            "take one of the two out",
        )
