"""Any value as plain lines: what a page is given, so that what moves in it is seen."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from functools import cached_property
from typing import Any

from benchleaf.compute import SetUpSheet
from benchleaf.model import Record
from benchleaf.pages.job_view import JobView, SetUpView

NAMED = (JobView, SetUpView, SetUpSheet)
VIEWS = ("benchleaf.pages", "benchleaf.people", "benchleaf.html")
"""Where values come from whose properties templates read."""
DEEPEST = 12
MANY = 12
"""A number's digits: enough to see any change, few enough for every processor to agree."""


def lines(value: Any, name: str = "", deep: int = 0, *, is_own: bool = False) -> Iterator[str]:
    """Each part of a value in a line of its own, below what it stands in.

    A job with its figures is whole on the job's own page, and only named elsewhere.
    """
    indent = "  " * deep
    is_named = deep > 1 and isinstance(value, NAMED) and not is_own
    inside = list(parts(value)) if deep < DEEPEST and not is_named else []
    if not inside:
        yield f"{indent}{name}: {shown(value)}"
        return
    yield f"{indent}{name}: {type(value).__name__}"
    for key, one in inside:
        yield from lines(one, key, deep + 1, is_own=is_own)


def parts(value: Any) -> Iterator[tuple[str, Any]]:
    """The named parts of a value; a record of the shop is known by its id, and has none."""
    if isinstance(value, (str, bytes, Enum, Record)):
        return
    if isinstance(value, Mapping):
        for key in value:
            yield str(key), value[key]
    elif is_dataclass(value) and not isinstance(value, type):
        yield from ((one.name, getattr(value, one.name)) for one in fields(value))
        if type(value).__module__.startswith(VIEWS):
            yield from told_by(value)
    elif isinstance(value, (frozenset, set)):
        yield from ((str(at), one) for at, one in enumerate(sorted(value, key=shown)))
    elif isinstance(value, (list, tuple)):
        yield from ((str(at), one) for at, one in enumerate(value))


def told_by(value: Any) -> Iterator[tuple[str, Any]]:
    """What it tells without being asked for anything more."""
    for name in sorted(dir(type(value))):
        told = getattr(type(value), name, None)
        if isinstance(told, (property, cached_property)) and not name.startswith("_"):
            try:
                yield f"{name} ()", getattr(value, name)
            except (AttributeError, LookupError, ValueError, AssertionError) as error:
                yield f"{name} ()", f"{type(error).__name__}: {error}"


def shown(value: Any) -> str:
    if isinstance(value, Record):
        return f"{type(value).__name__} {getattr(value, 'id', '')}"
    if isinstance(value, float):
        return f"{value:.{MANY}g}"
    if value is None or isinstance(value, (str, bytes, int, Enum)):
        return repr(str(value)) if isinstance(value, str) else repr(value)
    return str(getattr(value, "__qualname__", type(value).__qualname__))
