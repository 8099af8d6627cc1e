"""Which fields a record may hold at a path, and what a class of record is called in a message."""

from __future__ import annotations

import re
from collections.abc import Sequence
from types import UnionType
from typing import Annotated, Union, get_args, get_origin

from benchleaf.model import Record


def class_at(cls: type[Record], path: Sequence[str | int]) -> type[Record] | None:
    """The class of record that stands at `path` inside `cls`, or None."""
    current: type[Record] | None = cls
    for step in path:
        if isinstance(step, int) or current is None:
            continue
        info = current.model_fields.get(step)
        current = _record_in(info.annotation) if info is not None else current
    return current


def _record_in(annotation: object) -> type[Record] | None:
    """The record class inside an annotation such as `tuple[Step, ...] | None`."""
    if isinstance(annotation, type) and issubclass(annotation, Record):
        return annotation
    if get_origin(annotation) in (tuple, list, Annotated, Union, UnionType):
        found = (_record_in(part) for part in get_args(annotation))
        return next((one for one in found if one is not None), None)
    return None


def spoken(cls: type[Record]) -> str:
    """The class's name as words: `KeyPoint` is 'key point'."""
    words = re.sub(r"(?<!^)(?=[A-Z])", " ", cls.__name__).lower()
    return words.replace("set up", "set-up")


def meaning(cls: type[Record], key: str) -> str | None:
    """What a field is for, from its description."""
    info = cls.model_fields.get(key)
    return info.description if info is not None else None
