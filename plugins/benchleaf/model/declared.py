"""What is declared on a field, read by class and key, or along a path into a record."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from typing import TypeVar, get_args

from .ids import RefTo
from .leaves import mark_of
from .marks import Area, At, Order, Trait
from .record import Record

M = TypeVar("M")
Classes = tuple[type[Record], ...]


@cache
def mark(cls: type[Record], key: str, sort: type[M]) -> M | None:
    """The mark of one sort on a field, or None."""
    return next((one for one in cls.model_fields[key].metadata if isinstance(one, sort)), None)


def has(cls: type[Record], key: str, trait: Trait) -> bool:
    """True where a field has a trait."""
    return trait in cls.model_fields[key].metadata


def is_needed(cls: type[Record], key: str, station: str = "") -> bool:
    """True for a key that a record needs; one that only some kinds of station need, at those."""
    at = mark(cls, key, At)
    return cls.model_fields[key].is_required() or (at is not None and station in at.needed_at)


def stands_at(cls: type[Record], key: str, station: str) -> bool:
    """False for a key that such a kind of station has not."""
    at = mark(cls, key, At)
    return at is None or station in at.kinds


def records_in(annotation: object) -> Iterator[type[Record]]:
    """The classes of record inside an annotation such as `tuple[Step, ...] | None`."""
    if isinstance(annotation, type) and issubclass(annotation, Record):
        yield annotation
    for part in get_args(annotation):
        yield from records_in(part)


@cache
def owners(classes: Classes, key: str) -> Classes:
    """Those of the classes that have a key. Where several have it, they say the same of it."""
    return tuple(one for one in classes if key in one.model_fields)


@cache
def classes_below(classes: Classes, key: str) -> Classes:
    """Every class of record that may stand at a key of one of these classes."""
    found = (owner.model_fields[key].annotation for owner in owners(classes, key))
    return tuple(dict.fromkeys(inner for one in found for inner in records_in(one)))


def fields_along(
    cls: type[Record], path: Sequence[str | int]
) -> Iterator[tuple[type[Record], str]]:
    """Each field on the way down a path: its class and its key."""
    classes: Classes = (cls,)
    for key in path:
        if isinstance(key, str):
            yield owners(classes, key)[0], key
            classes = classes_below(classes, key)


def order_is_free(cls: type[Record], path: Sequence[str | int]) -> bool:
    """True where the list at a path of a record has an order without meaning."""
    *_, (owner, key) = fields_along(cls, path)
    return mark(owner, key, Order) is Order.FREE


def area_at(cls: type[Record], path: Sequence[str | int]) -> Area:
    """What the value at a path of a record is about: the deepest area on the way there."""
    own = (mark(owner, key, Area) for owner, key in fields_along(cls, path))
    said = [one for one in own if one is not None]
    return said[-1] if said else cls.about if path else (cls.about_all or cls.about)


def kind_named(cls: type[Record], path: Sequence[str | int]) -> str | None:
    """The kind of record whose id stands at a path, or None where no id of a record does."""
    *_, (owner, key) = fields_along(cls, path)
    found = mark_of(owner, key)
    return found.kind if isinstance(found, RefTo) else None


def has_along(cls: type[Record], path: Sequence[str | int], trait: Trait) -> bool:
    """True where a field on the way down a path has a trait."""
    return any(has(owner, key, trait) for owner, key in fields_along(cls, path))
