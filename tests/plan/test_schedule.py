"""Lessons in the trainers' days: every due day met where any order meets it; else by how much."""

from __future__ import annotations

from collections import defaultdict
from datetime import date, timedelta
from itertools import permutations
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from made_crews import MONDAY, Make

from benchleaf.plan import Timetable, timetable
from benchleaf.plan.lessons import LessonKind, lesson_minutes
from running import examples

FLAT = {
    "lesson": {
        "get_ready_minutes": 60,
        "step_minutes": 1e-9,
        "key_point_minutes": 1e-9,
        "round_step_minutes": 1e-9,
    }
}
"""Each lesson an hour, near enough."""


def due(job: str, by: date) -> dict[str, Any]:
    return {"job": job, "by": by.isoformat()}


def spent(plan: Timetable) -> dict[tuple[str, date], float]:
    found: dict[tuple[str, date], float] = defaultdict(float)
    for one in plan.schedule.planned:
        for session in one.sessions:
            found[one.trainer.id, session.day] += session.minutes
    return found


def test_lessons_are_given_by_due_day_and_never_past_the_trainers_time(situation: Make) -> None:
    people = [
        {"id": f"op-0{n}", "must_be_able": [due("a", MONDAY + timedelta(days=4 - n))]}
        for n in range(4)
    ]
    plan = timetable(situation({"a": ()}, people, teaching=FLAT))
    assert [one.lesson.person.id for one in plan.schedule.planned] == [
        "op-03", "op-02", "op-01", "op-00",
    ]  # fmt: skip
    assert max(spent(plan).values()) <= 120 + 1e-6
    assert plan.schedule.late == ()


def test_what_cannot_be_met_is_told_with_by_how_much(situation: Make) -> None:
    """Five hours by Tuesday evening, two a day: an hour short; two and a half a shift wanted."""
    people = [
        {"id": f"op-0{n}", "must_be_able": [due("a", MONDAY + timedelta(days=1))]} for n in range(5)
    ]
    plan = timetable(situation({"a": ()}, people, teaching=FLAT))
    (load,) = plan.schedule.loads
    assert load.short_minutes == pytest.approx(60, abs=0.01)
    assert load.short_by == MONDAY + timedelta(days=1)
    assert load.wanted_minutes_a_shift == pytest.approx(151, abs=1)
    assert plan.schedule.late[0].late_days >= 1
    assert not plan.schedule.known.is_best or plan.schedule.late[0].late_days == 1


def test_a_trainer_with_time_enough_is_asked_for_no_more(situation: Make) -> None:
    people = [{"id": "op-01", "must_be_able": [due("a", MONDAY + timedelta(days=4))]}]
    (load,) = timetable(situation({"a": ()}, people, teaching=FLAT)).schedule.loads
    assert (load.short_minutes, load.short_by) == (0, None)
    assert load.wanted_minutes_a_shift == 120


def test_no_time_suffices_for_a_day_that_is_past(situation: Make) -> None:
    people = [{"id": "op-01", "must_be_able": [due("a", MONDAY - timedelta(days=3))]}]
    plan = timetable(situation({"a": ()}, people, teaching=FLAT))
    (load,) = plan.schedule.loads
    assert load.wanted_minutes_a_shift is None
    assert plan.schedule.late[0].late_days == 3


def test_weekends_and_closed_days_are_left_free(situation: Make) -> None:
    friday = MONDAY + timedelta(days=4)
    people = [
        {"id": f"op-{n}", "must_be_able": [due("a", MONDAY + timedelta(days=20))]}
        for n in range(10, 20)
    ]
    crew = {"closed": [friday.isoformat()]}
    plan = timetable(situation({"a": ()}, people, teaching=FLAT, crew=crew))
    days = {day for _, day in spent(plan)}
    assert days
    assert all(day.weekday() < 5 and day != friday for day in days)


def test_jobs_to_know_first_are_taught_first_and_added_where_nobody_asked(situation: Make) -> None:
    needs: dict[str, tuple[str, ...]] = {"a": (), "b": ("a",), "c": ("b",)}
    people = [{"id": "op-01", "must_be_able": [due("c", MONDAY + timedelta(days=9))]}]
    plan = timetable(situation(needs, people, teaching=FLAT))
    assert [one.lesson.job.id for one in plan.schedule.planned] == ["a", "b", "c"]
    assert {one.job.id: one.wanted_for for one in plan.lessons} == {
        "a": ("b",), "b": ("c",), "c": (),
    }  # fmt: skip


