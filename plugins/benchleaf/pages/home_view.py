"""The home page and the lists of all records of a kind, as plain data."""

from __future__ import annotations

from dataclasses import dataclass

from benchleaf.drawings.part_plan import part_plan
from benchleaf.html.issue import issue_of
from benchleaf.html.lookup import FIND_WORDS, KIND_WORDS, Lookup
from benchleaf.html.values import Link, PictureView
from benchleaf.link import FIND_PAGE, TERMS_PAGE, index_address
from benchleaf.model import (
    FOLDERS,
    Hazard,
    Job,
    Machine,
    Record,
    SignalWord,
    StationKind,
    Tool,
    stations_of,
    units_at,
)


@dataclass(frozen=True, slots=True)
class JobTile:
    """A job in a list: its link, its part, and whether it may be run."""

    link: Link
    number: str
    title: str
    part: str | None
    issue: str
    """Its revision in words, or what it is a draft of."""
    may_run: bool
    authorised_only: bool
    picture: PictureView | None
    plan: str = ""
    """Its part from above, what the job makes as the strong line; it goes before the picture."""


@dataclass(frozen=True, slots=True)
class MachineTile:
    """A machine in a list, with its jobs."""

    link: Link
    what: str
    where: str
    picture: PictureView | None
    jobs: tuple[JobTile, ...]
    kind: StationKind
    machine: Machine
    """The record, for its drawn symbol."""


@dataclass(frozen=True, slots=True)
class HomeView:
    """Everything on the home page."""

    machines: tuple[MachineTile, ...]
    ways: tuple[Link, ...]
    """Other ways to find a job."""
    others: tuple[Link, ...]
    pages: tuple[Link, ...]
    """Free pages besides the preface."""
    full: bool
    """True in the edition for trainers and engineers."""
    preface: Link | None
    place: str = "machine"
    """What the places of the shop are called together."""


@dataclass(frozen=True, slots=True)
class IndexRow:
    """One record in a list of its kind."""

    link: Link
    what: str
    signal_word: SignalWord | None = None


@dataclass(frozen=True, slots=True)
class IndexView:
    """The list of all records of a kind; jobs are grouped by machine."""

    kind: str
    title: str
    rows: tuple[IndexRow, ...]
    machines: tuple[MachineTile, ...]


_LISTED = tuple(kind for kind in FOLDERS if kind not in ("jobs", "parts"))
"""Kinds whose lists stand last; jobs and parts stand before them."""


def home_view(lookup: Lookup, ways: tuple[Link, ...]) -> HomeView:
    """The view of the home page."""
    others = [Link(FIND_PAGE, FIND_WORDS), Link(TERMS_PAGE, KIND_WORDS["terms"]), *_reference()]
    others += [Link(index_address(kind), lookup.kind_words(kind)) for kind in _LISTED]
    preface = lookup.shop.manual.preface
    first = preface.removesuffix(".md") + ".html" if preface else ""
    page = next((one for one in lookup.free_pages if one.address == first), None)
    pages = tuple(one for one in lookup.free_pages if one is not page)
    full = lookup.edition == "full"
    return HomeView(machine_tiles(lookup), ways, tuple(others), pages, full, page, lookup.place)


def _reference() -> list[Link]:
    return [
        Link(index_address(kind), KIND_WORDS[kind]) for kind in ("parts", "charts", "operations")
    ]


def machine_tiles(lookup: Lookup) -> tuple[MachineTile, ...]:
    """Every machine with its jobs."""
    jobs: dict[str, list[JobTile]] = {}
    for job in lookup.jobs:
        for one in stations_of(lookup.shop, job.machine):  # at a cell: at each of its stations
            jobs.setdefault(one.id, []).append(job_tile(lookup, job))
    return tuple(
        MachineTile(
            lookup.link("machines", machine.id),
            machine.what,
            machine.where,
            lookup.picture(machine.picture),
            tuple(jobs.get(machine.id, ())),
            machine.kind,
            machine,
        )
        for machine in lookup.shop.machines.values()
    )


def _part_words(lookup: Lookup, job: Job) -> str | None:
    piece = lookup.shop.piece(job)
    return f"{piece.part.number} {piece.part.name}" if piece else None


def job_tile(lookup: Lookup, job: Job) -> JobTile:
    """A job as a tile."""
    return JobTile(
        lookup.link("jobs", job.id),
        job.id.upper(),
        job.title,
        _part_words(lookup, job),
        issue_of(job, lookup.shop.drafts),
        not lookup.not_to_run(job),
        job.authorised_only is not None,
        lookup.picture(job.picture),
        plan_of(lookup, job),
    )


def plan_of(lookup: Lookup, job: Job) -> str:
    """The part from above as a job leaves it; empty where no form is given."""
    piece = lookup.shop.piece(job)
    if piece is None or piece.leaves is None:
        return ""
    return part_plan(piece.part, piece.leaves.id, units_at(lookup.shop, job))


def index_view(lookup: Lookup, kind: str) -> IndexView:
    """The list of one kind."""
    if kind == "jobs":
        return IndexView(kind, KIND_WORDS[kind], (), machine_tiles(lookup))
    records = sorted(lookup.shop.of_kind(kind).items(), key=lambda item: _order(*item))
    rows = tuple(_row(lookup, kind, record_id, record) for record_id, record in records)
    return IndexView(kind, lookup.kind_words(kind), rows, ())


def _order(record_id: str, record: Record) -> tuple[int, str]:
    """Hazards gravest first, tools by kind, all else by name."""
    if isinstance(record, Hazard):
        return record.signal_word.rank, record.title
    group = list(type(record.kind)).index(record.kind) if isinstance(record, Tool) else 0
    return group, record_id


def _row(lookup: Lookup, kind: str, record_id: str, record: Record) -> IndexRow:
    word = record.signal_word if isinstance(record, Hazard) else None
    return IndexRow(
        lookup.link(kind, record_id),
        str(getattr(record, "what", "") or getattr(record, "for_whom", "")),
        word,
    )
