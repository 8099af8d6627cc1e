"""The guide to Benchleaf itself: Markdown that comes with the package, in the full edition only.

It stands apart from a shop's own pages: under its own addresses, with its own kind in the search,
and made here rather than by the site engine, so that any engine shows it alike.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from importlib import resources
from importlib.resources.abc import Traversable

from markdown import Markdown
from markupsafe import Markup

from benchleaf.html.values import Ends, Found, Link, PlannedPage, Rendered
from benchleaf.html.writer import Writer
from benchleaf.link import GUIDE_PAGES, guide_address
from benchleaf.model import Manual
from benchleaf.search.free_entries import free_entries

FOLDER: Traversable = resources.files("benchleaf") / "guide"
"""The Markdown files, one a page."""
STYLES = ("lists.css", "plain.css")
_EXTENSIONS = ("fenced_code", "tables", "toc", "sane_lists")
_HEADING = re.compile(r"\A# (.+)\n")
_MARKDOWN_LINK = re.compile(r'(<a href="[\w./-]+)\.md((?:#[\w-]+)?")')
"""The files link to each other as files, so that they can be read where they lie, too."""


def guide_pages(writer: Writer, manual: Manual) -> Iterator[PlannedPage]:
    """Every page of the guide, its first page first."""
    texts = {name: (FOLDER / f"{name}.md").read_text(encoding="utf-8") for name in GUIDE_PAGES}
    links = tuple(Link(guide_address(name), _title(text)) for name, text in texts.items())
    for link, (name, text) in zip(links, texts.items(), strict=True):
        make = partial(_rendered, writer, manual, link, links, text)
        source = f"benchleaf/guide/{name}.md"
        yield PlannedPage(link.address, link.words, source, make, styles=STYLES)


def _title(text: str) -> str:
    found = _HEADING.match(text)
    assert found, "a page of the guide begins with its title"
    return found[1]


def _rendered(
    writer: Writer, manual: Manual, link: Link, links: tuple[Link, ...], text: str, ends: Ends
) -> Rendered:
    article = guide_html(text)
    html = writer.write(
        "guide.html.jinja", link.address, ends, article=Markup(article), links=links, manual=manual
    )
    found = free_entries(article, link.address, link.words)
    return Rendered(html, tuple(replace(one, kind=Found.GUIDE) for one in found))


def guide_html(text: str) -> str:
    """Our own Markdown as HTML: headings with anchors, links between files as links of pages.

    >>> guide_html("# A\\n\\nSee [b](b.md#c).")
    '<h1 id="a">A</h1>\\n<p>See <a href="b.html#c">b</a>.</p>'
    """
    made = Markdown(extensions=list(_EXTENSIONS)).convert(text)
    return _MARKDOWN_LINK.sub(r"\1.html\2", made)
