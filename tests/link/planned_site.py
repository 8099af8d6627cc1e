"""The pages of a plan as HTML, and the addresses they do not hold."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from benchleaf.pipeline import SitePlan


def planned_pages(plan: SitePlan) -> dict[str, str]:
    """Every page by its address; the site engine makes the free pages, so they hold nothing."""
    pages = {page.address: page.render().html for page in plan.pages}
    return {**{page.address: "" for page in plan.free_pages}, **pages}


def broken(promised: Iterable[str], pages: Mapping[str, str]) -> list[str]:
    """Promised addresses whose page or anchor is not there exactly once."""
    return [
        one
        for one in promised
        if one.partition("#")[0] not in pages or not _holds(pages, *one.split("#"))
    ]


def _holds(pages: Mapping[str, str], page: str, anchor: str = "") -> bool:
    return not anchor or len(re.findall(rf'\sid="{re.escape(anchor)}"', pages[page])) == 1
