"""The meanings of terms as script files, since a page opened from disk cannot fetch another.

One file for each first letter: a page loads the one that it needs, at the first touch of a term,
so that 1,000 terms cost a page nothing.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable

from benchleaf.model import Term

FOLDER = "terms"
"""Where the files lie, below the assets."""


def meaning_files(terms: Iterable[Term], plain: Callable[[str], str]) -> dict[str, str]:
    """Name and text of each file; `plain` takes the markup out of a running text.

    >>> burr = Term(id="burr", word="burr", meaning="A *sharp* edge.")
    >>> print(meaning_files([burr], lambda text: text.replace("*", ""))["terms/b.js"])
    Object.assign(benchleafTerms, {"burr":["burr","A sharp edge."]});
    <BLANKLINE>
    """
    by_letter: dict[str, dict[str, tuple[str, str]]] = {}
    for term in terms:
        entry = (term.word, " ".join(plain(term.meaning).split()))
        by_letter.setdefault(term.id[0], {})[term.id] = entry
    return {
        f"{FOLDER}/{letter}.js": f"Object.assign(benchleafTerms, {_as_script(entries)});\n"
        for letter, entries in sorted(by_letter.items())
    }


def _as_script(entries: dict[str, tuple[str, str]]) -> str:
    """JSON in ASCII is safe as script text, whatever a meaning holds."""
    return json.dumps(entries, separators=(",", ":"))
