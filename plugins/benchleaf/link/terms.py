"""Glossary terms in running text: whole words, plurals and variants, longest first."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from benchleaf.model import Term, plurals

_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*")


@dataclass(frozen=True, slots=True)
class Match:
    """A term found in a text, from `start` to `end`."""

    start: int
    end: int
    term_id: str


class TermIndex:
    """Finds terms by their first word, so that a text costs the same with ten or 1,000 terms.

    A text is looked through once, however often it is asked about.
    """

    def __init__(self, terms: Iterable[Term]) -> None:
        by_first: dict[str, list[tuple[tuple[str, ...], str]]] = {}
        for term in terms:
            for form in term.forms:
                for words in _forms(form):
                    by_first.setdefault(words[0], []).append((words, term.id))
        self._firsts = frozenset(by_first)
        self._by_first = {first: _Candidates(forms) for first, forms in by_first.items()}
        self._found: dict[str, tuple[Match, ...]] = {}

    def find(self, text: str) -> tuple[Match, ...]:
        """Every term in `text`, left to right, the longest at each place."""
        if text not in self._found:
            self._found[text] = self._look(text)
        return self._found[text]

    def has(self, phrase: str) -> bool:
        """True when the whole phrase is a form of a term."""
        matches = self.find(phrase)
        return len(matches) == 1 and (matches[0].start, matches[0].end) == (0, len(phrase))

    def _look(self, text: str) -> tuple[Match, ...]:
        lowered = text.lower().replace("’", "'")
        firsts = self._firsts.intersection(_WORD.findall(lowered))
        if not firsts or len(lowered) != len(text):  # a sign whose lower case is two signs
            return ()
        found = [match for first in firsts for match in self._by_first[first].find(lowered)]
        return tuple(_without_overlaps(sorted(found, key=lambda one: (one.start, -one.end))))


class _Candidates:
    """The forms that begin with one word, the longest tried first."""

    def __init__(self, forms: list[tuple[tuple[str, ...], str]]) -> None:
        longest_first = sorted(forms, key=lambda form: -len(form[0]))
        self._ids = dict(reversed(longest_first))
        phrases = "|".join("[ \\n-]".join(map(re.escape, words)) for words, _ in longest_first)
        self._pattern = re.compile(rf"(?<![^\W_])(?:{phrases})(?![^\W_])(?!['’][^\W_])")

    def find(self, lowered: str) -> Iterator[Match]:
        """Each place in a lower-case text where one of the forms stands as whole words."""
        for match in self._pattern.finditer(lowered):
            words = tuple(_WORD.findall(match[0]))
            yield Match(match.start(), match.end(), self._ids[words])


def _without_overlaps(matches: Iterable[Match]) -> Iterator[Match]:
    end = 0
    for match in matches:
        if match.start >= end:
            end = match.end
            yield match


def _forms(form: str) -> Iterator[tuple[str, ...]]:
    """The words of a form, and of its plural."""
    words = tuple(_WORD.findall(form.lower().replace("’", "'")))
    if not words:
        return
    yield words
    for plural in plurals(words[-1]):
        yield (*words[:-1], plural)