def test_what_is_proved_is_not_taught_and_what_lapsed_comes_first(situation: Make) -> None:
    needs: dict[str, tuple[str, ...]] = {"a": (), "b": ("a",)}
    proved = {"job": "a", "revision": 2, "judged": "2026-03-02", "judged_by": "tr-01"}
    later = [due("b", MONDAY + timedelta(days=9))]
    fresh = {"id": "op-01", "can_do": [proved], "must_be_able": later}
    plan = timetable(situation(needs, [fresh], teaching=FLAT))
    assert [one.lesson.job.id for one in plan.schedule.planned] == ["b"]
    stale = {"id": "op-01", "can_do": [{**proved, "fingerprint": "1" * 8}], "must_be_able": later}
    plan = timetable(situation(needs, [stale], teaching=FLAT))
    assert [(one.lesson.job.id, one.lesson.kind) for one in plan.schedule.planned] == [
        ("a", LessonKind.AGAIN), ("b", LessonKind.NEW),
    ]  # fmt: skip


def test_a_lesson_that_nobody_may_teach_is_told(situation: Make) -> None:
    crew = {"trainers": [{"id": "tr-01", "shift": "early", "hours": "2 h", "teaches": ["a"]}]}
    people = [{"id": "op-01", "must_be_able": [due("b", MONDAY)]}]
    plan = timetable(situation({"a": (), "b": ("a",)}, people, crew=crew, teaching=FLAT))
    assert [one.lesson.job.id for one in plan.schedule.planned] == ["a"]
    (left,) = plan.schedule.unplanned
    assert "no trainer of the early shift may teach it" in left.why
    nobody = timetable(situation({"a": ()}, [{"id": "op-01", "must_be_able": [due("a", MONDAY)]}],
                                 crew={"trainers": []}))  # fmt: skip
    assert len(nobody.schedule.unplanned) == 1


def test_a_learner_keeps_the_trainer_of_their_record(situation: Make) -> None:
    trainers = [{"id": f"tr-0{n}", "shift": "early", "hours": "2 h"} for n in (1, 2)]
    people = [
        {"id": "op-01", "learning": [{"job": "a", "round": 1, "trainer": "tr-02"}],
         "must_be_able": [due("b", MONDAY + timedelta(days=9))]},
    ]  # fmt: skip
    plan = timetable(situation({"a": (), "b": ()}, people, crew={"trainers": trainers}))
    assert {one.trainer.id for one in plan.schedule.planned} == {"tr-02"}


def test_two_trainers_share_the_learners(situation: Make) -> None:
    trainers = [{"id": f"tr-0{n}", "shift": "early", "hours": "2 h"} for n in (1, 2)]
    people = [
        {"id": f"op-0{n}", "must_be_able": [due("a", MONDAY + timedelta(days=9))]} for n in range(8)
    ]
    plan = timetable(situation({"a": ()}, people, crew={"trainers": trainers}, teaching=FLAT))
    assert plan.schedule.late == ()
    assert [load.minutes for load in plan.schedule.loads] == pytest.approx([240, 240], abs=0.01)


def test_a_lesson_waits_for_another_trainers(situation: Make) -> None:
    trainers = [
        {"id": "tr-01", "shift": "early", "hours": "2 h", "teaches": ["a"]},
        {"id": "tr-02", "shift": "early", "hours": "2 h", "teaches": ["b"]},
    ]
    people = [{"id": "op-01", "must_be_able": [due("b", MONDAY + timedelta(days=4))]}]
    plan = timetable(situation({"a": (), "b": ("a",)}, people, crew={"trainers": trainers},
                               teaching=FLAT))  # fmt: skip
    first, then = plan.schedule.planned
    assert (first.trainer.id, then.trainer.id) == ("tr-01", "tr-02")
    assert then.sessions[0].begin >= first.sessions[-1].end


def test_the_length_of_a_lesson_by_the_rule(situation: Make) -> None:
    """Three steps, seven key points: 15 + 3 × 3 + 7 × 1.5 + 4 × 3 × 2.5 = 64.5 minutes."""
    made = situation({"a": ()}, [])
    job, rule = made.shop.jobs["a"], made.shop.manual.teaching.lesson
    assert lesson_minutes(job, LessonKind.NEW, rule)[0] == 64.5
    assert lesson_minutes(job, LessonKind.GO_ON, rule, 3)[0] == 15 + 3 * 2.5
    assert lesson_minutes(job, LessonKind.AGAIN, rule)[0] == 15 + 3 * 3 + 3 * 2.5
    assert lesson_minutes(job, LessonKind.CHECK, rule)[0] == 15 + 3 * 2.5
    assert lesson_minutes(job, LessonKind.NEW, rule)[1].endswith("= 64.5 min")


jobs = st.integers(1, 3).flatmap(
    lambda count: st.lists(st.booleans(), min_size=count, max_size=count)
)
"""Jobs in a row; true where one needs the one before it."""


