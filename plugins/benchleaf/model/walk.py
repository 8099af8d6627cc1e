"""What a record refers to: other records, prose, files. Each with its path in the record."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from .ids import FileIn, RefTo, RunningText
from .leaves import KeyPath
from .picture import Picture
from .record import Record


def references(record: Record) -> Iterator[tuple[KeyPath, str, str]]:
    """Path, kind and id of every record that `record` names in a field of its own."""
    for leaf in record.marked:
        if isinstance(leaf.mark, RefTo):
            yield leaf.path, leaf.mark.kind, leaf.value


def texts(record: Record) -> Iterator[tuple[KeyPath, str]]:
    """Path and text of every running text in `record`."""
    for leaf in record.marked:
        if isinstance(leaf.mark, RunningText):
            yield leaf.path, leaf.value


def files(record: Record) -> Iterator[tuple[KeyPath, str, str]]:
    """Path, folder and name of every file that `record` names."""
    for leaf in record.marked:
        if isinstance(leaf.mark, FileIn):
            yield leaf.path, leaf.mark.folder, leaf.value


def pictures(record: Record) -> Iterator[tuple[KeyPath, Picture]]:
    """Path and picture of every picture in `record`."""
    for path, folder, _ in files(record):
        owner: Any = record
        for key in path[:-1]:
            owner = owner[key] if isinstance(key, int) else getattr(owner, key)
        if folder == "pictures" and isinstance(owner, Picture):
            yield path[:-1], owner


def with_texts(record: Record, put: Mapping[tuple[str | int, ...], str]) -> Record:
    """The record with other texts at some of its paths."""
    changed: Record = _with(record, (), put)
    return changed


def _with(value: Any, path: tuple[str | int, ...], put: Mapping[tuple[str | int, ...], str]) -> Any:
    if path in put:
        return put[path]
    below = {one[len(path)] for one in put if one[: len(path)] == path}
    if not below:
        return value
    if isinstance(value, tuple):
        return tuple(_with(one, (*path, at), put) for at, one in enumerate(value))
    copy = value.model_copy(
        update={str(key): _with(getattr(value, str(key)), (*path, key), put) for key in below}
    )
    copy.__dict__.pop("marked", None)  # a copy keeps what was found in the old texts
    return copy
