"""Stop 7: the search index, split into small scripts that load from disk as they are needed.

`words-dr.js` holds the words that begin with `dr`, each with the places it stands in, by how much
they count; `texts-3.js` holds title, address and lines of some entries; `all-words.js` the words
alone, for a typing slip; `start.js` says what there is. Each is one call of `benchleafIndex`, as
a script loads from disk where a request does not.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path

from benchleaf.html.site_facts import ASSETS_ADDRESS
from benchleaf.html.values import KEY_POINT, Found, SearchEntry
from benchleaf.write import make_folder, write_text

from .help_first import FirstHelp
from .words import Splitter, number_key, number_spellings

FOLDER = f"{ASSETS_ADDRESS}/search"
PER_FILE = 4
"""Entries whose texts lie in one file."""
LARGE = 20_000
"""Bytes beyond which a file of words is split by one more letter."""
LONGEST = 6
"""Letters of a beginning at most."""
RANKS = 4
"""Where a word stands, the most telling first: in a title or another name, in a key point, in
other text, around it. It is kept at the best place only."""
NUMBER, TITLE, SPELT = "=", "~", "+"
"""Before a number that leads straight to its page, before a whole title or name, and before a
number as it is typed in short."""

_DIGITS = "0123456789abcdefghijklmnopqrstuvwxyz"

Places = list[list[int]]


def write_search(
    site: Path, entries: Iterable[SearchEntry], help_first: FirstHelp | None = None
) -> None:
    """Write the index of a built site, and what comes before all results."""
    folder = site / FOLDER
    make_folder(folder)
    for name, text in index_files(entries, help_first):
        write_text(folder / name, text, sync=False)


def index_files(
    entries: Iterable[SearchEntry], help_first: FirstHelp | None = None
) -> Iterator[tuple[str, str]]:
    """Name and text of each file of the index."""
    ordered = in_order(entries)
    words = _all_places(ordered)
    shelves = dict(_shelves({word: _told(places) for word, places in words.items()}))
    for beginning, shelf in shelves.items():
        name = f"words-{file_name(beginning)}"
        yield f"{name}.js", _script(name, shelf)
    for number in range(0, len(ordered), PER_FILE):
        name = f"texts-{number // PER_FILE}"
        yield f"{name}.js", _script(name, [_shown(one) for one in ordered[number:][:PER_FILE]])
    spoken = sorted(word for word in words if len(word) > 2 and word[0].isalnum())
    yield "all-words.js", _script("all-words", front_coded(spoken))
    yield "start.js", _script("start", _start(ordered, sorted(shelves), help_first))


def in_order(entries: Iterable[SearchEntry]) -> list[SearchEntry]:
    """Entries by kind, so that an entry's place tells its kind; otherwise as they came."""
    rank = {kind: place for place, kind in enumerate(Found)}
    return sorted(entries, key=lambda entry: rank[entry.kind])


def _start(
    ordered: Sequence[SearchEntry], beginnings: Sequence[str], help_first: FirstHelp | None
) -> dict[str, object]:
    first: dict[str, int] = {}
    for place, entry in enumerate(ordered):
        first.setdefault(entry.kind.value, place)
    return {
        "count": len(ordered),
        "perFile": PER_FILE,
        "kinds": list(first.items()),
        "keyPoint": KEY_POINT,
        "beginnings": " ".join(beginnings),
        "first": help_first.told({one.address for one in ordered}) if help_first else None,
    }


def _shown(entry: SearchEntry) -> list[object]:
    """What the list of results shows: how many lines are key points comes before the lines."""
    lines = [*entry.points, *(line for line in entry.lines if line)]
    return [entry.address, entry.title, entry.under, len(entry.points), *lines]


