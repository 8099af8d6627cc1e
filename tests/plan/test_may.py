"""Who may do what with a job, why not, and a plan that goes by it. Unknown is never a yes."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from made_crews import MONDAY, Make

from benchleaf.model import LockoutStage, MadeFrom
from benchleaf.plan import Answer, Doing, Says, Situation, State, timetable, who_may

SET, LOCK, TEACH, JUDGE = Doing.SET, Doing.LOCK_OFF, Doing.TEACH, Doing.JUDGE
DAY = timedelta(days=1)


def proved(job: str = "a", **more: Any) -> dict[str, Any]:
    return {"job": job, "revision": 2, "judged": "2026-03-02", "judged_by": "tr-01", **more}


def holds(may: str, **more: Any) -> dict[str, Any]:
    """An authority that holds on the Monday of these tests."""
    key = "may" if may in tuple(Doing) else "licence"
    return {key: may, "given": "2026-01-05", "until": "2027-01-04", "proof": "a list", **more}


def locked(made: Situation, *jobs: str) -> Situation:
    """The same with jobs that are done under lock."""
    under = {}
    for job_id in jobs:
        job = made.shop.jobs[job_id]
        first = job.steps[0].model_copy(update={"lockout": LockoutStage.VERIFY})
        under[job_id] = job.model_copy(update={"steps": (first, *job.steps[1:])})
    return replace(made, shop=replace(made.shop, jobs={**made.shop.jobs, **under}))


def answer(made: Situation, code: str, doing: Doing, job: str = "a") -> Answer:
    found = who_may(made, made.shop.jobs[job]).answers[doing]
    return next(one for one in found if one.code == code)


def why(one: Answer) -> str:
    return "; ".join(f"{each.words} {each.day or ''}".strip() for each in one.against)


def test_where_nothing_is_recorded_it_is_not_known_and_the_plan_is_as_before(
    situation: Make,
) -> None:
    people = [{"id": "op-01", "can_do": [proved()]}, {"id": "op-02", "must_be_able": [
        {"job": "a", "by": "2026-05-01"}]}]  # fmt: skip
    made = situation({"a": ()}, people)
    assert answer(made, "op-01", Doing.RUN).says is Says.MAY
    for doing in (SET, LOCK, TEACH, JUDGE):
        for code in ("op-01", "tr-01"):
            assert answer(made, code, doing).says is Says.NOT_KNOWN, (doing, code)
    plan = timetable(made)
    assert [one.trainer.id for one in plan.schedule.planned] == ["tr-01"]
    assert plan.not_teaching == ()
    under_lock = locked(made, "a")
    assert answer(under_lock, "op-01", Doing.RUN).says is Says.NOT_KNOWN
    key = ("op-01", "a")
    assert timetable(under_lock).standings[key].state is State.CAN_DO  # the plan hears nothing


@pytest.mark.parametrize(
    ("today", "says", "said"),
    [
        (date(2026, 1, 4), Says.MAY_NOT, "authority to lock off begins on 2026-01-05"),
        (date(2026, 1, 5), Says.MAY, ""),
        (date(2027, 1, 4), Says.MAY, ""),
        (date(2027, 1, 5), Says.MAY_NOT, "authority to lock off ended on 2027-01-04"),
    ],
)
def test_an_authority_holds_from_its_first_day_to_its_last(
    situation: Make, today: date, says: Says, said: str
) -> None:
    made = situation({"a": ()}, [{"id": "op-01", "authorities": [holds("lock off")]}], today=today)
    found = answer(made, "op-01", LOCK)
    assert (found.says, why(found)) == (says, said)
    assert found.last == (date(2027, 1, 4) if says is Says.MAY else None)


def test_a_job_under_lock_asks_for_the_lock_and_cover_counts_on_nobody_without(
    situation: Make,
) -> None:
    ended = holds("lock off", until="2026-04-05")
    people = [
        {"id": "op-01", "can_do": [proved()], "authorities": [holds("lock off")]},
        {"id": "op-02", "can_do": [proved()], "authorities": [ended]},
        {"id": "op-03", "can_do": [proved()]},
        {"id": "op-04", "can_do": [proved()], "authorities": [holds("lock off", jobs=["b"])]},
    ]
    crew = {"cover": [{"job": "a", "at_least": 2}]}
    made = locked(situation({"a": (), "b": ()}, people, crew=crew), "a")
    found = {code: answer(made, code, Doing.RUN) for code in ("op-01", "op-02", "op-03", "op-04")}
    assert [one.says for one in found.values()] == [Says.MAY] + 3 * [Says.MAY_NOT]
    assert why(found["op-02"]) == "authority to lock off ended on 2026-04-05"
    assert why(found["op-03"]) == "no authority to lock off is recorded"
    assert "for other jobs" in why(found["op-04"])
    (line,) = timetable(made).cover
    assert (line.able, line.lapsed) == (("op-01",), ("op-02", "op-03", "op-04"))


def test_an_authority_counts_at_its_stations_only(situation: Make) -> None:
    here = situation({"a": ()}, []).shop.jobs["a"].machine
    people = [
        {"id": "op-01", "authorities": [holds("set", stations=[here])]},
        {"id": "op-02", "authorities": [holds("set", stations=["elsewhere"])]},
        {"id": "op-03", "authorities": [holds("set", stations=[here], jobs=["b"])]},
    ]
    made = situation({"a": (), "b": ()}, people)
    assert [one.says for one in who_may(made, made.shop.jobs["a"]).answers[SET][:3]] == [
        Says.MAY, Says.MAY_NOT, Says.MAY_NOT,
    ]  # fmt: skip
    assert answer(made, "op-03", SET, "b").says is Says.MAY


def test_who_is_signed_off_on_a_like_machine_is_told_so(situation: Make) -> None:
    made = situation({"a": (), "b": ()}, [{"id": "op-01", "can_do": [proved("b")]}])
    other = made.shop.jobs["b"].model_copy(update={"machine": "other-drill"})
    group = {job_id: MadeFrom("", "a", group="drills") for job_id in ("a", "b")}
    jobs = {**made.shop.jobs, "b": other}
    made = replace(made, shop=replace(made.shop, jobs=jobs, made=group))
    here = jobs["a"].machine
    assert answer(made, "op-01", Doing.RUN, "b").says is Says.MAY
    found = answer(made, "op-01", Doing.RUN)
    assert (found.says, why(found)) == (
        Says.MAY_NOT, f"signed off for it as B at other-drill, not at {here}",
    )  # fmt: skip


def test_a_licence_from_outside_is_asked_of_who_runs_the_job(situation: Make) -> None:
    people = [
        {"id": "op-01", "can_do": [proved()], "authorities": [holds("Forklift  licence")]},
        {"id": "op-02", "can_do": [proved()]},
    ]
    crew = {"asks_for": [{"licence": "forklift licence", "jobs": ["a"]}]}
    made = situation({"a": ()}, people, crew=crew)
    licensed = answer(made, "op-01", Doing.RUN)
    assert licensed.says is Says.MAY
    assert licensed.proof == ("signed off on revision 2 on 2026-03-02 by tr-01", "a list")
    assert why(answer(made, "op-02", Doing.RUN)) == "no forklift licence is recorded"


@pytest.mark.parametrize(
    ("record", "says", "said"),
    [
        ({}, Says.MAY_NOT, "not signed off"),
        ({"learning": [{"job": "a", "round": 2}]}, Says.MAY_NOT, "is learning it, round 2 reached"),
        ({"can_do": [proved(revision=1)]}, Says.MAY_NOT,
         "signed off on revision 1, and to be taught what changed; revision 2 is in force since "
         "2026-03-02"),
        ({"can_do": [proved(fingerprint="b" * 8)]}, Says.MAY_NOT,
         "to be taught again: what the job means has changed since revision 2"),
        ({"can_do": [proved(until="2026-04-05")]}, Says.MAY_NOT,
         "the sign-off ended on 2026-04-05"),
        ({"can_do": [proved(until="2026-04-06")]}, Says.MAY, ""),
        ({"can_do": [proved(judged="2025-10-01", revision=2, last_done="2026-01-01")]},
         Says.MAY_NOT, "last done 95 days ago; the sign-off held until 2026-04-01"),
        ({"can_do": [proved(judged_by="tr-09")]}, Says.NOT_KNOWN,
         "judged by tr-09, whom the records do not know"),
        ({"can_do": [proved(judged="2026-03-01")]}, Says.NOT_KNOWN,
         "judged before revision 2, which is in force since 2026-03-02"),
        ({"can_do": [proved()], "last_day": "2026-04-05"}, Says.MAY_NOT,
         "last worked on 2026-04-05"),
        ({"can_do": [proved()], "first_day": "2026-04-07"}, Says.MAY_NOT,
         "begins to work on 2026-04-07"),
    ],
)  # fmt: skip
def test_why_a_sign_off_lets_nobody_run_is_named_with_its_date(
    situation: Make, record: dict[str, Any], says: Says, said: str
) -> None:
    made = situation({"a": ()}, [{"id": "op-01", **record}])
    found = answer(made, "op-01", Doing.RUN)
    assert (found.says, why(found)) == (says, said)


def test_a_sign_off_for_a_time_lapses_in_the_plan_too(situation: Make) -> None:
    made = situation({"a": ()}, [{"id": "op-01", "can_do": [proved(until="2026-04-05")]}])
    (lesson,) = timetable(made).lessons
    assert lesson.kind.value == "check again"


def test_somebody_who_is_away_is_told_so(situation: Make) -> None:
    away = [{"first": "2026-04-06"}]
    hour = [{"first": "2026-04-06", "starts": "08:00", "ends": "09:00"}]
    people = [
        {"id": "op-01", "can_do": [proved()], "absent": away},
        {"id": "op-02", "can_do": [proved()], "absent": hour},
    ]
    made = situation({"a": ()}, people)
    assert answer(made, "op-01", Doing.RUN).is_away
    assert not answer(made, "op-02", Doing.RUN).is_away


TWO = {"trainers": [{"id": "tr-01", "shift": "early", "hours": "2 h"},
                    {"id": "tr-02", "shift": "early", "hours": "2 h"}]}  # fmt: skip
LEARNERS = [
    {"id": "op-01", "must_be_able": [{"job": "a", "by": "2026-05-01"}]},
    {"id": "op-02", "must_be_able": [{"job": "a", "by": "2026-05-01"}]},
]


def trainer(code: str, *authorities: dict[str, Any], **more: Any) -> dict[str, Any]:
    judge = "tr-02" if code == "tr-01" else "tr-01"
    signed = {"can_do": [proved(judged_by=judge, last_done="2026-04-02")], **more}
    return {"id": code, "authorities": list(authorities), **signed}


@pytest.mark.parametrize(
    ("first", "said"),
    [
        (trainer("tr-01"), "no authority to teach is recorded"),
        (trainer("tr-01", holds("teach"), can_do=[]), "not signed off"),
        (trainer("tr-01", holds("teach"), can_do=[proved(revision=1)]), "signed off on revision 1"),
        (trainer("tr-01", holds("teach", until="2026-04-05")), "authority to teach ended on"),
        (trainer("tr-01", holds("teach", jobs=["b"])), "for other jobs"),
        (None, "no file in people/ is about them"),
    ],
)
def test_no_lesson_is_given_by_who_may_not_teach_it_and_that_is_told_once(
    situation: Make, first: dict[str, Any] | None, said: str
) -> None:
    people = [*LEARNERS, trainer("tr-02", holds("teach")), *([first] if first else [])]
    plan = timetable(situation({"a": (), "b": ()}, people, crew=TWO))
    learners = [one for one in plan.schedule.planned if one.lesson.person.id.startswith("op")]
    assert [one.trainer.id for one in learners] == ["tr-02", "tr-02"]
    assert {one.trainer for one in plan.schedule.checks if one.person.startswith("op")} == {"tr-02"}
    (barred,) = plan.not_teaching
    assert (barred.code, barred.jobs) == ("tr-01", ("a",))
    assert said in "; ".join(one.words for one in barred.against)


def test_no_lesson_lies_after_the_last_day_of_its_trainers_authority(situation: Make) -> None:
    friday = MONDAY + 4 * DAY
    ends = trainer("tr-01", holds("teach", until=friday.isoformat()))
    many = [
        {"id": f"op-{number:02}", "must_be_able": [{"job": "a", "by": "2026-05-29"}]}
        for number in range(10, 40)
    ]
    plan = timetable(situation({"a": (), "b": ()}, [*many, ends], crew=TWO))
    given = [one for one in plan.schedule.planned if one.trainer.id == "tr-01"]
    assert given
    assert max(one.last for one in given) <= friday
    assert {one.session.day for one in plan.schedule.checks} <= {
        MONDAY + number * DAY for number in range(5)
    }
    assert len(given) + len(plan.schedule.unplanned) == len(many)
    assert plan.schedule.unplanned


def test_what_was_promised_with_a_trainer_who_may_teach_no_more_moves(situation: Make) -> None:
    from benchleaf.plan import promise_of

    both = [trainer("tr-01", holds("teach")), trainer("tr-02", holds("teach"))]
    made = situation({"a": ()}, [*LEARNERS, *both], crew=TWO)
    plan = timetable(made)
    told = next(one.trainer.id for one in plan.schedule.planned if one.lesson.person.id == "op-01")
    kept = made.crew.people[told].model_copy(update={"authorities": ()})
    crew = replace(made.crew, people={**made.crew.people, told: kept}, promised=promise_of(plan))
    again = timetable(replace(made, crew=crew, today=MONDAY))
    assert told not in {one.trainer.id for one in again.schedule.planned}
    assert any(one.why == f"{told} may not teach it" for one in again.schedule.moved)


def test_a_job_that_must_not_run_is_run_set_and_taught_by_nobody(situation: Make) -> None:
    people = [{"id": "op-01", "can_do": [proved()], "authorities": [holds("set"), holds("judge")]}]
    made = situation({"a": ()}, people)
    job = made.shop.jobs["a"].model_copy(update={"still_open": ("the gauge",)})
    made = replace(made, shop=replace(made.shop, jobs={"a": job}))
    found = who_may(made, job)
    assert "is a draft" in found.never
    assert not found.somebody_runs
    assert not found.those(SET, Says.MAY)
    assert [one.code for one in found.those(JUDGE, Says.MAY)] == ["op-01"]
