"""What people are told of a plan, to be kept: the sessions and checks, as a record.

A lesson that goes on as it was promised keeps the sessions that were given, so that the next plan
knows how much of it is done.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.model import Promised, PromisedCheck, PromisedLesson, PromisedTime

from .clock import Session
from .schedule import Planned
from .timetable import Timetable


def promise_of(plan: Timetable) -> Promised:
    """All sessions and checks of a plan."""
    return Promised.model_construct(
        made=plan.situation.today,
        lessons=tuple(_lessons(plan)),
        checks=tuple(
            PromisedCheck.model_construct(
                job=one.job,
                person=one.person,
                trainer=one.trainer,
                day=one.session.day,
                starts=one.session.begin.time(),
            )
            for one in plan.schedule.checks
        ),
    )


def _lessons(plan: Timetable) -> Iterator[PromisedLesson]:
    for one in plan.schedule.planned:
        if one.leads:
            given, reached = _given(plan, one)
            yield PromisedLesson.model_construct(
                job=one.lesson.job.id,
                people=one.people,
                trainer=one.trainer.id,
                round=reached,
                sessions=(*given, *(_time(each) for each in one.sessions)),
            )


def _given(plan: Timetable, one: Planned) -> tuple[tuple[PromisedTime, ...], int]:
    """Sessions given of a lesson that goes on as promised, and the round at which it was."""
    record = one.lesson.person.lesson(one.lesson.job.id)
    now = record.round if record else 0
    lessons = plan.situation.promised.lessons if plan.situation.promised else ()
    for told in lessons:
        if told.job == one.lesson.job.id and one.lesson.person.id in told.people:
            given = tuple(each for each in told.sessions if each.day < plan.situation.today)
            rest = sum(each.minutes for each in told.sessions[len(given) :])
            if given and rest == one.minutes:
                return given, told.round
    return (), now


def _time(one: Session) -> PromisedTime:
    return PromisedTime.model_construct(
        day=one.day, starts=one.begin.time(), minutes=round(one.minutes)
    )
