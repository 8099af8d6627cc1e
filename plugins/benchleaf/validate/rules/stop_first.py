"""V512: where something goes wrong, the stop comes first."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample

from ..case import JobCase
from ..rule import JobRule
from .wording import says, words

CODE = Code(
    "V512",
    "The stop does not come first",
    why="Common practice, no source. Whoever calls first leaves the machine running.",
    instead="Put the stop first in `do`, then whom to call.",
    bad=(
        Sample(
            """
            # Whom to call stands before the stop.
            - file: jobs/vg-0010.yml
              find: "      - Press stop and wait until the spindle is still."
              put: |2-
                      - Call the setter.
                      - Press stop and wait until the spindle is still.
            """,
            """
            content/jobs/vg-0010.yml:102:9: warning V512 the stop does not come first when
                    this goes wrong
                put the stop first, then whom to call
                where it does not fit this job: accept: [{code: V512, reason: ...}]
            """,
        ),
    ),
    good="""
        # The stop first, then whom to call.
        - file: jobs/vg-0010.yml
          find: "      - Press stop and wait until the spindle is still."
          put: |2-
                  - Press stop and wait until the spindle is still.
                  - Call the setter.
    """,
)

_STOP = words(r"stop|isolator|switch(?:ed)? off|let go|step back|stand (?:back|clear)")


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each trouble in which something comes before the stop."""
    if not case.is_driven:
        return  # nothing runs on while somebody calls
    for index, trouble in enumerate(case.job.if_wrong):
        stops = [number for number, line in enumerate(trouble.do) if says(line, _STOP)]
        if stops and stops[0] > 0:
            yield from case.practice(
                CODE,
                ("if_wrong", index, "do", 0),
                "the stop does not come first when this goes wrong",
                "put the stop first, then whom to call",
            )


RULE = JobRule(check, (CODE,))
