"""Reads the files of a search index, as a browser would: what stands on which shelf, and where."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

_CALL = re.compile(r'benchleafIndex\("([\w-]+)",(.*)\)\n', re.DOTALL)


@dataclass(frozen=True)
class Index:
    """The index, taken apart."""

    values: Mapping[str, Any]
    """What each file hands over, by its name without `.js`."""

    @property
    def beginnings(self) -> list[str]:
        """The beginnings that have a shelf."""
        return str(self.values["start"]["beginnings"]).split(" ")

    @property
    def texts(self) -> list[list[Any]]:
        """Address, title and so on of every entry, in order."""
        per_file, count = self.values["start"]["perFile"], self.values["start"]["count"]
        files = range(-(-count // per_file))
        return [one for number in files for one in self.values[f"texts-{number}"]]

    @property
    def words(self) -> dict[str, list[list[int]]]:
        """Places of every word, by rank."""
        shelves = (shelf for name, shelf in self.values.items() if name.startswith("words-"))
        return {word: _places(told) for shelf in shelves for word, told in shelf.items()}

    def shelf(self, word: str) -> dict[str, str]:
        """The one shelf on which a browser looks for a word."""
        own = max((one for one in self.beginnings if word.startswith(one)), key=len)
        name = "".join(sign if re.match("[a-z0-9]", sign) else f"_{ord(sign):x}" for sign in own)
        shelf: dict[str, str] = self.values[f"words-{name}"]
        return shelf

    def entries_with(self, word: str) -> set[int]:
        """The places of a word, found as a browser finds them."""
        return {place for rank in _places(self.shelf(word)[word]) for place in rank}


def _places(told: str) -> list[list[int]]:
    ranks = []
    for rank in told.split("|"):
        place, places = 0, []
        for step in rank.split():
            place += int(step, 36)
            places.append(place)
        ranks.append(places)
    return ranks


def read_index(files: Mapping[str, str]) -> Index:
    """The index from the text of each file by its name."""
    values = {}
    for name, text in files.items():
        match = _CALL.fullmatch(text.partition("\nfunction benchleaf_")[0])  # before its seal
        assert match, f"{name} is no call of benchleafIndex"
        assert f"{match[1]}.js" == name
        values[match[1]] = json.loads(match[2])
    return Index(values)


def index_of(site: Path) -> Index:
    """The index of a built site."""
    folder = site / "assets" / "benchleaf" / "search"
    return read_index({one.name: one.read_text(encoding="utf-8") for one in folder.iterdir()})
