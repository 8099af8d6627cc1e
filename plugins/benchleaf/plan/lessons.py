"""Lessons that must be given: which, how long by the shop's rule, until when, after which."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import StrEnum

from benchleaf.model import ROUNDS, Job, LessonRule, Person, revision_order

from .since import Since
from .situation import Situation, Standing, State

Key = tuple[str, str]
"""Person and job."""


class LessonKind(StrEnum):
    """What is taught."""

    NEW = "new"
    GO_ON = "go on"
    AGAIN = "teach again"
    CHECK = "check again"


@dataclass(frozen=True, slots=True)
class Lesson:
    """One job to be taught to one person."""

    person: Person
    job: Job
    kind: LessonKind
    minutes: float
    working: str
    """How the minutes come about."""
    due: date | None
    """The last day; None where none is given."""
    needs: tuple[str, ...] = ()
    """Jobs that this person must be taught before, among the lessons to give."""
    wanted_for: tuple[str, ...] = ()
    """Jobs for whose sake it is taught, where nobody asked for it by itself."""
    talk: str = ""
    """Where only what changed is taught, the revision since which: one talk serves several."""
    own_minutes: float = 0.0
    """What of the minutes this person alone asks for, when others hear the same talk."""
    opens: date | None = None
    """The first day on which it may begin, where a list for new people says so."""

    @property
    def key(self) -> Key:
        """Person and job."""
        return self.person.id, self.job.id


def lesson_minutes(
    job: Job,
    kind: LessonKind,
    rule: LessonRule,
    round_reached: int = 0,
    since: Since | None = None,
    takes: float | None = None,
) -> tuple[float, str]:
    """Length of a lesson by the shop's rule, in minutes of a trainer's time, and its working.

    `takes` are the minutes of the whole lesson as the shop measured them, where it did: what is a
    part of it by the rule takes the same part of them.

    Where it is known what changed since they were taught, that alone is taught again. Somebody in
    the middle of a job is taught it before they go on.
    """
    steps, points = _size(job)
    every = {
        LessonKind.NEW: _Parts(steps, points, len(ROUNDS), steps),
        LessonKind.GO_ON: _Parts(0, 0, len(ROUNDS) - round_reached, steps),
        LessonKind.AGAIN: _Parts(steps, 0, 1, steps),
        LessonKind.CHECK: _Parts(0, 0, 1, steps),
    }
    minutes, working = _reckoned(every[kind], rule)
    if takes is not None:
        share = minutes / _reckoned(every[LessonKind.NEW], rule)[0]
        minutes, working = _measured(takes, share)
    if since is None or kind not in (LessonKind.AGAIN, LessonKind.GO_ON):
        return minutes, working
    short = short_lesson(job, rule, since) or _reckoned(every[LessonKind.AGAIN], rule)
    if kind is LessonKind.AGAIN:
        return short
    return minutes + short[0], f"what changed {short[1]}; going on {working}"


def _measured(takes: float, share: float) -> tuple[float, str]:
    if abs(share - 1) < 1e-9:
        return takes, f"{takes:g} min, as measured for this job"
    minutes = takes * share
    return minutes, (
        f"{takes:g} min measured for the whole lesson × {share:.2f} by the rule = {minutes:.0f} min"
    )


def short_lesson(
    job: Job, rule: LessonRule, since: Since, people: int = 1
) -> tuple[float, str] | None:
    """A lesson of what changed alone, told once to so many people, each of whom does it once.

    None where that is not written down, or the whole job takes no longer.
    """
    if since.changed is None:
        return None
    parts, steps = _of_changes(job, since), len(job.steps)
    whole, _ = _reckoned(_Parts(steps, 0, 1, steps), rule)
    if _reckoned(parts, rule)[0] >= whole:
        return None
    return _reckoned(replace(parts, people=people), rule)


@dataclass(frozen=True, slots=True)
class _Parts:
    """What a lesson is reckoned from."""

    steps: int
    points: int
    rounds: int
    steps_a_round: int
    changed: str = ""
    people: int = 1
    """How many come through the rounds, each by themselves."""


def _size(job: Job) -> tuple[int, int]:
    return len(job.steps), sum(len(step.key_points) for step in job.steps)


def _of_changes(job: Job, since: Since) -> _Parts:
    """Steps that changed are shown and done once; each other thing counts like a key point."""
    rows = since.changed or ()
    of_set_up = {step.set_up: step.id for step in job.steps if step.set_up}
    at = [one.step or of_set_up.get(one.place.partition("/")[2].partition("/")[0]) for one in rows]
    known = {step.id for step in job.steps}  # what is told of a step that is gone is one thing
    steps = len(known & set(at))
    return _Parts(steps, sum(one not in known for one in at), 1, steps, " that changed")


def _reckoned(one: _Parts, rule: LessonRule) -> tuple[float, str]:
    minutes = (
        rule.get_ready_minutes
        + one.steps * rule.step_minutes
        + one.points * rule.key_point_minutes
        + one.people * one.rounds * one.steps_a_round * rule.round_step_minutes
    )
    parts = [f"{rule.get_ready_minutes:g}"]
    if one.steps:
        steps = "1 step" if one.steps == 1 else f"{one.steps} steps"
        parts.append(f"{steps}{one.changed} × {rule.step_minutes:g}")
    if one.points:
        ending = "" if one.points == 1 else "s"
        points = f"other thing{ending}" if one.changed else "key points"
        parts.append(f"{one.points} {points} × {rule.key_point_minutes:g}")
    if one.rounds and one.steps_a_round:
        in_rounds = f"{one.rounds} round{'s' if one.rounds > 1 else ''}"
        in_rounds = f"{one.people} people × {in_rounds}" if one.people > 1 else in_rounds
        parts.append(f"{in_rounds} × {one.steps_a_round} steps × {rule.round_step_minutes:g}")
    return minutes, f"{' + '.join(parts)} = {minutes:g} min"


def lessons_to_give(situation: Situation) -> tuple[Lesson, ...]:
    """Every lesson that somebody needs, and the prerequisites that they lack for it."""
    found: list[Lesson] = []
    for person in situation.crew.people.values():
        mine = {one.job.id: one for one in _asked_for(situation, person)}
        _add_prerequisites(situation, person, mine)
        found += (_with_needs(one, mine) for one in mine.values())
    return tuple(found)


def _asked_for(situation: Situation, person: Person) -> Iterator[Lesson]:
    for job in situation.shop.jobs.values():
        standing = situation.standing(person, job)
        kind, due = _kind_and_due(situation, standing)
        if kind is not None:
            yield _lesson(situation, standing, kind, due)


def _kind_and_due(
    situation: Situation, standing: Standing
) -> tuple[LessonKind | None, date | None]:
    """Nobody runs a job whose sign-off has lapsed, so that such a lesson is due at once."""
    within = situation.shop.manual.retraining.teach_within_days
    if standing.state is State.TEACH_AGAIN:
        changed = _changed_on(standing)
        due = changed + timedelta(days=within) if changed else situation.today
        return LessonKind.AGAIN, max(due, situation.today)
    if standing.state is State.CHECK_AGAIN:
        return LessonKind.CHECK, situation.today
    if standing.state is State.LEARNING:
        begun = standing.lesson is not None and standing.lesson.round > 0
        return (LessonKind.GO_ON if begun else LessonKind.NEW), standing.due
    if standing.state is State.TO_LEARN:
        return LessonKind.NEW, standing.due
    return None, None


def _changed_on(standing: Standing) -> date | None:
    """The day on which the first revision that they were not taught came into force."""
    if standing.sign_off is None:
        return None
    job, taught = standing.job, revision_order(standing.sign_off.counts_for[0])
    dated = [(one.revision, one.effective) for one in job.history]
    later = (day for revision, day in (*dated, (job.revision, job.effective))
             if revision_order(revision) > taught)  # fmt: skip
    return min(later, default=None)


def _lesson(situation: Situation, standing: Standing, kind: LessonKind, due: date | None) -> Lesson:
    rule = situation.shop.manual.teaching.lesson
    reached = standing.lesson.round if standing.lesson else 0
    since = standing.since if standing.since and standing.since.is_due else None
    facts = situation.crew.lesson_facts(standing.job.id)
    takes = facts.takes.value / 60 if facts and facts.takes else None
    minutes, working = lesson_minutes(standing.job, kind, rule, reached, since, takes)
    listed = situation.by_list(standing.person, standing.job)
    is_begun = kind is not LessonKind.NEW
    opens = None if is_begun or listed is None else listed.opens
    lesson = Lesson(standing.person, standing.job, kind, minutes, working, due, opens=opens)
    one = short_lesson(standing.job, rule, since) if since else None
    if since is None or one is None or kind is not LessonKind.AGAIN:
        return lesson
    two = short_lesson(standing.job, rule, since, 2) or one
    return replace(lesson, talk=since.revision, own_minutes=two[0] - one[0])


def _add_prerequisites(situation: Situation, person: Person, mine: dict[str, Lesson]) -> None:
    """Jobs to know first that this person has never proved and nobody asked for."""
    waiting = list(mine)
    while waiting:
        wanted_for = waiting.pop(0)
        if mine[wanted_for].kind in (LessonKind.AGAIN, LessonKind.CHECK):
            continue
        for job_id in situation.shop.jobs[wanted_for].know_first:
            if job_id in mine:
                one = mine[job_id]
                if one.wanted_for and wanted_for not in one.wanted_for:
                    mine[job_id] = replace(one, wanted_for=(*one.wanted_for, wanted_for))
            elif person.sign_off(job_id) is None:
                standing = situation.standing(person, situation.shop.jobs[job_id])
                lesson = _lesson(situation, standing, LessonKind.NEW, None)
                mine[job_id] = replace(lesson, wanted_for=(wanted_for,))
                waiting.append(job_id)


def _with_needs(lesson: Lesson, mine: dict[str, Lesson]) -> Lesson:
    needs = tuple(job_id for job_id in lesson.job.know_first if job_id in mine)
    return replace(lesson, needs=needs)
