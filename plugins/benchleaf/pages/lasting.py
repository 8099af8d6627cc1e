"""Addresses that last: pages in place of those that are gone, and anchors kept where they lead."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from benchleaf.html.lookup import Lookup
from benchleaf.html.values import Ends, Former, Found, Link, PlannedPage, Rendered, SearchEntry
from benchleaf.html.writer import Writer
from benchleaf.link import inside, is_full_only
from benchleaf.registers import Moved


def lasting(
    pages: Iterable[PlannedPage],
    lookup: Lookup,
    moved: Moved,
    writer: Writer,
    source_file: str,
) -> Iterator[PlannedPage]:
    """The pages with every former anchor in place, then a page for each that is gone."""
    living = tuple(pages)
    titles = {page.address: page.title for page in living}
    titles |= {page.address: page.words for page in lookup.free_pages}
    titles |= {address: title for address, _, title in inside(lookup.shop)}
    for page in living:
        former = tuple(_former(moved, titles, page.address))
        yield replace(page, ends=replace(page.ends, former=former))
    for old in moved.pages:
        if lookup.edition == "full" or not is_full_only(old):
            yield _gone(old, moved, titles, writer, source_file)


def _former(moved: Moved, titles: Mapping[str, str], page: str) -> Iterator[Former]:
    for anchor, new in moved.inside(page).items():
        why = moved.why.get(f"{page}#{anchor}", "")
        yield Former(anchor, Link(new, titles.get(new, new)), why)


def _gone(
    old: str, moved: Moved, titles: Mapping[str, str], writer: Writer, source_file: str
) -> PlannedPage:
    name = old.removesuffix(".html").rpartition("/")[2]
    new = moved.to[old]
    page = Former(
        name.upper() if old.startswith("jobs/") else name,
        Link(new, titles.get(new, new)),
        moved.why.get(old, ""),
    )
    anchors = tuple(_former(moved, titles, old))

    def make(ends: Ends) -> Rendered:
        html = writer.write("moved.html.jinja", old, ends, page=page, anchors=anchors)
        entry = SearchEntry(
            old,
            f"{page.old} has moved",
            Found.PAGE,
            (page.link.words, page.why),
            number=name if old.startswith(("jobs/", "parts/")) else "",
        )
        return Rendered(html, (entry,))

    return PlannedPage(old, f"{page.old} has moved", source_file, make)
