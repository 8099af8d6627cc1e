"""Small plans against every plan there is: the bound is one, and the rule comes near or says so.

Every way of giving lessons of an hour is tried: to each trainer, on each day, at each hour. Checks
are left out there, so that no plan with checks can be better than what is found.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from random import Random
from typing import Any

import pytest
from made_crews import MONDAY, Make

from benchleaf.plan import Timetable, timetable
from running import examples

HOURS, DAYS = 3, 5
RULE = {
    "lesson": {"get_ready_minutes": 60, "step_minutes": 1e-9, "key_point_minutes": 1e-9,
               "round_step_minutes": 1e-9, "least_session_minutes": 60, "check_minutes": 5},
    "follow_up": {"stages": [{"days": 1, "checks": 1}], "then_checks": 0},
}  # fmt: skip
"""Each lesson an hour, and one short check after it."""


def crew_of(draw: Random) -> tuple[dict[str, Any], dict[str, Any], list[dict[str, Any]]]:
    """Jobs, crew and people: a shift of three hours, trainers who teach one or two of them."""
    shift = {"id": "early", "name": "Early", "starts": "06:00", "hours": "4 h"}
    trainers = [
        {"id": f"tr-0{n}", "shift": "early", "hours": draw.choice(["75 min", "2.5 h"]),
         "absent": [{"first": (MONDAY + timedelta(days=draw.randint(0, 3))).isoformat()}]}
        for n in range(draw.randint(1, 2))
    ]  # fmt: skip
    jobs = {"a": (), "b": ("a",) if draw.random() < 0.5 else ()}
    people = [
        {"id": f"op-0{n}", "must_be_able": [
            {"job": job, "by": (MONDAY + timedelta(days=draw.randint(0, 2))).isoformat()}
            for job in draw.sample(["a", "b"], draw.randint(1, 2))]}
        for n in range(draw.randint(1, 2))
    ]  # fmt: skip
    return jobs, {"shifts": [shift], "trainers": trainers}, people


def least_lateness(plan: Timetable) -> tuple[int, int]:
    """The least lateness of all plans of hours, checks left aside: the greatest, then all of it."""
    lessons = sorted(plan.lessons, key=lambda one: one.job.id)
    best = [(99, 99)]
    _try(plan, lessons, [], best)
    return best[0]


def _lateness(given: list[tuple[Any, ...]]) -> tuple[int, int]:
    late = [_late(*one[:2]) for one in given]
    return max(late, default=0), sum(late)


def _try(
    plan: Timetable, lessons: list[Any], given: list[tuple[Any, ...]], best: list[tuple[int, int]]
) -> None:
    if len(given) == len(lessons):
        best[0] = min(best[0], _lateness(given))
        return
    lesson = lessons[len(given)]
    for place in _places(plan):
        one = (lesson, *place)
        is_better = _lateness([*given, one]) < best[0]
        if is_better and all(_goes(one, other) for other in given) and _has_time(one, given):
            _try(plan, lessons, [*given, one], best)


def _places(plan: Timetable) -> Iterator[tuple[date, int, Any]]:
    for ahead in range(DAYS):
        day = MONDAY + timedelta(days=ahead)
        for hour in range(HOURS + 1):
            for trainer in plan.situation.crew.facts.trainers:
                if trainer.absent[0].first != day:
                    yield day, hour, trainer


def _late(lesson: Any, day: date) -> int:
    return max(0, (day - lesson.due).days) if lesson.due else 0


def _goes(one: tuple[Any, ...], other: tuple[Any, ...]) -> bool:
    """All jobs are at one machine, so that no two lessons are at one time; needs come first."""
    if one[1:3] == other[1:3]:
        return False
    same = one[0].person.id == other[0].person.id
    return not (same and other[0].job.id in one[0].needs and other[1:3] > one[1:3])


def _has_time(one: tuple[Any, ...], given: list[tuple[Any, ...]]) -> bool:
    mine = sum(1 for other in given if (other[1], other[3]) == (one[1], one[3])) + 1
    return bool(mine * 3600 <= one[3].hours.value)


@pytest.mark.parametrize("use_solver", [False, True])
def test_no_plan_is_better_than_the_bound_and_none_better_than_told(
    situation: Make, use_solver: bool
) -> None:
    reached = proved = tried = 0
    for seed in range(examples(60)):
        jobs, crew, people = crew_of(Random(seed))
        made = situation(jobs, people, crew=crew, teaching=RULE)
        plan = timetable(made, use_solver=use_solver)
        greatest, total = least_lateness(plan)
        late = [one.late_days for one in plan.schedule.planned]
        known = plan.schedule.known
        assert plan.schedule.unplanned == ()
        mine = max(late, default=0)
        assert mine - known.late_days <= greatest <= mine, f"seed {seed}"
        if mine == greatest:
            assert sum(late) - known.total_late_days <= total <= sum(late), f"seed {seed}"
        tried += 1
        reached += (mine, sum(late)) == (greatest, total)
        proved += not known.is_late
    assert reached >= (1 if use_solver else 0.9) * tried
    assert proved >= (1 if use_solver else 0.7) * tried
