"""V516: as many steps, and as many key points in one, as a learner keeps in mind."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V516",
    "Too many steps, or too many key points in one",
    why=(
        "A trade textbook gives 5 to 7 steps (a template up to 9), and 3 to 5 key points in any "
        "one step at most; nobody keeps more in mind."
    ),
    instead="Join steps that have few key points, or split the step or the job.",
    bad=(
        Sample(
            """
            # Two more make six.
            - file: jobs/vg-0010.yml
              find: |2
                      - point: Hang the chuck key on its hook before you press start.
              put: |2
                      - point: Look at the left bolt of the vice.
                        reason: It works loose.
                        kind: makes it easier
                      - point: Look at the right bolt of the vice.
                        reason: It works loose.
                        kind: makes it easier
                      - point: Hang the chuck key on its hook before you press start.
            """,
            """
            content/jobs/vg-0010.yml:87:9: warning V516 the step 'drill' has 6 key points
                at most 5: split the step, or leave out what meets none of the tests
                where it does not fit this job: accept: [{code: V516, reason: ...}]
            """,
        ),
    ),
    good="""
        # One more makes five.
        - file: jobs/vg-0010.yml
          find: |2
                  - point: Hang the chuck key on its hook before you press start.
          put: |2
                  - point: Look at the left bolt of the vice.
                    reason: It works loose.
                    kind: makes it easier
                  - point: Hang the chuck key on its hook before you press start.
    """,
)

STEPS_MOST, POINTS_MOST = 9, 5
"""A trade textbook (CRC Press, p. 58) gives 5 to 7 steps, and 3 to 5 key points at most in one
step; a stored template goes to 9 steps. No figure of 1944. The nine stages of lockout are given by
29 CFR 1910.147 and cannot be joined: steps that carry one are not counted (house rule)."""


def check(case: JobCase) -> Iterator[Finding]:
    """Findings about what is too much to learn at once."""
    steps = case.job.steps
    counted = [number for number, step in enumerate(steps) if step.lockout is None]
    if len(counted) > STEPS_MOST:
        yield from case.practice(
            CODE,
            ("steps", counted[STEPS_MOST]),
            f"the job has {len(counted)} steps",
            f"at most {STEPS_MOST}: join steps with few key points, or split the job in two",
        )
    for index, step in enumerate(steps):
        if len(step.key_points) > POINTS_MOST:
            yield from case.practice(
                CODE,
                ("steps", index, "key_points", POINTS_MOST),
                f"the step '{step.id}' has {len(step.key_points)} key points",
                f"at most {POINTS_MOST}: split the step, or leave out what meets none of the tests",
            )


RULE = JobRule(check, (CODE,))
