"""A short lesson of what changed in a job, as plain data: for its trainer, on page and sheet.

Hazards come first, then what is done otherwise, then what is only told.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from benchleaf.diff import JobState, Report
from benchleaf.html.lookup import Lookup
from benchleaf.html.site_facts import day_of_build
from benchleaf.html.values import HazardPanel, Link
from benchleaf.html.writer import Writer
from benchleaf.link import CHANGED_SHEET, lesson_address, sheet_address
from benchleaf.meaning import SHOWN, About, Changed, Meanings, MoveKind, changed, together
from benchleaf.model import Job, revision_order
from benchleaf.plan import Planned, Standing, Timetable

SHEET_NAME = "Short lesson: what changed"
"""What the sheet is called."""
BLANK_LINES = 6
"""Lines to sign where no crew is given."""


@dataclass(frozen=True, slots=True)
class Point:
    """One thing that changed, with what a trainer asks about it."""

    one: Changed
    ask: str


@dataclass(frozen=True, slots=True)
class Part:
    """Things that belong together, under one heading."""

    title: str
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Attends:
    """Somebody for whom the lesson is."""

    staff: str
    taught: str
    """The revision that they were taught, or the day on which they signed."""
    what: str
    """What must follow for them."""


@dataclass(frozen=True, slots=True)
class ChangedLesson:
    """Everything that the lesson's page, its sheet and its printed file show."""

    number: str
    title: str
    former: str
    """The revision that was taught before."""
    revision: str
    """The revision that the lesson leads to."""
    fingerprint: str
    parts: tuple[Part, ...]
    reworded: tuple[Changed, ...]
    """Texts in other words, without any number, negation or direction changed."""
    hazards: tuple[HazardPanel, ...]
    """What is met at the steps that changed."""
    attends: tuple[Attends, ...]
    whole: tuple[str, ...]
    """Those to whom the whole job is shown, since nobody wrote down what changed for them."""
    has_crew: bool
    booked: tuple[Planned, ...]
    """The talks of it that are planned, each once."""
    note: str
    made: date
    job: Link | None = None
    sheet: Link | None = None
    page: Link | None = None

    @property
    def lines(self) -> tuple[int, ...]:
        """Blank lines to sign."""
        return tuple(range(0 if self.attends else BLANK_LINES))

    @property
    def count(self) -> int:
        """How many things changed."""
        return sum(len(one.points) for one in self.parts) + len(self.reworded)


def changed_lesson(lookup: Lookup, job: Job, plan: Timetable | None) -> ChangedLesson:
    """The lesson of a job whose changes are written down.

    It begins at the oldest revision that somebody of the crew was taught; without a crew at the
    one before the newest.
    """
    kept = lookup.shop.changes[job.id]
    newest = kept.newest or job.revision
    standings = [one for one in plan.standings.values() if one.job.id == job.id] if plan else []
    known = [one for one in standings if one.since and one.since.changed is not None]
    taught = [one.since.revision for one in known if one.since]
    last = kept.changes[-1].former if kept.changes else job.revision
    former = min(taught, key=revision_order, default=last)
    shop, meant, sheets = lookup.meant(job)
    meaning = Meanings(shop).of(meant, sheets)
    rows = changed(together(kept.since(former) or ()), meaning, lookup.shop.manual.retraining)
    parts, reworded = parts_of(rows)
    steps = {one.step for one in rows}
    met = [hazard for step in job.steps if step.id in steps for hazard in step.hazards]
    unknown = (one.person.id for one in standings if one.since and one.since.changed is None)
    return ChangedLesson(
        job.id.upper(),
        job.title,
        former,
        newest,
        lookup.fingerprints.get(job.id, "")[:SHOWN],
        parts,
        reworded,
        lookup.panels(met),
        tuple(_attends(one) for one in known),
        tuple(unknown),
        plan is not None,
        _booked(plan, known),
        _note(newest, job),
        day_of_build(),
        lookup.link("jobs", job.id),
        Link(sheet_address(job.id, CHANGED_SHEET), SHEET_NAME),
        Link(lesson_address(job.id), f"{job.id.upper()}: what changed"),
    )


