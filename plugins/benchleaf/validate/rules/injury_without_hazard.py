"""V518: a step with a key point that can injure shows the hazard before it."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding
from benchleaf.model import KeyPointKind

from ..case import JobCase


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each step that can injure with no hazard message."""
    for index, step in enumerate(case.job.steps):
        injures = any(one.kind is KeyPointKind.CAN_INJURE for one in step.key_points)
        is_told_already = case.drills and step.set_up is not None  # by V511, for steps that cut
        if injures and not step.hazards and not is_told_already:
            yield from case.practice(
                "V518",
                ("steps", index),
                f"the step '{step.id}' can injure, and no hazard is named before it",
                "name in its `hazards` what can hurt here, or correct the key point's kind",
            )
