"""How long a plan of a large shop takes, how good it is known to be, and what a week does to it.

    python tests/bench/plan.py                200 people, 60 jobs, 8 trainers, six weeks

Seconds are those of the processor, so that a busy machine counts no more.
"""

from __future__ import annotations

import argparse
import sys
import time
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from random import Random
from typing import Any

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "plan")]

from made_crews import MONDAY, situation_of  # noqa: E402

from benchleaf import pipeline  # noqa: E402
from benchleaf.model import Job, Shop  # noqa: E402
from benchleaf.plan import Situation, Timetable, promise_of, timetable  # noqa: E402
from oracles.plans import faults, meetings  # noqa: E402

PEOPLE, JOBS, TRAINERS, STATIONS = 200, 60, 8, 20


def large(draw: Random, small: Shop, hours: str) -> Situation:
    """A shop of two shifts: each person learns a job or two in six weeks."""
    like, machine = small.jobs["vg-0010"], next(iter(small.machines.values()))
    machines = {f"m{n}": machine.model_copy(update={"id": f"m{n}"}) for n in range(STATIONS)}
    assert like.holding is not None
    jobs: dict[str, Job] = {}
    for number in range(JOBS):
        held = like.holding.model_copy(update={"how": f"In the vice, way {number % 3}."})
        first = (f"j-{number - 1}",) if number % 4 == 3 else ()
        jobs[f"j-{number}"] = like.model_copy(
            update={"id": f"j-{number}", "holding": held, "machine": f"m{number % STATIONS}",
                    "know_first": first}
        )  # fmt: skip
    shifts = [
        {"id": name, "name": name, "starts": starts, "hours": "8 h", "breaks": "40 min"}
        for name, starts in (("early", "06:00"), ("late", "14:00"))
    ]
    trainers = [
        {"id": f"tr-{n:02}", "shift": ("early", "late")[n % 2], "hours": hours}
        for n in range(TRAINERS)
    ]
    people = [_person(draw, number, list(jobs)) for number in range(PEOPLE)]
    cover = [{"job": job, "at_least": 1} for job in jobs]
    crew = {"shifts": shifts, "trainers": trainers, "cover": cover}
    made = situation_of(small, {"j-0": ()}, people, crew=crew)
    shop = replace(small, jobs=jobs, machines=machines, manual=made.shop.manual)
    return replace(made, shop=shop, fingerprints=dict.fromkeys(jobs, "0" * 64))


def _person(draw: Random, number: int, jobs: list[str]) -> dict[str, Any]:
    must = draw.sample(jobs, draw.choice([1, 1, 1, 2]))
    can = [one for one in draw.sample(jobs, 6) if one not in must]
    return {
        "id": f"op-{number:03}", "shift": ("early", "late")[number % 2],
        "can_do": [{"job": one, "revision": 2, "judged": "2026-02-02", "judged_by": "tr-00"}
                   for one in can],
        "must_be_able": [
            {"job": one, "by": (MONDAY + timedelta(days=draw.randint(4, 42))).isoformat()}
            for one in must
        ],
    }  # fmt: skip


def one_plan(made: Situation) -> None:
    """The large shop: by the rule, with the solver, and then in a week."""
    for use_solver in (False, True):
        began = time.process_time()
        plan = timetable(made, use_solver=use_solver)
        took = time.process_time() - began
        print(f"{PEOPLE} people, {JOBS} jobs, {TRAINERS} trainers, {len(plan.lessons)} lessons, "
              f"{'solver' if use_solver else 'rule'}: {took:.1f} s of the processor")  # fmt: skip
        if not use_solver:
            tell(plan)
    tell(plan)
    began = time.process_time()
    again = timetable(told(plan))
    print(f"the same once more, as people were told: {time.process_time() - began:.1f} s, "
          f"{len(again.schedule.moved)} moved")  # fmt: skip
    day = MONDAY + timedelta(days=2)
    facts = again.situation.crew.facts.model_copy(update={"closed": (day,)})
    crew = replace(again.situation.crew, facts=facts)
    closed = timetable(replace(again.situation, crew=crew))
    on_it = sum(one.was.day == day for one in closed.schedule.moved)
    print(f"Wednesday closed: {len(closed.schedule.moved)} moved, {on_it} of them lay on it")


def told(plan: Timetable) -> Situation:
    """The same, after people were told the plan."""
    crew = replace(plan.situation.crew, promised=promise_of(plan))
    return replace(plan.situation, crew=crew)


def tell(plan: Timetable) -> None:
    """What a plan is like."""
    found = plan.schedule
    unmet = sum(day.unmet for one in found.follow_ups.values() for day in one.days)
    last = max((one.last for one in found.planned), default=MONDAY)
    most = max((one.late_days for one in found.late), default=0)
    sessions = len(meetings(plan))
    most = max((one.late_days for one in found.late), default=0)
    print(f"  {sessions} sessions and checks, the last lesson on {last}; {len(found.late)} late,")
    print(f"  at most {most} days; {len(found.unplanned)} not planned; {unmet} checks unmet")
    print(f"  {found.known.says}")
    print(f"  faults found by the checker: {len(faults(plan))}")


def main() -> None:
    """Measure."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--hours", default="6 h", help="of each trainer a shift (default: 6 h)")
    hours = options.parse_args().hours
    small = pipeline.load(TESTS / "shop").shop
    one_plan(large(Random(1), small, hours))


if __name__ == "__main__":
    main()
