"""Where glossary terms are met in running text, and the findings about terms."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping

from benchleaf.diagnose import Code, Finding, Place, Sample, Severity
from benchleaf.model import KeyPath, Record, Shop, texts
from benchleaf.model.textlinks import TEXT_LINK, read_link

from .terms import TermIndex
from .where_used import Use, step_of

NEVER_USED = Code(
    "V411",
    "A glossary entry is never used",
    why="It is either a word nobody needs, or a word spelled otherwise on the pages.",
    instead="Add the spelling used as a variant, or take the entry out.",
    bad=(
        Sample(
            """
            # A word that nobody uses.
            - file: terms.yml
              find: |2
                  - id: burr
              put: |2
                  - id: mandrel
                    word: mandrel
                    meaning: A bar that holds work from inside.
                  - id: burr
            - file: addresses.yml
              find: |2
                  - terms.html#burr
              put: |2
                  - terms.html#burr
                  - terms.html#mandrel
            """,
            """
            content/terms.yml:3:11: warning V411 'mandrel' is used in no record
                add the spelling that is used as a variant, or take the entry out
            """,
        ),
    ),
    good="""
        # A word that is used by its variant.
        - file: terms.yml
          find: |2
                word: quill
          put: |2
                word: quill
    """,
)
NO_ENTRY = Code(
    "V412",
    "A word of the shop's own list has no glossary entry",
    why="A newcomer meets it and finds nothing.",
    instead="Write the entry, or take the word off the list.",
    bad=(
        Sample(
            """
            # A word of the list without an entry.
            - file: manual.yml
              find: |2
                  - rack plate
              put: |2
                  - rack plate
                  - tote
            """,
            """
            content/manual.yml:12:5: warning V412 'tote' is on the shop's own list and has
                    no glossary entry
                write the entry in terms.yml, or add the word to an entry as a variant
            """,
        ),
    ),
    good="""
        # A word of the list in the plural.
        - file: manual.yml
          find: |2
              - rack plate
          put: |2
              - Rack plates
    """,
)
PlaceOf = Callable[[str, str, KeyPath], Place]


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
    """Entries that are never used, and words of the shop's own list without an entry."""
    unused = [term for term in shop.terms.values() if term.id not in uses]
    if unused and _names_lost_terms(shop):  # one of these is meant, most likely
        unused = []
    for term in unused:
        yield Finding(
            NEVER_USED.id,
            Severity.WARNING,
            place_of("terms", term.id, ("word",)),
            f"'{term.word}' is used in no record",
            ("add the spelling that is used as a variant, or take the entry out",),
        )
    for index, word in enumerate(shop.manual.own_words):
        if not terms.has(word):
            yield Finding(
                NO_ENTRY.id,
                Severity.WARNING,
                place_of("manual", "manual", ("own_words", index)),
                f"'{word}' is on the shop's own list and has no glossary entry",
                ("write the entry in terms.yml, or add the word to an entry as a variant",),
            )


def _names_lost_terms(shop: Shop) -> bool:
    """True where a text links to a term that is not there."""
    links = (
        read_link(found[1])
        for _, _, record in shop.every()
        for _, text in texts(record)
        for found in (TEXT_LINK.finditer(text) if "[[" in text else ())
    )
    return any(one.kind == "terms" and one.id not in shop.terms for one in links)
