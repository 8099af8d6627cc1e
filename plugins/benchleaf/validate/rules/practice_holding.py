"""V501 locate before clamping, V505 ease at break-through: common practice, no source."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding
from benchleaf.model import DrillingSetUp, HoleKind

from ..case import JobCase
from .wording import says, words

_CLAMP = words(r"clamp|tighten|wind the vice tight|nip up")
_DRILL_CHUCK = words(r"chuck")
_LOCATE = words(
    r"locates?|seats?|lines? up|down on|sits? on|in(?:to)? the v|work stop|"
    r"against (?:the |both |its )?(?:\w+ )?(?:stop|fence|jaws?|parallels?|shoulder|face)"
)
_EASE = words(r"ease|easing|lighten|let up|less (?:pull|pressure|feed)|hold (?:the lever )?back")


def check(case: JobCase) -> Iterator[Finding]:
    """Findings about a job that drills."""
    if case.drills:
        yield from _locate_first(case)
        yield from _ease(case)


def _locate_first(case: JobCase) -> Iterator[Finding]:
    """The first point that clamps must not come before every word about locating."""
    for number, step in enumerate(case.job.steps):
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


def _ease(case: JobCase) -> Iterator[Finding]:
    steps = tuple(zip(case.job.steps, case.said, strict=True))
    for index, set_up in enumerate(case.job.set_ups):
        eased = any(says(said, _EASE) for step, said in steps if step.set_up == set_up.id)
        is_through = isinstance(set_up, DrillingSetUp) and set_up.hole is HoleKind.THROUGH
        if is_through and not eased:
            yield from case.practice(
                "V505",
                ("set_ups", index),
                f"no step with the set-up '{set_up.id}' says to ease as the drill comes through",
                "add the key point, and name the set-up in that step",
            )
