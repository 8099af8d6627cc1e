"""Glossary terms in running text: whole words, plurals and variants, longest first."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from benchleaf.model import Term

_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*")


@dataclass(frozen=True, slots=True)
class Match:
    """A term found in a text, from `start` to `end`."""

    start: int
    end: int
    term_id: str


class TermIndex:
    """Finds terms by their first word, so that a text costs the same with ten or 1,000 terms."""

    def __init__(self, terms: Iterable[Term]) -> None:
        self._by_first: dict[str, list[tuple[tuple[str, ...], str]]] = {}
        for term in terms:
            for form in (term.word, *term.variants):
                for words in _forms(form):
                    self._by_first.setdefault(words[0], []).append((words, term.id))
        for candidates in self._by_first.values():
            candidates.sort(key=lambda entry: -len(entry[0]))

    def find(self, text: str) -> Iterator[Match]:
        """Every term in `text`, left to right, the longest at each place."""
        words = list(_WORD.finditer(text))
        position = 0
        while position < len(words):
            length, term_id = self._longest(text, words, position)
            if term_id is not None:
                last = words[position + length - 1]
                yield Match(words[position].start(), last.end(), term_id)
            position += max(length, 1)

    def has(self, phrase: str) -> bool:
        """True when the whole phrase is a form of a term."""
        matches = list(self.find(phrase))
        return len(matches) == 1 and (matches[0].start, matches[0].end) == (0, len(phrase))

    def _longest(
        self, text: str, words: list[re.Match[str]], position: int
    ) -> tuple[int, str | None]:
        for wanted, term_id in self._by_first.get(words[position][0].lower(), ()):
            here = words[position : position + len(wanted)]
            if tuple(word[0].lower() for word in here) == wanted and _joined(text, here):
                return len(wanted), term_id
        return 0, None


def _joined(text: str, words: list[re.Match[str]]) -> bool:
    """True when only a space or hyphen stands between the words, and none is glued to another."""
    gaps = (text[left.end() : right.start()] for left, right in pairwise(words))
    return all(gap in (" ", "-", "\n") for gap in gaps)


def _forms(form: str) -> Iterator[tuple[str, ...]]:
    """The words of a form, and of its plural."""
    words = tuple(word.lower() for word in _WORD.findall(form))
    if not words:
        return
    yield words
    for plural in _plurals(words[-1]):
        yield (*words[:-1], plural)


def _plurals(word: str) -> tuple[str, ...]:
    """The regular plural of a word.

    >>> _plurals("burr"), _plurals("vice"), _plurals("assembly"), _plurals("bush")
    (('burrs',), ('vices',), ('assemblies',), ('bushes',))
    """
    if word.endswith("y") and word[-2:-1] not in "aeiou":
        return (f"{word[:-1]}ies",)
    if word.endswith(("s", "x", "z", "ch", "sh")):
        return (f"{word}es",)
    return (f"{word}s",)
