"""One scene while it is put together: two panels, its words, the rings of its key points."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from html import escape

from markupsafe import Markup

from benchleaf.model import Step

from .ink import Ink, Point

HEIGHT = 420.0
SECOND = 446.0
"""Where the panel at the right begins."""


@dataclass(slots=True)
class Picture:
    """A scene while it is put together."""

    left: str
    right: str = ""
    words: str = ""
    places: Mapping[str, tuple[Point, Point]] = field(default_factory=dict)
    """What a balloon may point to: the place, and the middle of its ring."""

    @property
    def width(self) -> float:
        """Of the view box."""
        return 720.0 if self.right else 440.0


@dataclass(frozen=True, slots=True)
class Scene:
    """A scene ready for a page."""

    svg: Markup
    text: str
    """What it shows, in words."""
    note: str
    """What is drawn to fit, since no record gives it; empty where all is given."""


def as_svg(drawn: str, width: float, text: str) -> Markup:
    return Markup(
        f'<svg class="bl-drawing" viewBox="0 0 {width:g} {HEIGHT:g}" width="{width:g}"'
        f' height="{HEIGHT:g}" role="img" aria-label="{escape(text)}" fill="none"'
        f' stroke="currentColor" stroke-width="4">{drawn}</svg>'
    )


# Balloons

_NAMED = (
    ("fluid", r"\bfluid|\bvalve|\boil\b"),
    ("isolator", r"isolator"),
    ("key", r"\bkey\b"),
    ("brush", r"\bbrush|nozzle|vacuum"),
    ("lever", r"(?<!cam )(?<!tension )\blever\b|\bease\b|\bpull\b"),
    ("stop", r"depth stop|move the stop|the stop on|scale"),
    ("tip", r"\bpoint\b|first touch|break-through|comes? through|goes light"),
    ("start", r"press start|from the left"),
    ("guard", r"\bguard\b"),
    ("rest", r"work rest|\brest\b"),
    ("tongue", r"tongue"),
    ("plug", r"\bplug\b"),
    ("hands", r"hold the|finger|hand's width"),
    ("work", r"plate|block|pin\b|stay|casting|work\b"),
)


def add_balloons(ink: Ink, step: Step, picture: Picture) -> None:
    """A ring for each key point whose place the scene knows; each place once."""
    free = dict(picture.places)
    for number, point in enumerate(step.key_points, 1):
        names = [name for name, words in _NAMED if re.search(words, point.point, re.IGNORECASE)]
        # what is said of the fluid is no other thing's point
        name = next((one for one in names if one in free), None) if "fluid" not in names else None
        if name is not None:
            place, ring = free.pop(name)
            ink.balloon(number, ring[0], ring[1], place)
