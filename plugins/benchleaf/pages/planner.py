"""Stop 6a: which pages exist, from where, and how each is made."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import partial

from benchleaf.compute.charts import Chart, charts
from benchleaf.compute.operation import Operation
from benchleaf.compute.operations import OPERATIONS
from benchleaf.html.inline import Inline
from benchleaf.html.lookup import FIND_WORDS, KIND_WORDS, SEE_WORDS, Lookup
from benchleaf.html.site_facts import (
    CHART_STYLES,
    DOOR_STYLES,
    JOB_STYLES,
    LIST_STYLES,
    SHEET_STYLES,
    WRONG_STYLES,
    day_of_build,
)
from benchleaf.html.values import Ends, Found, Link, PlannedPage, Rendered, SearchEntry
from benchleaf.html.writer import Writer
from benchleaf.link import (
    ENGINEER_PAGE,
    FIND_PAGE,
    HOME_PAGE,
    JOB_LISTS,
    SEE_PAGE,
    SIGNAL_WORDS_PAGE,
    TERMS_PAGE,
    TRAINER_PAGE,
    WATCHING_PAGE,
    WRONG_PAGE,
    Route,
    address,
    index_address,
    job_list_address,
)
from benchleaf.model import (
    FOLDERS,
    Job,
    KeyPointKind,
    Onboarding,
    Record,
    SignalWord,
    Term,
    name_of,
    units_of,
)
from benchleaf.people.people_pages import PeoplePages
from benchleaf.search.entries import job_entries, part_entry, record_entry
from benchleaf.workbooks import slips, watched

from .changed_pages import ChangedPages, lesson_links
from .find_view import find_view
from .guide import guide_pages
from .home_view import IndexRow, IndexView, home_view, index_view
from .job_lists import WORDS, job_list_view, ways
from .job_view import job_view, paper_foot
from .onboarding_view import onboarding_view
from .part_view import part_rows, part_view
from .record_view import hazards_by_word, record_view
from .reference_view import blocks_of, operation_rows, operation_view, told
from .see_view import see_view
from .sheets import sheet_links, sheet_pages
from .trainer_view import engineer_view, trainer_view
from .wrong_view import wrong_in_shop

WRONG_TITLE = "Something is wrong"
WATCHING_TITLE = "Watch and time a job"
WATCHING_ROWS = 8
"""Parts of the work on one printed sheet; on a tablet more are added."""


@dataclass(frozen=True, slots=True)
class _Watched:
    """The columns of the sheet for watching that are not texts of one kind."""

    times: tuple[str, ...] = tuple(one for one in watched.HEADS if watched.OPERATOR.fullmatch(one))
    tests: tuple[str, ...] = tuple(KeyPointKind)


@dataclass(frozen=True, slots=True)
class Planner:
    """Plans every page of the manual."""

    lookup: Lookup
    writer: Writer
    inline: Inline
    people: PeoplePages
    content_name: str
    """The content folder's name, for edit links."""

    def pages(self) -> Iterator[PlannedPage]:
        """Every page, in the order of the manual."""
        manual = f"{self.content_name}/manual.yml"
        shop = self.lookup.shop
        yield PlannedPage(HOME_PAGE, shop.manual.title, manual, self._home, styles=DOOR_STYLES)
        yield PlannedPage(FIND_PAGE, FIND_WORDS, manual, self._find)
        yield PlannedPage(SEE_PAGE, SEE_WORDS, manual, self._see, styles=("see.css",))
        yield PlannedPage(
            WRONG_PAGE,
            WRONG_TITLE,
            manual,
            self._wrong,
            styles=WRONG_STYLES,
            scripts=("wrong.js", "slips.js"),
        )
        yield PlannedPage(SIGNAL_WORDS_PAGE, "What the signal words mean", manual, self._words)
        yield PlannedPage(
            TERMS_PAGE, KIND_WORDS["terms"], f"{self.content_name}/terms.yml", self._terms
        )
        yield from self._job_lists(manual)
        yield from self._parts()
        yield from self._reference(manual)
        if self.lookup.edition == "full":
            yield from self._full_edition(manual)
        for kind in FOLDERS:
            if kind == "parts":  # above
                continue
            yield PlannedPage(
                index_address(kind), self.lookup.kind_words(kind), manual,
                partial(self._index, kind),
            )  # fmt: skip
            for record_id, record in shop.of_kind(kind).items():
                yield self._record_page(kind, record_id, record)

    def _job_lists(self, manual: str) -> Iterator[PlannedPage]:
        for way in JOB_LISTS:
            title = f"Jobs: {WORDS[way].lower()}"
            yield PlannedPage(job_list_address(way), title, manual, partial(self._job_list, way))

    def _parts(self) -> Iterator[PlannedPage]:
        jobs = f"{self.content_name}/jobs"
        copied = {one.id for one in self.lookup.shop.copied.values()}
        yield PlannedPage(
            index_address("parts"),
            KIND_WORDS["parts"],
            jobs,
            partial(self._rows, "parts", part_rows(self.lookup)),
        )
        for route in self.lookup.routes:
            title = f"{route.part.number} {route.part.name}"
            make = partial(self._part, route)
            source = jobs if route.id in copied else f"{self.content_name}/parts/{route.id}.yml"
            yield PlannedPage(address("parts", route.id), title, source, make)

    def _reference(self, manual: str) -> Iterator[PlannedPage]:
        index, title = index_address("operations"), KIND_WORDS["operations"]
        yield PlannedPage(index, title, manual, partial(self._rows, "operations", operation_rows()))
        for operation in OPERATIONS.values():
            address_ = address("operations", operation.name)
            make = partial(self._operation, operation)
            yield PlannedPage(address_, told(operation).capitalize(), manual, make)
        found = tuple(charts(self.lookup.shop))
        rows = tuple(
            IndexRow(Link(address("charts", one.id), one.title), one.how_to_read) for one in found
        )
        index, title = index_address("charts"), KIND_WORDS["charts"]
        yield PlannedPage(index, title, manual, partial(self._rows, "charts", rows))
        for chart in found:
            make = partial(self._chart, chart)
            where = address("charts", chart.id)
            yield PlannedPage(where, chart.title, manual, make, styles=CHART_STYLES)

    def _full_edition(self, manual: str) -> Iterator[PlannedPage]:
        yield PlannedPage(TRAINER_PAGE, "I train people", manual, self._trainer)
        yield PlannedPage(ENGINEER_PAGE, "I look after the breakdowns", manual, self._engineer)
        yield PlannedPage(
            WATCHING_PAGE,
            WATCHING_TITLE,
            manual,
            self._watching,
            styles=("watching.css",),
            scripts=("watching.js",),
        )
        yield from sheet_pages(self.lookup, self.writer, self.content_name)
        changed = ChangedPages(self.lookup, self.writer, self.people.plan, self.content_name)
        yield from changed.pages()
        yield from self.people.pages()
        yield from guide_pages(self.writer, self.lookup.shop.manual)

    def _record_page(self, kind: str, record_id: str, record: Record) -> PlannedPage:
        source = f"{self.content_name}/{self.lookup.shop.source_file(kind, record_id)}"
        if isinstance(record, Job):
            title = f"{record_id.upper()} {record.title}"
            if record_id in self.lookup.elsewhere:
                make = partial(self._elsewhere, record)
                return PlannedPage(address(kind, record_id), title, source, make)
            return PlannedPage(
                address(kind, record_id),
                title,
                source,
                partial(self._job, record),
                styles=JOB_STYLES + CHART_STYLES * bool(self.lookup.shop.alike(record_id)),
                scripts=(
                    "rest.js",
                    "parts.js",
                    "rack.js",
                    "fit.js",
                    "hazards.js",
                    "steps.js",
                    "rounds.js",
                    "wrong.js",
                    "work.js",
                    "slips.js",
                ),
                foot=paper_foot(record, self.lookup.shop.drafts),
            )
        if isinstance(record, Onboarding):
            make = partial(self._onboarding, record)
            where = address(kind, record_id)
            return PlannedPage(where, record.title, source, make, styles=SHEET_STYLES)
        make = partial(self._record, kind, record)
        styles = LIST_STYLES + DOOR_STYLES * (kind == "machines")
        return PlannedPage(address(kind, record_id), name_of(record), source, make, styles=styles)

    def _job(self, job: Job, ends: Ends) -> Rendered:
        view = job_view(self.lookup, job)
        if self.lookup.edition == "full":
            links = (*sheet_links(self.lookup, job), *lesson_links(self.lookup, job))
            view = replace(view, sheets=links)
        units = units_of(self.lookup.shop, job)
        html = self._write("job.html.jinja", address("jobs", job.id), ends, view=view,
                           units=units, slip_words=slips.WORDS)  # fmt: skip
        plain, may_run = self.inline.plain, view.may_run
        entries = tuple(job_entries(self.lookup.shop, job, plain, may_run=may_run))
        return Rendered(html, entries)

    def _elsewhere(self, job: Job, ends: Ends) -> Rendered:
        """The address lasts: a link or code for another machine leads to this one's page."""
        shop, here = self.lookup.shop, self.lookup.machine
        own = next(one for one in shop.alike(job.id) if one.machine == here)
        html = self._write(
            "other-machine.html.jinja", address("jobs", job.id), ends,
            job=job, machine=shop.machines[job.machine].name,
            own=self.lookup.link("jobs", own.id), own_machine=shop.machines[here].name,
        )  # fmt: skip
        return Rendered(html, ())

    def _record(self, kind: str, record: Record, ends: Ends) -> Rendered:
        view = record_view(self.lookup, kind, record)
        here = address(kind, str(getattr(record, "id", "")))
        html = self._write(f"{kind.removesuffix('s')}.html.jinja", here, ends, view=view,
                           units=units_of(self.lookup.shop, record))  # fmt: skip
        entry = record_entry(kind, record, self.inline.plain)
        return Rendered(html, (entry,))

    def _onboarding(self, record: Onboarding, ends: Ends) -> Rendered:
        view = onboarding_view(self.lookup, record)
        here = address("onboarding", record.id)
        html = self._write("onboarding.html.jinja", here, ends, view=view, made=day_of_build())
        return Rendered(html, (record_entry("onboarding", record, self.inline.plain),))

    def _home(self, ends: Ends) -> Rendered:
        found = ways(self.lookup.place)
        other_ways = tuple(Link(target, words) for way, words, target in found if way != "machine")
        view = home_view(self.lookup, other_ways)
        return Rendered(self._write("home.html.jinja", HOME_PAGE, ends, view=view), ())

    @property
    def _ways(self) -> tuple[tuple[str, str, str], ...]:
        return ways(self.lookup.place)

    def _find(self, ends: Ends) -> Rendered:
        html = self._write("find.html.jinja", FIND_PAGE, ends, view=find_view(self.lookup))
        return Rendered(html, (SearchEntry(FIND_PAGE, FIND_WORDS, Found.PAGE),))

    def _see(self, ends: Ends) -> Rendered:
        html = self._write("see.html.jinja", SEE_PAGE, ends, groups=see_view(self.lookup))
        return Rendered(html, (SearchEntry(SEE_PAGE, SEE_WORDS, Found.PAGE),))

    def _wrong(self, ends: Ends) -> Rendered:
        view = wrong_in_shop(self.lookup)
        html = self._write("wrong.html.jinja", WRONG_PAGE, ends, view=view, slip_words=slips.WORDS)
        texts = ("Somebody is hurt or caught", *(one.title for one in view.choices))
        return Rendered(html, (SearchEntry(WRONG_PAGE, WRONG_TITLE, Found.PAGE, texts),))

    def _job_list(self, way: str, ends: Ends) -> Rendered:
        view = job_list_view(self.lookup, way)
        here = job_list_address(way)
        html = self._write("job-list.html.jinja", here, ends, view=view, ways=self._ways)
        return Rendered(html, (SearchEntry(here, view.title, Found.PAGE),))

    def _rows(self, kind: str, rows: tuple[IndexRow, ...], ends: Ends) -> Rendered:
        view = IndexView(kind, KIND_WORDS[kind], rows, ())
        here = index_address(kind)
        html = self._write("index.html.jinja", here, ends, view=view, ways=())
        return Rendered(html, (SearchEntry(here, view.title, Found.PAGE),))

    def _operation(self, operation: Operation, ends: Ends) -> Rendered:
        here = address("operations", operation.name)
        view = operation_view(self.lookup, operation)
        entry = SearchEntry(here, told(operation).capitalize(), Found.OPERATION, (operation.what,))
        return Rendered(self._write("operation.html.jinja", here, ends, view=view), (entry,))

    def _chart(self, chart: Chart, ends: Ends) -> Rendered:
        here = address("charts", chart.id)
        entry = SearchEntry(here, chart.title, Found.CHART, (chart.how_to_read,))
        return Rendered(
            self._write("chart.html.jinja", here, ends, chart=chart, blocks=blocks_of(chart)),
            (entry,),
        )

    def _part(self, route: Route, ends: Ends) -> Rendered:
        here = address("parts", route.id)
        html = self._write("part.html.jinja", here, ends, view=part_view(self.lookup, route))
        return Rendered(html, (part_entry(route),))

    def _trainer(self, ends: Ends) -> Rendered:
        html = self._write("trainer.html.jinja", TRAINER_PAGE, ends, view=trainer_view(self.lookup))
        return Rendered(html, ())

    def _watching(self, ends: Ends) -> Rendered:
        html = self._write("watching.html.jinja", WATCHING_PAGE, ends, title=WATCHING_TITLE,
                           columns=_Watched(), rows=WATCHING_ROWS)  # fmt: skip
        return Rendered(html, (SearchEntry(WATCHING_PAGE, WATCHING_TITLE, Found.PAGE),))

    def _engineer(self, ends: Ends) -> Rendered:
        view = engineer_view(self.lookup, self.content_name)
        return Rendered(self._write("engineer.html.jinja", ENGINEER_PAGE, ends, view=view), ())

    def _index(self, kind: str, ends: Ends) -> Rendered:
        view = index_view(self.lookup, kind)
        here, links = index_address(kind), self._ways if kind == "jobs" else ()
        html = self._write("index.html.jinja", here, ends, view=view, ways=links)
        return Rendered(html, (SearchEntry(here, view.title, Found.PAGE),))

    def _terms(self, ends: Ends) -> Rendered:
        views = [record_view(self.lookup, "terms", term) for term in self._sorted_terms()]
        letters: dict[str, str] = {}
        for term in self._sorted_terms():
            letters.setdefault(term.word[:1].upper(), term.id)
        html = self._write(
            "terms.html.jinja", TERMS_PAGE, ends, views=views, letters=tuple(letters.items())
        )
        plain = self.inline.plain
        entries = tuple(record_entry("terms", view.record, plain) for view in views)
        return Rendered(html, entries)

    def _sorted_terms(self) -> list[Term]:
        return sorted(self.lookup.shop.terms.values(), key=lambda term: term.word.lower())

    def _words(self, ends: Ends) -> Rendered:
        by_word = tuple(hazards_by_word(self.lookup))
        html = self._write("signal-words.html.jinja", SIGNAL_WORDS_PAGE, ends, by_word=by_word)
        entry = SearchEntry(
            SIGNAL_WORDS_PAGE,
            "What the signal words mean",
            Found.PAGE,
            (", ".join(word.lower() for word in SignalWord),),
        )
        return Rendered(html, (entry,))

    def _write(self, template: str, here: str, ends: Ends, **view: object) -> str:
        return self.writer.write(template, here, ends, manual=self.lookup.shop.manual, **view)
