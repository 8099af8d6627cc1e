"""Pages about people as plain data: the timetable, and each person. Full edition only."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from markupsafe import Markup

from benchleaf.drawings.figure_time import time_figure
from benchleaf.html.dates import day_month, hours, short_date
from benchleaf.html.lookup import Lookup
from benchleaf.html.values import Link
from benchleaf.link import free_page_address, lesson_address
from benchleaf.model import Job, Person
from benchleaf.plan import Load, Planned, Signed, Signing, Standing, State, Timetable, Unplanned

from .list_view import list_address
from .plan_words import TrainerDay, first_days, moved_words, not_teaching_words, trainer_days, unmet

_COLUMNS = 8
"""People side by side in one table, so that it prints on a sheet."""


def person_address(code: str) -> str:
    """The page of a person."""
    return f"people/{code}.html"


def learner_address(code: str, job_id: str, ending: str = "html") -> str:
    """The page of a person at a job; with `ics` its calendar file."""
    return f"people/{code}-{job_id}.{ending}"


def lesson_link(standing: Standing) -> Link | None:
    """The short lesson of what changed for somebody; none where that was not written down."""
    since = standing.since
    if since is None or not since.changed:
        return None
    count = len(since.changed)
    words = f"short lesson: {count} change{'s' if count > 1 else ''}"
    return Link(lesson_address(standing.job.id), words)


@dataclass(frozen=True, slots=True)
class Cell:
    """A person and a job in the table."""

    css: str
    words: str
    link: Link | None


@dataclass(frozen=True, slots=True)
class MatrixRow:
    """A job, and where each person of the block stands."""

    job: Link
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Block:
    """Some people side by side."""

    people: tuple[Link, ...]
    rows: tuple[MatrixRow, ...]


@dataclass(frozen=True, slots=True)
class CoverRow:
    """A job and shift against the cover wanted."""

    job: Link
    shift: str
    wanted: int
    able: tuple[str, ...]
    lapsed: tuple[str, ...]
    coming: tuple[str, ...]
    """Codes with the day on which they are planned to be able."""
    says: str


@dataclass(frozen=True, slots=True)
class LessonRow:
    """A lesson of the plan."""

    link: Link
    person: str
    planned: Planned
    changed: Link | None = None
    """The short lesson of what changed, where there is one."""
    others: tuple[Link, ...] = ()
    """The others whom the same talk serves."""


@dataclass(frozen=True, slots=True)
class SigningRow:
    """A page that is to be signed, and who stands how with it."""

    page: Link
    states: tuple[tuple[Signed, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class TimetableView:
    """Everything on the timetable's page."""

    day: date
    people: int
    cannot: tuple[str, ...]
    """What cannot be met and by how much, in sentences."""
    blocks: tuple[Block, ...]
    cover: tuple[CoverRow, ...]
    only_one: tuple[tuple[Link, str], ...]
    figure: Markup | None
    lessons: tuple[LessonRow, ...]
    unplanned: tuple[tuple[Link, Unplanned], ...]
    loads: tuple[Load, ...]
    signings: tuple[SigningRow, ...]
    moved: tuple[str, ...]
    """What people were told and is otherwise now, in sentences."""
    told_on: date | None
    """The day of the plan that they were told."""
    days: tuple[TrainerDay, ...]
    """What each trainer does on the next days."""
    says: str
    """How good the plan is known to be."""
    not_teaching: tuple[str, ...]
    """Trainers who may not give lessons that are wanted, each with jobs and reason."""


def timetable_view(lookup: Lookup, plan: Timetable) -> TimetableView:
    """The view of the whole plan."""
    pairs = learner_pages(plan)
    schedule = plan.schedule
    return TimetableView(
        plan.situation.today,
        len(plan.situation.crew.people),
        tuple(cannot_be_met(plan)),
        tuple(_blocks(lookup, plan, pairs)),
        tuple(_cover(lookup, plan)),
        tuple((lookup.link("jobs", one.job), one.person) for one in plan.only_one),
        time_figure(plan),
        tuple(_lesson_row(lookup, plan, one) for one in schedule.planned if one.leads),
        tuple((_learner_link(lookup, one.lesson.person, one.lesson.job), one)
              for one in schedule.unplanned),
        schedule.loads,
        signing_rows(lookup, plan),
        tuple(moved_words(one) for one in schedule.moved),
        plan.situation.promised.made if plan.situation.promised else None,
        first_days(trainer_days(plan)),
        schedule.known.says,
        tuple(not_teaching_words(one) for one in plan.not_teaching),
    )  # fmt: skip