def _all_places(ordered: Sequence[SearchEntry]) -> dict[str, Places]:
    """Each word with the entries it stands in, by where it stands there."""
    ranks: tuple[dict[str, list[int]], ...] = tuple(defaultdict(list) for _ in range(RANKS))
    splitter = Splitter()
    for place, entry in enumerate(ordered):
        left: set[str] = set()
        for rank, words in zip(ranks, _words_by_rank(splitter, entry), strict=True):
            for word in words - left:
                rank[word].append(place)
            left |= words
        for key in _keys(entry):
            ranks[0][key].append(place)
    every = set().union(*ranks)
    return {word: [rank.get(word, []) for rank in ranks] for word in every}


def _words_by_rank(splitter: Splitter, entry: SearchEntry) -> tuple[set[str], ...]:
    return (
        splitter.words((entry.title, entry.number, *entry.names)),
        splitter.words(entry.points),
        splitter.words(entry.lines),
        splitter.words((entry.around, entry.under)),
    )


def _keys(entry: SearchEntry) -> Iterator[str]:
    """Number and names in one piece. Many steps share a title, so a step is not known by it."""
    if entry.number:
        yield NUMBER + number_key(entry.number)
        yield from (SPELT + one for one in number_spellings(entry.number))
    if entry.kind is not Found.STEP:
        names = (number_key(name) for name in (entry.title, *entry.names))
        yield from dict.fromkeys(TITLE + name for name in names if name)


def _told(places: Places) -> str:
    """Places as text: steps from one to the next to base 36, a bar between ranks.

    >>> _told([[3, 40], [], [41], []])
    '3 11||15'
    """
    return "|".join(" ".join(_steps(rank)) for rank in places).rstrip("|")


def _steps(places: Sequence[int]) -> Iterator[str]:
    former = 0
    for place in places:
        yield _base_36(place - former)
        former = place


def _base_36(number: int) -> str:
    """
    >>> _base_36(35), _base_36(36), _base_36(0)
    ('z', '10', '0')
    """
    if number < 36:
        return _DIGITS[number]
    more, last = divmod(number, 36)
    return _base_36(more) + _DIGITS[last]


def _shelves(told: Mapping[str, str]) -> Iterator[tuple[str, dict[str, str]]]:
    """Words by their first letter, or by more where that would make a large file."""
    yield from _split({word: told[word] for word in sorted(told)}, 1)


def _split(words: Mapping[str, str], length: int) -> Iterator[tuple[str, dict[str, str]]]:
    shelves: dict[str, dict[str, str]] = {}
    for word, places in words.items():
        shelves.setdefault(word.lstrip(NUMBER + TITLE + SPELT)[:length], {})[word] = places
    for beginning, shelf in shelves.items():
        is_large = sum(len(word) + len(places) + 6 for word, places in shelf.items()) > LARGE
        if is_large and length < LONGEST and len(beginning) == length and len(shelf) > 1:
            yield from _split(shelf, length + 1)
        else:
            yield beginning, shelf


def file_name(beginning: str) -> str:
    """A beginning as part of a file name: other letters than a to z by their number.

    >>> file_name("dr"), file_name("8."), file_name("μm")
    ('dr', '8_2e', '_3bcm')
    """
    return "".join(
        sign if sign.isascii() and sign.isalnum() else f"_{ord(sign):x}" for sign in beginning
    )


def front_coded(words: Sequence[str]) -> str:
    """Sorted words, each as the count of letters it shares with the one before, and the rest.

    >>> front_coded(["drill", "drilling", "dry"])
    '0drill 5ing 2y'
    """
    coded, former = [], ""
    for word in words:
        shared = _shared(former, word)
        coded.append(f"{_DIGITS[shared]}{word[shared:]}")
        former = word
    return " ".join(coded)


def _shared(one: str, other: str) -> int:
    """How many first letters two words share; no more than one digit tells."""
    pairs = enumerate(zip(one, other, strict=False))
    differing = (at for at, (left, right) in pairs if left != right)
    return min(next(differing, min(len(one), len(other))), len(_DIGITS) - 1)


def _script(name: str, value: object) -> str:
    told = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    # Valid JSON, yet line ends to an older JavaScript.
    told = told.replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
    return f'benchleafIndex("{name}",{told})\n'
