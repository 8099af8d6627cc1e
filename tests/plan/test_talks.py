"""One talk of what changed serves several people, and nobody is later for it."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from datetime import date
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from made_crews import MONDAY, Make

from benchleaf.model import ChangedRevision, ChangedStatement, JobChanges
from benchleaf.plan import LessonKind, Situation, Timetable, timetable
from running import examples

RULE = {"lesson": {"get_ready_minutes": "10", "step_minutes": "3", "key_point_minutes": "1",
                   "round_step_minutes": "2"}}  # fmt: skip
NEEDS: dict[str, tuple[str, ...]] = {"a": (), "b": ("a",)}
NOW = dict.fromkeys(NEEDS, "a" * 64)


def proved(job: str, revision: int = 1) -> dict[str, Any]:
    return {"job": job, "revision": revision, "judged": "2026-03-30", "judged_by": "tr-01",
            "fingerprint": f"{revision}" * 8}  # fmt: skip


def changed(made: Situation) -> Situation:
    """The same, where revisions 1 and 2 of each job are of a key point at the first step."""
    step = made.shop.jobs["a"].steps[0].id
    entry = ChangedStatement.model_validate({
        "what": "a key point", "place": f"steps/{step}/key_points/1/point",
        "where": "key point 1", "was": "Pull it.", "now": "Push it.",
    })  # fmt: skip
    revisions = tuple(
        ChangedRevision(revision=new, former=old, statements=(entry,))
        for old, new in (("0", "1"), ("1", "2"))
    )
    changes = {job: JobChanges(job=job, changes=revisions) for job in made.shop.jobs}
    return replace(made, shop=replace(made.shop, changes=changes))


def plan_of(situation: Make, people: list[dict[str, Any]], **more: Any) -> Timetable:
    return timetable(changed(situation(NEEDS, people, teaching=RULE, fingerprints=NOW, **more)))


def by_talk(plan: Timetable) -> dict[tuple[str, ...], float]:
    return {one.together: one.minutes for one in plan.schedule.planned if one.together}


def test_three_who_were_taught_the_same_hear_it_once_and_each_does_it(situation: Make) -> None:
    """10 to get ready, one step of 3, one round of one step of 2 for each of three: 19, so 20."""
    people = [{"id": f"op-0{n}", "can_do": [proved("a")]} for n in range(3)]
    plan = plan_of(situation, people)
    assert {one.lesson.kind for one in plan.schedule.planned} == {LessonKind.AGAIN}
    assert by_talk(plan) == {("op-00", "op-01", "op-02"): 20}
    assert len({one.sessions for one in plan.schedule.planned}) == 1
    assert [one.leads for one in plan.schedule.planned] == [True, False, False]
    assert [load.minutes for load in plan.schedule.loads] == [20]


def test_who_was_taught_another_revision_or_the_whole_job_is_taught_apart(situation: Make) -> None:
    people = [
        {"id": "op-00", "can_do": [proved("a", 0)]},
        {"id": "op-01", "can_do": [proved("a")]},
        {"id": "op-02", "must_be_able": [{"job": "a", "by": "2026-04-20"}]},
    ]
    plan = plan_of(situation, people)
    assert by_talk(plan) == {}
    assert len(plan.schedule.planned) == 3


def test_who_waits_for_a_lesson_that_nobody_gives_holds_up_nobody(situation: Make) -> None:
    trainers = [{"id": "tr-01", "shift": "early", "hours": "2 h", "teaches": ["b"]}]
    people = [
        {"id": "op-00", "can_do": [proved("a"), proved("b")]},  # a lapsed too, and nobody gives it
        {"id": "op-01", "can_do": [proved("b")]},
        {"id": "op-02", "can_do": [proved("b")]},
    ]
    plan = plan_of(situation, people, crew={"trainers": trainers})
    assert list(by_talk(plan)) == [("op-01", "op-02")]
    assert {one.lesson.key for one in plan.schedule.unplanned} == {("op-00", "a"), ("op-00", "b")}


def test_a_second_trainer_does_not_tell_it_once_more(situation: Make) -> None:
    trainers = [{"id": f"tr-0{n}", "shift": "early", "hours": "2 h"} for n in (1, 2)]
    people = [{"id": f"op-0{n}", "can_do": [proved("a")]} for n in range(4)]
    plan = plan_of(situation, people, crew={"trainers": trainers})
    assert [len(one) for one in by_talk(plan)] == [4]


@settings(max_examples=examples(20))
@given(st.data())
def test_talks_keep_every_rule_and_ask_for_no_more_time(
    situation: Make, data: st.DataObject
) -> None:
    """Any records: who hears what, with whom, when, reckoned here from the plan alone."""
    trainers = [
        {"id": f"tr-0{n}", "shift": "early", "hours": "1 h",
         "teaches": data.draw(st.sampled_from([[], ["a"], ["b"]]))}
        for n in range(data.draw(st.integers(1, 2)))
    ]  # fmt: skip
    people = []
    for number in range(4):
        known = data.draw(st.dictionaries(st.sampled_from("ab"), st.integers(0, 2), min_size=1))
        people.append({"id": f"op-0{number}", "can_do": [proved(*one) for one in known.items()]})
    plan = plan_of(situation, people, crew={"trainers": trainers})
    ends = {one.lesson.key: one for one in plan.schedule.planned}
    spent: dict[tuple[str, date], float] = defaultdict(float)
    for one in plan.schedule.planned:
        mates = [ends[code, one.lesson.job.id] for code in one.people]
        assert one in mates
        assert len({(each.trainer.id, each.sessions, each.lesson.talk) for each in mates}) == 1
        wanted = 13 + 2 * len(mates) if one.together else one.lesson.minutes
        assert wanted - 1e-6 <= one.minutes < wanted + 5
        for need in one.lesson.needs:
            before = ends[one.lesson.person.id, need]
            assert before.sessions[-1].end <= one.sessions[0].begin
        if one.leads:
            for session in one.sessions:
                spent[one.trainer.id, session.day] += session.minutes
    assert all(minutes <= 60 + 1e-6 for minutes in spent.values())
    told = [one.lesson.key for one in plan.schedule.planned]
    told += [one.lesson.key for one in plan.schedule.unplanned]
    assert sorted(told) == sorted(one.key for one in plan.lessons)
    for load in plan.schedule.loads:
        mine = [one for one in plan.schedule.planned if one.trainer is load.trainer and one.leads]
        assert sum(one.minutes for one in mine) <= load.minutes + 1e-6
    assert all(one.first >= MONDAY for one in plan.schedule.planned)
