"""Stop 6: which pages exist (plan), plain data for templates (views), and their HTML."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from benchleaf.link import TermIndex, term_uses, where_used
from benchleaf.model import Shop

from .free import free_pages, links_in, with_links
from .inline import Inline
from .lookup import Lookup
from .plan import Planner
from .problems import problem_pages
from .values import Link, PlannedPage, Rendered, SearchEntry, Section
from .writer import Writer

ASSETS = Path(__file__).parent / "assets"
"""Style sheets and scripts that every site carries."""
THEME = Path(__file__).parent / "templates" / "theme"
"""Templates that extend the theme of the site engine."""


def plan_pages(
    shop: Shop,
    terms: TermIndex,
    content_name: str,
    free_pages: Sequence[Link] = (),
    overrides: Sequence[Path] = (),
    *,
    edition: str = "kiosk",
) -> tuple[tuple[PlannedPage, ...], Inline]:
    """Every page of the manual, and the means to render running text on free pages."""
    inline = Inline(shop, terms)
    lookup = Lookup(
        shop, where_used(shop), tuple(free_pages), term_uses(shop, terms), edition=edition
    )
    planner = Planner(lookup, Writer(inline, overrides), inline, content_name)
    return tuple(planner.pages()), inline


__all__ = [
    "ASSETS",
    "THEME",
    "Inline",
    "Link",
    "PlannedPage",
    "Rendered",
    "SearchEntry",
    "Section",
    "free_pages",
    "links_in",
    "plan_pages",
    "problem_pages",
    "with_links",
]
