"""Texts in one spelling, and whether other words say the same.

A change may be declared wording only where no number, unit, negation, direction, order, hazard
text or id changed. It is a net, not a proof: the author declares, this checks, a reviewer reads.
"""

from __future__ import annotations

import re
from collections import Counter
from typing import Any

from benchleaf.model.textlinks import TEXT_LINK, TextLink, read_link

LIKE = 0.5
"""Share of words in common from which two texts or entries are one, edited. A house rule."""

_WORD = re.compile(r"\w+(?:[.,/]\w+)*")


def folded_text(text: str) -> str:
    """One space between words, and every link by id in one spelling.

    >>> folded_text("see  [[Tools:Drill-8]]")
    'see [[tool:drill-8]]'
    """
    if "\n" in text or "  " in text or "\t" in text:
        text = " ".join(text.split())
    if "[[" not in text:
        return text
    return TEXT_LINK.sub(lambda found: written_link(read_link(found[1])), text)


def written_link(link: TextLink) -> str:
    """A link in the one spelling that comparisons use."""
    if link.kind is None:
        return f"[[{link.written}]]"
    kind = "" if link.kind == "jobs" else f"{link.kind.removesuffix('s')}:"
    return f"[[{kind}{link.id}{f'#{link.anchor}' if link.anchor else ''}]]"


def words(value: Any) -> Counter[str]:
    """The words of everything inside `value`, ids left out."""
    if isinstance(value, dict):
        return sum((words(one) for key, one in value.items() if key != "id"), Counter())
    if isinstance(value, list):
        return sum((words(one) for one in value), Counter())
    return Counter(_WORD.findall(str(value).lower()))


def likeness(old: Any, new: Any) -> float:
    """Share of words in common (Dice's coefficient), 0 to 1."""
    return dice(words(old), words(new))


def dice(one: Counter[str], other: Counter[str]) -> float:
    both = one.total() + other.total()
    return 2 * (one & other).total() / both if both else 1.0


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


def says_the_same(before: str, after: str) -> bool:
    """True where the words that must stay did, and most of the others too."""
    return fixed_words(before) == fixed_words(after) and likeness(before, after) >= LIKE
