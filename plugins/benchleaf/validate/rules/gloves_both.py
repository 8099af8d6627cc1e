"""V522: one step never asks for gloves and forbids them."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding
from benchleaf.model import Step

from ..case import JobCase
from .wording import says, words

_ON = words(r"(?:wear|put on|pull on|with|in) (?:\w+[ -]){0,2}gloves?")
_OFF = words(
    r"(?:no|never|without|take off|remove|do not wear) (?:\w+[ -]){0,3}gloves?|gloves? off|"
    r"gloves? (?:come|comes|are|stay) off"
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each step in which the learner would not know what to do."""
    for index, step in enumerate(case.job.steps):
        texts = [text for text in _asks(case, step) if "glove" in text.lower()]
        on = next((text for text in texts if _wants(text)), None)
        off = next((text for text in texts if says(text, _OFF)), None)
        if on and off:
            yield from case.practice(
                "V522",
                ("steps", index),
                f"the step '{step.id}' asks for gloves ('{on}') and forbids them ('{off}')",
                "split the step where the gloves go on or off, or correct one of the two",
            )


def _wants(text: str) -> bool:
    return says(text, _ON) and not says(text, _OFF)


def _asks(case: JobCase, step: Step) -> Iterator[str]:
    """Points, and what the hazards of the step say about avoiding and wearing."""
    for one in step.key_points:
        yield one.point
    for hazard_id in step.hazards:
        hazard = case.shop.hazards.get(hazard_id)
        if hazard is not None:
            yield from hazard.avoid
            yield from (f"Wear {line[:1].lower()}{line[1:]}" for line in hazard.controls.wear)
