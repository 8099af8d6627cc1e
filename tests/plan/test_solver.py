"""The solver beside the rule: no worse, the same each time, and nobody misses it."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from itertools import product
from random import Random

import pytest
from made_crews import MONDAY, Make
from random_crews import random_situation

from benchleaf.model import Shop
from benchleaf.plan import Situation, Timetable, timetable
from oracles.plans import faults, meetings
from running import examples

ONE_CHECK = {"stages": [{"days": 1, "checks": 1}], "then_checks": 0}


@pytest.fixture
def hidden(monkeypatch: pytest.MonkeyPatch) -> None:
    """As if no solver were installed."""
    for name in [one for one in sys.modules if one.partition(".")[0] == "ortools"]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, "ortools", None)


def late_of(plan: Timetable) -> tuple[int, int, int]:
    """Lessons without a place, the greatest lateness, and all of it."""
    late = [one.late_days for one in plan.schedule.planned if one.leads]
    return len(plan.schedule.unplanned), max(late, default=0), sum(late)


def seeds() -> Iterator[int]:
    yield from range(examples(40))


def test_the_solver_proves_more_and_loses_nothing(situation: Make, small_shop: Shop) -> None:
    """Of the same crews; and what is told to be the best with the rule stays so with the solver."""
    better = 0
    for seed in seeds():
        made = random_situation(seed, small_shop, situation)
        alone, asked = timetable(made, use_solver=False), timetable(made)
        one, other = alone.schedule.known, asked.schedule.known
        assert other.is_best or not one.is_best, f"seed {seed}"
        if one.is_best:
            assert late_of(asked) <= late_of(alone), f"seed {seed}"
        assert other.cover_days <= one.cover_days or late_of(asked) < late_of(alone)
        better += (other.is_best, -other.spread_minutes) > (one.is_best, -one.spread_minutes)
    assert better


def test_the_same_question_has_the_same_answer(situation: Make, small_shop: Shop) -> None:
    seen = 0
    for seed in range(3, 3 + examples(12)):
        made = random_situation(seed, small_shop, situation)
        first, again = timetable(made), timetable(made)
        assert meetings(first) == meetings(again), f"seed {seed}"
        assert first.schedule.known == again.schedule.known
        seen += len(meetings(first))
    assert seen


@pytest.mark.usefixtures("hidden")
def test_without_a_solver_the_rule_plans_and_says_what_it_knows(
    situation: Make, small_shop: Shop
) -> None:
    for seed in range(examples(12)):
        made = random_situation(seed, small_shop, situation)
        plan = timetable(made)
        assert meetings(plan) == meetings(timetable(made, use_solver=False))
        assert plan.schedule.known.says.startswith(("Best possible", "Not proved"))
        assert faults(plan) == []


def crew_with_shares(make: Make, draw: Random) -> Situation:
    """Two trainers of one shift, who may teach every job."""
    jobs = {f"j-{n}": () for n in range(draw.randint(2, 4))}
    lessons = [{"job": job, "takes": f"{5 * draw.randint(4, 30)} min"} for job in jobs]
    trainers = [
        {"id": f"tr-0{n}", "shift": "early", "hours": draw.choice(["3 h", "6 h"]),
         "teaches": list(jobs)}
        for n in range(2)
    ]  # fmt: skip
    people = [
        {"id": f"op-0{n}", "must_be_able": [{"job": job, "by": "2026-06-01"} for job in jobs
                                            if draw.random() < 0.6]}
        for n in range(5)
    ]  # fmt: skip
    return make(jobs, people, crew={"trainers": trainers, "lessons": lessons},
                teaching={"follow_up": ONE_CHECK}, today=MONDAY)  # fmt: skip


def over_share(shares: dict[str, float], hours: dict[str, float]) -> float:
    """Minutes that somebody has more than their part of all lessons by their hours."""
    total, every = sum(shares.values()), sum(hours.values())
    return max(0.0, *(shares[one] - total * hours[one] / every for one in hours))


def shares_of(
    minutes: dict[str, float], who: dict[str, str], hours: dict[str, float]
) -> dict[str, float]:
    return {one: sum(minutes[code] for code in minutes if who[code] == one) for one in hours}


def test_shares_are_held_to_every_way_of_sharing(situation: Make) -> None:
    """All ways to give each learner to a trainer."""
    uneven = 0
    for seed in range(examples(40)):
        plan = timetable(crew_with_shares(situation, Random(seed)))
        trainers = plan.situation.crew.facts.trainers
        hours = {one.id: one.hours.value for one in trainers}
        minutes: dict[str, float] = {}
        who: dict[str, str] = {}
        for one in plan.schedule.planned:
            minutes[one.lesson.person.id] = minutes.get(one.lesson.person.id, 0) + one.minutes
            assert who.setdefault(one.lesson.person.id, one.trainer.id) == one.trainer.id
        found = [
            over_share(shares_of(minutes, dict(zip(minutes, each, strict=True)), hours), hours)
            for each in product(hours, repeat=len(minutes))
        ]
        mine = over_share(shares_of(minutes, who, hours), hours)
        told = plan.schedule.known.spread_minutes
        assert mine - told - 1 <= min(found) <= mine + 1e-6, f"seed {seed}"
        uneven += min(found) > 0
    assert uneven
