"""What people were told stays: in any week, only what cannot be moves, with its reason."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, time, timedelta
from random import Random
from typing import Any

from made_crews import MONDAY, Make
from random_crews import random_situation

from benchleaf.model import Absence, Crew, Hold, Learning, Person, Shop, SignOff
from benchleaf.plan import LessonKind, Moved, Planned, Situation, Timetable, promise_of, timetable
from oracles.plans import faults
from running import examples

Item = tuple[str, str, bool, date]
"""Whom, at what, whether it is a check, on which day."""


def told(plan: Timetable) -> Situation:
    """The same, after people were told the plan."""
    crew = replace(plan.situation.crew, promised=promise_of(plan))
    return replace(plan.situation, crew=crew)


def with_people(made: Situation, people: dict[str, Person]) -> Situation:
    return replace(made, crew=replace(made.crew, people=people))


def with_facts(made: Situation, **changed: Any) -> Situation:
    facts = made.crew.facts.model_copy(update=changed)
    return replace(made, crew=replace(made.crew, facts=facts))


def booked(plan: Timetable, first: date) -> set[tuple[object, ...]]:
    """Everything from a day on, with its time."""
    lessons = {
        (one.people, one.lesson.job.id, one.trainer.id, each.begin, each.minutes)
        for one in plan.schedule.planned if one.leads
        for each in one.sessions if each.day >= first
    }  # fmt: skip
    return lessons | {
        (one.person, one.job, one.trainer, one.session.begin)
        for one in plan.schedule.checks if one.session.day >= first
    }  # fmt: skip


def start(seed: int, small: Shop, make: Make) -> Timetable:
    """A plan of a crew at random, in which no sign-off lapses within the week."""
    made = random_situation(seed, small, make)
    rules = made.shop.manual.teaching.model_copy(update={"recheck_after_unused_days": 1000})
    manual = made.shop.manual.model_copy(update={"teaching": rules})
    return timetable(replace(made, shop=replace(made.shop, manual=manual)))


def after(plan: Timetable, day: date) -> Situation:
    """The records after a day that went exactly as planned."""
    people = dict(plan.situation.crew.people)
    for one in plan.schedule.planned:
        if any(each.day <= day for each in one.sessions):
            code = one.lesson.person.id
            people[code] = _recorded(people[code], one, day, plan)
    return replace(with_people(told(plan), people), today=day + timedelta(days=1))


def _recorded(person: Person, one: Planned, day: date, plan: Timetable) -> Person:
    job = one.lesson.job.id
    former = person.sign_off(job)
    if one.last <= day:
        sign_off = SignOff.model_construct(
            job=job, revision="2", fingerprint="0" * 8, judged=one.last, judged_by=one.trainer.id,
            first_proved=former.judged if former else None, last_done=None, timed=(),
        )  # fmt: skip
        others = tuple(each for each in person.can_do if each.job != job)
        learning = tuple(each for each in person.learning if each.job != job)
        return person.model_copy(update={"can_do": (*others, sign_off), "learning": learning})
    if one.lesson.kind in (LessonKind.AGAIN, LessonKind.CHECK):
        return person
    record = person.lesson(job)
    reached = record.round if record else 0
    a_round = (
        len(one.lesson.job.steps) * plan.situation.shop.manual.teaching.lesson.round_step_minutes
    )
    given = sum(each.minutes for each in one.sessions if each.day <= day)
    before = one.minutes - (4 - reached) * a_round
    rounds = min(4, reached + int(max(0.0, given - before) / a_round + 1e-6))
    now = Learning.model_construct(
        job=job, round=rounds, revision="2", trainer=one.trainer.id, timed=()
    )
    still = tuple(each for each in person.learning if each.job != job)
    return person.model_copy(update={"learning": (*still, now)})


def test_a_day_exactly_as_planned_moves_nothing(situation: Make, small_shop: Shop) -> None:
    """Three days one after another, each recorded, each told again."""
    seen = 0
    for seed in range(examples(8)):
        plan = start(seed, small_shop, situation)
        for ahead in range(3):
            day = MONDAY + timedelta(days=ahead)
            new = timetable(after(plan, day))
            assert new.schedule.moved == (), f"seed {seed}, day {ahead}"
            assert booked(plan, new.situation.today) <= booked(new, new.situation.today)
            assert faults(new) == [], f"seed {seed}, day {ahead}"
            seen += len(booked(new, new.situation.today))
            plan = new
    assert seen > 100


def items(plan: Timetable) -> Iterator[Item]:
    for one in plan.schedule.planned:
        for each in one.sessions:
            yield (*one.lesson.key, False, each.day)
    for check in plan.schedule.checks:
        yield check.person, check.job, True, check.session.day


def waiting(plan: Timetable, hit: set[tuple[str, str]]) -> set[tuple[str, str]]:
    """Lessons hit, those told in one talk with them, and all that wait for them."""
    found, size = set(hit), -1
    while len(found) != size:
        size = len(found)
        for one in plan.schedule.planned:
            mates = {(code, one.lesson.job.id) for code in one.people}
            needs = {(one.lesson.person.id, need) for need in one.lesson.needs}
            if found & (mates | needs):
                found |= mates
    return found


def no_more_than(plan: Timetable, new: Timetable, hit: set[Item]) -> list[Moved]:
    """What moved although nothing was in its way."""
    lessons = waiting(plan, {(one[0], one[1]) for one in hit if not one[2]})
    return [
        one
        for one in new.schedule.moved
        for code in one.people
        if (code, one.job) not in lessons and (code, one.job, one.is_check, one.was.day) not in hit
    ]


def test_pieces_of_promised_lessons_are_used_up_too(situation: Make, small_shop: Shop) -> None:
    """In this week more lessons want the pieces of a batch than it has."""
    plan = start(20, small_shop, situation)
    again = timetable(after(plan, MONDAY), use_solver=False)
    assert plan.situation.crew.facts.batches
    assert faults(again) == []


def test_what_happens_moves_only_what_it_hits_and_what_waits_for_it(
    situation: Make, small_shop: Shop
) -> None:
    """A closed day, somebody ill, away for an hour or leaving, a trainer away, a hold, a job that
    is taught otherwise, a sign-off that came early or late; with the solver and without."""
    moved = 0
    for seed in range(examples(8)):
        plan = start(seed, small_shop, situation)
        draw = Random(seed)
        for made, hit in happenings(draw, plan):
            new = timetable(made, use_solver=bool(seed % 2))
            assert faults(new) == [], f"seed {seed}"
            assert no_more_than(plan, new, hit) == [], f"seed {seed}"
            assert all(one.why for one in new.schedule.moved)
            moved += len(new.schedule.moved)
    assert moved > 5


def happenings(draw: Random, plan: Timetable) -> Iterator[tuple[Situation, set[Item]]]:
    made, every = told(plan), list(items(plan))
    day = MONDAY + timedelta(days=draw.randint(0, 9))
    yield made, set()
    closed = (*made.crew.facts.closed, day)
    yield with_facts(made, closed=closed), {one for one in every if one[3] == day}
    away = Absence.model_construct(first=day, last=day + timedelta(days=1), starts=None, ends=None)
    people = dict(made.crew.people)
    code = draw.choice(sorted(people))
    people[code] = people[code].model_copy(update={"absent": (*people[code].absent, away)})
    days = {day, day + timedelta(days=1)}
    yield with_people(made, people), {one for one in every if one[0] == code and one[3] in days}
    trainers = list(made.crew.facts.trainers)
    at = draw.randrange(len(trainers))
    trainers[at] = trainers[at].model_copy(update={"absent": (*trainers[at].absent, away)})
    busy = {one for one in every if one[3] in days and _trains(plan, trainers[at].id, one)}
    yield with_facts(made, trainers=tuple(trainers)), busy
    yield from _more_happenings(Random(len(every)), plan, every)
    new = [one for one in plan.schedule.planned if one.leads and not one.together
           and one.lesson.kind is LessonKind.NEW]  # fmt: skip
    if new:
        one = draw.choice(new)
        signed = dict(made.crew.people)
        as_if = replace(one, sessions=tuple(replace(each, day=MONDAY) for each in one.sessions))
        who = one.lesson.person.id
        signed[who] = _recorded(signed[who], as_if, MONDAY, plan)
        early = {each for each in every if each[:2] == one.lesson.key}
        yield with_people(made, signed), early


def _more_happenings(
    draw: Random, plan: Timetable, every: list[Item]
) -> Iterator[tuple[Situation, set[Item]]]:
    """An hour's absence, somebody who leaves, a hold, a job taught otherwise, a late sign-off."""
    made = told(plan)
    day = MONDAY + timedelta(days=draw.randint(0, 9))
    people = dict(made.crew.people)
    code = draw.choice(sorted(people))
    hour = Absence.model_construct(first=day, last=None, starts=time(9), ends=time(10))
    people[code] = people[code].model_copy(update={"absent": (*people[code].absent, hour)})
    yield with_people(made, people), {one for one in every if one[0] == code and one[3] == day}
    people = dict(made.crew.people)
    people[code] = people[code].model_copy(update={"last_day": day})
    yield with_people(made, people), {one for one in every if one[0] == code and one[3] > day}
    if not every:
        return
    job = draw.choice(sorted({one[1] for one in every}))
    hold = Hold.model_construct(job=job, why="A stop is loose.", day=MONDAY, lift_by="lead")
    held = replace(made.shop, holds={job: (hold,)})
    of_job = {one for one in every if one[1] == job}
    yield replace(made, shop=held), of_job
    yield replace(made, fingerprints={**made.fingerprints, job: "2" * 64}), of_job
    ended = [one for one in plan.schedule.planned if one.leads and one.last == MONDAY]
    if ended:
        key = ended[0].lesson.key
        late = after(plan, MONDAY)
        left = {code: late.crew.people[code] for code in late.crew.people}
        for mate in ended[0].people:
            left[mate] = plan.situation.crew.people[mate]
        jobs = {(mate, one.lesson.job.id) for one in plan.schedule.planned
                for mate in ended[0].people if one.lesson.person.id == mate}  # fmt: skip
        hit = {one for one in every if one[:2] == key or one[:2] in jobs}
        yield with_people(late, left), hit


def _trains(plan: Timetable, code: str, item: Item) -> bool:
    person, job, is_check, day = item
    if is_check:
        return any(
            one.trainer == code and (one.person, one.job, one.session.day) == (person, job, day)
            for one in plan.schedule.checks
        )
    planned = plan.planned(person, job)
    return planned is not None and planned.trainer.id == code


def test_what_moved_is_told_with_the_reason_and_the_new_time(situation: Make) -> None:
    people = [{"id": "op-01", "must_be_able": [{"job": "b", "by": "2026-04-17"}]}]
    plan = timetable(situation({"a": (), "b": ("a",)}, people))
    assert plan.schedule.planned[0].last == MONDAY
    closed = with_facts(told(plan), closed=(MONDAY,))
    moved = timetable(closed).schedule.moved
    (first, *others) = [one for one in moved if not one.is_check]
    assert (first.people, first.job, first.why) == (("op-01",), "a", "the shop is closed that day")
    assert [one.day > MONDAY for one in first.now] == [True]
    assert {one.job for one in others} <= {"b"}
    assert Crew(closed.crew.facts).promised is None
