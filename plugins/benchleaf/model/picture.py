"""A picture: its file below content/pictures/, the text that stands for it, marks over it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from .ids import FileIn
from .marks import Example, Order
from .record import Record

COPY_WIDTHS = (480, 960, 1600)
"""Widths in pixels in which a photograph is published; the last is the widest. Our own choice: a
phone, half a kiosk's width, and a kiosk of 1080 with room to show a detail larger."""


PHOTO_TYPES = (".jpg", ".jpeg", ".png", ".webp", ".gif")
"""Endings of files made of pixels; a drawing (SVG) is published as it is."""
MOST_PIXELS = 100_000_000
"""Of a photograph: more than a phone takes, and still below half a gigabyte in memory."""


class MarkKind(StrEnum):
    """What is drawn over a picture."""

    ARROW = "arrow"
    RING = "ring"
    NUMBER = "number"


class Point(Record):
    """A place on a picture, in its own pixels, as it stands upright."""

    across: Annotated[int, Field(ge=0), Example("820")]
    """Pixels from the left edge."""
    down: Annotated[int, Field(ge=0), Example("410")]
    """Pixels from the upper edge."""


class PictureMark(Record):
    """One arrow, ring or number over a picture. The picture's text says what it points to."""

    mark: MarkKind
    """One of: arrow, ring, number."""
    at: Point
    """Where the arrow points, or the middle of the ring or number."""
    tail: Point | None = None
    """Where an arrow begins."""
    radius: Annotated[int | None, Field(gt=0), Example("60")] = None
    """From the middle of a ring to its line, in pixels of the picture."""
    number: Annotated[int | None, Field(ge=1, le=99), Example("1")] = None
    """The number that a number shows."""


class Picture(Record):
    """A picture with the words that say the same to somebody who cannot see it."""

    file: Annotated[str, FileIn("pictures"), Example("clamp-plate.svg")]
    """Name below content/pictures/, such as `clamp-plate.svg`."""
    text: Annotated[str, Example("The plate touches the stop at the left.")]
    """What the picture shows, in words; read aloud, and shown where the picture is missing."""
    caption: Annotated[str | None, Example("Push first, then tighten")] = None
    """A line beneath the picture."""
    marks: Annotated[tuple[PictureMark, ...], Order.FREE] = ()
    """Arrows, rings and numbers drawn over it; the file itself stays as it is."""


@dataclass(frozen=True, slots=True)
class PictureCopy:
    """One published copy of a photograph."""

    address: str
    width: int
    """In pixels."""


@dataclass(frozen=True, slots=True)
class PictureFile:
    """A file that is there: its size in pixels as it stands upright, and its bytes on disk."""

    width: int
    height: int
    bytes: int

    @property
    def is_too_large(self) -> bool:
        """True where it has more pixels than a build should hold in memory."""
        return self.width * self.height > MOST_PIXELS

    @property
    def copy_widths(self) -> tuple[int, ...]:
        """Widths of the copies of a photograph of this size, narrowest first; never enlarged."""
        widest = min(self.width, COPY_WIDTHS[-1])
        return (*(one for one in COPY_WIDTHS if one < widest), widest)


def copies(name: str, size: PictureFile) -> tuple[PictureCopy, ...]:
    """The published copies of a file below content/pictures/; none of a drawing.

    The widest keeps the address `pictures/NAME`, the others stand in a folder of their width.

    >>> [one.address for one in copies("vice.jpg", PictureFile(4000, 3000, 1))]
    ['pictures-480/vice.jpg', 'pictures-960/vice.jpg', 'pictures/vice.jpg']
    >>> copies("vice.svg", PictureFile(400, 300, 1))
    ()
    """
    if not name.lower().endswith(PHOTO_TYPES):
        return ()
    *narrower, widest = size.copy_widths
    return (
        *(PictureCopy(f"pictures-{one}/{name}", one) for one in narrower),
        PictureCopy(f"pictures/{name}", widest),
    )
