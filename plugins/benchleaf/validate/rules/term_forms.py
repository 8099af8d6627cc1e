"""L304: one word leads to one glossary entry, plurals included."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Related, Sample, Severity
from benchleaf.model import KeyPath, Shop, Term, plurals

from ..places import Places
from ..rule import ShopRule

CODE = Code(
    "L304",
    "Two glossary terms share a word",
    why="The reader would be led to the wrong meaning.",
    instead="Keep the word with one term.",
    bad=(
        Sample(
            """
            # A variant that is another term's word.
            - file: terms.yml
              find: "      - spindle sleeve"
              put: "      - Burr"
            """,
            """
            content/terms.yml:9:9: error L304 'Burr' leads to 'burr' (by 'burr') and to 'quill'
                keep the word with one of the two
                see also content/terms.yml:3:11: claimed first here
            """,
        ),
        Sample(
            """
            # A variant that repeats its own word.
            - file: terms.yml
              find: "      - spindle sleeve"
              put: "      - Quill"
            """,
            """
            content/terms.yml:9:9: error L304 'Quill' repeats a word of its own entry
                take it out; capitals and plurals are found by themselves
                see also content/terms.yml:6:11: claimed first here
            """,
        ),
    ),
    good="""
        # A variant that no other term has.
        - file: terms.yml
          find: "      - spindle sleeve"
          put: "      - drill sleeve"
    """,
)


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """A finding for each word that two entries claim, or that one entry claims twice."""
    owners: dict[str, tuple[Term, KeyPath, str]] = {}
    for term in shop.terms.values():
        for form, path in _written(term):
            for word in (form.lower(), *_plural_of(form.lower())):
                first = owners.setdefault(word, (term, path, form))
                is_same_word = first[0] is term and first[2].lower() != form.lower()
                if (first[0] is not term or first[1] != path) and not is_same_word:
                    yield _finding(places, term, path, form, first)
                    break


def _written(term: Term) -> Iterator[tuple[str, KeyPath]]:
    yield term.word, ("word",)
    for index, variant in enumerate(term.variants):
        yield variant, ("variants", index)


def _plural_of(form: str) -> tuple[str, ...]:
    head, space, last = form.rpartition(" ")
    return tuple(f"{head}{space}{plural}" for plural in plurals(last))


def _finding(
    places: Places, term: Term, path: KeyPath, form: str, first: tuple[Term, KeyPath, str]
) -> Finding:
    other, other_path, other_form = first
    if other is term:
        text = f"'{form}' repeats a word of its own entry"
        cure = "take it out; capitals and plurals are found by themselves"
    else:
        text = f"'{form}' leads to '{other.id}' (by '{other_form}') and to '{term.id}'"
        cure = "keep the word with one of the two"
    return Finding(
        CODE.id,
        Severity.ERROR,
        places.of("terms", term.id, path),
        text,
        (cure,),
        (Related(places.of("terms", other.id, other_path), "claimed first here"),),
    )


RULE = ShopRule(check, (CODE,))
