"""Whether other words say the same: what must stay for a change to be wording only.

A change may be declared wording only where no number, unit, negation, direction, order, hazard
text or id changed. It is a net, not a proof: the author declares, this checks, a reviewer reads.
"""

from __future__ import annotations

import re
from typing import Any

from benchleaf.model import Hazard, Job, KeyPointKind, Record, Trait, has_along
from benchleaf.model.ids import RunningText, ShortText

from .change import Path
from .differences import folded_text
from .pairing import LIKE, likeness

_TOKEN = re.compile(r"\[\[[^\]]*\]\]|\w+(?:['’./,-]\w+)*|[<>=≤≥±%°#+]", re.UNICODE)
_NEGATIONS = """no not never none nobody nothing nor neither without cannot unless except avoid
    instead only don't doesn't won't can't mustn't isn't aren't"""
_NUMBERS = """zero one two three four five six seven eight nine ten eleven twelve half quarter third
    first second once twice both each every all any double single more less least most"""
_ORDER = "before after then until while when during next last again same other"
_DIRECTIONS = """up down left right clockwise anticlockwise counterclockwise in out on off over
    under above below open closed close shut loose tight loosen tighten raise lower start stop
    inside outside toward towards away front behind"""
_DUTIES = "must may should shall can"
_UNITS = """mm cm m um in inch inches ft kg g lb oz n kn lbf kgf kw w hp rpm deg degree degrees kpa
    mpa bar psi s min minute minutes hour hours day days week weeks shift rev"""
_KEPT = frozenset(
    word
    for words in (_NEGATIONS, _NUMBERS, _ORDER, _DIRECTIONS, _DUTIES, _UNITS)
    for word in words.split()
)
"""Words that turn a meaning round, kept in their order. A house list."""


def fixed_words(text: str) -> tuple[str, ...]:
    """Numbers, units, negations, links and other words that must stay, in order.

    >>> fixed_words("Never open the guard before the 6.5 mm drill is still.")
    ('never', 'open', 'before', '6.5', 'mm')
    """
    tokens = (token.lower() for token in _TOKEN.findall(folded_text(text)))
    return tuple(one for one in tokens if one in _KEPT or not one[0].isalpha() or _has_digit(one))


def _has_digit(token: str) -> bool:
    return any(sign.isdigit() for sign in token)


def wording_paths(record: Record) -> frozenset[Path]:
    """Paths of the texts of a record in which only the wording may change."""
    if isinstance(record, Hazard):
        return frozenset()
    return frozenset(path for path in text_paths(record) if not _is_hazard_text(record, path))


def text_paths(record: Record) -> frozenset[Path]:
    """Paths of everything that is prose: running texts, titles and names."""
    return frozenset(
        one.path for one in record.leaves if isinstance(one.mark, RunningText | ShortText)
    )


def _is_hazard_text(record: Record, path: Path) -> bool:
    if has_along(type(record), path, Trait.KEEPS_FROM_HARM):
        return True
    if isinstance(record, Job) and len(path) > 3 and path[2] == "key_points":
        point = record.steps[int(path[1])].key_points[int(path[3])]
        return point.kind is KeyPointKind.CAN_INJURE
    return False


def says_the_same(before: str, after: str) -> bool:
    """True where the words that must stay did, and most of the others too."""
    return fixed_words(before) == fixed_words(after) and likeness(before, after) >= LIKE


def core_of(record: Record, values: dict[str, Any]) -> dict[str, Any]:
    """A record's plain values with each wording text cut down to what must stay."""
    for path in wording_paths(record):
        if _holds(values, path):
            _cut(values, path)
    return values


def _holds(values: Any, path: Path) -> bool:
    try:
        for step in path:
            values = values[step]
    except (KeyError, IndexError):
        return False
    return isinstance(values, str)


def _cut(values: Any, path: Path) -> None:
    for step in path[:-1]:
        values = values[step]
    values[path[-1]] = list(fixed_words(values[path[-1]]))
