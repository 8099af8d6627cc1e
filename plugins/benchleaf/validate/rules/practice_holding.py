"""V501 located, clamped and proved, V505 ease at break-through.

V501: locating before clamping is trade teaching, the three together a house rule. V505: shop rules
of universities (LSU, NCSU ISE).
"""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding
from benchleaf.model import DrillingSetUp, HoleKind, InsideWork

from ..case import JobCase
from .wording import says, words

_CLAMP = words(r"clamp|tighten|wind the vice tight|nip up")
_DRILL_CHUCK = words(r"chuck|key holes?|shank")
_LOCATE = words(
    r"locates?|seats?|lines? up|down on|sits? on|in(?:to)? the v|work stop|"
    r"against (?:the |both |its )?(?:\w+ )?(?:stop|fence|jaws?|parallels?|shoulder|face)"
)
_PIECE = (
    r"(?:plate|work|workpiece|pin|bar|tube|block|bracket|stay|angle|leg|casting|part|piece|"
    r"parallels?|end|it)"
)
# Pushed at by hand with the machine off, the tool turned through by hand, the first piece gauged.
_PROVED = words(
    r"(?:push|pull|press|lean|tug|try|knock|rap)(?:es|s)? "
    r"(?:(?:hard|once|firmly|well|by hand|at|on|against|to move|to shift|to turn) )+"
    rf"(?:(?:the|it|its|both|each|your) )?(?:(?:clamped|tight|long|free|far|high) )*{_PIECE}|"
    r"tugs?|shake (?:it|the)|cannot be (?:moved|pushed|shifted|turned)|"
    r"(?:does not|must not|may not) (?:move|shift|rock|give|tip)|rocks?|"
    r"(?:move|nudge|wiggle)s? (?:both|the|each|neither) parallels?|"
    r"turn the (?:drill|tool|chuck|spindle) (?:through )?by hand|"
    rf"first[- ](?:off|(?:(?:good|drilled|finished) )?(?:hole|one|{_PIECE}))|prove[sd]?|proof"
)
_EASE = words(r"ease|easing|lighten|let up|less (?:pull|pressure|feed)|hold (?:the lever )?back")


def check(case: JobCase) -> Iterator[Finding]:
    """Findings about a job that drills."""
    if case.drills:
        yield from _locate_first(case)
        yield from _proved(case)
        yield from _ease(case)


def _locate_first(case: JobCase) -> Iterator[Finding]:
    """The first point that clamps must not come before every word about locating."""
    for number, step in enumerate(case.job.steps):
        if step.hands_inside is not None and step.hands_inside.doing is InsideWork.TOOL_CHANGE:
            continue  # what is tightened there is the tool
        for index, point in enumerate(step.key_points):
            if says(point.point, _LOCATE):
                return
            if says(point.point, _CLAMP) and not says(point.point, _DRILL_CHUCK):
                yield from case.practice(
                    "V501",
                    ("steps", number, "key_points", index, "point"),
                    "the work is clamped here before any point says how it is located",
                    "say first how it is located: against a stop, seated, lined up",
                )
                return


def _proved(case: JobCase) -> Iterator[Finding]:
    """Once in the whole job: what is located and clamped can still be wrong."""
    looked_at = (one for step in case.job.steps for one in step.checks)
    told = (*case.asked, *(f"{one.what} {one.how or ''}" for one in looked_at))
    if any(says(text, _CLAMP) for text in told) and not any(says(text, _PROVED) for text in told):
        yield from case.practice(
            "V501",
            ("steps",),
            "the work is clamped, and no step proves that it lies right and holds",
            "prove it: push at it by hand with the machine off, turn the tool through by hand, or "
            "gauge the first piece before the second",
        )


def _ease(case: JobCase) -> Iterator[Finding]:
    steps = tuple(zip(case.job.steps, case.said, strict=True))
    for index, set_up in enumerate(case.job.set_ups):
        eased = any(says(said, _EASE) for step, said in steps if step.set_up == set_up.id)
        is_through = isinstance(set_up, DrillingSetUp) and set_up.hole is HoleKind.THROUGH
        if is_through and not eased:
            yield from case.practice(
                "V505",
                ("set_ups", index),
                f"no step with the set-up '{set_up.id}' says to ease at break-through",
                "add the key point, and name the set-up in that step",
            )
