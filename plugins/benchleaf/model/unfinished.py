"""What is still open in a shop: the one place that says whether a job may be taught.

A text that is not written yet holds `(to be written)`. A number has no such text: what it is for
stands under `still_open` of its record until somebody has given it. Both are looked for here only.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from pydantic import BaseModel

from .leaves import KeyPath
from .record import Record
from .shop import OpenLine, Shop
from .walk import references

OPEN_MARK = "(to be written)"
"""Stands in a text, in whatever capitals, until the text is written."""
OPEN_KEY = "still_open"
_NO_HINDRANCE = frozenset(("jobs", "terms"))
"""A job is taught by itself, and a word of the trade can wait."""


class Open(NamedTuple):
    """One thing that is still open in a record."""

    path: KeyPath
    what: str
    is_listed: bool
    """True for a line under `still_open`, False for a text that is not written."""


def open_in(record: Record) -> tuple[Open, ...]:
    """Everything that is still open in a record, in the order of its keys."""
    return tuple(_open_in(record, ()))


def _open_in(value: object, path: KeyPath) -> Iterator[Open]:
    if isinstance(value, str):
        is_listed = OPEN_KEY in path
        if is_listed or OPEN_MARK in value.lower():
            yield Open(path, value, is_listed)
    elif isinstance(value, tuple):
        for at, one in enumerate(value):
            yield from _open_in(one, (*path, at))
    elif isinstance(value, BaseModel):
        for key in type(value).model_fields:
            yield from _open_in(value.__dict__[key], (*path, key))


def open_lines(text: str) -> tuple[OpenLine, ...]:
    """Each line of a page that is not written yet."""
    lines = ((number, line) for number, line in enumerate(text.split("\n"), 1))
    return tuple(
        OpenLine(number, line.lower().index(OPEN_MARK) + 1, line.strip())
        for number, line in lines
        if OPEN_MARK in line.lower()
    )


@dataclass(frozen=True, slots=True)
class Drafts:
    """What nobody may be taught from yet."""

    records: frozenset[tuple[str, str]] = frozenset()
    """Kind and id of each record with something open, and of each job that uses one."""
    whole: bool = False
    """True where no page may be taught from."""

    def is_complete(self, job_id: str) -> bool:
        """True where a job may be taught, and somebody signed off on it."""
        return not self.whole and ("jobs", job_id) not in self.records


def drafts(shop: Shop) -> Drafts:
    """What is a draft: a record with something open, and each job that uses such a record.

    The whole manual is one while its own facts or its preface are open, and while there are jobs
    and none of them may be taught.
    """
    is_open = {(kind, one) for kind, one, record in shop.every() if any(_open_in(record, ()))}
    if is_open:
        uses = {("jobs", one): _used(shop, ("jobs", one)) for one in shop.jobs}
        is_open |= {job for job, used in uses.items() if used & is_open}
    none_left = bool(shop.jobs) and all(("jobs", one) in is_open for one in shop.jobs)
    own = bool(open_in(shop.manual)) or (shop.manual.preface or "") in shop.open_pages
    return Drafts(frozenset(is_open), own or none_left)


def is_complete(shop: Shop, job_id: str) -> bool:
    """True where a job of the shop may be taught; who asks for many asks `drafts` once."""
    return drafts(shop).is_complete(job_id)


def _used(shop: Shop, start: tuple[str, str]) -> set[tuple[str, str]]:
    """Every record that a record uses, by whatever way."""
    found: set[tuple[str, str]] = set()
    waiting = [start]
    while waiting:
        kind, record_id = waiting.pop()
        records: Mapping[str, Record] = shop.of_kind(kind)
        record = records.get(record_id)
        named = () if record is None else references(record)
        new = {(of, one) for _, of, one in named if of not in _NO_HINDRANCE} - found
        found |= new
        waiting += new
    return found
