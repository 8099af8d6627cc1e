"""V521: a warning that is accepted was raised; run after every other rule on jobs."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import CODES, Code, Finding, Sample, Severity

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V521",
    "An accepted warning is never raised",
    why="An exception that is left behind hides the warning on the day it means something.",
    instead="Take the exception out.",
    bad=(
        Sample(
            """
            # Nothing of the kind is raised.
            - file: jobs/vg-0010.yml
              find: 'hand_on: Lay'
              put: |-
                accept: [{code: V505, reason: Nothing comes through}]
                hand_on: Lay
            """,
            """
            content/jobs/vg-0010.yml:104:10: warning V521 this exception is not needed: no
                    V505 was raised
                take it out; a warning that comes back later must be seen again
            """,
        ),
    ),
    good="""
        # Accepted in the one step that needs it.
        - file: jobs/vg-0010.yml
          find: 'title: Clamp the plate'
          put: 'title: Clamp the plate and check the vice'
        - file: jobs/vg-0010.yml
          find: 'hand_on: Lay'
          put: |-
            accept: [{code: V513, step: clamp, reason: Both hands do it at once}]
            hand_on: Lay
    """,
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each acceptance that nothing asked for."""
    for index, one in enumerate(case.job.accept):
        if index in case.used:
            continue
        code = one.code.upper()
        what = f"no {code} was raised" if code in CODES else f"'{one.code}' is no code"
        where = f" in the step '{one.step}'" if one.step else ""
        yield Finding(
            CODE.id,
            Severity.WARNING,
            case.place("accept", index),
            f"this exception is not needed: {what}{where}",
            ("take it out; a warning that comes back later must be seen again",),
        )


RULE = JobRule(check, (CODE,), is_last=True)