def _lesson_row(lookup: Lookup, plan: Timetable, one: Planned) -> LessonRow:
    lesson = one.lesson
    return LessonRow(
        _learner_link(lookup, lesson.person, lesson.job),
        lesson.person.id,
        one,
        lesson_link(plan.standings[lesson.key]),
        tuple(Link(learner_address(code, lesson.job.id), code) for code in one.people[1:]),
    )


def signing_rows(lookup: Lookup, plan: Timetable) -> tuple[SigningRow, ...]:
    """Each page that is to be signed, with those for whom something follows."""
    found: dict[str, dict[Signed, list[str]]] = {}
    for one in plan.signings:
        by_state = found.setdefault(one.page, {})
        by_state.setdefault(one.state, []).append(one.person.id)
    return tuple(
        SigningRow(
            page_link(lookup, page),
            tuple((state, tuple(by_state[state])) for state in Signed if state in by_state),
        )
        for page, by_state in found.items()
    )


def page_link(lookup: Lookup, page: str) -> Link:
    """A link to a free page, by its title where it has one."""
    target = free_page_address(page)
    words = (one.words for one in lookup.free_pages if one.address == target)
    return Link(target, next(words, page))


def not_to_run(lookup: Lookup) -> tuple[str, ...]:
    """Each job that nobody may run and why, in a sentence without its full stop."""
    return tuple(
        f"{lookup.link('jobs', job.id).words}: {reason}"
        for job in lookup.shop.jobs.values()
        for reason in lookup.not_to_run(job)
    )


def _job_link(lookup: Lookup, job: Job) -> Link:
    """A job by its name, and that it must not be run, where that is so."""
    link = lookup.link("jobs", job.id)
    return Link(link.address, f"{link.words}: do not run") if lookup.not_to_run(job) else link


def learner_pages(plan: Timetable) -> dict[tuple[str, str], Standing]:
    """Pairs of person and job with a page: to be taught, still followed up, or timed."""
    asked = {one.key for one in plan.lessons}
    return {
        key: one
        for key, one in plan.standings.items()
        if key in asked or _is_followed(plan, one) or (one.sign_off and one.sign_off.timed)
    }


def _is_followed(plan: Timetable, standing: Standing) -> bool:
    """True for somebody with a sign-off and checks still to come."""
    found = plan.schedule.follow_ups.get(standing.key)
    if standing.sign_off is None or found is None:
        return False
    return any(one.day >= plan.situation.today for one in found.days)


def _learner_link(lookup: Lookup, person: Person, job: Job) -> Link:
    words = lookup.link("jobs", job.id).words
    return Link(learner_address(person.id, job.id), f"{person.id}: {words}")


def cannot_be_met(plan: Timetable) -> Iterator[str]:
    """What cannot be met and by how much, in sentences."""
    for one in plan.schedule.unplanned:
        yield f"{one.lesson.person.id} at {one.lesson.job.id.upper()}: {one.why}."
    for late in plan.schedule.late:
        days = f"{late.late_days} day{'s' if late.late_days > 1 else ''}"
        yield (
            f"{late.lesson.person.id} at {late.lesson.job.id.upper()} is ready on "
            f"{short_date(late.last)}, {days} late."
        )
    yield from unmet(plan)
    for load in plan.schedule.loads:
        if load.short_minutes > 0:
            yield _shortage(load)


def _shortage(load: Load) -> str:
    by = f" by {short_date(load.short_by)}" if load.short_by else ""
    short = f"{load.trainer.id} has {hours(load.short_minutes)} too little{by} for lessons alone."
    if load.wanted_minutes_a_shift is None:
        return f"{short} No time a shift would meet every day asked for."
    return f"{short} It takes {hours(load.wanted_minutes_a_shift)} a shift at least, checks apart."


