"""Where glossary terms are met in running text, and the findings about terms."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping

from benchleaf.diagnose import Finding, Place, Severity
from benchleaf.model import Record, Shop, texts

from .terms import TermIndex
from .where_used import Use, step_of

PlaceOf = Callable[[str, str, tuple[str | int, ...]], Place]


def term_uses(shop: Shop, terms: TermIndex) -> dict[str, tuple[Use, ...]]:
    """Term id -> the records and steps whose running text uses it, its own entry left out."""
    return joined(
        uses_in(kind, record_id, record, terms) for kind, record_id, record in shop.every()
    )


def uses_in(
    kind: str, record_id: str, record: Record, terms: TermIndex
) -> Iterator[tuple[str, Use]]:
    """Each term used in one record, with the use."""
    for path, text in texts(record):
        for match in terms.find(text):
            if (kind, record_id) != ("terms", match.term_id):
                yield match.term_id, Use(kind, record_id, step_of(record, path))


def joined(uses: Iterable[Iterable[tuple[str, Use]]]) -> dict[str, tuple[Use, ...]]:
    """The uses of every record, by term, each once."""
    found: dict[str, dict[Use, None]] = {}
    for of_record in uses:
        for term_id, use in of_record:
            found.setdefault(term_id, {})[use] = None
    return {term_id: tuple(each) for term_id, each in found.items()}


def check_terms(
    shop: Shop, terms: TermIndex, uses: Mapping[str, object], place_of: PlaceOf
) -> Iterator[Finding]:
    """V411 for entries never used, V412 for words of the shop's own list without an entry."""
    for term in shop.terms.values():
        if term.id not in uses:
            yield Finding(
                "V411",
                Severity.WARNING,
                place_of("terms", term.id, ("word",)),
                f"'{term.word}' is used in no record",
                ("add the spelling that is used as a variant, or take the entry out",),
            )
    for index, word in enumerate(shop.manual.own_words):
        if not terms.has(word):
            yield Finding(
                "V412",
                Severity.WARNING,
                place_of("manual", "manual", ("own_words", index)),
                f"'{word}' is on the shop's own list and has no glossary entry",
                ("write the entry in terms.yml, or add the word to an entry as a variant",),
            )
