"""V527: former revisions stand with the newest first, each older than the one above it."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.model import revision_order

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V527",
    "Former revisions are out of order",
    why="The history on the page would show a change before the one it followed.",
    instead="Put the newest first, each older than the one above.",
    bad=(
        Sample(
            """
            # Revision 3 cannot come before revision 2, and revision 1 is dated later.
            - file: jobs/vg-0010.yml
              find: 'change_note: The check'
              put: |-
                history:
                  - revision: 3
                    effective: 2026-01-05
                    note: The vice is bolted down.
                  - revision: 1
                    effective: 2026-02-01
                    note: First issue.
                change_note: The check
            """,
            """
            content/jobs/vg-0010.yml:7:15: error V527 revision 3 stands below 2, but its
                    number is not older
                put the newest first; the present revision stands in `revision`, not here
            content/jobs/vg-0010.yml:11:16: error V527 revision 1 stands below 3, but its
                    date is not older
                put the newest first; the present revision stands in `revision`, not here
            """,
        ),
    ),
    good="""
        # One former revision, older.
        - file: jobs/vg-0010.yml
          find: 'change_note: The check'
          put: |-
            history:
              - revision: 1
                effective: 2026-01-05
                note: First issue.
            change_note: The check
    """,
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each revision that is out of order."""
    above, day = case.job.revision, case.job.effective
    for index, one in enumerate(case.job.history):
        is_older = revision_order(one.revision) < revision_order(above)
        if not is_older or one.effective > day:
            what = "number" if not is_older else "date"
            yield Finding(
                CODE.id,
                Severity.ERROR,
                case.place("history", index, "effective" if is_older else "revision"),
                f"revision {one.revision} stands below {above}, but its {what} is not older",
                ("put the newest first; the present revision stands in `revision`, not here",),
            )
        above, day = one.revision, one.effective


RULE = JobRule(check, (CODE,))
