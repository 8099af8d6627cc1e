"""The page of a person at a job as plain data: what is new, their curve, when to look in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time

from markupsafe import Markup

from benchleaf.compute.practice import Curve, NoCurve, NoStandard, Standard
from benchleaf.drawings.figure_learning import learning_figure
from benchleaf.html.dates import week_date
from benchleaf.html.lookup import Lookup
from benchleaf.html.site_facts import day_of_build
from benchleaf.html.values import Link
from benchleaf.meaning import Changed
from benchleaf.model import Job, Person
from benchleaf.plan import (
    WHAT,
    Event,
    FollowUp,
    Novelty,
    Planned,
    Standing,
    Timetable,
    calendar_text,
    novelty,
    progress,
)

from .cadence_view import StageRow, follow_up_lines, stage_rows
from .curve_words import pieces_to_time, to_basic_time
from .people_view import learner_address, lesson_link, person_address

CHECK_MINUTES = 10
"""How long a check stands in a calendar. A house value."""

Words = Mapping[str, frozenset[str]]
"""The trade words met on each job's page, by job."""


@dataclass(frozen=True, slots=True)
class NewThings:
    """One heading of what is new: its words, and links where the manual has a page."""

    heading: str
    new: tuple[Link | str, ...]
    known: int


@dataclass(frozen=True, slots=True)
class DayRow:
    """A working day of the follow-up plan."""

    number: int
    day: date
    times: str
    why: str
    pieces: str
    minutes: str
    band: str


@dataclass(frozen=True, slots=True)
class LearnerView:
    """Everything on the page of a person at a job."""

    person: Person
    job: Job
    job_link: Link
    person_link: Link
    standing: Standing
    planned: Planned | None
    fingerprint: str
    day: date
    novelty: Novelty
    nearest: Link | None
    by_then: tuple[str, ...]
    """Jobs counted as known that the plan teaches before, each with the day on which it ends."""
    things: tuple[NewThings, ...]
    standard: Standard | None
    curve: Curve | None
    not_computed: tuple[str, ...]
    to_basic: str
    """Between which pieces the basic time is reached, or why that is not told."""
    to_time: str
    """Which pieces to time next; empty where there are enough."""
    figure: Markup | None
    follow_up: FollowUp | None
    days: tuple[DayRow, ...]
    stages: tuple[StageRow, ...]
    """The cadence of the checks, and where they stand."""
    stands: tuple[str, ...]
    """How the follow-up stands, in sentences."""
    calendar: Link
    changed: tuple[Changed, ...]
    """What is taught otherwise since they were taught, first what can hurt."""
    lesson: Link | None
    """The short lesson of that, where there is one."""

    @property
    def has_band(self) -> bool:
        """True where some day's pieces still lie on the curve, and so have a band."""
        return any(one.band for one in self.days)


def learner_view(lookup: Lookup, plan: Timetable, standing: Standing, words: Words) -> LearnerView:
    """The view of one person at one job."""
    person, job = standing.person, standing.job
    before = plan.taught_before(person.id, job.id)
    new = novelty(lookup.shop, person, job, words, [one.lesson.job.id for one in before])
    found = progress(plan, person, job)
    standard = found.standard if isinstance(found.standard, Standard) else None
    curve = found.curve if isinstance(found.curve, Curve) else None
    absent = (
        one.missing
        for one in (found.standard, found.curve)
        if isinstance(one, NoStandard | NoCurve)
    )
    return LearnerView(
        person,
        job,
        lookup.link("jobs", job.id),
        Link(person_address(person.id), person.id),
        standing,
        plan.planned(person.id, job.id),
        plan.situation.fingerprints[job.id][:8],
        plan.situation.today,
        new,
        lookup.link("jobs", new.nearest) if new.nearest else None,
        tuple(
            f"{one.lesson.job.id.upper()}, planned to end on {week_date(one.last)}"
            for one in before
            if one.lesson.job.id in new.by_then
        ),
        tuple(_things(lookup, new)),
        standard,
        curve,
        tuple(absent),
        to_basic_time(curve, standard),
        pieces_to_time(curve, standard) if standard else "",
        learning_figure(curve, standard) if curve else None,
        found.follow_up,
        tuple(_days(found.follow_up, curve)),
        stage_rows(found.follow_up) if found.follow_up else (),
        tuple(follow_up_lines(found.follow_up)) if found.follow_up else (),
        Link(learner_address(person.id, job.id, "ics"), "Calendar file of these checks"),
        _grave_first(standing),
        lesson_link(standing),
    )


