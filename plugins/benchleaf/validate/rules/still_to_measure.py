"""V507: the spindle stands still before anything is adjusted or measured.

NCSU ISE and LSU shop rules.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample
from benchleaf.model import Step

from ..case import JobCase
from ..rule import JobRule
from .wording import START, says, told, words

CODE = Code(
    "V507",
    "Something is adjusted or measured with no stop before it",
    why=(
        "Shop rules of universities (NCSU ISE, LSU): nothing is adjusted or measured until the "
        "spindle has stopped by itself. A hand, rule or gauge at a turning spindle is caught."
    ),
    instead="Add a key point: press stop, and wait until the spindle is still.",
    bad=(
        Sample(
            """
            # The gauge is used with the spindle running.
            - file: jobs/vg-0010.yml
              find: Press stop, wait until the spindle is still, and clear the chips with the brush.
              put: Clear the chips with the brush.
            """,
            """
            content/jobs/vg-0010.yml:88:5: warning V507 step 'gauge' measures or adjusts,
                    and nothing since the start says stop
                add a key point: press stop, and wait until the spindle is still
                where it does not fit this job: accept: [{code: V507, reason: ...}]
            """,
        ),
    ),
    good="""
        # The spindle is stopped before the gauge.
        - file: jobs/vg-0010.yml
          find: Press stop, wait until the spindle is still, and clear the chips with the brush.
          put: Switch off, and clear the chips with the brush at rest.
    """,
)

_MEASURE = words(r"measure|gauge|adjust|set the depth stop|change the drill|caliper")
_STOPPED = words(
    r"press stop|stopped|at rest|switch(?:ed)? off|stop the (?:spindle|drill)|"
    r"still (?:drill|spindle)|"
    r"(?:stands?|is|are|be|stays?) still(?! (?:turning|running|cutting|coasting))"
)


def check(case: JobCase) -> Iterator[Finding]:
    """A step that measures or adjusts says stop, or comes after one that did, not started since."""
    if not case.turns:
        return
    is_still = True
    for number, (step, text) in enumerate(zip(case.job.steps, case.asked, strict=True)):
        if not is_still and _measures(step, text) and not says(text, _STOPPED):
            yield from case.practice(
                CODE,
                ("steps", number),
                f"step '{step.id}' measures or adjusts, and nothing since the start says stop",
                "add a key point: press stop, and wait until the spindle is still",
            )
        is_still = _still_after(text, is_still)


def _measures(step: Step, text: str) -> bool:
    return bool(step.checks) or told(text, _MEASURE)


def _still_after(text: str, before: bool) -> bool:
    """Whichever of stop and start is said last decides."""
    stops = [match.start() for match in _STOPPED.finditer(text)]
    starts = [match.start() for match in START.finditer(text)]
    if not stops and not starts:
        return before
    return max(stops, default=-1) > max(starts, default=-1)


RULE = JobRule(check, (CODE,))
