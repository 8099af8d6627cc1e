"""V518: a step with a key point that can injure shows the hazard before it."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample
from benchleaf.model import KeyPointKind

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V518",
    "A step that can injure has no hazard message",
    why="The message must stand before the step in which it bites.",
    instead="Name the hazard in the step's `hazards`.",
    bad=(
        Sample(
            """
            # The step can injure, and nothing warns.
            - file: jobs/vg-0010.yml
              find: |2-
                        kind: can injure
                    hazards:
                      - work-turns
                    stand
              put: |2-
                        kind: can injure
                    stand
            """,
            """
            content/jobs/vg-0010.yml:53:5: warning V518 the step 'clamp' can injure, and no
                    hazard is named before it
                name in its `hazards` what can hurt here, or correct the key point's kind
                where it does not fit this job: accept: [{code: V518, reason: ...}]
            """,
        ),
    ),
    good="""
        # Nothing in the step can injure.
        - file: jobs/vg-0010.yml
          find: |2-
                    kind: can injure
                hazards:
                  - work-turns
                stand
          put: |2-
                    kind: makes or breaks the job
                stand
    """,
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each step that can injure with no hazard message."""
    for index, step in enumerate(case.job.steps):
        injures = any(one.kind is KeyPointKind.CAN_INJURE for one in step.key_points)
        is_told_already = case.drills and step.set_up is not None  # by V511, for steps that cut
        if injures and not step.hazards and not is_told_already:
            yield from case.practice(
                CODE,
                ("steps", index),
                f"the step '{step.id}' can injure, and no hazard is named before it",
                "name in its `hazards` what can hurt here, or correct the key point's kind",
            )


RULE = JobRule(check, (CODE,))
