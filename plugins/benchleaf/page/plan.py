"""Stop 6a: which pages exist, from where, and how each is made."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from benchleaf.link import HOME_PAGE, SIGNAL_WORDS_PAGE, TERMS_PAGE, address, index_address
from benchleaf.model import FOLDERS, Job, Record, SignalWord, Term, name_of

from .entries import job_entries, record_entry
from .home_view import home_view, index_view
from .job_view import job_view
from .lookup import KIND_WORDS, Lookup
from .record_view import record_view
from .values import PlannedPage, Rendered, SearchEntry, Section
from .writer import Writer


@dataclass(frozen=True, slots=True)
class Planner:
    """Plans every page of the manual."""

    lookup: Lookup
    writer: Writer
    content_name: str
    """The content folder's name, for edit links."""

    def pages(self) -> Iterator[PlannedPage]:
        """Every page, in the order of the manual."""
        manual = f"{self.content_name}/manual.yml"
        shop = self.lookup.shop
        yield PlannedPage(HOME_PAGE, shop.manual.title, manual, self._home)
        yield PlannedPage(SIGNAL_WORDS_PAGE, "What the signal words mean", manual, self._words)
        yield PlannedPage(
            TERMS_PAGE, KIND_WORDS["terms"], f"{self.content_name}/terms.yml", self._terms
        )
        for kind in FOLDERS:
            yield PlannedPage(
                index_address(kind), KIND_WORDS[kind], manual, partial(self._index, kind)
            )
            for record_id, record in shop.of_kind(kind).items():
                yield self._record_page(kind, record_id, record)

    def _record_page(self, kind: str, record_id: str, record: Record) -> PlannedPage:
        source = f"{self.content_name}/{kind}/{record_id}.yml"
        if isinstance(record, Job):
            title = f"{record_id.upper()} {record.title}"
            return PlannedPage(address(kind, record_id), title, source, partial(self._job, record))
        return PlannedPage(
            address(kind, record_id), name_of(record), source, partial(self._record, kind, record)
        )

    def _job(self, job: Job) -> Rendered:
        view = job_view(self.lookup, job)
        html = self._write("job.html.jinja", address("jobs", job.id), view=view)
        entries = tuple(job_entries(job, self.writer.inline.plain))
        return Rendered(html, view.sections, entries)

    def _record(self, kind: str, record: Record) -> Rendered:
        view = record_view(self.lookup, kind, record)
        here = address(kind, str(getattr(record, "id", "")))
        html = self._write(f"{kind.removesuffix('s')}.html.jinja", here, view=view)
        entry = record_entry(kind, record, self.writer.inline.plain)
        return Rendered(html, (), (entry,))

    def _home(self) -> Rendered:
        html = self._write("home.html.jinja", HOME_PAGE, view=home_view(self.lookup))
        return Rendered(html, (), ())

    def _index(self, kind: str) -> Rendered:
        view = index_view(self.lookup, kind)
        return Rendered(self._write("index.html.jinja", index_address(kind), view=view), (), ())

    def _terms(self) -> Rendered:
        views = [record_view(self.lookup, "terms", term) for term in self._sorted_terms()]
        html = self._write("terms.html.jinja", TERMS_PAGE, views=views)
        plain = self.writer.inline.plain
        entries = tuple(record_entry("terms", view.record, plain) for view in views)
        return Rendered(html, (), entries)

    def _sorted_terms(self) -> list[Term]:
        return sorted(self.lookup.shop.terms.values(), key=lambda term: term.word.lower())

    def _words(self) -> Rendered:
        html = self._write("signal-words.html.jinja", SIGNAL_WORDS_PAGE, words=tuple(SignalWord))
        sections = tuple(Section(word.lower(), word) for word in SignalWord)
        entry = SearchEntry(
            SIGNAL_WORDS_PAGE, "What the signal words mean", "danger warning caution notice"
        )
        return Rendered(html, sections, (entry,))

    def _write(self, template: str, here: str, **view: object) -> str:
        return self.writer.write(template, here, manual=self.lookup.shop.manual, **view)
