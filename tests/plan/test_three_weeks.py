"""Three weeks of one small crew, replayed day by day: what moves is counted, the rest stays."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta

from made_crews import MONDAY, Make
from test_survives_the_week import after, booked, with_people

from benchleaf.model import Absence, Hold
from benchleaf.plan import Situation, timetable
from oracles.plans import faults

PEOPLE = [
    {"id": "op-01", "must_be_able": [{"job": "a", "by": "2026-04-10"}]},
    {"id": "op-02", "must_be_able": [{"job": "b", "by": "2026-04-17"}]},
    {"id": "op-03", "must_be_able": [{"job": "c", "by": "2026-04-22"}]},
    {"id": "op-04", "must_be_able": [{"job": "a", "by": "2026-04-24"},
                                     {"job": "c", "by": "2026-04-24"}]},
    {"id": "op-05", "can_do": [{"job": "c", "revision": 2, "judged": "2026-04-02",
                                "judged_by": "tr-01", "fingerprint": "00000000"}]},
]  # fmt: skip
CREW = {
    "trainers": [{"id": "tr-01", "shift": "early", "hours": "75 min"},
                 {"id": "tr-02", "shift": "early", "hours": "75 min"}],
    "cover": [{"job": "c", "at_least": 2}],
}  # fmt: skip


def ill(made: Situation) -> Situation:
    """op-03, on Wednesday and Thursday of the first week."""
    away = Absence.model_construct(
        first=date(2026, 4, 8), last=date(2026, 4, 9), starts=None, ends=None
    )
    who = made.crew.people["op-03"]
    return with_people(made, {**made.crew.people, "op-03": who.model_copy(
        update={"absent": (away,)})})  # fmt: skip


def held(made: Situation) -> Situation:
    """Job c, from Monday of the second week on."""
    hold = Hold.model_construct(job="c", why="A stop is loose.", day=MONDAY, lift_by="lead")
    return replace(made, shop=replace(made.shop, holds={"c": (hold,)}))


def lifted(made: Situation) -> Situation:
    return replace(made, shop=replace(made.shop, holds={}))


def changed(made: Situation) -> Situation:
    """Job c means something else: who was proved on what it meant before is taught it again."""
    people = {
        code: who.model_copy(
            update={
                "can_do": tuple(
                    one.model_copy(update={"fingerprint": "1" * 8}) if one.job == "c" else one
                    for one in who.can_do
                )
            }
        )
        for code, who in made.crew.people.items()
    }
    return with_people(made, people)


def leaves(made: Situation) -> Situation:
    """op-01, after the second Friday."""
    who = made.crew.people["op-01"].model_copy(update={"last_day": date(2026, 4, 17)})
    return with_people(made, {**made.crew.people, "op-01": who})


STORY: dict[int, tuple[Callable[[Situation], Situation], int]] = {
    2: (ill, 14), 7: (held, 29), 9: (lifted, 0), 10: (changed, 20), 11: (leaves, 3),
}  # fmt: skip
"""What is known in the morning of a day, and how much of what people were told moves by it."""


def test_three_weeks_day_by_day(situation: Make) -> None:
    """By the rule alone, so that the counts hold whichever solver is installed."""
    plan = timetable(
        situation({"a": (), "b": ("a",), "c": ()}, PEOPLE, crew=CREW), use_solver=False
    )
    moved = {}
    for ahead in range(1, 21):
        made = after(plan, MONDAY + timedelta(days=ahead - 1))
        happens, _ = STORY.get(ahead, (None, 0))
        new = timetable(happens(made) if happens else made, use_solver=False)
        assert faults(new) == [], f"day {ahead}"
        if happens is None:
            assert booked(plan, new.situation.today) <= booked(new, new.situation.today)
        moved[ahead] = len(new.schedule.moved)
        plan = new
    assert moved == {ahead: STORY.get(ahead, (None, 0))[1] for ahead in moved}
    assert sum(moved.values()) > 5