def _grave_first(standing: Standing) -> tuple[Changed, ...]:
    """What changed since they were taught: first what can hurt."""
    found = standing.since.changed if standing.since else None
    return tuple(sorted(found or (), key=lambda one: not one.is_grave))


_KINDS = {
    "machine": "machines",
    "material": "materials",
    "tool": "tools",
    "fluid": "fluids",
    "hazard": "hazards",
    "word": "terms",
}


def _things(lookup: Lookup, new: Novelty) -> Iterator[NewThings]:
    for heading, those in new.new.items():
        kind = _KINDS.get(heading)
        shown: tuple[Link | str, ...] = (
            tuple(lookup.link(kind, one) for one in those) if kind else those
        )
        yield NewThings(heading, shown, len(new.known.get(heading, ())))


def _days(follow_up: FollowUp | None, curve: Curve | None) -> Iterator[DayRow]:
    for one in follow_up.days if follow_up else ():
        times = ", ".join(f"{each:%H:%M}" for each in one.times)
        if one.unmet:
            times = f"{times}; {one.unmet} more: no trainer has time".removeprefix("; ")
        pieces = minutes = band = ""
        if one.expected_s is not None and one.first_piece is not None and one.last_piece:
            pieces = f"{one.first_piece} to {one.last_piece}"
            minutes = f"{one.expected_s / 60:.1f}"
            wide = curve.band(max(one.last_piece, 1)) if curve else None
            if wide and curve and curve.expected_s(max(one.last_piece, 1)) >= one.expected_s - 1e-6:
                band = f"{wide.low_s / 60:.1f} to {wide.high_s / 60:.1f}"
        yield DayRow(one.number, one.day, times, one.why, pieces, minutes, band)


def words_of_jobs(lookup: Lookup) -> Words:
    """The trade words that each job's texts use."""
    found: dict[str, set[str]] = {}
    for term_id, uses in lookup.term_uses.items():
        for use in uses:
            if use.kind == "jobs":
                found.setdefault(use.id, set()).add(term_id)
    return {job_id: frozenset(terms) for job_id, terms in found.items()}


def calendar_of(view: LearnerView, shop: str) -> str:
    """The checks of a follow-up plan as an iCalendar file."""
    name = f"Checks: {view.person.id} at {view.job.id.upper()}"
    made = datetime.combine(day_of_build(), time(), UTC)
    days = view.follow_up.days if view.follow_up else ()
    place = "".join(sign if sign.isalnum() else "-" for sign in shop.lower())
    again = view.follow_up.revisit if view.follow_up else ()
    first = f"Missed last time: {'; '.join(one.says for one in again)}. " if again else ""
    looks = [(one, begin, number) for one in days for number, begin in enumerate(one.times, 1)]
    soonest = next((begin for one, begin, _ in looks if one.day >= view.day), None)
    events = (
        Event(
            f"{view.person.id}-{view.job.id}-{one.day:%Y%m%d}-{number}@{place}",
            begin,
            CHECK_MINUTES,
            f"Check {view.person.id} at {view.job.id.upper()}",
            f"{view.job.title}. Day {one.number} on their own. "
            f"{first if begin == soonest else ''}{' '.join(WHAT)}",
        )
        for one, begin, number in looks
    )
    return calendar_text(name, made, events)
