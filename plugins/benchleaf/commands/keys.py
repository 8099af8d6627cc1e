"""`benchleaf keys`: the keys of a kind of record, for people."""

from __future__ import annotations

import argparse
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from benchleaf import validate
from benchleaf.model import (
    At,
    Instead,
    Record,
    StationKind,
    Trait,
    classes_below,
    has,
    is_needed,
    mark,
    stands_at,
)
from benchleaf.model.schema import allowed_words, described, form_of, own_example

from .answer import unknown
from .kinds import record_class, schema_kinds
from .shop_units import told_in_units, units_here
from .skeleton import is_told


def add(commands: Any) -> None:
    """Add the command to the parser."""
    command = commands.add_parser("keys", help="list the keys of a kind of record, for people")
    command.add_argument("kind", metavar="KIND", help=", ".join((*schema_kinds(), "station")))
    command.add_argument(
        "key", metavar="KEY", nargs="?", default="", help="only what stands below this key, such as"
        " steps or steps.checks"
    )  # fmt: skip
    command.add_argument(
        "--kind",
        dest="station",
        type=str.lower,
        choices=tuple(StationKind),
        metavar="KIND",
        help="of a station: only the keys that such a one has",
    )
    command.set_defaults(run=_keys)


def _keys(options: argparse.Namespace) -> int:
    cls, station = record_class(options.kind.lower()), options.station or ""
    if cls is None:
        return unknown("kind", options.kind, schema_kinds())
    classes: tuple[type[Record], ...] = (cls,)
    for key in options.key.split(".") if options.key else ():
        known = list(dict.fromkeys(name for one in classes for name in one.model_fields))
        if key not in known:
            return unknown("key", key, known)
        within = tuple(one for one in classes if key in one.model_fields)
        classes = classes_below(within, key)
        if not classes:
            print(_in_shop_units(_key_line(within[0], key)))
            return 0
    print(_in_shop_units(line for one in classes for line in _told(one, station)))
    return 0


def _in_shop_units(lines: Iterable[str]) -> str:
    """The lines, their examples as the shop that this folder holds writes them."""
    return told_in_units("\n".join(lines), units_here(Path("content")))


def _told(cls: type[Record], station: str = "") -> Iterator[str]:
    tag = ", ".join(validate.tags(cls))
    if tag:
        yield f"with operation: {tag}"
    yield from _key_lines(cls, station=station)


def keys(kind: str, station: str = "") -> str | None:
    """The keys of a kind of record for people: key, whether it is needed, what it holds."""
    found = record_class(kind)
    return "\n".join(_key_lines(found, station=station)) if found else None


def _only_at(cls: type[Record], key: str) -> str:
    """The kinds of station that need a key, or alone have it."""
    at = mark(cls, key, At)
    if at is None:
        return ""
    needed = f"; needed there: {', '.join(at.needed_at)}" if at.needed_at else ""
    return f" Only at: {', '.join(at.kinds)}{needed}."


def _takes(cls: type[Record], key: str) -> str:
    """The words or units of which it takes one, and an example where it takes neither."""
    words, form, example = allowed_words(cls, key), form_of(cls, key), own_example(cls, key)
    if words:
        return f" Allowed: {', '.join(words)}."
    if is_told(form):
        return f" {form}"
    return f" For example: {example.rstrip('.')}." if example else ""


def _key_line(
    cls: type[Record], name: str, indent: str = "", *, station: str = ""
) -> Iterator[str]:
    is_issued = has(cls, name, Trait.ISSUED)
    only = "" if station else _only_at(cls, name)
    what = f"{described(cls, name)}{only}{_takes(cls, name)}"
    given = " `benchleaf release` gives it." if is_issued else ""
    needed = "needed" if is_needed(cls, name, station) and not is_issued else ""
    yield f"{indent}{name:<{26 - len(indent)}}{needed:<8}{what}{given}".rstrip()
    other = mark(cls, name, Instead)
    if other is not None:
        what = f"{other.meaning} For example: {other.example}."
        yield f"{indent}  or {other.key:<{29 - len(indent)}}{what}"


def _key_lines(cls: type[Record], indent: str = "", *, station: str = "") -> Iterator[str]:
    for name in cls.model_fields:
        if station and not stands_at(cls, name, station):
            continue
        yield from _key_line(cls, name, indent, station=station)
        for inner in validate.classes_at(cls, (name,)):
            if inner is not cls:
                tag = ", ".join(validate.tags(inner))
                if tag:
                    yield f"{indent}  with operation: {tag}"
                yield from _key_lines(inner, indent + "    ")
