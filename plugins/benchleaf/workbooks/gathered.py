"""Tables to the tree of a record, every value with the cell it stands in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from benchleaf import read
from benchleaf.diagnose import Finding, Place, Severity, suggestion
from benchleaf.model import Record
from benchleaf.read import Listing, Node, Scalar

from .tables import (
    IN_ROWS,
    KEY,
    OF,
    VALUE,
    Cell,
    Holds,
    Table,
    entry_texts,
    parent_of,
    table_columns,
    table_names,
)

_PLAIN_HEADS = {
    "step": "title",
    "key point": "key_points.point",
    "reason": "key_points.reason",
    "why": "key_points.reason",
    "test": "key_points.kind",
    "kind": "key_points.kind",
}
"""What people call a column of the steps."""
_CSV_NAME = ("the last word of a .csv file's name is its table, such as tr-0600-steps.csv",)


@dataclass(slots=True)
class _Entry:
    """One record that is being put together."""

    place: Place
    keys: dict[str, _Entry | list[_Entry] | Cell | list[Cell]] = field(default_factory=dict)

    def put(self, head: str, value: Cell | list[Cell]) -> None:
        """Put a value under a head such as `part.number`."""
        owner, key = self._owner(head)
        owner.keys[key] = value

    def add(self, head: str, entry: _Entry) -> None:
        """Add an entry to the list under a head."""
        owner, key = self._owner(head)
        entries = owner.keys.setdefault(key, [])
        assert isinstance(entries, list)
        entries.append(entry)  # type: ignore[arg-type]

    def _owner(self, head: str) -> tuple[_Entry, str]:
        """The entry that a head's last key belongs to, and that key."""
        *above, key = head.split(".")
        owner = self
        for step in above:
            inner = owner.keys.setdefault(step, _Entry(self.place))
            assert isinstance(inner, _Entry)
            owner = inner
        return owner, key


def tree_of(
    cls: type[Record], tables: Sequence[Table], name: str
) -> tuple[Node, tuple[Finding, ...]]:
    """The tree of the record that the tables hold, and what is amiss with tables and cells."""
    gathering = _Gathering(cls, name)
    for table in _in_order(cls, tables, name):
        gathering.take(table)
    return _node(gathering.record), tuple(gathering.findings)


def _in_order(cls: type[Record], tables: Sequence[Table], name: str) -> Iterator[Table]:
    """The record's own table, then each after the one it belongs to, then those not known."""
    known = (name, *table_names(cls))
    by_name = {table.name.lower(): table for table in tables}
    yield from (by_name[one] for one in known if one in by_name)
    yield from (table for table in tables if table.name.lower() not in known)


