"""Stop 6: which pages exist (plan), plain data for templates (views), and their HTML."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from pathlib import Path
from types import MappingProxyType

from benchleaf.compute import SetUpSheet
from benchleaf.link import Moved, TermIndex, Use, is_sheet, where_used
from benchleaf.model import Shop

from .comparison import comparison_page
from .document import ASSETS_ADDRESS, STYLES, SiteFacts, day_of_build, site_facts
from .foot import Provenance, edit_links, free_foot, with_foot
from .free import free_pages, links_in, with_links
from .free_entries import free_entries
from .inline import Inline
from .lasting import lasting
from .lookup import Lookup
from .meanings import meaning_files
from .plan import Planner
from .problems import problem_pages
from .values import KEY_POINT, Found, Link, PlannedPage, Rendered, SearchEntry, Section
from .writer import Writer

ASSETS = Path(__file__).parent / "assets"
"""Style sheets and scripts that every site carries."""
THEME = Path(__file__).parent / "templates" / "theme"
"""Templates that stand in place of those of the site engine's theme."""


def plan_pages(
    shop: Shop,
    terms: TermIndex,
    sheets: Mapping[str, tuple[SetUpSheet, ...]],
    content_name: str,
    free_pages: Sequence[Link] = (),
    overrides: Sequence[Path] = (),
    *,
    edition: str = "kiosk",
    term_uses: Mapping[str, tuple[Use, ...]] = MappingProxyType({}),
    moved: Moved | None = None,
    fingerprints: Mapping[str, str] = MappingProxyType({}),
    edit_base: str = "",
) -> tuple[tuple[PlannedPage, ...], Inline, Callable[[str], str]]:
    """Every page of the manual; for free pages, what renders running text and a page's foot.

    `sheets` are the computed set-ups of each job, `term_uses` where each term is used,
    `fingerprints` those of the jobs' meaning, `edit_base` where the content's files are edited.
    """
    inline = Inline(shop, terms)
    lookup = Lookup(
        shop, where_used(shop), sheets, tuple(free_pages), term_uses, edition, fingerprints
    )
    writer = Writer(inline, overrides)
    planner = Planner(lookup, writer, inline, content_name)
    gone, provenance = moved or Moved(), Provenance(content_name, edit_base)
    pages = (
        page
        if page.address in gone.to or is_sheet(page.address)
        else with_foot(page, writer, shop, provenance)
        for page in lasting(planner.pages(), lookup, gone, writer, f"{content_name}/forwards.yml")
    )
    return tuple(pages), inline, partial(free_foot, writer, shop.manual, provenance)


__all__ = [
    "ASSETS",
    "ASSETS_ADDRESS",
    "KEY_POINT",
    "STYLES",
    "THEME",
    "Found",
    "Inline",
    "Link",
    "PlannedPage",
    "Rendered",
    "SearchEntry",
    "Section",
    "SiteFacts",
    "comparison_page",
    "day_of_build",
    "edit_links",
    "free_entries",
    "free_pages",
    "links_in",
    "meaning_files",
    "plan_pages",
    "problem_pages",
    "site_facts",
    "with_links",
]
