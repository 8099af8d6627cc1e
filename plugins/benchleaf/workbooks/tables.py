"""A record as tables, and tables as a record. Plain values: no spreadsheet library is known here.

One table holds the keys of the record itself, one key a row. Each list of records inside it has a
table of its own, one entry a row; the key points of a step stand in the rows of their step, since
that is how a breakdown is written. A key of a record inside a record is written with a dot.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum, auto
from functools import cache
from typing import Any, get_origin

from benchleaf.diagnose import Place
from benchleaf.model import Record, classes_below

Classes = tuple[type[Record], ...]
OF = "of"
"""The column that says to which entry of the table above a row belongs."""
KEY, VALUE = "key", "value"
"""The columns of the table of the record itself."""
IN_ROWS = "key_points"
"""The list that stands in the rows of the entry it belongs to."""


class Holds(Enum):
    """What one column holds."""

    TEXT = auto()
    LINES = auto()
    """A list of texts: one a line of the cell."""
    ROWS = auto()
    """A list of records in a table of its own."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its head, what it holds, and the class and key that say what it means."""

    head: str
    holds: Holds
    owner: type[Record]
    key: str
    group: str = ""
    """The record inside that it is a key of, where that one may be left out."""


@dataclass(frozen=True, slots=True)
class Cell:
    """What stands in a cell, as text, and where."""

    text: str
    place: Place


@dataclass(frozen=True, slots=True)
class Table:
    """One table: its name, its heads in order, and its rows, each from head to filled cell."""

    name: str
    heads: tuple[str, ...]
    rows: tuple[Mapping[str, Cell], ...]
    place: Place
    head_places: tuple[Place, ...] = ()
    """Where each head stands, in a table that was read."""

    def place_of(self, head: str) -> Place:
        """Where a head stands, or the whole table where that is not known."""
        at = self.heads.index(head)
        return self.head_places[at] if at < len(self.head_places) else self.place


@dataclass(frozen=True, slots=True)
class Help:
    """What a column or key means, what it allows, and where it is needed, in words."""

    says: str
    allowed: tuple[str, ...] = ()
    needed: str = ""


Helps = Mapping[tuple[str, str], Help]
"""Table and head (or key) to its help."""


NOWHERE = Place("")


def columns(classes: Classes, above: str = "", group: str = "") -> Iterator[Column]:
    """Every column of records of these classes, in the order of their keys."""
    seen: dict[str, type[Record]] = {}
    for owner in classes:
        for key in owner.model_fields:
            seen.setdefault(key, owner)
    for key, owner in seen.items():
        head, inner = f"{above}{key}", classes_below(classes, key)
        listed = is_list(owner, key)
        if inner and not listed:
            is_needed = owner.model_fields[key].is_required()
            yield from columns(inner, f"{head}.", group if is_needed else head)
        else:
            holds = Holds.ROWS if inner else Holds.LINES if listed else Holds.TEXT
            yield Column(head, holds, owner, key, group)


def is_list(owner: type[Record], key: str) -> bool:
    """True where a field holds a list."""
    found = owner.model_fields[key].annotation
    return get_origin(found) is tuple or str(found).startswith("tuple[")


@cache
def table_columns(cls: type[Record], name: str) -> tuple[Column, ...]:
    """The columns of one table of a kind of record, those of key points in their place."""
    found: list[Column] = []
    for column in columns(classes_at(cls, name)):
        if column.key == IN_ROWS and column.holds is Holds.ROWS:
            found += columns(classes_below((column.owner,), IN_ROWS), f"{column.head}.")
        elif column.holds is not Holds.ROWS:
            found.append(column)
    return tuple(found)


@cache
def table_names(cls: type[Record]) -> tuple[str, ...]:
    """The tables of a kind of record besides its own, each after the one it belongs to."""
    return tuple(_tables_below(cls, ""))


def _tables_below(cls: type[Record], name: str) -> Iterator[str]:
    for column in columns(classes_at(cls, name)):
        if column.holds is Holds.ROWS:
            below = f"{name}.{column.head}" if name else column.head
            if column.key != IN_ROWS:
                yield below
                yield from _tables_below(cls, below)


@cache
def _columns(cls: type[Record], name: str) -> tuple[Column, ...]:
    return tuple(columns(classes_at(cls, name)))


def classes_at(cls: type[Record], name: str) -> Classes:
    """The classes that the rows of a table are of."""
    classes: Classes = (cls,)
    for key in name.split(".") if name else ():
        classes = classes_below(classes, key)
    return classes