class _Gathering:
    """What has been put together so far."""

    def __init__(self, cls: type[Record], name: str) -> None:
        self.cls, self.name = cls, name
        self.record = _Entry(Place(""))
        self.findings: list[Finding] = []
        self.entries: dict[str, dict[str, _Entry]] = {}
        """Of each table: the entries by id and by number."""

    def take(self, table: Table) -> None:
        """Take one table in."""
        if table.name.lower() == self.name:
            self.record.place = table.place
            self._own(table)
        elif table.name.lower() in table_names(self.cls):
            self._rows(table)
        else:
            known = (self.name, *table_names(self.cls))
            self._say(table.place, f"there is no table '{table.name}' for a {self.name}",
                      *(_CSV_NAME if table.place.file.endswith(".csv") else ()),
                      *suggestion(table.name, known, what="tables"))  # fmt: skip

    def _say(self, place: Place, text: str, *help_lines: str) -> None:
        self.findings.append(Finding("R116", Severity.ERROR, place, text, help_lines))

    def _own(self, table: Table) -> None:
        kinds = {one.head: one.holds for one in table_columns(self.cls, "")}
        seen: dict[str, list[Cell]] = {}
        for row in table.rows:
            key, value = row.get(KEY), row.get(VALUE)
            if key is None and value is not None:
                self._say(value.place, "a value without a key", "write the key to its left")
            if key is None or value is None:
                continue
            if key.text not in kinds:
                self._say(key.place, f"'{key.text}' is no key of a {self.name}",
                          *suggestion(key.text, kinds, what="keys"))  # fmt: skip
                continue
            seen.setdefault(key.text, []).append(value)
        for head, cells in seen.items():
            if kinds[head] is Holds.LINES:
                self.record.put(head, [one for cell in cells for one in _split(cell)])
            else:
                self.record.put(head, cells[0])
                for again in cells[1:]:
                    self._say(again.place, f"'{head}' stands twice", "keep one of the two")

    def _rows(self, table: Table) -> None:
        name = table.name.lower()
        parent = parent_of(self.cls, name)
        kinds = {one.head: one.holds for one in table_columns(self.cls, name)}
        self._heads(table, (*kinds, *((OF,) if parent else ())))
        last: _Entry | None = None
        for row in table.rows:
            own = [head for head in row if not head.startswith(f"{IN_ROWS}.")]
            if own:
                last = self._entry(table, row, parent)
            if last is None:
                place = next(iter(row.values())).place
                self._say(place, "a key point without a step", "write the step in the same row")
                continue
            self._fill(last, row, kinds)

    def _heads(self, table: Table, known: Sequence[str]) -> None:
        for head in table.heads:
            if head not in known:
                place = table.place_of(head)
                meant = _PLAIN_HEADS.get(head.lower(), "")
                near = (f"did you mean '{meant}'?",) if meant in known else suggestion(
                    head, known, what="columns")  # fmt: skip
                self._say(place, f"'{head}' is no column of '{table.name}'", *near)

    def _entry(self, table: Table, row: Mapping[str, Cell], parent: str) -> _Entry:
        """A new entry, put under the one it belongs to and known by its number and its id."""
        name, place = table.name.lower(), next(iter(row.values())).place
        entry = _Entry(place)
        known = self.entries.setdefault(name, {})
        known[str(len(set(map(id, known.values()))) + 1)] = entry
        if "id" in row:
            known[row["id"].text] = entry
        self._owner(row, parent, place).add(name[len(parent) + 1 :] if parent else name, entry)
        return entry

    def _owner(self, row: Mapping[str, Cell], parent: str, place: Place) -> _Entry:
        if not parent:
            return self.record
        above = self.entries.get(parent, {})
        of = row.get(OF)
        if of is None:
            self._say(place, f"the row does not say to which of '{parent}' it belongs",
                      f"write it in the column '{OF}'")  # fmt: skip
        elif of.text not in above:
            self._say(of.place, f"there is no '{of.text}' in '{parent}'",
                      *suggestion(of.text, above, what=parent))  # fmt: skip
        else:
            return above[of.text]
        return _Entry(place)

    def _fill(self, entry: _Entry, row: Mapping[str, Cell], kinds: Mapping[str, Holds]) -> None:
        inside = _Entry(next(iter(row.values())).place)
        for head, cell in row.items():
            if head == OF or head not in kinds:
                continue
            value = list(_split(cell)) if kinds[head] is Holds.LINES else cell
            if head.startswith(f"{IN_ROWS}."):
                inside.put(head.removeprefix(f"{IN_ROWS}."), value)
            else:
                entry.put(head, value)
        if inside.keys:
            entry.add(IN_ROWS, inside)


def _split(cell: Cell) -> Iterator[Cell]:
    yield from (Cell(text, cell.place) for text in entry_texts(cell.text))


def _node(value: _Entry | list[_Entry] | list[Cell] | Cell) -> Node:
    if isinstance(value, Cell):
        return Scalar(value.text, value.place)
    if isinstance(value, list):
        place = value[0].place if value else Place("")
        return Listing(tuple(_node(one) for one in value), place)
    entries = tuple(
        (Scalar(key, _node(inside).place), _node(inside)) for key, inside in value.keys.items()
    )
    return read.Mapping(entries, value.place)
