"""V527: former revisions stand with the newest first, each older than the one above it."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding, Severity
from benchleaf.model import revision_order

from ..case import JobCase


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each revision that is out of order."""
    above, day = case.job.revision, case.job.effective
    for index, one in enumerate(case.job.history):
        is_older = revision_order(one.revision) < revision_order(above)
        if not is_older or one.effective > day:
            what = "number" if not is_older else "date"
            yield Finding(
                "V527",
                Severity.ERROR,
                case.place("history", index, "effective" if is_older else "revision"),
                f"revision {one.revision} stands below {above}, but its {what} is not older",
                ("put the newest first; the present revision stands in `revision`, not here",),
            )
        above, day = one.revision, one.effective
