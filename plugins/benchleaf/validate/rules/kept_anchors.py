"""L306: no step, set-up, term or job bears an id that its page has for a part of its own."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding, Severity
from benchleaf.link import EVERY_ANCHORS, JOB_ANCHORS, LIST_ANCHORS, is_kept
from benchleaf.model import Job, Record, Shop, Term

from ..places import Places

Path = tuple[str | int, ...]


def check(
    shop: Shop, places: Places, kind: str, record_id: str, record: Record
) -> Iterator[Finding]:
    """A finding at each id that is kept."""
    for path, anchor, kept in _anchors(record):
        if is_kept(anchor, kept):
            yield Finding(
                "L306",
                Severity.ERROR,
                places.of(kind, record_id, path),
                f"'{anchor}' is kept for a part of the page itself",
                ("give it another id",),
            )


def _anchors(record: Record) -> Iterator[tuple[Path, str, tuple[str, ...]]]:
    """Each anchor that a record brings to a page, with those that the page has already."""
    if isinstance(record, Term):
        yield ("id",), record.id, EVERY_ANCHORS
    if isinstance(record, Job):
        yield ("id",), record.id, LIST_ANCHORS
        for index, step in enumerate(record.steps):
            yield ("steps", index, "id"), step.id, JOB_ANCHORS
        for index, set_up in enumerate(record.set_ups):
            yield ("set_ups", index, "id"), set_up.id, JOB_ANCHORS
