"""V503: the chuck key is out before the start.

LSU shop rules, TC 9-524 chapter 3, TM 1-1500-204-23-9.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample

from ..case import JobCase
from ..rule import JobRule
from .wording import START, in_one_point, says, words

CODE = Code(
    "V503",
    "Nothing says that the chuck key is out before the start",
    why=(
        "Shop rules (LSU) and army manuals (TC 9-524 chapter 3, TM 1-1500-204-23-9): the key "
        "comes out at once, before the start. A key left in the chuck is thrown when the spindle "
        "starts."
    ),
    instead="Add a key point at or before the start: key out, and on its hook.",
    bad=(
        Sample(
            """
            # The key is not spoken of before the start.
            - file: jobs/vg-0010.yml
              find: Hang the chuck key on its hook before you press start.
              put: Press start with the guard down.
            - file: jobs/vg-0010.yml
              find: A key left in the chuck is thrown out.
              put: The guard catches what is thrown.
            """,
            """
            content/jobs/vg-0010.yml:53:3: warning V503 no step up to the start says that
                    the chuck key is out and on its hook
                add it at or before the start (looked for: key, and out or hook, in one point)
                where it does not fit this job: accept: [{code: V503, reason: ...}]
            """,
        ),
    ),
    good="""
        # The key is taken out before the start.
        - file: jobs/vg-0010.yml
          find: Hang the chuck key on its hook before you press start.
          put: Take the key out of the chuck. Then press start.
    """,
)

_KEY = words(r"key")
_AWAY = words(r"out|hook|hang|hangs|hung|remove[sd]?|away")


def check(case: JobCase) -> Iterator[Finding]:
    """A point on the key stands in a step up to the one that starts the spindle."""
    has_key = any(one.chuck is not None for one in case.turns)
    if not has_key or not case.drills:
        return
    for step, asked in zip(case.job.steps, case.asked, strict=True):
        if in_one_point(step, _KEY, _AWAY):
            return
        if says(asked, START):
            break
    yield from case.practice(
        CODE,
        ("steps",),
        "no step up to the start says that the chuck key is out and on its hook",
        "add it at or before the start (looked for: key, and out or hook, in one point)",
    )


RULE = JobRule(check, (CODE,))
