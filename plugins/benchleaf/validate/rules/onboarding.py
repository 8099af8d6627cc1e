"""L301, V421 and V422 in lists for new people: items lead somewhere, in an order that is safe."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding, Severity, suggestion
from benchleaf.model import DoneWhen, Item, Onboarding, Shop

from ..places import Places

_BY_HAND = (DoneWhen.TRIED, DoneWhen.DONE_ALONE)
"""Items in which the learner does the job."""


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """Findings about every list."""
    for one in shop.onboarding.values():
        for stage, line, item in one.items():
            yield from _leads_nowhere(shop, places, one, (stage, line, item))
        yield from _preface_first(shop, places, one)
        yield from _what_is_forgotten(shop, places, one)


def _leads_nowhere(
    shop: Shop, places: Places, one: Onboarding, at: tuple[int, int, Item]
) -> Iterator[Finding]:
    """Steps and free pages; all other references are checked with every record's."""
    stage, line, item = at
    path = ("stages", stage, "items", line)
    if item.page is not None and item.page not in shop.pages:
        yield Finding(
            "L301",
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
                "L301",
                Severity.ERROR,
                places.of("onboarding", one.id, (*path, "step")),
                f"job {job.id.upper()} has no step '{item.step}'",
                suggestion(item.step, steps, what="steps"),
            )


def _preface_first(shop: Shop, places: Places, one: Onboarding) -> Iterator[Finding]:
    """The safety preface, explained back and signed, stands before the first job."""
    preface = shop.manual.preface
    if preface not in shop.pages:  # V404 says so already
        return
    for stage, line, item in one.items():
        if item.page == preface and item.done_when is DoneWhen.EXPLAINED_BACK and item.signed_by:
            return
        if item.job is not None:
            yield Finding(
                "V421",
                Severity.ERROR,
                places.of("onboarding", one.id, ("stages", stage, "items", line, "job")),
                f"{item.job.upper()} comes before the safety preface is explained back and signed",
                (
                    f"put before it: page: {preface}, done_when: {DoneWhen.EXPLAINED_BACK}, "
                    "signed_by: [trainer]",
                ),
            )
            return


def _what_is_forgotten(shop: Shop, places: Places, one: Onboarding) -> Iterator[Finding]:
    """Jobs to know first that the list neither has before, done alone, nor counts as known."""
    able = set(one.already)
    for stage, line, item in one.items():
        job_id = item.job
        if job_id is None or item.done_when not in _BY_HAND:
            continue
        forgotten = [wanted for wanted in _know_first(shop, job_id) if wanted not in able]
        if forgotten:
            names = ", ".join(wanted.upper() for wanted in forgotten)
            yield Finding(
                "V422",
                Severity.WARNING,
                places.of("onboarding", one.id, ("stages", stage, "items", line, "job")),
                f"{job_id.upper()} is done before the learner can do {names}",
                (
                    f"put it before with done_when: {DoneWhen.DONE_ALONE}",
                    "or under already: where these people can do it before they begin",
                ),
            )
        if item.done_when is DoneWhen.DONE_ALONE and item.step is None:
            able.add(job_id)


def _know_first(shop: Shop, job_id: str) -> tuple[str, ...]:
    """Every job to know first, those of those too, the first to learn first."""
    found: dict[str, None] = {}

    def visit(one: str) -> None:
        job = shop.jobs.get(one)
        for wanted in job.know_first if job else ():
            if wanted not in found:
                found[wanted] = None
                visit(wanted)

    visit(job_id)
    return () if job_id in found else tuple(reversed(found))  # a ring is told by L302
