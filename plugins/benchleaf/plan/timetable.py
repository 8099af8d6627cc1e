"""The whole plan for one crew on one day: who can do what, gaps, lessons and when."""

from __future__ import annotations

from dataclasses import dataclass

from benchleaf.compute.practice import Curve, NoCurve, NoStandard, Standard, curve_of, standard_of
from benchleaf.compute.results import SetUpSheet
from benchleaf.model import Job, Person

from .cover import CoverLine, OnlyOne, cover_lines, only_one_in_all
from .follow_up import FollowUp, Pace, follow_up
from .lessons import Lesson, lessons_to_give
from .schedule import Planned, Schedule, schedule
from .signings import Signing, signings
from .situation import Situation, Standing


@dataclass(frozen=True, slots=True)
class Timetable:
    """The plan, and what it is made from."""

    situation: Situation
    jobs: tuple[Job, ...]
    """Jobs that anybody's record or the cover speaks of."""
    standings: dict[tuple[str, str], Standing]
    """By person and job."""
    cover: tuple[CoverLine, ...]
    only_one: tuple[OnlyOne, ...]
    lessons: tuple[Lesson, ...]
    schedule: Schedule
    signings: tuple[Signing, ...] = ()
    """How each person's signature stands on each page that is to be signed."""

    def planned(self, person: str, job: str) -> Planned | None:
        """The planned lesson of a person and a job, or None."""
        key = (person, job)
        return next((one for one in self.schedule.planned if one.lesson.key == key), None)


def timetable(situation: Situation) -> Timetable:
    """Work out the whole plan."""
    standings = {one.key: one for one in situation.standings()}
    lessons = lessons_to_give(situation)
    spoken_of = {one.job.id for one in standings.values() if one.why}
    spoken_of |= {one.job for one in situation.crew.facts.cover}
    spoken_of |= {one.job.id for one in lessons}
    jobs = tuple(job for job in situation.shop.jobs.values() if job.id in spoken_of)
    return Timetable(
        situation,
        jobs,
        standings,
        cover_lines(situation),
        only_one_in_all(situation),
        lessons,
        schedule(situation, lessons),
        signings(situation.shop, situation.crew),
    )


@dataclass(frozen=True, slots=True)
class Progress:
    """A learner's pace at a job: the standard, the curve, and the checks that follow."""

    standard: Standard | NoStandard
    curve: Curve | NoCurve
    follow_up: FollowUp | None
    """None where they are neither proved nor planned to be."""


def _pace_of(standard: Standard | NoStandard, curve: Curve | NoCurve) -> Pace | None:
    """Curve against standard, where both are there."""
    if isinstance(standard, NoStandard) or isinstance(curve, NoCurve):
        return None
    return Pace(curve, standard.standard_s, curve.observed[-1][0])


def progress(plan: Timetable, person: Person, job: Job, sheets: tuple[SetUpSheet, ...]) -> Progress:
    """What to expect of a learner at a job, and when to look in; `sheets` are its set-ups."""
    situation = plan.situation
    rules = situation.shop.manual.teaching
    record = person.sign_off(job.id) or person.lesson(job.id)
    curve = curve_of(record.timed if record else (), rules.learning_percent)
    standard = standard_of(job, sheets)
    planned = plan.planned(person.id, job.id)
    sign_off = person.sign_off(job.id)
    start = planned.last if planned else sign_off.judged if sign_off else None
    if start is None:
        return Progress(standard, curve, None)
    absent = (NoStandard, NoCurve)
    missing = " and ".join(one.missing for one in (standard, curve) if isinstance(one, absent))
    plan_of_checks = follow_up(
        rules.follow_up,
        situation.crew.shift(person.shift),
        situation.crew.facts.closed,
        start,
        _pace_of(standard, curve),
        missing,
    )
    return Progress(standard, curve, plan_of_checks)
