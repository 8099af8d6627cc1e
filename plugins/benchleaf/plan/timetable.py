"""The whole plan for one crew on one day: who can do what, gaps, lessons and when."""

from __future__ import annotations

from dataclasses import dataclass

from benchleaf.compute.practice import Curve, NoCurve, NoStandard, Standard
from benchleaf.model import Job, Person

from .cover import CoverLine, OnlyOne, cover_lines, only_one_in_all
from .follow_up import FollowUp
from .lessons import Lesson, lessons_to_give
from .may import NotTeaching, not_teaching, teaching_of
from .pace import curve_and_standard
from .presence import Presence
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
    not_teaching: tuple[NotTeaching, ...] = ()
    """Trainers who may not give lessons that are wanted, once each reason."""

    @property
    def presence(self) -> Presence:
        """Who is there when."""
        return Presence(self.situation.crew, self.situation.today)

    def planned(self, person: str, job: str) -> Planned | None:
        """The planned lesson of a person and a job, or None."""
        key = (person, job)
        return next((one for one in self.schedule.planned if one.lesson.key == key), None)

    def taught_before(self, person: str, job: str) -> tuple[Planned, ...]:
        """The lessons of a person that the plan ends before it begins this one, in their order."""
        this = self.planned(person, job)
        if this is None:
            return ()
        mine = (one for one in self.schedule.planned if one.lesson.person.id == person)
        found = [one for one in mine if one.sessions[-1].end <= this.sessions[0].begin]
        return tuple(sorted(found, key=lambda one: one.sessions[-1].end))


def timetable(situation: Situation, *, use_solver: bool = True) -> Timetable:
    """Work out the whole plan; with the solver where it is installed, unless it is not wanted."""
    standings = {one.key: one for one in situation.standings()}
    lessons, teaching = lessons_to_give(situation), teaching_of(situation)
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
        schedule(situation, lessons, teaching, use_solver=use_solver),
        signings(situation.shop, situation.crew),
        not_teaching(situation, teaching, ((one.job.id, one.person.shift) for one in lessons)),
    )


@dataclass(frozen=True, slots=True)
class Progress:
    """A learner's pace at a job: the standard, the curve, and the checks that follow."""

    standard: Standard | NoStandard
    curve: Curve | NoCurve
    follow_up: FollowUp | None
    """None where they are neither proved nor planned to be."""


def progress(plan: Timetable, person: Person, job: Job) -> Progress:
    """What to expect of a learner at a job, and when to look in."""
    curve, standard = curve_and_standard(plan.situation, person, job)
    return Progress(standard, curve, plan.schedule.follow_ups.get((person.id, job.id)))
