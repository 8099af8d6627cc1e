"""Stop 6: which pages exist (plan), plain data for templates (views), and their HTML."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path
from types import MappingProxyType

from benchleaf.compute import SetUpSheet, all_with_holds, as_read, shown_shop
from benchleaf.drawings.part_plan import part_plan
from benchleaf.drawings.record_symbols import drawn
from benchleaf.html.inline import Inline
from benchleaf.html.laid_out import Table
from benchleaf.html.lookup import Lookup, jobs_elsewhere
from benchleaf.html.values import Link, PlannedPage
from benchleaf.html.writer import Writer
from benchleaf.link import TermIndex, Use, is_sheet, where_used
from benchleaf.model import Shop, drafts
from benchleaf.people.learner_view import LearnerView
from benchleaf.people.people_pages import PeoplePages
from benchleaf.plan import Standing, Timetable
from benchleaf.registers import Moved

from .changed_lesson import lessons_apart
from .comparison import comparison_page
from .foot import Provenance, edit_links, free_foot, with_foot
from .hazard_share import HazardShare, hazard_share
from .job_view import job_view
from .lasting import lasting
from .planner import Planner
from .problems import problem_pages


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
    people: Timetable | None = None,
    machine: str = "",
    layouts: Table = MappingProxyType({}),
) -> tuple[tuple[PlannedPage, ...], Inline, Callable[[str], str]]:
    """Every page of the manual; for free pages, what renders running text and a page's foot.

    `sheets` are the computed set-ups of each job, `term_uses` where each term is used,
    `fingerprints` those of the jobs' meaning, `edit_base` where the content's files are edited,
    `people` the plan of a crew for the full edition, `machine` the one at which a kiosk stands,
    `layouts` how steps are laid out on screens.
    """
    unfinished = drafts(shop)
    open_files = {f"{content_name}/{shop.source_file(*one)}" for one in unfinished.records}
    meant, read = (shop, sheets), all_with_holds(shop, as_read(sheets))
    shop = shown_shop(shop, read)
    inline = Inline(shop, terms)
    lookup = Lookup(
        shop, where_used(shop), read, tuple(free_pages), term_uses, edition, fingerprints, meant,
        machine, jobs_elsewhere(shop, machine) if machine else frozenset(),
    )  # fmt: skip
    writer = Writer(inline, overrides, {"drawn": drawn, "plan": part_plan}, layouts)
    people_pages = PeoplePages(lookup, writer, people if edition == "full" else None)
    planner = Planner(lookup, writer, inline, people_pages, content_name)
    gone = moved or Moved()
    provenance = Provenance(content_name, edit_base, tuple(shop.drafts), edition == "kiosk")
    pages = (
        page if _has_no_foot(page.address, gone) else with_foot(page, shop.manual, provenance)
        for page in lasting(planner.pages(), lookup, gone, writer, f"{content_name}/forwards.yml")
    )
    marked = (
        replace(page, is_draft=True) if unfinished.whole or page.source_file in open_files else page
        for page in pages
    )
    return tuple(marked), inline, partial(free_foot, writer, shop.manual, provenance)


def _has_no_foot(address: str, gone: Moved) -> bool:
    """Forwards, sheets, and pages about people: nobody is to pass on a link to those."""
    return address in gone.to or is_sheet(address) or address.startswith("people/")


def hazard_shares(
    shop: Shop, terms: TermIndex, sheets: Mapping[str, tuple[SetUpSheet, ...]]
) -> dict[str, HazardShare]:
    """How much of each job is warning, by its id; none of a job that must not be run."""
    read = all_with_holds(shop, as_read(sheets))
    shop = shown_shop(shop, read)
    lookup, plain = Lookup(shop, where_used(shop), read), Inline(shop, terms).plain
    views = (job_view(lookup, job) for job in shop.jobs.values())
    return {view.job.id: hazard_share(view, plain) for view in views if view.may_run}


def calendar_files(
    shop: Shop,
    terms: TermIndex,
    sheets: Mapping[str, tuple[SetUpSheet, ...]],
    people: Timetable | None,
    term_uses: Mapping[str, tuple[Use, ...]],
) -> tuple[tuple[str, str], ...]:
    """Address and text of the calendar file of each follow-up plan."""
    if people is None:
        return ()
    return tuple(_about_people(shop, terms, sheets, people, term_uses).calendars())


def learner(
    shop: Shop,
    terms: TermIndex,
    sheets: Mapping[str, tuple[SetUpSheet, ...]],
    people: Timetable,
    standing: Standing,
    term_uses: Mapping[str, tuple[Use, ...]],
) -> LearnerView:
    """What the page of one person at one job holds, for other printers than pages."""
    return _about_people(shop, terms, sheets, people, term_uses).view(standing)


def _about_people(
    shop: Shop,
    terms: TermIndex,
    sheets: Mapping[str, tuple[SetUpSheet, ...]],
    people: Timetable,
    term_uses: Mapping[str, tuple[Use, ...]],
) -> PeoplePages:
    """The pages about people, for other printers than pages."""
    read = all_with_holds(shop, as_read(sheets))
    shop = shown_shop(shop, read)
    lookup = Lookup(shop, where_used(shop), read, (), term_uses, edition="full")
    return PeoplePages(lookup, Writer(Inline(shop, terms)), people)


__all__ = [
    "calendar_files",
    "comparison_page",
    "edit_links",
    "hazard_shares",
    "learner",
    "lessons_apart",
    "plan_pages",
    "problem_pages",
]
