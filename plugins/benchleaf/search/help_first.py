"""What search shows before all results, where plain words ask for help: texts, places, words."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from benchleaf.link import free_page_address, index_address
from benchleaf.model import Shop, place_word

TITLES: Mapping[str, str] = {
    "hurt": "Somebody is hurt or caught",
    "stop": "It does not stop",
    "fire": "Fire or smoke",
    "stuck": "Something is stuck or broken",
}
"""The kinds of trouble, gravest first, as they are called on the screen."""
STATIONS = 8
"""With more of them their list stands in place of each: nobody in need reads forty buttons."""
SHOP_WIDE = "wrong.html"
"""The page on what to do where something is wrong, of an edition that has it."""


@dataclass(frozen=True, slots=True)
class FirstHelp:
    """Everything that the block says."""

    emergency: str
    call: str
    page: str
    """The address of the place that says what to do first; empty where the shop has none."""
    stops: tuple[tuple[str, str], ...]
    """Address and name of each station that is stopped somewhere."""
    own_words: Mapping[str, tuple[str, ...]]

    def told(self, there: Collection[str]) -> dict[str, object]:
        """What the browser needs; of the places only those that are there."""
        words = dict(_words())
        kinds = [
            [title, [*words[kind], *self.own_words.get(kind, ())]] for kind, title in TITLES.items()
        ]
        places = ((SHOP_WIDE, "What to do when something is wrong"), (self.page, "Safety page"))
        return {
            "kinds": kinds,
            "emergency": self.emergency,
            "call": self.call,
            "places": [list(one) for one in places if one[0] in there],
            "stops": [list(one) for one in self.stops if one[0].partition("#")[0] in there],
        }


def first_help(shop: Shop, plain: Callable[[str], str]) -> FirstHelp:
    """What a shop says first to somebody in trouble."""
    manual = shop.manual
    name, _, anchor = (manual.first_help.page or manual.preface or "").partition("#")
    page = free_page_address(name) + (f"#{anchor}" if anchor else "") if name else ""
    stopped = [one for one in shop.machines.values() if one.controls or one.supply]
    stops = tuple((f"machines/{one.id}.html#controls", one.name) for one in stopped)
    if len(stops) > STATIONS:
        stops = ((index_address("machines"), f"find your {place_word(shop)}"),)
    return FirstHelp(
        plain(manual.emergency),
        plain(manual.call),
        page,
        stops,
        manual.first_help.words,
    )


@cache
def _words() -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    text = Path(__file__).with_name("first_words.txt").read_text("utf-8")
    for kind, phrase in _phrases(text):
        found.setdefault(kind, []).append(phrase)
    return found


def _phrases(text: str) -> Iterator[tuple[str, str]]:
    for line in text.splitlines():
        kind, _, phrases = line.partition(":")
        if kind in TITLES:
            yield from ((kind, one.strip()) for one in phrases.split(";"))
