"""*At work*: the checks of a job with their limits, and after how many pieces each is due.

How often is told by the words of the check itself, so that nothing else can say it otherwise.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .job_view import CheckView, StepView

_ORDINALS = (
    "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth",
    "eleventh", "twelfth",
)  # fmt: skip
_CARDINALS = (
    "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
)  # fmt: skip
_NUMBERS = {
    word: number for words in (_ORDINALS, _CARDINALS) for number, word in enumerate(words, 2)
}
_NUMBERS |= {"fifteenth": 15, "twentieth": 20, "twenty-fifth": 25, "fiftieth": 50, "hundredth": 100}
_NUMBERS |= {"fifteen": 15, "twenty": 20, "twenty-five": 25, "fifty": 50, "hundred": 100}
_EVERY = re.compile(
    r"\b(?:every|each)\s+(?:(\d+)(?:st|nd|rd|th)?|([a-z]+(?:-[a-z]+)?))\s+(\w+)", re.I
)
_NO_PIECES = re.compile(
    r"(?:of|time|hour|minute|second|day|shift|week|month|step|face|end|side|hole)s?"
)
_FIRST = re.compile(r"\bfirst(?:-off| piece| part)\b", re.I)


@dataclass(frozen=True, slots=True)
class CheckAtWork:
    """One check of a job, as one needs it at the machine."""

    step: int
    check: CheckView
    every: int
    """After how many pieces it is due; 0 where its words do not say so."""
    first: bool
    """True where the first piece is checked too."""


def checks_at_work(steps: Iterable[StepView]) -> tuple[CheckAtWork, ...]:
    """Every check, in the order of the steps."""
    return tuple(
        CheckAtWork(one.number, check, how_often(check.what, check.how), is_first(check.what))
        for one in steps
        for check in one.checks
    )


def how_often(*texts: str | None) -> int:
    """Every how many pieces, by the words of a check; the closest of several, 0 where none says so.

    >>> how_often("The pivot hole, on the first-off and every tenth plate")
    10
    >>> how_often("Every 5th block", None), how_often("Every hour"), how_often("Each face")
    (5, 0, 0)
    """
    found = []
    for text in texts:
        for digits, word, thing in _EVERY.findall(text or ""):
            number = int(digits) if digits else _NUMBERS.get(word.lower(), 0)
            if number > 1 and not _NO_PIECES.fullmatch(thing.lower()):
                found.append(number)
    return min(found, default=0)


def is_first(text: str) -> bool:
    """True where its words name the first-off.

    >>> is_first("The pivot hole, on the first-off and every tenth plate"), is_first("Each end")
    (True, False)
    """
    return bool(_FIRST.search(text))
