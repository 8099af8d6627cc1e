"""A planned site whose pages are made when a test asks for them, and their HTML taken apart."""

from __future__ import annotations

import re
from dataclasses import dataclass
from html.parser import HTMLParser

from benchleaf.html.values import PlannedPage
from benchleaf.pipeline import Loaded, SitePlan

VOID = frozenset({"img", "br", "input", "meta", "link", "path", "circle", "hr"})


@dataclass(frozen=True)
class Planned:
    """A shop that was read, and its pages."""

    loaded: Loaded
    plan: SitePlan

    @property
    def pages(self) -> dict[str, PlannedPage]:
        """Every page by its address."""
        return {page.address: page for page in self.plan.pages}

    def html(self, address: str) -> str:
        """The article of one page."""
        return self.pages[address].render().html


@dataclass(frozen=True)
class Element:
    """A start tag with its attributes, and the tags it stands in."""

    tag: str
    attributes: dict[str, str]
    inside: tuple[str, ...]


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: list[Element] = []
        self.words: list[str] = []
        self.open: list[str] = []
        self.slips: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = {key: value or "" for key, value in attrs}
        self.elements.append(Element(tag, found, tuple(self.open)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if self.open and self.open[-1] == tag:
            self.open.pop()
        elif tag not in VOID:
            self.slips.append(tag)

    def handle_data(self, data: str) -> None:
        self.words.append(data)

    def handle_comment(self, data: str) -> None:
        self.slips.append(f"comment {data}")

    def handle_decl(self, decl: str) -> None:
        self.slips.append(f"declaration {decl}")

    def handle_pi(self, data: str) -> None:
        self.slips.append(f"instruction {data}")

    def unknown_decl(self, data: str) -> None:
        self.slips.append(f"declaration {data}")


def elements(html: str, tag: str = "") -> list[Element]:
    """Every element of a page, or every one with that tag, in order; the nesting must be sound."""
    reader = _read(html)
    assert (reader.slips, reader.open) == ([], []), html
    return [one for one in reader.elements if tag in ("", one.tag)]


def shown(html: str) -> str:
    """What a browser shows, without a regard to spaces at its ends."""
    return "".join(_read(html).words)


def words(html: str) -> str:
    """The text of a page on one line."""
    return " ".join(re.sub(r"<[^>]+>", " ", html).split())


def hrefs(html: str) -> list[str]:
    """Where the links of a page lead, in order."""
    return [one.attributes["href"] for one in elements(html, "a")]


def _read(html: str) -> _Reader:
    reader = _Reader()
    reader.feed(html)
    reader.close()
    return reader
