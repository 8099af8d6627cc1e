"""Where people stand: what makes a sign-off lapse, cover, and what hangs on one person."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from made_crews import MONDAY, Make

from benchleaf.compute import set_up_sheets
from benchleaf.meaning import said, statements
from benchleaf.model import DrillingSetUp
from benchleaf.plan import Situation, State, timetable

NOW, BEFORE = "a" * 64, "b" * 64


def proved(job: str = "a", **more: Any) -> dict[str, Any]:
    return {"job": job, "revision": 2, "judged": "2026-03-02", "judged_by": "tr-01", **more}


@pytest.mark.parametrize(
    ("record", "state", "why"),
    [
        ({"can_do": [proved()]}, State.CAN_DO, "revision 2"),
        ({"can_do": [proved(fingerprint="a" * 8)]}, State.CAN_DO, "revision 2"),
        ({"can_do": [proved(fingerprint="b" * 8)]}, State.TEACH_AGAIN, "has changed"),
        ({"can_do": [proved(revision=1)]}, State.TEACH_AGAIN, "with no fingerprint"),
        ({"can_do": [proved(revision=1, fingerprint="a" * 8)]}, State.CAN_DO, "revision 1"),
        ({"learning": [{"job": "a", "round": 2}]}, State.LEARNING, "round 2"),
        ({"must_be_able": [{"job": "a", "by": "2026-05-01"}]}, State.TO_LEARN, "not begun"),
        ({"not_needed": ["a"]}, State.NOT_NEEDED, ""),
        ({}, State.NOTHING, ""),
    ],
)
def test_the_state_follows_from_the_record(
    situation: Make, record: dict[str, Any], state: State, why: str
) -> None:
    made = situation({"a": ()}, [{"id": "op-01", **record}], fingerprints={"a": NOW})
    found = made.standing(made.crew.people["op-01"], made.shop.jobs["a"])
    assert found.state is state
    assert why in found.why


@pytest.mark.parametrize(("days", "state"), [(90, State.CAN_DO), (91, State.CHECK_AGAIN)])
def test_a_job_not_done_for_longer_than_the_rule_is_checked_again(
    situation: Make, days: int, state: State
) -> None:
    last = (MONDAY - timedelta(days=days)).isoformat()
    old = proved(judged="2025-10-01", last_done=last)
    made = situation({"a": ()}, [{"id": "op-01", "can_do": [old]}])
    found = made.standing(made.crew.people["op-01"], made.shop.jobs["a"])
    assert found.state is state
    assert found.recheck_on == MONDAY + timedelta(days=90 - days)


def test_the_days_are_the_shops_own(situation: Make) -> None:
    old = proved(last_done=(MONDAY - timedelta(days=20)).isoformat())
    made = situation({"a": ()}, [{"id": "op-01", "can_do": [old]}],
                     teaching={"recheck_after_unused_days": 10})  # fmt: skip
    found = made.standing(made.crew.people["op-01"], made.shop.jobs["a"])
    assert (found.state, found.why) == (State.CHECK_AGAIN, "last done 20 days ago")


def test_without_a_last_day_the_day_it_was_proved_counts(situation: Make) -> None:
    made = situation({"a": ()}, [{"id": "op-01", "can_do": [proved()]}], today=date(2026, 9, 1))
    assert made.standing(made.crew.people["op-01"], made.shop.jobs["a"]).state is State.CHECK_AGAIN


def test_cover_counts_only_those_whose_sign_off_holds(situation: Make) -> None:
    people = [
        {"id": "op-01", "can_do": [proved()]},
        {"id": "op-02", "can_do": [proved(fingerprint="b" * 8)]},
        {"id": "op-03", "learning": [{"job": "a", "round": 1}]},
    ]
    crew = {"cover": [{"job": "a", "at_least": 2}]}
    plan = timetable(situation({"a": ()}, people, crew=crew, fingerprints={"a": NOW}))
    (line,) = plan.cover
    assert (line.able, line.lapsed, line.coming) == (("op-01",), ("op-02",), ("op-03",))
    assert (line.gap, line.hangs_on_one) == (1, True)
    assert [(one.job, one.person) for one in plan.only_one] == [("a", "op-01")]


def test_cover_is_wanted_in_the_shifts_named(situation: Make) -> None:
    shifts = [
        {"id": name, "name": name, "starts": "06:00", "hours": "8 h"} for name in ("early", "late")
    ]
    crew = {"shifts": shifts, "cover": [{"job": "a", "at_least": 1, "shifts": ["late"]},
                                        {"job": "b", "at_least": 1}]}  # fmt: skip
    plan = timetable(situation({"a": (), "b": ()}, [], crew=crew))
    assert [(one.job, one.shift.id) for one in plan.cover] == [
        ("a", "late"), ("b", "early"), ("b", "late"),
    ]  # fmt: skip
    assert all(one.gap == 1 and not one.hangs_on_one for one in plan.cover)


def test_a_sign_off_holds_through_a_declared_change_of_wording(situation: Make) -> None:
    people = [{"id": "op-01", "can_do": [proved(fingerprint=BEFORE)]}]
    now = situation({"a": ()}, people, fingerprints={"a": NOW})
    alike = replace(now, alike={"a": frozenset((BEFORE, NOW))})
    person, job = now.crew.people["op-01"], now.shop.jobs["a"]
    assert now.standing(person, job).state is State.TEACH_AGAIN
    assert alike.standing(person, job).state is State.CAN_DO


def taught_at(made: Situation, feed: str, **fields: Any) -> Situation:
    """The same, with what job `a` said at revision 1, when it had this feed and these fields."""
    job = made.shop.jobs["a"]
    set_up = job.set_ups[0].model_dump(mode="json", exclude_defaults=True) | {"feed": feed}
    then = job.model_copy(update={"set_ups": (DrillingSetUp.model_validate(set_up),), **fields})
    line = said(statements(made.shop, then, set_up_sheets(made.shop, then)))
    return replace(made, said={"a": {"1": line, BEFORE: line}})


@pytest.mark.parametrize("mark", [{}, {"fingerprint": "b" * 8}])
@pytest.mark.parametrize(
    ("feed", "fields", "state", "why"),
    [
        ("0.15 mm/rev", {}, State.CAN_DO, "revision 1"),
        ("0.147 mm/rev", {}, State.CAN_DO, "to be told: a figure moves by"),
        ("0.15 mm/rev", {"title": "Drill it"}, State.CAN_DO, "it has another name: title"),
        ("0.12 mm/rev", {}, State.TEACH_AGAIN, "a figure moves by"),
        (
            "0.15 mm/rev",
            {"hand_on": "Lay it down."},
            State.TEACH_AGAIN,
            "a hand does something else",
        ),
    ],
)
def test_a_changed_job_is_judged_by_what_was_taught(
    situation: Make,
    mark: dict[str, Any],
    feed: str,
    fields: dict[str, Any],
    state: State,
    why: str,
) -> None:
    """It counts from the revision that was proved, however many came between."""
    record = {"can_do": [proved(revision=1, **mark)]}
    made = situation({"a": ()}, [{"id": "op-01", **record}], fingerprints={"a": NOW})
    now = taught_at(made, feed, **fields)
    found = now.standing(now.crew.people["op-01"], now.shop.jobs["a"])
    assert (found.state, why in found.why) == (state, True), found.why
