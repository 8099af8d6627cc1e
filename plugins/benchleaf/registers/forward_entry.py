"""An entry that sends readers of an old address on to where the thing is now."""

from __future__ import annotations

from benchleaf.model.record import Record


class Forward(Record):
    """One published address that is gone, and what stands in its place."""

    old: str
    """The address as it was published, such as jobs/tr-0140.html#ream."""
    new: str
    """The address that takes its place."""
    why: str | None = None
    """A sentence for the reader, such as: This job was split in two."""
