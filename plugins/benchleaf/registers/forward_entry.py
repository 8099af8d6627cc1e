"""An entry that sends readers of an old address on to where the thing is now."""

from __future__ import annotations

from typing import Annotated

from benchleaf.model.marks import Example
from benchleaf.model.record import Record


class Forward(Record):
    """One published address that is gone, and what stands in its place."""

    old: Annotated[str, Example("jobs/tr-0140.html#ream")]
    """The address as it was published."""
    new: Annotated[str, Example("jobs/tr-0150.html#ream")]
    """The address that takes its place."""
    why: Annotated[str | None, Example("This job was split in two.")] = None
    """A sentence for the reader."""