def _blocks(
    lookup: Lookup, plan: Timetable, pairs: dict[tuple[str, str], Standing]
) -> Iterator[Block]:
    people = tuple(plan.situation.crew.people.values())
    for start in range(0, len(people), _COLUMNS):
        some = people[start : start + _COLUMNS]
        yield Block(
            tuple(Link(person_address(one.id), one.id, one.shift) for one in some),
            tuple(
                MatrixRow(
                    _job_link(lookup, job),
                    tuple(_cell(plan.standings[one.id, job.id], pairs) for one in some),
                )
                for job in plan.jobs
            ),
        )


def _cell(standing: Standing, pairs: dict[tuple[str, str], Standing]) -> Cell:
    has_page = standing.key in pairs
    address = learner_address(*standing.key) if has_page else ""
    words = state_words(standing)
    link = Link(address, words) if has_page and words else None
    return Cell(standing.state.value.replace(" ", "-"), words, link)


def state_words(standing: Standing) -> str:
    """Where a person stands, in as few words as the table has room for."""
    if standing.state is State.NOTHING:
        return ""
    if standing.state is State.NOT_NEEDED:
        return "–"
    due = f", by {day_month(standing.due)}" if standing.due else ""
    if standing.state is State.LEARNING and standing.lesson:
        return f"round {standing.lesson.round}{due}"
    if standing.state is State.TO_LEARN and standing.due:
        return f"by {day_month(standing.due)}"
    return standing.state.value


def _cover(lookup: Lookup, plan: Timetable) -> Iterator[CoverRow]:
    for line in plan.cover:
        coming = tuple(_with_day(plan, code, line.job) for code in line.coming)
        lapsed = tuple(_with_day(plan, code, line.job) for code in line.lapsed)
        says = f"{line.gap} missing" if line.gap else "enough"
        if line.hangs_on_one:
            says += f"; hangs on {line.able[0]} alone"
        yield CoverRow(
            _job_link(lookup, lookup.shop.jobs[line.job]),
            line.shift.name,
            line.wanted,
            line.able,
            lapsed,
            coming,
            says,
        )


def _with_day(plan: Timetable, code: str, job_id: str) -> str:
    planned = plan.planned(code, job_id)
    if plan.standings[code, job_id].state is State.NO_AUTHORITY:
        return f"{code} ({State.NO_AUTHORITY.value})"
    return f"{code} ({day_month(planned.last)})" if planned else f"{code} (no day yet)"


@dataclass(frozen=True, slots=True)
class PersonJob:
    """A job in a person's list."""

    job: Link
    standing: Standing
    link: Link | None
    planned: Planned | None


@dataclass(frozen=True, slots=True)
class PersonView:
    """Everything on a person's page."""

    person: Person
    shift: str
    day: date
    jobs: tuple[PersonJob, ...]
    may_not_run: tuple[PersonJob, ...]
    """Jobs whose sign-off does not hold at the moment, or that ask for more than they have."""
    signings: tuple[tuple[Link, Signing], ...]
    """Pages that are to be signed, and how that stands."""
    lists: tuple[Link, ...]
    """Lists for new people that they follow."""


def person_view(lookup: Lookup, plan: Timetable, person: Person) -> PersonView:
    """The view of one person."""
    pairs = learner_pages(plan)
    jobs = tuple(
        PersonJob(
            _job_link(lookup, job),
            standing,
            Link(learner_address(*standing.key), "Lesson and follow-up")
            if standing.key in pairs
            else None,
            plan.planned(*standing.key),
        )
        for job in plan.jobs
        if (standing := plan.standings[person.id, job.id]).state is not State.NOTHING
    )
    lapsed = (State.TEACH_AGAIN, State.CHECK_AGAIN, State.NO_AUTHORITY)
    shift = plan.situation.crew.shift(person.shift).name
    today = plan.situation.today
    stopped = tuple(one for one in jobs if one.standing.state in lapsed)
    signed = ((page_link(lookup, one.page), one) for one in plan.signings if one.person is person)
    lists = tuple(
        Link(list_address(person.id, one.list), lookup.shop.onboarding[one.list].title)
        for one in person.follows
    )
    return PersonView(person, shift, today, jobs, stopped, tuple(signed), lists)
