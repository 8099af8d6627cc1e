"""A new record as a commented file: what is needed is asked for, the rest shows an example.

A needed key stands empty, so that the check names each that is not filled in yet; or it holds
what the caller fills in, so that a first page can be built at once.
"""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterator

from benchleaf.model import (
    OPEN_MARK,
    UNDRIVEN,
    KeyPath,
    Machine,
    Record,
    StationKind,
    Trait,
    has,
    is_needed,
    stands_at,
)
from benchleaf.model.schema import allowed_words, described, example_of, form_of
from benchleaf.validate import classes_at, tags

Fill = Callable[[type[Record], KeyPath], tuple[str, ...]]
"""What stands at a key, by its path in the record; nothing leaves a needed key empty."""

WIDTH = 96
HEAD = """\
# Fill in every key that stands empty; what it holds is written above it.
# Keys after a # are examples: take the # and one space away to use them.
"""


_AT_NO_DRIVE = (
    ("It turns a drill and feeds it down by a lever.", "A bench with a vice, for small parts."),
    ("The chuck guard is down while the spindle turns.", "The clear shield stands before the ram."),
    ("The emergency stop stops the spindle.", "The jaws of the vice are clean and close evenly."),
    ("Turn it to the right to lock the quill.", "Turn it to the right to close the jaws."),
    ("Quill lock", "Handle of the vice"),
    ("Pillar drill", "Bench 2"),
    ("the machine's plate", "the plate on the press"),
    ("clamp-plate.svg", "bench-2.jpg"),
    ("The plate touches the stop at the left.", "The vice, with its handle at the right."),
)
"""Examples of a machine, and what they are at a bench, a table or a hand press."""
_AT_ITS_KIND = {
    StationKind.HAND_PRESS: (
        ("A bench with a vice, for small parts.", "A ram that a hand lever brings down."),
        ("The jaws of the vice are clean and close evenly.", "The ram stays up by itself."),
        ("Turn it to the right to close the jaws.", "Pull it to bring the ram down."),
        ("Handle of the vice", "Lever of the ram"),
        ("Bench 2", "Hand press 1"),
        ("bench-2.jpg", "hand-press-1.jpg"),
        ("The blue valve under the bench", "The blue valve behind it"),
        ("The vice, with its handle at the right.", "The ram, with its lever at the right."),
    ),
    StationKind.INSPECTION: (
        ("A bench with a vice, for small parts.", "A flat table with gauges, under a lamp."),
        ("The jaws of the vice are clean and close evenly.", "Every gauge lies in its place."),
        ("Turn it to the right to close the jaws.", "Turn it to the right for more light."),
        ("Handle of the vice", "Knob of the lamp"),
        ("Bench 2", "Inspection table 1"),
        ("bench-2.jpg", "inspection-table-1.jpg"),
        ("The blue valve under the bench", "The blue valve below it"),
        ("The vice, with its handle at the right.", "The table, with its lamp at the left."),
    ),
}
"""What those of a bench are at a place of another kind."""


def _empty(cls: type[Record], path: KeyPath) -> tuple[str, ...]:
    """Every needed key is left to whoever fills the file in."""
    return ()


def skeleton(
    cls: type[Record],
    record_id: str,
    fill: Fill = _empty,
    head: str = HEAD,
    *,
    is_issued: bool = False,
    station: str = StationKind.MACHINE,
) -> str:
    """The text of a new file for a record of that class; without an id where it has none.

    `is_issued` where `benchleaf release` gives revisions: the file then says nothing of them.
    `station` is the kind of a station, which holds only the keys of its kind.
    """
    fill = _with_kind(cls, fill, station)
    lines = [f"id: {record_id}"] if "id" in cls.model_fields else []
    for key in cls.model_fields:
        if (is_issued and has(cls, key, Trait.ISSUED)) or not stands_at(cls, key, station):
            continue
        if key != "id" and (fill(cls, (key,)) or not has(cls, key, Trait.LATER)):
            lines += _key(cls, key, fill, is_needed(cls, key, station))
    text = head + "\n".join(lines).lstrip("\n") + "\n"
    if cls is Machine and station in UNDRIVEN:
        for machine, other in (*_AT_NO_DRIVE, *_AT_ITS_KIND.get(StationKind(station), ())):
            text = text.replace(machine, other)
    return text


