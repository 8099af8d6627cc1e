"""What a record refers to: other records, prose, files. Each with its path in the record."""

from __future__ import annotations

from collections.abc import Iterator

from .ids import FileIn, RefTo, RunningText
from .leaves import KeyPath
from .record import Record


def references(record: Record) -> Iterator[tuple[KeyPath, str, str]]:
    """Path, kind and id of every record that `record` names in a field of its own."""
    for leaf in record.leaves:
        if isinstance(leaf.mark, RefTo):
            yield leaf.path, leaf.mark.kind, leaf.value


def texts(record: Record) -> Iterator[tuple[KeyPath, str]]:
    """Path and text of every running text in `record`."""
    for leaf in record.leaves:
        if isinstance(leaf.mark, RunningText):
            yield leaf.path, leaf.value


def files(record: Record) -> Iterator[tuple[KeyPath, str, str]]:
    """Path, folder and name of every file that `record` names."""
    for leaf in record.leaves:
        if isinstance(leaf.mark, FileIn):
            yield leaf.path, leaf.mark.folder, leaf.value
