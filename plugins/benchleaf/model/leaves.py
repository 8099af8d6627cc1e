"""Marked values inside a record: references, running text, file names, each with its path."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from typing import get_args

from pydantic import BaseModel

from .ids import Mark

KeyPath = tuple[str | int, ...]
"""The keys, and places in lists, that lead to a value of a record."""


@dataclass(frozen=True, slots=True)
class Leaf:
    """A marked value, where it stands, and its mark."""

    path: KeyPath
    value: str
    mark: Mark


def leaves(record: BaseModel) -> list[Leaf]:
    """Every marked value in `record`, in the order of its fields."""
    found: list[Leaf] = []
    _collect(record, (), found)
    return found


def _collect(record: BaseModel, path: KeyPath, found: list[Leaf]) -> None:
    values = record.__dict__
    for name, mark in _fields(type(record)):
        value = values[name]
        if value is not None and value != ():  # most fields are optional and left out
            _enter(value, (*path, name), mark, found)


def _enter(value: object, path: KeyPath, mark: Mark | None, found: list[Leaf]) -> None:
    if isinstance(value, str):
        if mark is not None:
            found.append(Leaf(path, value, mark))
    elif isinstance(value, tuple):
        for index, item in enumerate(value):
            _enter(item, (*path, index), mark, found)
    elif isinstance(value, BaseModel):
        _collect(value, path, found)


@cache
def _fields(cls: type[BaseModel]) -> tuple[tuple[str, Mark | None], ...]:
    """The fields that hold a marked value or a record, each with its mark."""
    marked = (
        (name, _own_mark(info.metadata) or _mark_within(info.annotation), info.annotation)
        for name, info in cls.model_fields.items()
    )
    return tuple((name, mark) for name, mark, annotation in marked if mark or _holds(annotation))


def mark_of(cls: type[BaseModel], name: str) -> Mark | None:
    """What the values of a field are marked as: a reference, running text and so on."""
    return dict(_fields(cls)).get(name)


def _holds(annotation: object) -> bool:
    """True where a record may stand somewhere inside an annotation."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return True
    return any(_holds(part) for part in get_args(annotation))


def _mark_within(annotation: object) -> Mark | None:
    """The mark anywhere inside an annotation such as `tuple[Annotated[str, mark], ...]`."""
    own = _own_mark(getattr(annotation, "__metadata__", ()))
    inside = (_mark_within(part) for part in get_args(annotation) if get_args(part))
    return own or next((mark for mark in inside if mark is not None), None)


def _own_mark(metadata: Iterable[object]) -> Mark | None:
    return next((item for item in metadata if isinstance(item, Mark)), None)
