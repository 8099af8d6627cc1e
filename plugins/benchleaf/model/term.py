"""A glossary term and the forms a reader may meet it in."""

from __future__ import annotations

from typing import Annotated

from .ids import Id, TermRef, Text
from .marks import Area, Example, Order
from .picture import Picture
from .record import Record


class Term(Record):
    """One trade word, explained for a newcomer."""

    about = Area.TERM

    id: Id
    """The word's id; its anchor on the page of words."""
    word: Annotated[str, Example("quill")]
    """As it reads in the middle of a sentence."""
    meaning: Annotated[Text, Example("The sleeve that carries the spindle down.")]
    """What it means, in a sentence a newcomer follows."""
    variants: Annotated[tuple[str, ...], Area.NAMES, Order.FREE, Example("quill sleeve")] = ()
    """Other spellings and trade synonyms that lead here."""
    picture: Annotated[Picture | None, Area.PICTURE] = None
    """What it looks like."""
    see_also: Annotated[tuple[TermRef, ...], Area.NAMES, Order.FREE] = ()
    """Words that belong to it, by id."""

    @property
    def forms(self) -> tuple[str, ...]:
        """Word and variants, as written."""
        return (self.word, *self.variants)


def plurals(word: str) -> tuple[str, ...]:
    """The regular plural of a word.

    >>> plurals("burr"), plurals("vice"), plurals("assembly"), plurals("bush")
    (('burrs',), ('vices',), ('assemblies',), ('bushes',))
    """
    if word.endswith("y") and word[-2:-1] not in "aeiou":
        return (f"{word[:-1]}ies",)
    if word.endswith(("s", "x", "z", "ch", "sh")):
        return (f"{word}es",)
    return (f"{word}s",)
