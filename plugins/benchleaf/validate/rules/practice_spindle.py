"""V503 chuck key out before the start, V507 stop before adjusting or measuring.

V503: LSU shop rules, TC 9-524 chapter 3, TM 1-1500-204-23-9. V507: NCSU ISE and LSU shop rules.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding
from benchleaf.model import Step

from ..case import JobCase
from .wording import in_one_point, says, told, words

_KEY = words(r"key")
_AWAY = words(r"out|hook|hang|hangs|hung|remove[sd]?|away")
_START = words(r"press start|start the (?:spindle|drill|machine)|switch on|green button")
_MEASURE = words(r"measure|gauge|adjust|set the depth stop|change the drill|caliper")
_STOPPED = words(
    r"press stop|stopped|at rest|switch(?:ed)? off|stop the (?:spindle|drill)|"
    r"still (?:drill|spindle)|"
    r"(?:stands?|is|are|be|stays?) still(?! (?:turning|running|cutting|coasting))"
)


def check(case: JobCase) -> Iterator[Finding]:
    """Findings about a job at a spindle."""
    machine = case.machine
    if machine is None or not machine.spindle_speeds:
        return
    if machine.chuck is not None and case.drills:
        yield from _key_out(case)
    yield from _stop_first(case)


def _key_out(case: JobCase) -> Iterator[Finding]:
    """A point on the key stands in a step up to the one that starts the spindle."""
    for step, asked in zip(case.job.steps, case.asked, strict=True):
        if in_one_point(step, _KEY, _AWAY):
            return
        if says(asked, _START):
            break
    yield from case.practice(
        "V503",
        ("steps",),
        "no step up to the start says that the chuck key is out and on its hook",
        "add it at or before the start (looked for: key, and out or hook, in one point)",
    )


def _stop_first(case: JobCase) -> Iterator[Finding]:
    """A step that measures or adjusts says stop, or comes after one that did, not started since."""
    is_still = True
    for number, (step, text) in enumerate(zip(case.job.steps, case.asked, strict=True)):
        if not is_still and _measures(step, text) and not says(text, _STOPPED):
            yield from case.practice(
                "V507",
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
    starts = [match.start() for match in _START.finditer(text)]
    if not stops and not starts:
        return before
    return max(stops, default=-1) > max(starts, default=-1)
