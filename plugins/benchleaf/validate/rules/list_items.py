"""L301 in lists for new people: steps and free pages are there."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding, Severity, suggestion
from benchleaf.model import Item, Onboarding, Shop

from ..places import Places
from ..rule import ShopRule
from .references import CODE as DANGLING


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """All other references are checked with every record's."""
    for one in shop.onboarding.values():
        for stage, line, item in one.items():
            yield from _leads_nowhere(shop, places, one, (stage, line, item))


def _leads_nowhere(
    shop: Shop, places: Places, one: Onboarding, at: tuple[int, int, Item]
) -> Iterator[Finding]:
    stage, line, item = at
    path = ("stages", stage, "items", line)
    if item.page is not None and item.page not in shop.pages:
        yield Finding(
            DANGLING.id,
            Severity.ERROR,
            places.of("onboarding", one.id, (*path, "page")),
            f"there is no page '{item.page}' among the pages",
            suggestion(item.page, shop.pages, what="the pages"),
        )
    job = shop.jobs.get(item.job or "")
    if job is not None and item.step is not None:
        steps = [step.id for step in job.steps]
        if item.step not in steps:
            yield Finding(
                DANGLING.id,
                Severity.ERROR,
                places.of("onboarding", one.id, (*path, "step")),
                f"job {job.id.upper()} has no step '{item.step}'",
                suggestion(item.step, steps, what="steps"),
            )


RULE = ShopRule(check, (DANGLING,))
