"""Which fields a record may hold at a path, and what a class of record is called in a message."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import get_args

from benchleaf.model import Record, classes_below


def class_at(cls: type[Record], path: Sequence[str | int]) -> type[Record] | None:
    """The class of record that stands at `path` inside `cls`, or None."""
    return next(iter(classes_at(cls, path)), None)


def classes_at(cls: type[Record], path: Sequence[str | int]) -> tuple[type[Record], ...]:
    """Every class of record that may stand at `path` inside `cls`.

    Where several may stand, as in a list of set-ups, the path holds the tag that tells them apart.
    """
    possible: tuple[type[Record], ...] = (cls,)
    for step in path:
        if isinstance(step, int):
            continue
        tagged = tuple(one for one in possible if step in tags(one))
        if any(step in one.model_fields for one in possible):
            possible = classes_below(possible, step)
        elif tagged:
            possible = tagged
    return possible


def tags(cls: type[Record]) -> tuple[str, ...]:
    """The words that choose this class among others, from a literal field `operation`."""
    info = cls.model_fields.get("operation")
    return get_args(info.annotation) if info is not None else ()


def spoken(cls: type[Record]) -> str:
    """The class's name as words: `KeyPoint` is 'key point'."""
    words = re.sub(r"(?<!^)(?=[A-Z])", " ", cls.__name__).lower()
    return words.replace("set up", "set-up").replace("part copy", "part")


def meaning(cls: type[Record], key: str) -> str | None:
    """What a field is for, from its description."""
    info = cls.model_fields.get(key)
    return info.description if info is not None else None
