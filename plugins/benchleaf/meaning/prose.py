"""Which values of a record are prose, and in which of them only the wording may change."""

from __future__ import annotations

from benchleaf.model import Hazard, Job, KeyPointKind, Record, Trait, has_along
from benchleaf.model.ids import RunningText, ShortText

from .statement import Path


def wording_paths(record: Record) -> frozenset[Path]:
    """Paths of the texts of a record in which only the wording may change."""
    if isinstance(record, Hazard):
        return frozenset()
    return frozenset(path for path in text_paths(record) if not _is_hazard_text(record, path))


def text_paths(record: Record) -> frozenset[Path]:
    """Paths of everything that is prose: running texts, titles and names."""
    return frozenset(
        one.path for one in record.marked if isinstance(one.mark, RunningText | ShortText)
    )


def _is_hazard_text(record: Record, path: Path) -> bool:
    if has_along(type(record), path, Trait.KEEPS_FROM_HARM):
        return True
    if isinstance(record, Job) and len(path) > 3 and path[2] == "key_points":
        point = record.steps[int(path[1])].key_points[int(path[3])]
        return point.kind is KeyPointKind.CAN_INJURE
    return False
