"""The end of every page: its own address to copy, and a symbol that leads a scanner to it.

A learner has no use for either on the screen: the kiosk's edition has the symbol on paper alone.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from functools import partial

from benchleaf.drawings.symbol import symbol
from benchleaf.html.values import NO_ENDS, Link, PlannedPage
from benchleaf.html.writer import Writer
from benchleaf.link import kind_of
from benchleaf.model import Manual

READ_FROM_MM = 300
"""How far a scanner or a phone is held from a screen or a sheet: our choice, about arm's length."""
_WITH_AN_ID = ("job", "machine", "material", "tool", "fluid", "hazard", "part", "onboarding")
"""Kinds of page whose id the search finds, so that a scanner can type it."""


def scanned(manual: Manual, address: str) -> str:
    """What a scanner reads for a page: its address on the shop's server, else its id, else nothing.

    A path on a disk is never encoded: a phone could not open it.
    """
    if manual.server:
        return manual.server + address
    if kind_of(address) in _WITH_AN_ID:
        return address.removesuffix(".html").rpartition("/")[2].upper()
    return ""


@dataclass(frozen=True, slots=True)
class Provenance:
    """Where pages come from: the content folder, and where its files are edited."""

    content: str
    """The content folder's name."""
    edit_base: str = ""
    """The address before a file's name at which it is edited; empty for no such link."""
    drafts: Collection[str] = ()
    """Ids of the jobs whose page is a draft."""
    is_kiosk: bool = False
    """True where learners read: nothing of this on the screen."""

    def edit_link(self, source: str) -> str:
        """Where a source file is edited; empty where nothing is said."""
        is_file = source.startswith(f"{self.content}/") and source.endswith((".yml", ".md"))
        return self.edit_base + source if self.edit_base and is_file else ""

    def draft_at(self, address: str) -> str:
        """What the page at an address is a draft of; empty where it is none."""
        folder, _, name = address.removesuffix(".html").rpartition("/")
        return f"draft of {name.upper()}" if folder == "jobs" and name in self.drafts else ""

    def of_free_page(self, address: str) -> str:
        """The source of a free page, from its address."""
        return f"{self.content}/pages/{address.removesuffix('.html')}.md"


def edit_links(
    edit_base: str, content: str, pages: Iterable[PlannedPage], free_pages: Iterable[Link]
) -> frozenset[str]:
    """Every address at which a source of these pages is edited."""
    known = Provenance(content, edit_base)
    sources = {page.source_file for page in pages}
    sources |= {known.of_free_page(one.address) for one in free_pages}
    return frozenset(one for one in map(known.edit_link, sources) if one)


def free_foot(writer: Writer, manual: Manual, provenance: Provenance, address: str) -> str:
    """The HTML at the end of a free page."""
    given = foot(manual, provenance, address, provenance.of_free_page(address))
    return writer.write("foot.html.jinja", address, NO_ENDS, **given)


def foot(manual: Manual, provenance: Provenance, address: str, source: str) -> dict[str, object]:
    """What the template of a page's foot is given."""
    text = scanned(manual, address)
    draft = provenance.draft_at(address)
    label = f"Symbol for a scanner: {text}" + (f" ({draft})" if draft else "")
    drawn = symbol(text, READ_FROM_MM, label) if text else None
    return {
        "symbol": drawn,
        "server": manual.server or "",
        "source": source,
        "edit": provenance.edit_link(source),
        "draft": draft,
        "is_kiosk": provenance.is_kiosk,
    }


def with_foot(page: PlannedPage, manual: Manual, provenance: Provenance) -> PlannedPage:
    """The page with its foot, which is drawn when the page is."""
    given = partial(foot, manual, provenance, page.address, page.source_file)
    return replace(page, ends=replace(page.ends, foot=given))
