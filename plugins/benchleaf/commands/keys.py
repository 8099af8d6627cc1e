"""`benchleaf keys`: the keys of a kind of record, for people."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from typing import Any

from benchleaf import validate
from benchleaf.model import Record, Trait, classes_below, has
from benchleaf.model.schema import allowed_words, described, form_of, own_example

from .answer import unknown
from .kinds import record_class, schema_kinds
from .skeleton import is_told


def add(commands: Any) -> None:
    """Add the command to the parser."""
    command = commands.add_parser("keys", help="list the keys of a kind of record, for people")
    command.add_argument("kind", metavar="KIND", help=", ".join(schema_kinds()))
    command.add_argument(
        "key", metavar="KEY", nargs="?", default="", help="only what stands below this key, such as"
        " steps or steps.checks"
    )  # fmt: skip
    command.set_defaults(run=_keys)


def _keys(options: argparse.Namespace) -> int:
    cls = record_class(options.kind.lower())
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
            print("\n".join(_key_line(within[0], key)))
            return 0
    print("\n".join(line for one in classes for line in _told(one)))
    return 0


def _told(cls: type[Record]) -> Iterator[str]:
    tag = ", ".join(validate.tags(cls))
    if tag:
        yield f"with operation: {tag}"
    yield from _key_lines(cls)


def keys(kind: str) -> str | None:
    """The keys of a kind of record for people: key, whether it is needed, what it holds."""
    found = record_class(kind)
    return "\n".join(_key_lines(found)) if found else None


def _takes(cls: type[Record], key: str) -> str:
    """The words or units of which it takes one, and an example where it takes neither."""
    words, form, example = allowed_words(cls, key), form_of(cls, key), own_example(cls, key)
    if words:
        return f" Allowed: {', '.join(words)}."
    if is_told(form):
        return f" {form}"
    return f" For example: {example.rstrip('.')}." if example else ""


def _key_line(cls: type[Record], name: str, indent: str = "") -> Iterator[str]:
    is_issued = has(cls, name, Trait.ISSUED)
    what = f"{described(cls, name)}{_takes(cls, name)}"
    given = " `benchleaf release` gives it." if is_issued else ""
    needed = "needed" if cls.model_fields[name].is_required() and not is_issued else ""
    yield f"{indent}{name:<{26 - len(indent)}}{needed:<8}{what}{given}".rstrip()


def _key_lines(cls: type[Record], indent: str = "") -> Iterator[str]:
    for name in cls.model_fields:
        yield from _key_line(cls, name, indent)
        for inner in validate.classes_at(cls, (name,)):
            if inner is not cls:
                tag = ", ".join(validate.tags(inner))
                if tag:
                    yield f"{indent}  with operation: {tag}"
                yield from _key_lines(inner, indent + "    ")
