"""Links by id inside running text: `[[TR-0140]]`, `[[term:quill]]`, `[[tr-0140#ream]]`.

`[[figure:pivot-hole#depth-stop]]` leads nowhere: in its place stands the figure itself, of a set-up
of the job whose sentence it is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

TEXT_LINK = re.compile(r"\[\[([^\[\]\n]*)\]\]")
_PARTS = re.compile(
    r"\s*(?:(?P<kind>[a-z]+)\s*:)?\s*(?P<id>[a-z0-9]+(?:-[a-z0-9]+)*)\s*"
    r"(?:#\s*(?P<anchor>[a-z0-9]+(?:-[a-z0-9]+)*))?\s*"
)
_KINDS = {
    "job": "jobs",
    "part": "parts",
    "machine": "machines",
    "material": "materials",
    "tool": "tools",
    "fluid": "fluids",
    "hazard": "hazards",
    "onboarding": "onboarding",
    "term": "terms",
}
"""Kinds as written in a link, singular or plural, and the folder each means."""
FIGURE = "figure"
"""The kind of a link that shows a figure: its id is a set-up's, its anchor the figure's name."""


@dataclass(frozen=True, slots=True)
class TextLink:
    """One link as written and what it points to; `kind` is None where it is no link of ours."""

    written: str
    kind: str | None
    id: str
    anchor: str | None


def link_kinds() -> tuple[str, ...]:
    """The kinds a link may name, as written."""
    return tuple(_KINDS)


def shows_figures(text: str) -> bool:
    """True where a text holds a link that shows a figure."""
    return "[[" in text and any(link.kind == FIGURE for link in text_links(text))


def text_links(text: str) -> Iterator[TextLink]:
    """Every `[[...]]` in `text`, in order."""
    for match in TEXT_LINK.finditer(text):
        yield read_link(match[1])


def read_link(inside: str) -> TextLink:
    """What stands between the brackets, taken apart; any case is accepted.

    >>> read_link("term:Quill").kind
    'terms'
    """
    parts = _PARTS.fullmatch(inside.lower())
    if parts is None:
        return TextLink(inside, None, inside.strip(), None)
    kind = parts["kind"] or "job"
    folder = _KINDS.get(kind) or (kind if kind in (*_KINDS.values(), FIGURE) else None)
    return TextLink(inside, folder, parts["id"], parts["anchor"])