@settings(max_examples=examples(40))
@given(
    jobs,
    st.lists(st.lists(st.integers(0, 6), min_size=1, max_size=3), min_size=1, max_size=2),
    st.sampled_from(["1 h", "1.5 h", "2.5 h"]),
)
def test_every_due_day_is_met_where_any_order_meets_it(
    situation: Make, chain: list[bool], asked: list[list[int]], hours: str
) -> None:
    """One trainer, every order tried. Where none meets all days, the shortage told is the least."""
    names = "abc"[: len(chain)]
    needs: dict[str, tuple[str, ...]] = {
        name: (names[n - 1],) if n and chain[n] else () for n, name in enumerate(names)
    }
    people = [
        {"id": f"op-0{n}", "must_be_able": [
            due(name, MONDAY + timedelta(days=days))
            for name, days in zip(names, days_, strict=False)
        ]}
        for n, days_ in enumerate(asked)
    ]  # fmt: skip
    crew = {"trainers": [{"id": "tr-01", "shift": "early", "hours": hours}]}
    plan = timetable(situation(needs, people, crew=crew, teaching=FLAT))
    minutes = float(hours.split()[0]) * 60
    best = min(short(order, minutes) for order in permutations(plan.lessons) if allowed(order))
    (load,) = plan.schedule.loads
    assert load.short_minutes == pytest.approx(max(0.0, best), abs=0.01)
    assert (plan.schedule.late == ()) == (best <= 0.01)


def allowed(order: tuple[Any, ...]) -> bool:
    place = {one.key: number for number, one in enumerate(order)}
    return all(place[one.person.id, need] < place[one.key] for one in order for need in one.needs)


def short(order: tuple[Any, ...], minutes_a_day: float) -> float:
    """Greatest lateness of an order in minutes; Monday to Sunday, five of them worked."""
    clock, worst = 0.0, float("-inf")
    for one in order:
        clock += one.minutes
        if one.due is not None:
            worked = sum(
                1
                for ahead in range((one.due - MONDAY).days + 1)
                if (MONDAY + timedelta(days=ahead)).weekday() < 5
            )
            worst = max(worst, clock - worked * minutes_a_day)
    return worst


@settings(max_examples=examples(25))
@given(st.data())
def test_no_plan_breaks_its_own_rules(situation: Make, data: st.DataObject) -> None:
    """Two shifts, two trainers each with a list, any records: time, order and shift are kept."""
    needs: dict[str, tuple[str, ...]] = {"a": (), "b": ("a",), "c": ("a",), "d": ("b", "c")}
    shifts = [
        {"id": name, "name": name, "starts": "06:00", "hours": "8 h"} for name in ("early", "late")
    ]
    lists = st.lists(st.sampled_from("abcd"), unique=True)
    trainers = [
        {"id": f"tr-0{n}", "shift": data.draw(st.sampled_from(["early", "late"])),
         "hours": data.draw(st.sampled_from(["1 h", "2 h"])), "teaches": data.draw(lists)}
        for n in range(3)
    ]  # fmt: skip
    people = []
    for number in range(3):
        proved = data.draw(st.sets(st.sampled_from("abcd")))
        dues = data.draw(st.dictionaries(st.sampled_from("abcd"), st.integers(-3, 15)))
        people.append({
            "id": f"op-0{number}",
            "shift": data.draw(st.sampled_from(["early", "late"])),
            "can_do": [
                {"job": job, "revision": 2, "judged": "2026-02-02", "judged_by": "tr-01"}
                for job in sorted(proved)
            ],
            "must_be_able": [due(j, MONDAY + timedelta(days=n)) for j, n in sorted(dues.items())],
        })  # fmt: skip
    plan = timetable(
        situation(needs, people, crew={"shifts": shifts, "trainers": trainers}, teaching=FLAT)
    )
    told = [*(one.lesson.key for one in plan.schedule.planned),
            *(one.lesson.key for one in plan.schedule.unplanned)]  # fmt: skip
    assert sorted(told) == sorted(one.key for one in plan.lessons)
    ends = {one.lesson.key: one for one in plan.schedule.planned}
    for one in plan.schedule.planned:
        assert one.trainer.shift == one.lesson.person.shift
        assert not one.trainer.teaches or one.lesson.job.id in one.trainer.teaches
        assert sum(each.minutes for each in one.sessions) == pytest.approx(one.lesson.minutes)
        for need in one.lesson.needs:
            before = ends[one.lesson.person.id, need]
            assert before.sessions[-1].end <= one.sessions[0].begin
    hours = {one.id: one.hours.value / 60 for one in plan.situation.crew.facts.trainers}
    assert all(minutes <= hours[code] + 1e-6 for (code, _), minutes in spent(plan).items())
