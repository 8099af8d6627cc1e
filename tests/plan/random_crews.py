"""Crews at random, with all that a plan must mind: nobody at work, everybody at one drill."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from random import Random
from typing import Any

from made_crews import MONDAY

from benchleaf.model import Job, Shop
from benchleaf.plan import Situation

SHIFTS: list[dict[str, Any]] = [
    {"id": "early", "name": "Early", "starts": "06:00", "hours": "8 h", "breaks": "40 min"},
    {"id": "late", "name": "Late", "starts": "14:00", "hours": "8 h",
     "breaks_at": [{"starts": "17:30", "lasts": "20 min"}, {"starts": "20:00", "lasts": "15 min"}]},
    {"id": "night", "name": "Night", "starts": "22:00", "hours": "8 h",
     "breaks_at": [{"starts": "01:30", "lasts": "30 min"}],
     "days": ["sunday", "monday", "tuesday", "wednesday", "thursday"]},
]  # fmt: skip


def random_shop(draw: Random, shop: Shop) -> Shop:
    """Some jobs on some machines, held in some ways; one may have to stand still."""
    like, machine = shop.jobs["vg-0010"], next(iter(shop.machines.values()))
    count = draw.randint(1, 3)
    machines = {f"m{n}": machine.model_copy(update={"id": f"m{n}"}) for n in range(count)}
    jobs: dict[str, Job] = {}
    for number in range(draw.randint(1, 6)):
        job_id = f"j-{number}"
        assert like.holding is not None
        held = like.holding.model_copy(
            update={"how": draw.choice(["In the vice.", "On the plate."])}
        )
        first = tuple(one for one in jobs if draw.random() < 0.25)
        changed: dict[str, Any] = {"id": job_id, "know_first": first, "holding": held,
                                   "machine": draw.choice(sorted(machines))}  # fmt: skip
        if draw.random() < 0.3:
            changed |= {"holding": None, "set_ups": ()}
        elif draw.random() < 0.1:
            changed |= {"holding": None}  # not held, it must not run
        jobs[job_id] = like.model_copy(update=changed)
    return replace(shop, jobs=jobs, machines=machines)


def random_crew(draw: Random, jobs: list[str]) -> dict[str, Any]:
    """Facts of a crew and its people, as texts of a file would give them."""
    shifts = draw.sample(SHIFTS, draw.randint(1, 3))
    ids = [str(one["id"]) for one in shifts]
    trainers = [
        {"id": f"tr-0{n}", "shift": draw.choice(ids),
         "hours": draw.choice(["45 min", "1.5 h", "3 h", "6 h"]),
         "teaches": draw.sample(jobs, draw.randint(1, len(jobs))) if draw.random() < 0.3 else [],
         **_presence(draw)}
        for n in range(draw.randint(1, 4))
    ]  # fmt: skip
    edges = ["start of shift", "end of shift"]
    lessons = [
        {"job": job, "pieces": draw.randint(1, 20),
         **({"takes": f"{draw.randint(10, 300)} min"} if draw.random() < 0.5 else {}),
         **({"done_at": draw.choice(edges)} if draw.random() < 0.4 else {})}
        for job in jobs if draw.random() < 0.4
    ]  # fmt: skip
    batches = [
        {"job": draw.choice(jobs), "pieces": draw.randint(5, 60), "first": _day(draw, 0, 10),
         **({"last": _day(draw, 11, 30)} if draw.random() < 0.5 else {})}
        for _ in range(draw.randint(0, 3))
    ]  # fmt: skip
    cover = [{"job": job, "at_least": draw.randint(1, 3)} for job in jobs if draw.random() < 0.5]
    closed = [_day(draw, 0, 20) for _ in range(draw.randint(0, 3))]
    return {"shifts": shifts, "trainers": trainers, "lessons": lessons, "batches": batches,
            "cover": cover, "closed": closed}  # fmt: skip


def random_people(draw: Random, jobs: list[str], crew: dict[str, Any]) -> list[dict[str, Any]]:
    """People who can do, learn and must learn some of the jobs."""
    ids = [str(one["id"]) for one in crew["shifts"]]
    return [_person(draw, f"op-{n:02}", jobs, ids) for n in range(draw.randint(1, 7))]


def trainers_on_record(
    draw: Random, jobs: list[str], crew: dict[str, Any], judge: str
) -> list[dict[str, Any]]:
    """Files of some trainers: what they are signed off for, and what they may teach until when."""
    found = {
        one["id"]: {
            "id": one["id"],
            "shift": one["shift"],
            "can_do": [
                {"job": job, "revision": 2, "judged": _day(draw, -120, -1), "judged_by": judge,
                 **({"fingerprint": "1" * 8} if draw.random() < 0.2 else {})}
                for job in jobs if draw.random() < 0.8
            ],
            "authorities": [
                {"may": "teach", "given": _day(draw, -90, 1), "until": _day(draw, 1, 40),
                 "proof": "a list",
                 **({"jobs": draw.sample(jobs, draw.randint(1, len(jobs)))}
                    if draw.random() < 0.3 else {})}
                for _ in range(draw.randint(0, 2))
            ],
        }
        for one in crew["trainers"] if draw.random() < 0.8
    }  # fmt: skip
    return list(found.values())


def _person(draw: Random, code: str, jobs: list[str], shifts: list[str]) -> dict[str, Any]:
    can, learning, must = [], [], []
    for job in jobs:
        chance = draw.random()
        if chance < 0.25:
            can.append({"job": job, "revision": 2, "judged": _day(draw, -120, -1),
                        "judged_by": "tr-01",
                        **({"fingerprint": "1" * 8} if draw.random() < 0.4 else {})})  # fmt: skip
        elif chance < 0.4:
            learning.append({"job": job, "round": draw.randint(0, 4), "revision": 2})
        if chance >= 0.25 and draw.random() < 0.4:
            must.append({"job": job, "by": _day(draw, -3, 25)})
    return {"id": code, "shift": draw.choice(shifts), "can_do": can, "learning": learning,
            "must_be_able": must, **_presence(draw)}  # fmt: skip


def _presence(draw: Random) -> dict[str, Any]:
    found: dict[str, Any] = {}
    if draw.random() < 0.15:
        found["first_day"] = _day(draw, 1, 8)
    if draw.random() < 0.15:
        found["last_day"] = _day(draw, 9, 30)
    if draw.random() < 0.4:
        found["absent"] = [_absence(draw) for _ in range(draw.randint(1, 3))]
    return found


def _absence(draw: Random) -> dict[str, Any]:
    first = draw.randint(0, 12)
    one: dict[str, Any] = {"first": _at(first)}
    if draw.random() < 0.3:
        one["last"] = _at(first + draw.randint(0, 8))
    if draw.random() < 0.5:
        one["starts"] = f"{draw.randint(0, 23):02}:{draw.choice(['00', '20', '45'])}"
    if draw.random() < 0.5:
        one["ends"] = f"{draw.randint(0, 23):02}:{draw.choice(['00', '10', '30'])}"
    return one


def _day(draw: Random, first: int, last: int) -> str:
    return _at(draw.randint(first, last))


def _at(days: int) -> str:
    return (MONDAY + timedelta(days=days)).isoformat()


def random_situation(
    seed: int, small: Shop, make: Callable[..., Situation], today: date = MONDAY
) -> Situation:
    """The same for the same seed."""
    draw = Random(seed)
    shop = random_shop(draw, small)
    jobs = list(shop.jobs)
    crew = random_crew(draw, jobs)
    people = random_people(draw, jobs, crew)
    if seed % 3 == 0:
        people += trainers_on_record(Random(-seed - 1), jobs, crew, people[0]["id"])
    made = make({"j-0": ()}, people, crew=crew, teaching=_rule(draw), today=today)
    rules = replace(shop, manual=made.shop.manual)
    return replace(made, shop=rules, fingerprints=dict.fromkeys(jobs, "0" * 64))


def _rule(draw: Random) -> dict[str, Any]:
    return {
        "lesson": {"change_minutes": draw.choice([5, 7, 10, 30]),
                   "least_session_minutes": draw.choice([5, 20, 45])},
        "follow_up": {"again_checks": draw.randint(0, 2)},
    }  # fmt: skip
