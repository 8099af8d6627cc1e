"""A glossary term and the forms a reader may meet it in."""

from __future__ import annotations

from .ids import Id, TermRef, Text
from .picture import Picture
from .record import Record


class Term(Record):
    """One trade word, explained for a newcomer."""

    id: Id
    word: str
    """As it reads in the middle of a sentence."""
    meaning: Text
    variants: tuple[str, ...] = ()
    """Other spellings and trade synonyms that lead here."""
    picture: Picture | None = None
    see_also: tuple[TermRef, ...] = ()
