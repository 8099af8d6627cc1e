"""Marks over a picture as plain shapes: arrows, rings, numbers, in the picture's own pixels.

Each is dark on a light edge, so that it stands out on any photograph, on a screen and in print.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import hypot

from benchleaf.model import MarkKind, PictureFile, PictureMark

_PARTS = 100
"""The longer edge of the picture in units: lines and letters grow with the picture."""
_LINE, _HEAD, _HALF_HEAD, _DISC, _LETTER = 1.1, 5.0, 2.3, 3.4, 4.4
"""In these units. A letter of 4.4 is 16 px high on a picture as wide as a phone of 360 px."""


@dataclass(frozen=True, slots=True)
class MarkView:
    """One mark: a path, or a circle, or a circle with a number in it."""

    kind: str
    line: float
    """Width of its line in pixels of the picture."""
    x: float
    y: float
    radius: float = 0.0
    path: str = ""
    """Of an arrow: its shaft and head, as one closed outline and a line."""
    number: int | None = None
    letter: float = 0.0
    """Height of its letters."""


def mark_views(marks: Iterable[PictureMark], size: PictureFile) -> tuple[MarkView, ...]:
    """The shapes of all marks that are whole; `check` names those that are not."""
    unit = max(size.width, size.height) / _PARTS
    return tuple(view for one in marks if (view := _view(one, unit)) is not None)


def _view(mark: PictureMark, unit: float) -> MarkView | None:
    x, y, line = float(mark.at.across), float(mark.at.down), round(_LINE * unit, 1)
    if mark.mark is MarkKind.RING and mark.radius:
        return MarkView("ring", line, x, y, float(mark.radius))
    if mark.mark is MarkKind.NUMBER and mark.number:
        disc, letter = round(_DISC * unit, 1), round(_LETTER * unit, 1)
        return MarkView("number", line, x, y, disc, number=mark.number, letter=letter)
    if mark.mark is MarkKind.ARROW and mark.tail and mark.tail != mark.at:
        return MarkView("arrow", line, x, y, path=_arrow(mark, unit))
    return None


def _arrow(mark: PictureMark, unit: float) -> str:
    """The shaft from the tail to the head, then the head with its point where the mark points."""
    if mark.tail is None:
        return ""
    across, down = mark.at.across - mark.tail.across, mark.at.down - mark.tail.down
    length = hypot(across, down)
    along, half = (across / length, down / length), _HALF_HEAD * unit
    head = min(_HEAD * unit, length)
    neck = (mark.at.across - along[0] * head, mark.at.down - along[1] * head)
    left = (neck[0] - along[1] * half, neck[1] + along[0] * half)
    right = (neck[0] + along[1] * half, neck[1] - along[0] * half)
    corners = "L".join(f"{x:.1f} {y:.1f}" for x, y in (left, right))
    tip = f"{mark.at.across} {mark.at.down}"
    return f"M{mark.tail.across} {mark.tail.down}L{neck[0]:.1f} {neck[1]:.1f}M{tip}L{corners}Z"
