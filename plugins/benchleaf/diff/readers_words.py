"""The words of a change in the units that a job's readers have first.

A comparison judges texts with metric figures in them, so that no order of units moves a verdict;
what it shows of them is what the readers see.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Any

from benchleaf.compute import shown_job
from benchleaf.model import Job

from .change import Change, ChangeKind, Path, Side
from .differences import plain
from .shown import value_in_words


def has_inches(*sides: Side) -> bool:
    """True where any job is read in inches first."""
    return any(sheet.in_inches for side in sides for one in side.sheets.values() for sheet in one)


def in_readers_words(found: Iterable[Change], was: Side, now: Side) -> Iterator[Change]:
    """The changes with their texts as they are read; the sides have no figures put in yet."""
    for change in found:
        one = change.difference
        before = after = None
        if one.kind is not ChangeKind.ADDED:
            before = _read(change, one.old_path, was)
        if one.kind is not ChangeKind.REMOVED:
            after = _read(change, one.new_path, now)
        yield replace(change, before=before or change.before, after=after or change.after)


def _read(change: Change, path: Path, side: Side) -> str | None:
    """The words at a path, where a figure in them is read in other units than it is judged in."""
    kind, record_id = change.record
    job = side.shop.jobs.get(record_id) if kind == "jobs" and path else None
    if job is None:
        return None
    sheets = side.sheets.get(record_id, ())
    read = shown_job(job, [one.as_read for one in sheets])
    value = _at(plain(read), path)
    is_same = value == _at(plain(shown_job(job, sheets)), path)
    return None if is_same else value_in_words(value, Job, path, side.shop)


def _at(values: Any, path: Path) -> Any:
    """What stands there; None where the other side has no such place."""
    try:
        for step in path:
            values = values[step]
    except (KeyError, IndexError, TypeError):
        return None
    return values
