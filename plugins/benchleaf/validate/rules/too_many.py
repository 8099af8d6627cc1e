"""V516: as many steps, and as many key points in one, as a learner keeps in mind."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding

from ..case import JobCase

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
            "V516",
            ("steps", counted[STEPS_MOST]),
            f"the job has {len(counted)} steps",
            f"at most {STEPS_MOST}: join steps with few key points, or split the job in two",
        )
    for index, step in enumerate(steps):
        if len(step.key_points) > POINTS_MOST:
            yield from case.practice(
                "V516",
                ("steps", index, "key_points", POINTS_MOST),
                f"the step '{step.id}' has {len(step.key_points)} key points",
                f"at most {POINTS_MOST}: split the step, or leave out what meets none of the tests",
            )
