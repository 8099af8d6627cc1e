"""What a change of a record is about, as its fields declare it."""

from __future__ import annotations

from benchleaf.model import Area, area_at, class_of

from .change import Path

__all__ = ["Area", "area_of"]


def area_of(kind: str, path: Path) -> Area:
    """What the value at `path` of a record of that kind is about."""
    return area_at(class_of(kind), path)
