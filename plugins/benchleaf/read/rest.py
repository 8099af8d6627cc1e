"""What can still be read of a text with a slip: its other keys, so that one run tells all.

The slip's whole key, or whole entry of a shared list, is left out. What is left is looked at, and
never taken for a record: what is missing may have been what mattered.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from benchleaf.diagnose import Finding

from .parser import parse
from .tree import Node

_KEY = re.compile(r"[^\s#'\"\[{&*!|>-][^:]*:(?:\s|$)")
_ENTRY = re.compile(r"( *)- ")
_STOPS = ("R104", "R107", "R110", "R121")
"""Codes after which the parser reads no further."""
MOST_CUTS = 20


@dataclass(frozen=True, slots=True)
class Rest:
    """A text without the parts that hold a slip."""

    text: str
    """With empty lines in place of what is left out, so that every place stays."""
    tree: Node
    findings: tuple[Finding, ...]
    """What is wrong with its structure, the first slip included."""
    echoes: frozenset[int]
    """Lines at which something may seem to be missing only because of what is left out."""


def rest_of(text: str, name: str, *, known: frozenset[int] = frozenset()) -> Rest | None:
    """What can be read besides the slips, or None where nothing can.

    `known` are lines whose slip is told already.
    """
    lines = text.split("\n")
    starts = _starts(lines)
    found: dict[tuple[str, int, int], Finding] = {}
    cut: list[tuple[int, int]] = []
    for block in dict.fromkeys(_block(line, starts, len(lines)) for line in sorted(known)):
        if block is None:
            return None
        _take_out(block, lines, cut)
    for _ in range(MOST_CUTS):
        tree, problems = parse("\n".join(lines), name)
        is_stopped = tree is None and bool(problems) and problems[-1].code in _STOPS
        told = problems[:-1] if is_stopped and not _is_new(problems[-1], cut) else problems
        for one in told:
            found.setdefault((one.code, one.place.line, one.place.column), one)
        if tree is not None:
            echoes = _echoes(cut, starts, tree)
            return Rest("\n".join(lines), tree, tuple(found.values()), echoes)
        if not is_stopped:
            return None
        slip = problems[-1]
        block = _block(slip.place.line, starts, len(lines))
        if slip.code == "R110":  # a second document: all of it goes
            block = (slip.place.line, len(lines) + 1) if slip.place.line > 1 else None
        if block is None or block in cut:
            return None
        _take_out(block, lines, cut)
    return None


def _take_out(block: tuple[int, int], lines: list[str], cut: list[tuple[int, int]]) -> None:
    cut.append(block)
    lines[block[0] - 1 : block[1] - 1] = [""] * (block[1] - block[0])


def _is_new(slip: Finding, cut: Sequence[tuple[int, int]]) -> bool:
    """True for a slip by itself: one before another is what led to it, or comes of the cut."""
    return all(slip.place.line >= end for _, end in cut)


def _starts(lines: Sequence[str]) -> list[int]:
    """Where each key of the record begins; in a file of one list, each entry of it."""
    keys = [n for n, line in enumerate(lines, 1) if _KEY.match(line)]
    if len(keys) != 1:
        return keys
    entries = [(n, found) for n, line in enumerate(lines, 1) if (found := _ENTRY.match(line))]
    least = min((len(found[1]) for _, found in entries), default=0)
    return [n for n, found in entries if len(found[1]) == least]


def _block(line: int, starts: Sequence[int], count: int) -> tuple[int, int] | None:
    """First line of the key or entry that holds a line, and the line after its last."""
    begin = max((one for one in starts if one <= line), default=None)
    if begin is None:
        return None
    return begin, min((one for one in starts if one > begin), default=count + 1)


def _echoes(cut: Sequence[tuple[int, int]], starts: Sequence[int], tree: Node) -> frozenset[int]:
    """The record's first line, and what stands before each part that is left out."""
    gone = {begin for begin, _ in cut}
    kept = [one for one in starts if one not in gone]
    found = {tree.place.line}
    for begin, _ in cut:
        above = max((one for one in kept if one < begin), default=begin)
        found |= set(range(above, begin))
    return frozenset(found)
