"""Search entries of a free page: one for each section, as its headings divide it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser

from benchleaf.html.values import Found, SearchEntry

_HEADINGS = frozenset(("h1", "h2", "h3", "h4", "h5", "h6"))
_INLINE = frozenset(
    ("a", "abbr", "b", "code", "del", "em", "i", "kbd", "mark", "s", "small", "span", "strong",
     "sub", "sup", "u")
)  # fmt: skip


def free_entries(html: str, here: str, title: str) -> Iterator[SearchEntry]:
    """What search finds on the free page `here`; a heading without an anchor begins no section.

    >>> [one.address for one in free_entries("<h1>A</h1><p>b</p><h2 id='c'>C</h2>", "a.html", "A")]
    ['a.html', 'a.html#c']
    """
    reader = _Reader()
    reader.feed(html)
    reader.close()
    top, *others = reader.sections
    yield SearchEntry(here, title, Found.PAGE, lines=top.said())
    for one in others:
        heading, *lines = one.said() or (title,)
        yield SearchEntry(
            f"{here}#{one.anchor}", heading, Found.PAGE, lines=tuple(lines), under=title
        )


@dataclass(slots=True)
class _Section:
    """A heading's anchor, and the lines from the heading on."""

    anchor: str
    lines: list[str] = field(default_factory=lambda: [""])

    def said(self) -> tuple[str, ...]:
        """The lines without breaks and empty ones."""
        joined = (" ".join(line.split()) for line in self.lines)
        return tuple(line for line in joined if line)


class _Reader(HTMLParser):
    """Cuts a page into sections, and each into lines at every tag that is no part of a line."""

    def __init__(self) -> None:
        super().__init__()
        self.sections = [_Section("")]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """A heading with an anchor begins a section; the page's own title does not."""
        anchor = dict(attrs).get("id")
        if tag in _HEADINGS and tag != "h1" and anchor:
            self.sections.append(_Section(anchor))
        self._cut(tag)

    def handle_endtag(self, tag: str) -> None:
        """The end of a block ends a line."""
        self._cut(tag)

    def handle_data(self, data: str) -> None:
        """Text goes on with the line."""
        self.sections[-1].lines[-1] += data

    def _cut(self, tag: str) -> None:
        if tag not in _INLINE:
            self.sections[-1].lines.append("")
