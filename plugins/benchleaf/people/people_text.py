"""The timetable and a follow-up plan as plain text and as JSON with stable keys."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from typing import Any

from benchleaf.html.dates import hours, short_date, week_date
from benchleaf.meaning import MoveKind
from benchleaf.plan import Lesson, Planned, Session, Signed, Standing, State, Timetable

from .learner_view import LearnerView
from .people_view import cannot_be_met, state_words
from .plan_words import moved_words, not_teaching_words, reason_words, trainer_days, when


def timetable_text(plan: Timetable) -> str:
    """The plan: what cannot be met first, then cover, lessons in order, and who stands where."""
    return "\n".join(_timetable_lines(plan))


def _timetable_lines(plan: Timetable) -> Iterator[str]:
    people = len(plan.situation.crew.people)
    yield f"planned from {short_date(plan.situation.today)} on, for {people} people"
    yield "what cannot be met:"
    yield from (f"  {line}" for line in cannot_be_met(plan))
    if not any(True for _ in cannot_be_met(plan)):
        yield "  nothing: every lesson ends by the day asked for"
    stopped = _stopped(plan)
    if stopped:
        yield "DO NOT RUN:"
        yield from (f"  {job_id.upper()}: {'; '.join(why)}" for job_id, why in stopped.items())
    if plan.not_teaching:
        yield "may not teach, as the records stand:"
        yield from (f"  {not_teaching_words(one)}" for one in plan.not_teaching)
    yield "cover:"
    for line in plan.cover:
        able = ", ".join(line.able) or "nobody"
        alone = f"; hangs on {line.able[0]} alone" if line.hangs_on_one else ""
        short = f"; {line.gap} MISSING" if line.gap else ""
        yield (
            f"  {line.job.upper()} {line.shift.name}: {line.wanted} wanted, able {able}"
            f"{short}{alone}"
        )
    yield "lessons in their order:"
    yield from (f"  {_lesson_line(one)}" for one in plan.schedule.planned if one.leads)
    yield f"  {plan.schedule.known.says}"
    yield from _moved_lines(plan)
    yield "what each trainer does:"
    for one in trainer_days(plan):
        yield f"  {week_date(one.day)}, {one.trainer}:"
        yield from (f"    {each.times}: {each.what}" for each in one.entries)
    yield "people:"
    for each in plan.standings.values():
        if each.state not in (State.NOTHING, State.NOT_NEEDED):
            stop = "; DO NOT RUN" if each.job.id in stopped else ""
            name = f"{each.person.id} {each.job.id.upper()}"
            yield f"  {name}: {state_words(each)} ({each.why}){stop}"
    yield from _signing_lines(plan)


def _moved_lines(plan: Timetable) -> Iterator[str]:
    """What people were told and is otherwise now; silent where they were told nothing."""
    if plan.situation.promised is None:
        return
    yield f"moved since people were told on {short_date(plan.situation.promised.made)}:"
    yield from (f"  {moved_words(one)}" for one in plan.schedule.moved)
    if not plan.schedule.moved:
        yield "  nothing"


def _signing_lines(plan: Timetable) -> Iterator[str]:
    """Pages that were signed and say something else now; and once, whose signing is unknown."""
    yield "pages that are signed:"
    pages = dict.fromkeys(one.page for one in plan.signings)
    for page in pages:
        for state in Signed:
            codes = [one.person.id for one in plan.signings
                     if one.page == page and one.state is state]  # fmt: skip
            if codes:
                yield f"  {page}: {state.value}: {', '.join(codes)}"


def _lesson_line(one: Planned) -> str:
    lesson = one.lesson
    due = f", asked for by {week_date(lesson.due)}" if lesson.due else ""
    late = f", {one.late_days} d LATE" if one.late_days else ""
    talk = ", one talk" if one.together else ""
    return (
        f"{when(one.sessions)}: {', '.join(one.people)} "
        f"{lesson.job.id.upper()} with {one.trainer.id}, {lesson.kind}{talk}, {hours(one.minutes)}"
        f"{due}{late}"
    )


def _stopped(plan: Timetable) -> dict[str, list[str]]:
    """Each job that nobody may run, and every reason."""
    reasons = (
        (job.id, plan.situation.not_to_run(job)) for job in plan.situation.shop.jobs.values()
    )
    return {job_id: list(why) for job_id, why in reasons if why}


def timetable_json(plan: Timetable) -> str:
    """The plan with stable keys; days as 2026-12-18, times in minutes."""
    schedule = plan.schedule
    found = {
        "from": plan.situation.today.isoformat(),
        "cannot_be_met": list(cannot_be_met(plan)),
        "do_not_run": _stopped(plan),
        "cover": [
            {
                "job": one.job,
                "shift": one.shift.id,
                "wanted": one.wanted,
                "able": list(one.able),
                "lapsed": list(one.lapsed),
                "learning": list(one.coming),
                "missing": one.gap,
                "hangs_on_one": one.hangs_on_one,
            }
            for one in plan.cover
        ],
        "lessons": [_planned(one) for one in schedule.planned],
        "checks": [
            {
                "person": one.person,
                "job": one.job,
                "trainer": one.trainer,
                **_session(one.session),
            }
            for one in schedule.checks
        ],
        "moved": [
            {
                "people": list(one.people),
                "job": one.job,
                "check": one.is_check,
                "trainer": one.trainer,
                "was": _session(one.was),
                "now": [_session(each) for each in one.now],
                "why": one.why,
            }
            for one in schedule.moved
        ],
        "proved": {
            "best_possible": schedule.known.is_best,
            "cover_days_from_best": schedule.known.cover_days,
            "late_days_from_best": schedule.known.late_days,
            "all_late_days_from_best": schedule.known.total_late_days,
            "minutes_of_uneven_shares_from_best": schedule.known.spread_minutes,
            "every_lesson_has_a_place": schedule.known.is_whole,
        },
        "not_planned": [{**_lesson(one.lesson), "why": one.why} for one in schedule.unplanned],
        "trainers": [
            {
                "trainer": one.trainer.id,
                "minutes_a_shift": one.trainer.hours.value / 60,
                "minutes_asked": one.minutes,
                "minutes_of_checks": one.check_minutes,
                "minutes_of_changes": one.change_minutes,
                "minutes_short": one.short_minutes,
                "short_by": one.short_by.isoformat() if one.short_by else None,
                "minutes_a_shift_wanted": one.wanted_minutes_a_shift,
            }
            for one in schedule.loads
        ],
        "may_not_teach": [
            {"trainer": one.code, "jobs": list(one.jobs), "why": reason_words(one.against)}
            for one in plan.not_teaching
        ],
        "people": [_standing(one) for one in plan.standings.values() if one.why],
        "signed_pages": [
            {"person": one.person.id, "page": one.page, "state": one.state.value}
            for one in plan.signings
        ],
    }
    return json.dumps(found, indent=2)


def _lesson(one: Lesson) -> dict[str, Any]:
    return {
        "person": one.person.id,
        "job": one.job.id,
        "kind": one.kind.value,
        "minutes": one.minutes,
        "due": one.due.isoformat() if one.due else None,
        "needs": list(one.needs),
    }


def _planned(one: Planned) -> dict[str, Any]:
    return {
        **_lesson(one.lesson),
        "trainer": one.trainer.id,
        "first": one.first.isoformat(),
        "last": one.last.isoformat(),
        "late_days": one.late_days,
        "together": list(one.together),
        "sessions": [_session(each) for each in one.sessions],
    }


def _session(one: Session) -> dict[str, Any]:
    return {
        "day": one.day.isoformat(),
        "begins": one.begin.isoformat(timespec="minutes"),
        "minutes": one.minutes,
        "minutes_to_change_before": one.change_minutes,
    }


def _standing(one: Standing) -> dict[str, Any]:
    return {
        "person": one.person.id,
        "job": one.job.id,
        "state": one.state.value,
        "why": one.why,
        "due": one.due.isoformat() if one.due else None,
        "check_again_after": one.recheck_on.isoformat() if one.recheck_on else None,
        "follows": one.since.verdict.what.value if one.since and one.since.verdict else None,
        "changed": _changed(one),
    }


def _changed(one: Standing) -> list[dict[str, str]] | None:
    """What is taught otherwise since they were taught; null where that is not written down."""
    if one.since is None:
        return []
    if one.since.changed is None:
        return None
    return [
        {
            "about": each.about.value,
            "kind": each.kind.value,
            "place": each.place,
            "where": each.where,
            "was": each.was,
            "now": each.now,
            "why": each.why,
            "follows": each.verdict.what.value,
        }
        for each in one.since.changed
    ]


_TOLD_ONCE = {
    MoveKind.NEW: "new: ",
    MoveKind.GONE: "",
    MoveKind.MOVED: "in another order: ",
    MoveKind.OTHER: "written otherwise, and read as before: ",
}
"""Words before what has no former side."""


def learner_text(view: LearnerView, not_to_run: Sequence[str] = ()) -> str:
    """What is new, what to expect, and when to look in; first why nobody may run the job."""
    stopped = (f"DO NOT RUN {view.job.id.upper()}: {one}" for one in not_to_run)
    return "\n".join((*stopped, *_learner_lines(view)))


def _learner_lines(view: LearnerView) -> Iterator[str]:
    yield f"{view.person.id} at {view.job.id.upper()} {view.job.title}: {view.standing.state}"
    if view.standing.since:
        yield f"since they were taught: {view.standing.why}"
    for one in view.changed:
        was = f"{one.was} → " if one.was else _TOLD_ONCE[one.kind]
        yield f"  {one.verdict.what.value}: {one.where}: {was}{one.now or 'gone'}"
    if view.nearest:
        shared = f"{view.novelty.shared} of {view.novelty.of}"
        yield f"start from {view.nearest.words}: {shared} things in common"
    yield from (f"counted as known by then: {one}" for one in view.by_then)
    for thing in view.things:
        words = (each if isinstance(each, str) else each.words for each in thing.new)
        yield f"  new {thing.heading}: {', '.join(words)}"
    for missing in view.not_computed:
        yield f"not computed; missing: {missing}"
    yield from (one for one in (view.to_basic, view.to_time) if one)
    if view.follow_up is None:
        yield "no follow-up: no lesson is planned"
        return
    yield f"follow-up from {short_date(view.follow_up.start)}: {view.follow_up.checks} checks"
    for stage in view.stages:
        yield f"  stage {stage.number}: {stage.says}{f' ({stage.state})' if stage.state else ''}"
    yield from (f"  {line}" for line in view.stands)
    for again in view.follow_up.revisit:
        yield f"  look at first: {again.says} ({short_date(again.day)}, {again.by})"
    for day in view.days:
        pieces = f"; pieces {day.pieces}, {day.minutes} min" if day.pieces else ""
        yield f"  day {day.number}, {week_date(day.day)}: {day.times}{pieces} ({day.why})"


def learner_json(view: LearnerView, not_to_run: Sequence[str] = ()) -> str:
    """The same with stable keys."""
    days = view.follow_up.days if view.follow_up else ()
    found = {
        "person": view.person.id,
        "job": view.job.id,
        "revision": view.job.revision,
        "fingerprint": view.fingerprint,
        "state": view.standing.state.value,
        "do_not_run": list(not_to_run),
        "changed": _changed(view.standing),
        "start_from": view.novelty.nearest,
        "known_by_then": list(view.novelty.by_then),
        "new": {heading: list(those) for heading, those in view.novelty.new.items()},
        "learning_percent": view.curve.learning_percent if view.curve else None,
        "standard_seconds": view.standard.standard_s if view.standard else None,
        "basic_seconds": view.standard.basic_s if view.standard else None,
        "basic_time_reached": _reached(view),
        "pieces_to_time": _to_time(view),
        "not_computed": list(view.not_computed),
        "cadence": [
            {"stage": one.number, "says": one.says, "state": one.state} for one in view.stages
        ],
        "look_at_first": [
            {"step": one.step, "point": one.point, "reason": one.reason}
            for one in (view.follow_up.revisit if view.follow_up else ())
        ],
        "follow_up": [
            {
                "day": one.number,
                "date": one.day.isoformat(),
                "checks": [f"{each:%H:%M}" for each in one.times],
                "checks_without_trainer": one.unmet,
                "why": one.why,
                "first_piece": one.first_piece,
                "last_piece": one.last_piece,
                "expected_seconds": one.expected_s,
            }
            for one in days
        ],
    }
    return json.dumps(found, indent=2)


def _reached(view: LearnerView) -> dict[str, int | None] | None:
    """Between which pieces the basic time is reached; null where no range is known."""
    if view.curve is None or view.standard is None:
        return None
    found = view.curve.pieces_at(view.standard.basic_s)
    return None if found is None else {"from_piece": found.low, "to_piece": found.high}


def _to_time(view: LearnerView) -> list[int]:
    if view.curve is None:
        return []
    return list(view.curve.pieces_to_time(view.standard.basic_s if view.standard else None))
