"""A list for new people and the plan: the plan keeps its days, or the list takes the plan's."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from typing import Any

from made_crews import MONDAY, Make

from benchleaf.model import Onboarding
from benchleaf.plan import Situation, Timetable, timetable
from oracles.plans import faults

LATER = MONDAY + timedelta(days=7)


def list_of(**days: int | None) -> Onboarding:
    """Job a is shown in one stage and done alone in another; job b is only read."""
    stages: list[dict[str, Any]] = [
        {"title": "Look", "items": [{"job": "a", "done_when": "shown"},
                                    {"job": "b", "done_when": "read"}]},
        {"title": "Do", "items": [{"job": "a", "done_when": "done alone"}]},
    ]  # fmt: skip
    for stage, day in zip(stages, days.values(), strict=True):
        if day is not None:
            stage["day"] = str(day)
    return Onboarding.model_validate(
        {"id": "days", "title": "Days", "revision": "1", "effective": "2026-01-05",
         "approved_by": "lead", "for_whom": "New people.", "stages": stages}
    )  # fmt: skip


def following(situation: Make, record: Onboarding, **person: Any) -> Situation:
    who = {"id": "op-1", "follows": [{"list": "days", "first_day": LATER.isoformat()}], **person}
    made: Situation = situation({"a": (), "b": ()}, [who])
    return replace(made, shop=replace(made.shop, onboarding={"days": record}))


def lesson(plan: Timetable) -> Any:
    assert {one.job.id for one in plan.lessons} == {"a"}
    return plan.planned("op-1", "a")


def test_the_plan_keeps_the_days_of_the_list(situation: Make) -> None:
    """Working days 2 and 4 of somebody who begins on a Monday: Tuesday to Thursday."""
    plan = timetable(following(situation, list_of(look=2, do=4)))
    planned = lesson(plan)
    assert planned.first == LATER + timedelta(days=1)
    assert planned.lesson.due == LATER + timedelta(days=3)
    assert planned.late_days == 0
    assert faults(plan) == []


def test_days_away_are_no_days_of_the_list(situation: Make) -> None:
    away = [{"first": (LATER + timedelta(days=1)).isoformat()}]
    planned = lesson(timetable(following(situation, list_of(look=2, do=4), absent=away)))
    assert planned.first == LATER + timedelta(days=2)


def test_without_days_the_plan_decides(situation: Make) -> None:
    planned = lesson(timetable(following(situation, list_of(look=None, do=None))))
    assert (planned.first, planned.lesson.due) == (MONDAY, None)


def test_what_they_can_do_or_need_not_is_not_taught(situation: Make) -> None:
    made = following(situation, list_of(look=1, do=2), not_needed=["a"])
    assert timetable(made).lessons == ()