def entry(cls: type[Record], record_id: str) -> tuple[str, ...]:
    """The lines of a new record in a file that lists several, such as terms.yml."""
    lines = skeleton(cls, record_id, head="").rstrip("\n").split("\n")
    first, *others = (line for line in lines if line)
    return (f"  - {first}", *(f"    {line}" for line in others))


def is_told(form: str) -> bool:
    """True for the form of a value that nobody guesses: a quantity, a thread, a staff code."""
    return form.startswith(("A ", "An "))


def _with_kind(cls: type[Record], fill: Fill, station: str) -> Fill:
    """The same, with the kind of a station that is no machine."""

    def filled(owner: type[Record], path: KeyPath) -> tuple[str, ...]:
        is_kind = owner is Machine and path == ("kind",) and station != StationKind.MACHINE
        return (station,) if is_kind else fill(owner, path)

    return filled if cls is Machine else fill


def _key(cls: type[Record], key: str, fill: Fill, needed: bool) -> Iterator[str]:
    """A key with its meaning above it: to be filled in where needed, else a commented example."""
    is_live = needed or bool(fill(cls, (key,)))
    yield ""
    yield from _said(cls, key, may_be_left="" if needed else " May be left out.")
    for line in _value(cls, (key,), fill, to_fill=is_live):
        yield line if is_live else f"# {line}"


def _said(cls: type[Record], key: str, indent: str = "", may_be_left: str = "") -> Iterator[str]:
    """What a key holds, and the words or units of which it takes one."""
    words, form = allowed_words(cls, key), form_of(cls, key)
    takes = f" Allowed: {', '.join(words)}." if words else f" {form}" if is_told(form) else ""
    meaning = described(cls, key)
    text = f"{meaning}{'' if 'left out' in meaning.lower() else may_be_left}{takes}"
    yield from (f"{indent}## {line}" for line in textwrap.wrap(text, WIDTH - len(indent)))


def _value(cls: type[Record], path: KeyPath, fill: Fill, *, to_fill: bool) -> Iterator[str]:
    key = str(path[-1])
    inner = next((one for one in classes_at(cls, (key,)) if one is not cls), None)
    is_list = str(cls.model_fields[key].annotation).startswith("tuple[")
    if inner is None:
        example = example_of(cls, key)
        filled = fill(cls, path) if to_fill else ()
        if filled and OPEN_MARK in filled[0]:
            yield f"## For example: {example}"
        value = f"  # for example: {example}" if to_fill else f" {example}"
        values = tuple(f" {one}" for one in filled) or (value,)
        listed = (f"{key}:", *(f"  -{one}" for one in values))
        yield from listed if is_list else (f"{key}:{values[0]}",)
        return
    yield f"{key}:"
    lines = list(_inside(inner, path, fill, to_fill=to_fill))
    first = next(at for at, line in enumerate(lines) if not line.lstrip().startswith("#"))
    for at, line in enumerate(lines):
        below = "  " if at < first or not is_list else "    "
        yield f"{'  - ' if is_list and at == first else below}{line}"


def _inside(cls: type[Record], path: KeyPath, fill: Fill, *, to_fill: bool) -> Iterator[str]:
    """A record inside another: the keys it needs, and the names of the others."""
    named = tags(cls)
    if named:
        yield f"operation: {named[0]}"
    needed = [
        key
        for key, info in cls.model_fields.items()
        if info.is_required() or has(cls, key, Trait.ASKED)
    ]
    if to_fill and not needed:
        yield "## One of these is enough; take out the others."
    first, *others = needed or list(cls.model_fields)
    for key in (first, *others):
        if named and key == "operation":
            continue
        is_choice = not needed and key != first  # one of them is enough
        if to_fill:
            yield from _said(cls, key)
        for line in _value(cls, (*path, key), fill, to_fill=to_fill and not is_choice):
            yield f"# {line}" if is_choice else line
    left = [key for key in cls.model_fields if key not in needed]
    if needed and left:
        text = f"May be left out: {', '.join(left)}. `benchleaf keys` tells of each."
        yield from (f"## {line}" for line in textwrap.wrap(text, WIDTH - 8))
