"""What the rules of common practice look for in the words of a breakdown. A helper, no rule."""

from __future__ import annotations

import re
from pathlib import Path

from benchleaf.model import Step

WORDS = Path(__file__).parent / "words"
"""Lists of words, as text."""
_SENTENCE = re.compile(r"[^.!?]+[.!?]?")
_NOT = re.compile(r"\b(never|not|no|don't|without|instead of)\b", re.IGNORECASE)


def words(pattern: str) -> re.Pattern[str]:
    """A pattern of whole words, without regard to capitals."""
    return re.compile(rf"\b(?:{pattern})\b", re.IGNORECASE)


START = words(r"press start|start the (?:spindle|drill|machine)|switch on|green button")
"""The spindle is set going."""


def seen(pattern: str) -> re.Pattern[str]:
    """A pattern without regard to capitals; it says itself where words end."""
    return re.compile(pattern, re.IGNORECASE)


def listed(name: str) -> frozenset[str]:
    """The words or phrases of `words/NAME.txt`, between commas; a line with # is a comment."""
    lines = (WORDS / f"{name}.txt").read_text(encoding="utf-8").splitlines()
    written = " ".join(line for line in lines if not line.startswith("#"))
    return frozenset(word.strip() for word in written.split(","))


def in_one_point(step: Step, *patterns: re.Pattern[str]) -> bool:
    """True where one key point holds all the patterns."""
    return any(says(one.point, *patterns) for one in step.key_points)


def told(text: str, *patterns: re.Pattern[str]) -> bool:
    """True where one sentence that forbids nothing holds all the patterns."""
    return any(
        all(pattern.search(sentence) for pattern in patterns) and not _NOT.search(sentence)
        for sentence in _SENTENCE.findall(text)
    )


def says(text: str, *patterns: re.Pattern[str]) -> bool:
    """True where every pattern is found somewhere in the text."""
    return all(pattern.search(text) for pattern in patterns)


NOT_IN_NOTES = seen(r"\b(?:never|not|don't|nobody|no one|no|nothing|without|if|instead of)\b")
"""Before what a trainer's note tells to do: the note does not tell it."""
