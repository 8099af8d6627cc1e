"""L304: one word leads to one glossary entry."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding, Related, Severity
from benchleaf.model import Shop

from ..places import Places


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """A finding for each word or variant that two entries claim."""
    owners: dict[str, tuple[str, tuple[str | int, ...]]] = {}
    for term in shop.terms.values():
        forms = [
            (term.word, ("word",)),
            *((variant, ("variants", index)) for index, variant in enumerate(term.variants)),
        ]
        for form, path in forms:
            first = owners.setdefault(form.lower(), (term.id, path))
            if first != (term.id, path):
                yield Finding(
                    "L304",
                    Severity.ERROR,
                    places.of("terms", term.id, path),
                    f"'{form}' leads to '{first[0]}' and to '{term.id}'",
                    ("keep the word with one of the two",),
                    (Related(places.of("terms", first[0], first[1]), "claimed first here"),),
                )
