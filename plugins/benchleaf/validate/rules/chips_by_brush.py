"""V502: chips are cleared by brush. Shop rules of universities (NCSU ISE, LSU)."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample

from ..case import JobCase
from ..rule import JobRule
from .wording import in_one_point, says, told, words

CODE = Code(
    "V502",
    "Chips are not cleared by brush",
    why=(
        "Shop rules of universities (NCSU ISE, LSU): chips are cleared with a brush, rake or "
        "vacuum, stopped first, never by hand. Chips are hot and sharp, and a finger at a cutter "
        "is lost."
    ),
    instead="Say that chips are cleared with a brush, the spindle stopped; never by hand.",
    bad=(
        Sample(
            """
            # Nothing is said about the chips.
            - file: jobs/vg-0010.yml
              find: Press stop, wait until the spindle is still, and clear the chips with the brush.
              put: Press stop, and wait until the spindle is still.
            - file: jobs/vg-0010.yml
              find: Hang the chuck key on its hook before you press start.
              put: Take the chuck key out before you press start.
            """,
            """
            content/jobs/vg-0010.yml:53:3: warning V502 no step says that chips are cleared
                    with a brush
                add it where the chips are cleared (looked for: chips and brush in one point)
                where it does not fit this job: accept: [{code: V502, reason: ...}]
            """,
        ),
        Sample(
            """
            # Chips are wiped off by hand.
            - file: jobs/vg-0010.yml
              find: Turn the [[tool:plug-gauge-8]] as you push.
              put: Wipe chips off with your hand, then turn the [[tool:plug-gauge-8]].
            """,
            """
            content/jobs/vg-0010.yml:91:16: warning V502 this clears chips by hand
                use a brush, with the spindle stopped
                where it does not fit this job: accept: [{code: V502, reason: ...}]
            """,
        ),
    ),
    good="""
        # Chips are brushed away.
        - file: jobs/vg-0010.yml
          find: Press stop, wait until the spindle is still, and clear the chips with the brush.
          put: Press stop. Brush the chips away once the spindle is still.
    """,
)

_CHIPS = words(r"chips?|swarf|turnings")
_BRUSH = words(r"brush(?:es|ed)?|vacuum|chip rake")
_CLEAR = words(r"clear|wipe|pick|sweep|remove|push|pull|take")
_HAND = words(r"fingers?|hands?|palm|rag")


def check(case: JobCase) -> Iterator[Finding]:
    """Findings about chips that a hand clears, or that nothing clears."""
    yield from _by_hand(case)
    if case.drills:
        yield from _no_brush(case)


def _by_hand(case: JobCase) -> Iterator[Finding]:
    for number, step in enumerate(case.job.steps):
        for index, point in enumerate(step.key_points):
            if told(point.point, _CHIPS, _CLEAR, _HAND) and not says(point.point, _BRUSH):
                yield from case.practice(
                    CODE,
                    ("steps", number, "key_points", index, "point"),
                    "this clears chips by hand",
                    "use a brush, with the spindle stopped",
                )


def _no_brush(case: JobCase) -> Iterator[Finding]:
    if not any(in_one_point(step, _CHIPS, _BRUSH) for step in case.job.steps):
        yield from case.practice(
            CODE,
            ("steps",),
            "no step says that chips are cleared with a brush",
            "add it where the chips are cleared (looked for: chips and brush in one point)",
        )


RULE = JobRule(check, (CODE,))
