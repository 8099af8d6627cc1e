"""A plan in words: when each lesson is, what each trainer does on a day, what moved."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from benchleaf.html.dates import short_date, week_date
from benchleaf.plan import Moved, NotTeaching, Planned, Reason, Session, Timetable

DAYS_SHOWN = 10
"""So many days with something to do are shown of each trainer. A house value."""


@dataclass(frozen=True, slots=True)
class Entry:
    """Something that a trainer does at a time."""

    begin: datetime
    end: datetime
    what: str
    is_change: bool = False

    @property
    def times(self) -> str:
        """From when to when."""
        return f"{self.begin:%H:%M} to {self.end:%H:%M}"


@dataclass(frozen=True, slots=True)
class TrainerDay:
    """What one trainer does on one day."""

    trainer: str
    day: date
    entries: tuple[Entry, ...]


def when(sessions: Sequence[Session]) -> str:
    """Each session by day and clock.

    >>> when([Session(date(2026, 12, 18), datetime(2026, 12, 18, 8, 15), 65)])
    'Fri 18 Dec 08:15 to 09:20'
    """
    return ", ".join(f"{week_date(one.day)} {one.hours_said}" for one in sessions)


def moved_words(one: Moved) -> str:
    """What moved, where to, and why."""
    what = "check of" if one.is_check else "lesson of"
    now = (
        f"now {when(one.now)}" if one.now else "given no more" if one.is_dropped else "no time yet"
    )
    return (
        f"{what} {', '.join(one.people)} at {one.job.upper()} with {one.trainer}: was "
        f"{when((one.was,))}, {now}: {one.why}"
    )


def trainer_days(plan: Timetable) -> tuple[TrainerDay, ...]:
    """Each day of each trainer, in the order of days."""
    found: dict[tuple[date, str], list[Entry]] = {}
    for one in plan.schedule.planned:
        if one.leads:
            for session in one.sessions:
                _enter(found, one.trainer.id, session, _lesson(one))
    seen: set[tuple[str, str]] = set()
    for check in plan.schedule.checks:  # in the order of time: what was missed comes first, once
        key = (check.person, check.job)
        again = () if key in seen else plan.schedule.follow_ups[key].revisit
        seen.add(key)
        first = f"; first: {'; '.join(one.says for one in again)}" if again else ""
        what = f"check {check.person} at {check.job.upper()}{first}"
        _enter(found, check.trainer, check.session, what)
    return tuple(
        TrainerDay(trainer, day, tuple(sorted(entries, key=lambda one: one.begin)))
        for (day, trainer), entries in sorted(found.items())
    )


def first_days(days: Sequence[TrainerDay]) -> tuple[TrainerDay, ...]:
    """The next days of each trainer: as many as people plan by."""
    count: dict[str, int] = {}
    found = []
    for one in days:
        count[one.trainer] = count.get(one.trainer, 0) + 1
        if count[one.trainer] <= DAYS_SHOWN:
            found.append(one)
    return tuple(found)


def _lesson(one: Planned) -> str:
    return f"{', '.join(one.people)} at {one.lesson.job.id.upper()}: {one.lesson.kind}"


def _enter(
    found: dict[tuple[date, str], list[Entry]], trainer: str, session: Session, what: str
) -> None:
    entries = found.setdefault((session.day, trainer), [])
    if session.change_minutes:
        begin = session.begin - timedelta(minutes=session.change_minutes)
        entries.append(Entry(begin, session.begin, "change the station for it", True))
    entries.append(Entry(session.begin, session.end, what))


def unmet(plan: Timetable) -> Iterator[str]:
    """Checks that no trainer has time for, one line a person and job."""
    for (person, job), found in plan.schedule.follow_ups.items():
        days = [one for one in found.days if one.unmet]
        if days:
            count = sum(one.unmet for one in days)
            checks = "1 check finds" if count == 1 else f"{count} checks find"
            first = "on" if len(days) == 1 else "the first on"
            yield (
                f"{person} at {job.upper()}: {checks} no trainer with time, {first} "
                f"{week_date(days[0].day)}."
            )


def reason_words(against: Sequence[Reason]) -> str:
    """Why, with the days.

    >>> from benchleaf.plan import Says
    >>> reason_words([Reason(Says.MAY_NOT, "authority to teach ended on", date(2027, 1, 4))])
    'authority to teach ended on 4 Jan 2027'
    """
    return "; ".join(
        f"{one.words} {short_date(one.day)}" if one.day else one.words
        for one in dict.fromkeys(against)
    )


def not_teaching_words(one: NotTeaching) -> str:
    """A trainer, the jobs, and why."""
    jobs = ", ".join(each.upper() for each in one.jobs)
    return f"{one.code} at {jobs}: {reason_words(one.against)}"
