"""Running text to HTML: inline Markdown, links by id, glossary terms. Raw HTML stays text."""

from __future__ import annotations

import html
import re
from collections.abc import Callable
from typing import TypeVar
from xml.etree import ElementTree

from markdown import Markdown
from markdown.inlinepatterns import InlineProcessor
from markdown.treeprocessors import InlineProcessor as InlinePatternsProcessor
from markdown.util import AtomicString, Registry
from markupsafe import Markup

from benchleaf.link import TermIndex, address, relative
from benchleaf.model import Shop, name_of
from benchleaf.model.textlinks import FIGURE, TEXT_LINK, read_link

_Part = TypeVar("_Part")
_NEEDS_MARKDOWN = re.compile(r"[*_`\\]|\[\[")
_AMPERSAND = "\ue000"
"""Stands for `&` while Markdown is at work; a sign of the private use area, in no text."""
_KEPT_PATTERNS = ("backtick", "escape", "em_strong", "em_strong2")
"""Emphasis, code and escapes; links, images, HTML and entities of Markdown are left out."""
_TAG = re.compile(r"(<[^>]*>|&#?\w+;)")
"""A tag, or a sign written by its name: no term is looked for in either."""
_CLOSED_TO_TERMS = ("a", "code")


class _ByIdProcessor(InlineProcessor):
    """`[[TR-0140]]` to a link with the record's own words."""

    def __init__(self, resolve: Callable[[str], tuple[str, str]]) -> None:
        super().__init__(TEXT_LINK.pattern)
        self._resolve = resolve

    def handleMatch(  # type: ignore[override]  # noqa: N802  (the library's name)
        self, m: re.Match[str], data: str
    ) -> tuple[ElementTree.Element | None, int | None, int | None]:
        target, words = self._resolve(m[1])
        if not target:
            return None, None, None
        element = ElementTree.Element("a", {"href": target})
        # A title is no running text: no sign in it is markup.
        element.text = AtomicString(words.replace("&", _AMPERSAND))
        return element, m.start(0), m.end(0)


class Inline:
    """Turns running text into HTML for one page after another."""

    def __init__(self, shop: Shop, terms: TermIndex) -> None:
        self._shop = shop
        self._terms = terms
        self._here = ""
        self._markdown = self._converter()

    @property
    def shop(self) -> Shop:
        """The shop whose text it renders."""
        return self._shop

    def html(self, text: str, here: str, seen: set[str]) -> Markup:
        """`text` as HTML on the page `here`; `seen` holds the terms already linked, and grows."""
        self._here = here
        one_line = " ".join(text.split())
        if _NEEDS_MARKDOWN.search(one_line):
            # Markdown would take `&lt;` for a sign; here what is written is what is shown.
            shielded = one_line.replace("&", _AMPERSAND)
            rendered = self._markdown.reset().convert(shielded).replace(_AMPERSAND, "&amp;")
            rendered = rendered.removeprefix("<p>").removesuffix("</p>")
        else:
            rendered = html.escape(one_line, quote=False)
        return Markup(self._with_terms(rendered, seen))

    def plain(self, text: str) -> str:
        """`text` without markup, for search entries and descriptions."""
        without_links = TEXT_LINK.sub(lambda match: self.target(match[1])[1], text)
        return re.sub(r"[*`\\]", "", without_links)

    def target(self, inside: str) -> tuple[str, str]:
        """Address and words of a link by id; a job shows its number before its title."""
        link = read_link(inside)
        if link.kind is None or link.kind == FIGURE:
            return "", inside
        record = self._shop.of_kind(link.kind).get(link.id)
        if record is None:
            return "", inside
        words = name_of(record)
        if link.kind == "jobs":
            words = f"{link.id.upper()} {words}"
        return address(link.kind, link.id, link.anchor), words

    def _resolve(self, inside: str) -> tuple[str, str]:
        target, words = self.target(inside)
        return (relative(target, self._here) if target else ""), words

    def _converter(self) -> Markdown:
        converter = Markdown()
        converter.preprocessors = _kept(converter.preprocessors, "normalize_whitespace")
        blocks = _kept(converter.parser.blockprocessors, "empty", "paragraph")
        converter.parser.blockprocessors = blocks
        converter.inlinePatterns = _kept(converter.inlinePatterns, *_KEPT_PATTERNS)
        converter.inlinePatterns.register(_ByIdProcessor(self._resolve), "by_id", 75)
        # The tree processor keeps the registry it was made with, so it is made anew.
        converter.treeprocessors.register(InlinePatternsProcessor(converter), "inline", 20)
        return converter

    def _with_terms(self, rendered: str, seen: set[str]) -> str:
        """Link each term at its first use, outside links and code."""
        closed = 0
        parts = []
        for piece in _TAG.split(rendered):
            if piece.startswith(("<", "&")):
                closed += _opens_or_closes(piece) if piece.startswith("<") else 0
                parts.append(piece)
            else:
                parts.append(piece if closed else self._linked(piece, seen))
        return "".join(parts)

    def _linked(self, text: str, seen: set[str]) -> str:
        parts, end = [], 0
        for match in self._terms.find(text):
            if match.term_id in seen:
                continue
            seen.add(match.term_id)
            target = relative(address("terms", match.term_id), self._here)
            parts += [
                text[end : match.start],
                f'<a class="bl-term" href="{target}">',
                text[match.start : match.end],
                "</a>",
            ]
            end = match.end
        return "".join((*parts, text[end:]))


def _kept(registry: Registry[_Part], *names: str) -> Registry[_Part]:
    """A registry of the parts named only, in that order: whatever is not named stays text."""
    kept: Registry[_Part] = Registry()
    for place, name in enumerate(names):
        if name in registry:  # em_strong2 went when Markdown 3.11 joined the two
            kept.register(registry[name], name, 90 - 10 * place)
    return kept


def _opens_or_closes(tag: str) -> int:
    name = tag.strip("</>").split()[0].lower() if len(tag) > 2 else ""
    if name not in _CLOSED_TO_TERMS:
        return 0
    return -1 if tag.startswith("</") else 1
