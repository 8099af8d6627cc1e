"""V501 locate before clamping, V505 ease at break-through: common practice, no source."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding
from benchleaf.model import DrillingSetUp, HoleKind, Job, Shop

from ..places import Places
from .wording import drills, practice, said_in, says, words

_CLAMP = words(r"clamp|tighten|wind the vice tight|nip up")
_DRILL_CHUCK = words(r"chuck")
_LOCATE = words(
    r"locates?|seats?|lines? up|down on|sits? on|in(?:to)? the v|work stop|"
    r"against (?:the |both |its )?(?:\w+ )?(?:stop|fence|jaws?|parallels?|shoulder|face)"
)
_EASE = words(r"ease|easing|lighten|let up|less (?:pull|pressure|feed)|hold (?:the lever )?back")


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """Findings about jobs that drill."""
    for job in shop.jobs.values():
        if drills(shop, job):
            yield from _locate_first(job, places)
            yield from _ease(job, places)


def _locate_first(job: Job, places: Places) -> Iterator[Finding]:
    """The first point that clamps must not come before every word about locating."""
    for number, step in enumerate(job.steps):
        for index, point in enumerate(step.key_points):
            if says(point.point, _LOCATE):
                return
            if says(point.point, _CLAMP) and not says(point.point, _DRILL_CHUCK):
                path = ("steps", number, "key_points", index, "point")
                yield from practice(
                    job,
                    "V501",
                    places.of("jobs", job.id, path),
                    "the work is clamped here before any point says how it is located",
                    "say first how it is located: against a stop, seated, lined up",
                )
                return


def _ease(job: Job, places: Places) -> Iterator[Finding]:
    for index, set_up in enumerate(job.set_ups):
        steps = [step for step in job.steps if step.set_up == set_up.id]
        eased = any(says(said_in(step), _EASE) for step in steps)
        is_through = isinstance(set_up, DrillingSetUp) and set_up.hole is HoleKind.THROUGH
        if is_through and not eased:
            yield from practice(
                job,
                "V505",
                places.of("jobs", job.id, ("set_ups", index)),
                f"no step with the set-up '{set_up.id}' says to ease as the drill comes through",
                "add the key point, and name the set-up in that step",
            )