@cache
def parent_of(cls: type[Record], name: str) -> str:
    """The table that the rows of a table belong to; nothing for the record's own."""
    tables = set(table_names(cls))
    keys = name.split(".")
    above = (".".join(keys[:end]) for end in range(len(keys) - 1, 0, -1))
    return next((one for one in above if one in tables), "")


def tables_of(cls: type[Record], value: Mapping[str, Any], name: str) -> tuple[Table, ...]:
    """A record, as plain dict, list and text, as tables; `name` is that of its own table.

    Raises ValueError where a value has a shape that no table can hold.
    """
    found = {table: _Rows() for table in ("", *table_names(cls))}
    found[""].rows.append(_flat(cls, "", value, found, ""))
    own = tuple(
        {KEY: Cell(head, NOWHERE), VALUE: Cell(text, NOWHERE)}
        for head, written in found[""].rows[0].items()
        for text in (_lines(written) if _holds(cls, "", head) is Holds.LINES else (written,))
    )
    rest = (
        Table(table, _heads(cls, table), tuple(_cells(row) for row in rows.rows), NOWHERE)
        for table, rows in found.items()
        if table and rows.rows
    )
    return (Table(name, (KEY, VALUE), own, NOWHERE), *rest)


@dataclass(slots=True)
class _Rows:
    rows: list[dict[str, str]]
    entries: int = 0

    def __init__(self) -> None:
        self.rows, self.entries = [], 0


def _heads(cls: type[Record], table: str) -> tuple[str, ...]:
    of = (OF,) if parent_of(cls, table) else ()
    return (*of, *(one.head for one in table_columns(cls, table)))


def _cells(row: Mapping[str, str]) -> dict[str, Cell]:
    return {head: Cell(text, NOWHERE) for head, text in row.items()}


def _holds(cls: type[Record], table: str, head: str) -> Holds | None:
    return next((one.holds for one in table_columns(cls, table) if one.head == head), None)


def _flat(
    cls: type[Record], table: str, value: Mapping[str, Any], found: dict[str, _Rows], ref: str
) -> dict[str, str]:
    """The cells of one entry; its lists of records go to their own tables."""
    row: dict[str, str] = {}
    for column in _columns(cls, table):
        inside = _at(value, column.head.split("."))
        if inside is None:
            continue
        if column.holds is Holds.TEXT:
            row[column.head] = _text(inside, column.head)
        elif column.holds is Holds.LINES:
            row[column.head] = "\n".join(_escaped(_text(one, column.head)) for one in _list(inside))
        elif column.key != IN_ROWS:
            below = f"{table}.{column.head}" if table else column.head
            for entry in _list(inside):
                _add(cls, below, entry, found, ref)
    return row


def _add(cls: type[Record], table: str, entry: Any, found: dict[str, _Rows], above: str) -> None:
    if not isinstance(entry, Mapping):
        raise ValueError(f"an entry of '{table}' is no record")
    rows = found[table]
    rows.entries += 1
    ref = str(entry.get("id") or rows.entries)
    row = {OF: above} if parent_of(cls, table) else {}
    row |= _flat(cls, table, entry, found, ref)
    more = [
        {f"{IN_ROWS}.{key}": _text(text, key) for key, text in one.items()}
        for one in _list(entry.get(IN_ROWS) or ())
    ]
    rows.rows.append(row | (more[0] if more else {}))
    rows.rows += more[1:]


def _at(value: Any, keys: Sequence[str]) -> Any:
    for key in keys:
        value = value.get(key) if isinstance(value, Mapping) else None
    return value


def _list(value: Any) -> Sequence[Any]:
    if isinstance(value, (list, tuple)):
        return value
    raise ValueError(f"{value!r} is no list")


def _text(value: Any, head: str) -> str:
    if isinstance(value, str) and value:
        return value
    raise ValueError(f"'{head}' holds {value!r}, and a cell holds one text")


def _escaped(text: str) -> str:
    r"""A text as one line of a cell: a line break in it is written as `\n`."""
    return text.replace("\\", "\\\\").replace("\n", "\\n")


def _lines(text: str) -> list[str]:
    return text.split("\n")


def entry_texts(cell: str) -> Iterator[str]:
    r"""The texts of a cell that holds one a line; `\n` inside a line is a line break.

    >>> list(entry_texts("one\ntwo\\nlines\n"))
    ['one', 'two\nlines']
    """
    for line in cell.split("\n"):
        if line.strip():
            parts = line.strip().split("\\\\")
            yield "\\".join(part.replace("\\n", "\n") for part in parts)