def lessons_apart(report: Report) -> dict[str, str]:
    """The lesson of each job that a comparison changed, as a page by itself, by the job's id."""
    writer = Writer(None)
    return {
        job.id: writer.write("lesson-apart.html.jinja", f"{job.id}.html", view=view)
        for job in report.comparison.jobs
        if (view := _apart(report, job)) is not None
    }


def _apart(report: Report, job: JobState) -> ChangedLesson | None:
    rows = report.comparison.lessons.get(job.id, ())
    if not rows:
        return None
    parts, reworded = parts_of(rows)
    due = [one for one in report.due or () if one.job == job.id]
    is_new = job.new_revision != job.old_revision
    note = "" if is_new else "A draft: the new revision has no number yet"
    return ChangedLesson(
        job.id.upper(),
        job.title,
        job.old_revision or "",
        job.new_revision or "",
        (job.new_fingerprint or "")[:SHOWN],
        parts,
        reworded,
        (),
        tuple(
            Attends(one.staff, f"revision {one.revision}", one.consequence.value)
            for one in due
            if not one.was_stale
        ),
        tuple(one.staff for one in due if one.was_stale),
        report.due is not None,
        (),
        note,
        day_of_build(),
    )


def _note(newest: str, job: Job) -> str:
    """What a trainer must know where the job went on since the last entry."""
    if newest == job.revision:
        return ""
    return f"What revision {job.revision} changes is not in this lesson: it is not written down yet"


def _attends(one: Standing) -> Attends:
    since = one.since
    assert since is not None
    what = since.verdict.what.value if since.verdict else ""
    return Attends(one.person.id, f"revision {since.revision}", what)


def _booked(plan: Timetable | None, known: Sequence[Standing]) -> tuple[Planned, ...]:
    keys = {one.key for one in known}
    every = plan.schedule.planned if plan else ()
    return tuple(one for one in every if one.leads and one.lesson.talk and one.lesson.key in keys)


def parts_of(rows: Iterable[Changed]) -> tuple[tuple[Part, ...], tuple[Changed, ...]]:
    """What changed under its headings; apart from it, what is only said in other words."""
    every = tuple(rows)
    reworded = tuple(one for one in every if one.is_reworded)
    if len(reworded) == len(every):  # nothing else to tell: then it is the lesson
        reworded = ()
    left = [one for one in every if one not in reworded]
    grave = [one for one in left if one.is_grave]
    told = [one for one in left if not one.is_grave and not one.verdict.what.stops_a_run]
    others = [one for one in left if one not in grave and one not in told]
    titles = ("What can hurt, and what keeps it away", "Show what is done otherwise", "Tell")
    parts = (
        Part(title, tuple(Point(one, question(one)) for one in some))
        for title, some in zip(titles, (grave, others, told), strict=True)
        if some
    )
    return tuple(parts), reworded


_ASKED = {
    About.KEY_POINT: "What must be so now, and why?",
    About.EASIER: "What makes it easier now, and why?",
    About.REASON: "Why must it be so?",
    About.SETTING: "What do you set now?",
    About.NUMBER: "Which number holds now?",
    About.FIGURE: "Which figure holds now?",
    About.HAZARD: "What can hurt you here, and how do you keep it away?",
    About.CONTROL: "What keeps you from harm here?",
    About.WORN: "What do you wear now?",
    About.REACHED: "Show me where it is.",
    About.CALL: "Whom do you call, and what do you do?",
    About.LIMIT: "May this job be run?",
    About.ORDER: "What comes after what?",
    About.TROUBLE: "What do you do when you see this?",
}


def question(one: Changed) -> str:
    """What a trainer asks; nothing where it is only told."""
    if not one.verdict.what.stops_a_run:
        return ""
    if one.kind is MoveKind.GONE:
        return "What is no longer so?"
    return _ASKED.get(one.about, "What do you do here now?")
