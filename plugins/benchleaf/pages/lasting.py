"""Addresses that last: pages in place of those that are gone, and anchors kept where they lead."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial

from benchleaf.html.lookup import Lookup
from benchleaf.html.values import Found, Link, PlannedPage, Rendered, SearchEntry
from benchleaf.html.writer import Writer
from benchleaf.link import inside, is_full_only
from benchleaf.registers import Moved


@dataclass(frozen=True, slots=True)
class Former:
    """An anchor or page as it was published, and where it leads now."""

    old: str
    """The anchor, or the name of the page."""
    link: Link
    why: str = ""


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
        yield replace(page, render=partial(_kept, page, former, writer)) if former else page
    for old in moved.pages:
        if lookup.edition == "full" or not is_full_only(old):
            yield _gone(old, moved, titles, writer, source_file)


def _former(moved: Moved, titles: Mapping[str, str], page: str) -> Iterator[Former]:
    for anchor, new in moved.inside(page).items():
        why = moved.why.get(f"{page}#{anchor}", "")
        yield Former(anchor, Link(new, titles.get(new, new)), why)


def _kept(page: PlannedPage, former: tuple[Former, ...], writer: Writer) -> Rendered:
    """The page with each former anchor at its new place, or at the end with a link to it."""
    made = page.render()
    html, elsewhere = made.html, []
    for one in former:
        address, _, anchor = one.link.address.partition("#")
        marked = _marked(html, anchor, one.old) if address == page.address and anchor else None
        html = marked or html
        if marked is None:
            elsewhere.append(one)
    if elsewhere:
        html += writer.write("former.html.jinja", page.address, former=tuple(elsewhere))
    return replace(made, html=html)


def _marked(html: str, anchor: str, old: str) -> str | None:
    """The page with a second anchor inside the element of the first, or None where it has none."""
    tag = re.compile(rf'<[a-z0-9]+\b[^<>]*\sid="{re.escape(anchor)}"[^<>]*>(\s*<dt[^<>]*>)?')
    found = tag.search(html)
    if found is None:
        return None
    return f'{html[: found.end()]}<span id="{old}" class="bl-former"></span>{html[found.end() :]}'


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

    def render() -> Rendered:
        html = writer.write("moved.html.jinja", old, page=page, anchors=anchors)
        entry = SearchEntry(
            old,
            f"{page.old} has moved",
            Found.PAGE,
            (page.link.words, page.why),
            number=name if old.startswith(("jobs/", "parts/")) else "",
        )
        return Rendered(html, (), (entry,))

    return PlannedPage(old, f"{page.old} has moved", source_file, render)
