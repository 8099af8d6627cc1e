"""What was said at a revision, in a line of the register: enough to judge what changed since.

Where many statements are about one thing, such as hazards, one short hash stands for them all.
Figures and ratings keep their numbers, so that a tolerance counts from what somebody was taught.
Numbers to set or to gauge stand singly too, so that it is known which moved, and whether it is new.
Things are told by their ids here: a thing of another name is the same thing, and its name a
statement of its own.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from .moves import Move, MoveKind
from .statement import About, Statement

_SINGLY = (
    About.LIMIT, About.DOUBT, About.HELP, About.RATING, About.FIGURE, About.SETTING, About.NUMBER,
)  # fmt: skip
_NUMBERED = (About.RATING, About.FIGURE)
_FEW = 12
"""Up to so many statements about one thing stand singly, whatever it is."""
DIGITS = 8
"""Digits of a hash. Lines of before have five for one statement: they are held at five, too."""

Entries = Mapping[About, Mapping[str, str]]
"""By what statements are about: a hash of the place and a hash or the numbers of the value."""


def said(meaning: Iterable[Statement]) -> str:
    """A meaning as one line: `name:1a2b3c4d=5e6f7a8b hazard:=1a2b3c4d figure:9f8e7d6c=24~33`."""
    return " ".join(
        f"{about.name.lower()}:{','.join(f'{key}={value}' for key, value in entries.items())}"
        for about, entries in _entries(meaning, {}).items()
    )


def _entries(meaning: Iterable[Statement], like: Entries) -> Entries:
    """The entries of a meaning, gathered as those are that they are held against."""
    groups: dict[About, list[Statement]] = {}
    for one in meaning:
        groups.setdefault(one.about, []).append(one)
    return {
        about: _singly(groups[about], _digits(like.get(about)))
        if _is_single(about, groups[about], like) else
        {"": _hash(sorted(_line(one) for one in groups[about]))}
        for about in About
        if about in groups
    }  # fmt: skip


def _is_single(about: About, found: list[Statement], like: Entries) -> bool:
    if about in like:
        return "" not in like[about]
    return about in _SINGLY or len(found) <= _FEW


def _digits(like: Mapping[str, str] | None) -> int:
    """The digits of the places of a line, so that a line of before is held against its like."""
    return len(next(iter(like), "")) if like else DIGITS


def _singly(found: list[Statement], digits: int) -> dict[str, str]:
    """Each statement by its place; several of one place, such as a list without order, as one."""
    by_key: dict[str, list[str]] = {}
    for one in found:
        by_key.setdefault(_hash(one.subject, digits), []).append(_value(one, digits))
    return {
        key: values[0] if len(values) == 1 else _hash(sorted(values), digits)
        for key, values in sorted(by_key.items())
    }


def _line(one: Statement) -> str:
    return json.dumps((one.subject, one.value))


def _value(one: Statement, digits: int) -> str:
    if one.about in _NUMBERED and one.numbers is not None:
        # A figure in its steps, so that what is no other meaning is no other number.
        ends = one.value if one.about is About.FIGURE else (f"{end:.9g}" for end in one.numbers)
        return "~".join(dict.fromkeys(str(end) for end in ends))
    return _hash(one.value, digits)


def _hash(value: object, digits: int = DIGITS) -> str:
    return hashlib.sha256(json.dumps(value).encode()).hexdigest()[:digits]


def read(line: str) -> Entries:
    """The entries of such a line; what cannot be read is left out."""
    found: dict[About, dict[str, str]] = {}
    for part in line.split():
        name, _, listed = part.partition(":")
        pairs = (one.partition("=") for one in listed.split(","))
        if name.upper() in About.__members__:
            found[About[name.upper()]] = {key: value for key, _, value in pairs}
    return found


def moved_since(then: str, meaning: Iterable[Statement]) -> Iterator[Move]:
    """What moved since a line was written; of most things only that they did, not which."""
    known = list(meaning)
    olds = read(then)
    news = _entries(known, olds)
    for about in About:
        before, after = olds.get(about, {}), news.get(about, {})
        for key in dict.fromkeys((*before, *after)):
            if before.get(key) != after.get(key):
                yield _move(about, key, before.get(key), after.get(key), known)


def _move(
    about: About, key: str, before: str | None, after: str | None, meaning: list[Statement]
) -> Move:
    same = (one for one in meaning if one.about is about)
    now = next((one for one in same if _hash(one.subject, len(key)) == key), None)
    blank = Statement(about, about.value, "", "", now.where if now else "")
    old = None if before is None else replace(blank, numbers=_numbers(before, about))
    new = None if after is None else replace(now or blank, numbers=_numbers(after, about))
    if key == "" and old and new:  # a group: what moved inside it is not known
        return Move(MoveKind.OTHER, old, new)
    kind = MoveKind.NEW if old is None else MoveKind.GONE if new is None else MoveKind.OTHER
    return Move(kind, old, new)


def _numbers(value: str, about: About) -> tuple[float, float] | None:
    if about not in _NUMBERED:
        return None
    low, _, high = value.partition("~")
    try:
        return float(low), float(high or low)
    except ValueError:
        return None
