"""V502 chips by brush, V504 what the fluid is for, V506 parts all one way: common practice."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding

from ..case import JobCase
from .wording import in_one_point, says, told, words

_CHIPS = words(r"chips?|swarf|turnings")
_BRUSH = words(r"brush(?:es|ed)?|vacuum|chip rake")
_CLEAR = words(r"clear|wipe|pick|sweep|remove|push|pull|take")
_HAND = words(r"fingers?|hands?|palm|rag")
_FLUID = words(r"fluid|oil|coolant")
_COOL = words(r"cool(?:s|ed|ing)?|heat|hot")
_WASH = words(r"wash(?:es|ed)?|flush(?:es|ed)?|carr(?:y|ies)|rinse[sd]?")
_ONE_WAY = words(r"(?:same|one) way|way (?:round|up)|facing|face (?:up|down)|up and to the \w+")


def check(case: JobCase) -> Iterator[Finding]:
    """Findings about chips, fluid and the finished part."""
    job = case.job
    yield from _by_hand(case)
    if case.drills:
        yield from _no_brush(case)
    if job.fluid is not None:
        yield from _fluid(case)
    if job.part is not None and not says(job.hand_on, _ONE_WAY):
        yield from case.practice(
            "V506",
            ("hand_on",),
            "nothing says that the finished parts lie all one way",
            "say which way they lie, the same for each",
        )


def _by_hand(case: JobCase) -> Iterator[Finding]:
    for number, step in enumerate(case.job.steps):
        for index, point in enumerate(step.key_points):
            if told(point.point, _CHIPS, _CLEAR, _HAND) and not says(point.point, _BRUSH):
                yield from case.practice(
                    "V502",
                    ("steps", number, "key_points", index, "point"),
                    "this clears chips by hand",
                    "use a brush, with the spindle stopped",
                )


def _no_brush(case: JobCase) -> Iterator[Finding]:
    if not any(in_one_point(step, _CHIPS, _BRUSH) for step in case.job.steps):
        yield from case.practice(
            "V502",
            ("steps",),
            "no step says that chips are cleared with a brush",
            "add it where the chips are cleared (looked for: chips and brush in one point)",
        )


def _fluid(case: JobCase) -> Iterator[Finding]:
    text = " ".join(case.said)
    if not says(text, _FLUID, _COOL, _WASH):
        yield from case.practice(
            "V504",
            ("fluid",),
            "no step says that the fluid cools and washes the chips away",
            "give it as the reason at the step that uses the fluid",
        )
