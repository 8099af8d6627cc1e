"""Entries of a register bound to those before them, so that none is lost or altered unseen.

Each entry carries a link: a hash of the link before it and of what the entry says. How many there
are, and the last link, stand in a file of their own: else a register could lose its tail.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from benchleaf.diagnose import Finding, Place

from . import faults

LINK_DIGITS = 16
CURE = (
    "restore addresses.yml, revisions.yml, history.yml, tally.yml and the folder changed/ as they"
    " were last committed on the main branch",
    "then `benchleaf release` goes on from there",
)
START = "0" * LINK_DIGITS
"""The link before the first entry."""


@dataclass(frozen=True, slots=True)
class Linked:
    """An entry as the chain sees it."""

    name: str
    """What a finding calls it."""
    said: str
    """Everything it says, without its link."""
    link: str
    """The link that stands beside it; empty where there is none."""
    place: Callable[[], Place]
    job: str = ""
    """The job that it is about, where it is about one."""


@dataclass(frozen=True, slots=True)
class End:
    """How many entries there are, and the last link."""

    count: int
    last: str


def link(before: str, said: str) -> str:
    """The link of an entry that follows the link `before`."""
    return hashlib.sha256(f"{before}\n{said}".encode()).hexdigest()[:LINK_DIGITS]


def links(said: Iterable[str], before: str = START) -> Iterator[str]:
    """The link of each entry in turn."""
    for one in said:
        before = link(before, one)
        yield before


def breaks(entries: Sequence[Linked]) -> Iterator[Linked]:
    """The first entry that does not follow the one before it, and each that follows no link at all.

    One that only stands behind another one than before is whole: the first place tells of it.
    """
    before, known, out = START, {START}, []
    for entry in entries:
        found = link(before, entry.said)
        if entry.link != found:
            out.append(entry)
        known |= {entry.link, found}
        before = entry.link or found
    yield from out[:1]
    for entry in out[1:]:
        if all(link(one, entry.said) != entry.link for one in known):
            yield entry


def broken(
    code: str, register: str, entries: Sequence[Linked], end: End | None, file: str
) -> Iterator[Finding]:
    """Every place at which a register is not what it was; nothing where it is whole.

    `end` is None where nobody knows how much it held.
    """
    found = tuple(breaks(entries))
    for entry in found:
        why = (
            f"{entry.name} was altered, or an entry before it is gone"
            if entry.link
            else f"{entry.name} was written in by hand"
        )
        yield damaged(code, register, entry.place(), why)
    if found or end is None:
        return
    before = entries[-1].link if entries else START
    lost = end.count - len(entries)
    if lost > 0:
        some = "its last entry is" if lost == 1 else f"its last {lost} entries are"
        yield damaged(code, register, Place(file), f"{some} gone")
    elif lost < 0 or before != (end.last if entries else before):
        yield damaged(code, register, Place(file), "it holds more than tally.yml counts")


def damaged(code: str, register: str, place: Place, why: str) -> Finding:
    """A register that is not what `benchleaf release` wrote."""
    return faults.damaged(code, register, place, why, CURE)
