"""Which pages there are about people, and their calendar files. The full edition alone has them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property, partial

from benchleaf.html.dates import long_date
from benchleaf.html.lookup import Lookup
from benchleaf.html.site_facts import SHEET_STYLES
from benchleaf.html.values import Ends, PlannedPage, Rendered
from benchleaf.html.writer import Writer
from benchleaf.link import TIMETABLE_PAGE
from benchleaf.model import Follows, Job, Person
from benchleaf.plan import WHAT, Standing, Timetable

from .cadence_view import RULE
from .learner_view import LearnerView, Words, calendar_of, learner_view, words_of_jobs
from .list_view import list_address, list_view
from .may_view import who_may_view
from .people_view import (
    learner_address,
    learner_pages,
    not_to_run,
    person_address,
    person_view,
    timetable_view,
)
from .record_page import RECORD_WORDS, record_address, record_view

WHO_MAY_PAGE = "people/who-may.html"
"""No staff code looks like it."""
NO_SOURCE = "crew"
"""People's files are in no repository, so that these pages have no file to edit."""


@dataclass(frozen=True)
class PeoplePages:
    """Plans the pages about people; nothing but the timetable where no crew is named."""

    lookup: Lookup
    writer: Writer
    plan: Timetable | None

    def pages(self) -> Iterator[PlannedPage]:
        """Every page about people. None has an entry in the search."""
        yield _page(TIMETABLE_PAGE, "Training timetable", self._timetable)
        yield from self._record_pages()
        if self.plan is None:
            return
        day = long_date(self.plan.situation.today)  # on paper it stands at the foot of each page
        yield _page(WHO_MAY_PAGE, f"Who may what on {day}", self._who_may)
        for person in self.plan.situation.crew.people.values():
            make = partial(self._person, person)
            yield _page(person_address(person.id), person.id, make)
            for follows in person.follows:
                title = f"{person.id}: {self.lookup.shop.onboarding[follows.list].title}"
                make = partial(self._list, person, follows)
                yield _page(list_address(person.id, follows.list), title, make)
        for (code, job_id), standing in learner_pages(self.plan).items():
            title = f"{code} at {job_id.upper()}"
            make = partial(self._learner, standing)
            yield _page(learner_address(code, job_id), title, make)

    def _record_pages(self) -> Iterator[PlannedPage]:
        """A page a job on which a trainer records what was done; it needs no crew."""
        for job in self.lookup.jobs:
            page = _page(record_address(job.id), f"Record: {job.id.upper()} {job.title}",
                         partial(self._record, job))  # fmt: skip
            yield replace(
                page, styles=(*SHEET_STYLES, "record.css"), scripts=("record-file.js", "record.js")
            )

    def calendars(self) -> Iterator[tuple[str, str]]:
        """Address and text of the calendar file of each follow-up plan."""
        if self.plan is None:
            return
        shop = self.lookup.shop.manual.shop
        for (code, job_id), standing in learner_pages(self.plan).items():
            view = self.view(standing)
            if view.follow_up is not None:
                yield learner_address(code, job_id, "ics"), calendar_of(view, shop)

    @cached_property
    def _words(self) -> Words:
        return words_of_jobs(self.lookup)

    def view(self, standing: Standing) -> LearnerView:
        """The view of one person at one job."""
        assert self.plan is not None
        return learner_view(self.lookup, self.plan, standing, self._words)

    def _timetable(self, ends: Ends) -> Rendered:
        view = timetable_view(self.lookup, self.plan) if self.plan else None
        stopped = not_to_run(self.lookup)
        return self._write(
            "timetable.html.jinja", TIMETABLE_PAGE, ends, view=view, not_to_run=stopped
        )

    def _who_may(self, ends: Ends) -> Rendered:
        assert self.plan is not None
        view = who_may_view(self.lookup, self.plan.situation)
        return self._write("who-may.html.jinja", WHO_MAY_PAGE, ends, view=view)

    def _record(self, job: Job, ends: Ends) -> Rendered:
        crew = self.plan.situation.crew if self.plan is not None else None
        view = record_view(self.lookup, job, crew)
        here = record_address(job.id)
        return self._write("record.html.jinja", here, ends, view=view, kinds=RECORD_WORDS)

    def _person(self, person: Person, ends: Ends) -> Rendered:
        assert self.plan is not None
        view = person_view(self.lookup, self.plan, person)
        return self._write("person.html.jinja", person_address(person.id), ends, view=view)

    def _learner(self, standing: Standing, ends: Ends) -> Rendered:
        here = learner_address(*standing.key)
        return self._write(
            "learner.html.jinja", here, ends, view=self.view(standing), what=WHAT, rule=RULE
        )

    def _list(self, person: Person, follows: Follows, ends: Ends) -> Rendered:
        assert self.plan is not None
        here = list_address(person.id, follows.list)
        view = list_view(self.lookup, self.plan, person, follows)
        return self._write("person-list.html.jinja", here, ends, view=view)

    def _write(self, template: str, here: str, ends: Ends, **view: object) -> Rendered:
        manual = self.lookup.shop.manual
        return Rendered(self.writer.write(template, here, ends, manual=manual, **view), ())


def _page(address: str, title: str, make: Callable[[Ends], Rendered]) -> PlannedPage:
    return PlannedPage(address, title, NO_SOURCE, make, styles=SHEET_STYLES)
