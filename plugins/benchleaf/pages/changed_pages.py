"""The pages and sheets of short lessons; the full edition alone has them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from benchleaf.html.lookup import Lookup
from benchleaf.html.site_facts import SHEET_STYLES
from benchleaf.html.values import Ends, Link, PlannedPage, Rendered
from benchleaf.html.writer import Writer
from benchleaf.link import CHANGED_SHEET, lesson_address, sheet_address
from benchleaf.model import Job
from benchleaf.plan import Timetable

from .changed_lesson import SHEET_NAME, changed_lesson


def lesson_links(lookup: Lookup, job: Job) -> tuple[Link, ...]:
    """Links to the short lesson of a job and its sheet, where its changes are written down."""
    if job.id not in lookup.shop.changes:
        return ()
    page = Link(lesson_address(job.id), "What changed: was, now, and what to ask")
    return page, Link(sheet_address(job.id, CHANGED_SHEET), SHEET_NAME)


@dataclass(frozen=True)
class ChangedPages:
    """Plans the short lessons of all jobs whose changes are written down."""

    lookup: Lookup
    writer: Writer
    plan: Timetable | None
    content_name: str

    def pages(self) -> Iterator[PlannedPage]:
        """A page and a sheet for each such job."""
        for job_id in self.lookup.shop.changes:
            job = self.lookup.shop.jobs.get(job_id)
            if job is None:
                continue
            source = f"{self.content_name}/changed/{job_id}.yml"
            for here, name, template in (
                (lesson_address(job_id), "What changed", "lesson.html.jinja"),
                (sheet_address(job_id, CHANGED_SHEET), SHEET_NAME, "sheet-changed.html.jinja"),
            ):
                make = partial(self._make, job, here, template)
                title = f"{name}: {job_id.upper()} {job.title}"
                yield PlannedPage(here, title, source, make, styles=SHEET_STYLES)

    def _make(self, job: Job, here: str, template: str, ends: Ends) -> Rendered:
        view = changed_lesson(self.lookup, job, self.plan)
        manual = self.lookup.shop.manual
        return Rendered(self.writer.write(template, here, ends, view=view, manual=manual), ())
