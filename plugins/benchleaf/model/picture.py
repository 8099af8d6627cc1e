"""A picture: its file below content/pictures/, and the text that stands for it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from .ids import FileIn
from .marks import Example
from .record import Record


class Picture(Record):
    """A picture with the words that say the same to somebody who cannot see it."""

    file: Annotated[str, FileIn("pictures"), Example("clamp-plate.svg")]
    """Name below content/pictures/, such as `clamp-plate.svg`."""
    text: Annotated[str, Example("The plate touches the stop at the left.")]
    """What the picture shows, in words; read aloud, and shown where the picture is missing."""
    caption: Annotated[str | None, Example("Push first, then tighten")] = None
    """A line beneath the picture."""


@dataclass(frozen=True, slots=True)
class PictureFile:
    """A file that is there: its size on the screen in CSS pixels, and its bytes on disk."""

    width: int
    height: int
    bytes: int
