"""A new record as a commented file: what is needed is asked for, the rest shows an example.

A needed key stands empty, so that the check names each that is not filled in yet.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from benchleaf.model import Record, Trait, has
from benchleaf.model.schema import described, example_of
from benchleaf.validate import classes_at, tags

WIDTH = 96
_HEAD = """\
# Fill in every key that stands empty; what it holds is written above it.
# Keys after a # are examples: take the # and one space away to use them.
"""


def skeleton(cls: type[Record], record_id: str, *, is_issued: bool = False) -> str:
    """The text of a new file; `is_issued` where `benchleaf release` gives revisions."""
    lines = [f"id: {record_id}"]
    for key in cls.model_fields:
        is_given = is_issued and has(cls, key, Trait.ISSUED)
        if key != "id" and not is_given and not has(cls, key, Trait.LATER):
            lines += _key(cls, key)
    return _HEAD + "\n".join(lines) + "\n"


def _key(cls: type[Record], key: str) -> Iterator[str]:
    """A key with its meaning above it: empty where it is needed, else an example as a comment."""
    info = cls.model_fields[key]
    yield ""
    yield from _meaning(described(cls, key))
    for line in _value(cls, key, to_fill=info.is_required()):
        yield line if info.is_required() else f"# {line}"


def _meaning(text: str) -> Iterator[str]:
    yield from (f"## {line}" for line in textwrap.wrap(" ".join(text.split()), WIDTH))


def _value(cls: type[Record], key: str, *, to_fill: bool) -> Iterator[str]:
    inner = next((one for one in classes_at(cls, (key,)) if one is not cls), None)
    is_list = str(cls.model_fields[key].annotation).startswith("tuple[")
    if inner is None:
        example = example_of(cls, key)
        value = f"  # for example: {example}" if to_fill else f" {example}"
        yield from (f"{key}:", f"  -{value}") if is_list else (f"{key}:{value}",)
        return
    yield f"{key}:"
    lines = list(_inside(inner, to_fill=to_fill))
    first, other = ("  - ", "    ") if is_list else ("  ", "  ")
    yield f"{first}{lines[0]}"
    yield from (f"{other}{line}" for line in lines[1:])


def _inside(cls: type[Record], *, to_fill: bool) -> Iterator[str]:
    """A record inside another: the keys it needs."""
    named = tags(cls)
    if named:
        yield f"operation: {named[0]}"
    needed = [
        key
        for key, info in cls.model_fields.items()
        if info.is_required() or has(cls, key, Trait.ASKED)
    ]
    first, *others = needed or list(cls.model_fields)
    for key in (first, *others):
        if named and key == "operation":
            continue
        is_choice = not needed and key != first  # one of them is enough
        for line in _value(cls, key, to_fill=to_fill and not is_choice):
            yield f"# {line}" if is_choice else line
