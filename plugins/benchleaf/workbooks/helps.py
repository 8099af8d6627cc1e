"""What each column and key of a workbook means, and what may be chosen there."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from enum import StrEnum
from typing import get_args

from benchleaf.model import KeyPointKind, Record, Trait, has, kind_named
from benchleaf.model.schema import described, example_of

from . import watched
from .tables import (
    KEY,
    NOWHERE,
    OF,
    VALUE,
    Cell,
    Column,
    Help,
    Holds,
    Table,
    classes_at,
    parent_of,
    table_columns,
    table_names,
)


def helps(cls: type[Record], ids: Mapping[str, Sequence[str]]) -> dict[tuple[str, str], Help]:
    """Table and head to help; `ids` are those of the shop's records by kind."""
    found = {
        (table, column.head): _help(cls, table, column, ids)
        for table in ("", *table_names(cls))
        for column in table_columns(cls, table)
    }
    for table in table_names(cls):
        if parent := parent_of(cls, table):
            says = f"To which of '{parent}' it belongs: its id, or its number from the top."
            found[table, OF] = Help(says, needed="Needed.")
    tests = tuple(KeyPointKind)
    for head, says in watched.MEANS.items():
        allowed = tests if head == watched.TEST else ()
        found[watched.NAME, head] = Help(says, allowed)
    return found


def _help(cls: type[Record], table: str, column: Column, ids: Mapping[str, Sequence[str]]) -> Help:
    path = [*(table.split(".") if table else ()), *column.head.split(".")]
    says, example = described(column.owner, column.key), example_of(column.owner, column.key)
    needed = _needed(cls, table, column)
    if example and column.head != "id":  # what an id is like, its meaning says
        says = f"{says} For example: {example.rstrip('.')}."
    if column.holds is Holds.LINES:
        return Help(f"{says} One a line.", (), needed)
    info = column.owner.model_fields[column.key]
    kind = kind_named(cls, path)
    allowed = tuple(ids.get(kind, ())) if kind else tuple(_choices(info.annotation))
    return Help(says, allowed, needed)


def _needed(cls: type[Record], table: str, column: Column) -> str:
    """Whether a cell must be filled, or with what other cells; nothing where it may stay empty."""
    if not column.owner.model_fields[column.key].is_required():
        return ""
    if column.group:
        return f"Needed where {column.group} is filled in."
    shapes = classes_at(cls, table)
    having = [one for one in shapes if column.head.partition(".")[0] in one.model_fields]
    if len(having) == len(shapes):
        return "Needed."
    names = [word for one in having for word in get_args(one.model_fields["operation"].annotation)]
    return f"Needed for {', '.join(names)}."


def _choices(annotation: object) -> Iterator[str]:
    """The words that a field allows, where it allows some only."""
    if isinstance(annotation, type) and issubclass(annotation, StrEnum):
        yield from annotation
        return
    for one in get_args(annotation):
        if isinstance(one, str):
            yield one
        else:
            yield from _choices(one)


def _heads(cls: type[Record], table: str) -> tuple[str, ...]:
    heads = tuple(one.head for one in table_columns(cls, table))
    return (OF, *heads) if parent_of(cls, table) else heads


CHECKS = "steps.checks"
"""A list inside another that most breakdowns have: an empty workbook has its sheet too."""


def empty_tables(
    cls: type[Record], name: str, record_id: str, *, is_issued: bool = False
) -> tuple[Table, ...]:
    """The tables of a record of which only the id is known, and the sheet for watching.

    Where `is_issued`, what a release gives has no cell: nobody may type it.
    """
    issued = {key for key in cls.model_fields if is_issued and has(cls, key, Trait.ISSUED)}
    own = tuple(
        {KEY: Cell(one.head, NOWHERE)}
        | ({VALUE: Cell(record_id, NOWHERE)} if one.head == "id" else {})
        for one in table_columns(cls, "")
        if one.key not in issued
    )
    rest = (
        Table(table, _heads(cls, table), (), NOWHERE)
        for table in table_names(cls)
        if ("." not in table or table == CHECKS) and table not in issued
    )
    watching = Table(watched.NAME, watched.HEADS, (), NOWHERE)
    return (Table(name, (KEY, VALUE), own, NOWHERE), watching, *rest)
