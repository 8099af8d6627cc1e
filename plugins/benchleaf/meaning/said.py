"""What was said at a revision, in a line of the register: enough to judge what changed since.

Most statements are gathered to one short hash for each thing they are about. Figures and ratings
keep their numbers, so that a tolerance counts from what somebody was taught; limits, doubts and
help texts stand singly, so that it is known whether one is new.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from .moves import Move, MoveKind
from .statement import About, Statement, Value

_SINGLY = (About.LIMIT, About.DOUBT, About.HELP, About.RATING, About.FIGURE)
_NUMBERED = (About.RATING, About.FIGURE)
_KEY_DIGITS, _VALUE_DIGITS = 5, 8

Entries = Mapping[About, Mapping[str, str]]
"""By what statements are about: a hash of the place and a hash or the numbers of the value."""


def said(meaning: Iterable[Statement]) -> str:
    """A meaning as one line: `name:=1a2b3c4d figure:9f8e7=24.4-33.5,...`."""
    groups: dict[About, list[Statement]] = {}
    for one in meaning:
        groups.setdefault(one.about, []).append(one)
    return " ".join(
        f"{about.name.lower()}:{_group(about, groups[about])}" for about in About if about in groups
    )


def _group(about: About, found: list[Statement]) -> str:
    if about not in _SINGLY:
        return "=" + _hash(sorted(_line(one) for one in found), _VALUE_DIGITS)
    entries = sorted((_hash(one.key, _KEY_DIGITS), _value(one)) for one in found)
    return ",".join(f"{key}={value}" for key, value in entries)


def _line(one: Statement) -> str:
    return json.dumps((one.key, _proof(one)))


def _proof(one: Statement) -> Value:
    return one.value if one.proof is None else one.proof


def _value(one: Statement) -> str:
    if one.about in _NUMBERED and one.numbers is not None:
        # A figure in its steps, so that what is no other meaning is no other number.
        ends = one.value if one.about is About.FIGURE else (f"{end:.9g}" for end in one.numbers)
        return "~".join(dict.fromkeys(str(end) for end in ends))
    return _hash(_proof(one), _VALUE_DIGITS)


def _hash(value: object, digits: int) -> str:
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
    olds, news = read(then), read(said(known))
    for about in About:
        before, after = olds.get(about, {}), news.get(about, {})
        for key in dict.fromkeys((*before, *after)):
            if before.get(key) != after.get(key):
                yield _move(about, key, before.get(key), after.get(key), known)


def _move(
    about: About, key: str, before: str | None, after: str | None, meaning: list[Statement]
) -> Move:
    same = (one for one in meaning if one.about is about)
    now = next((one for one in same if _hash(one.key, _KEY_DIGITS) == key), None)
    blank = Statement(about, about.value, "", "", now.where if now else about.value)
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
