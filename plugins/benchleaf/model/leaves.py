"""Marked values inside a record: references, running text, file names, each with its path."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import get_args

from pydantic import BaseModel

from .ids import Mark


@dataclass(frozen=True, slots=True)
class Leaf:
    """A marked value, where it stands, and its mark."""

    path: tuple[str | int, ...]
    value: str
    mark: Mark


def leaves(record: BaseModel, path: tuple[str | int, ...] = ()) -> Iterator[Leaf]:
    """Every marked value in `record`, in the order of its fields."""
    for name, mark in _fields(type(record)):
        yield from _value(getattr(record, name), (*path, name), mark)


def _value(value: object, path: tuple[str | int, ...], mark: Mark | None) -> Iterator[Leaf]:
    if isinstance(value, BaseModel):
        yield from leaves(value, path)
    elif isinstance(value, tuple):
        for index, item in enumerate(value):
            yield from _value(item, (*path, index), mark)
    elif isinstance(value, str) and mark is not None:
        yield Leaf(path, value, mark)


@cache
def _fields(cls: type[BaseModel]) -> tuple[tuple[str, Mark | None], ...]:
    return tuple(
        (name, _own_mark(info.metadata) or _mark_within(info.annotation))
        for name, info in cls.model_fields.items()
    )


def _mark_within(annotation: object) -> Mark | None:
    """The mark anywhere inside an annotation such as `tuple[Annotated[str, mark], ...]`."""
    own = _own_mark(getattr(annotation, "__metadata__", ()))
    inside = (_mark_within(part) for part in get_args(annotation) if get_args(part))
    return own or next((mark for mark in inside if mark is not None), None)


def _own_mark(metadata: Iterable[object]) -> Mark | None:
    return next((item for item in metadata if isinstance(item, Mark)), None)
