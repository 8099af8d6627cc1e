"""Plans of crews at random, read by a checker that knows the records and the plan alone."""

from __future__ import annotations

import pytest
from made_crews import Make
from random_crews import random_situation

from benchleaf.model import Shop
from benchleaf.plan import timetable
from oracles.plans import faults, meetings
from running import examples


@pytest.mark.parametrize("share", range(5))
def test_no_plan_breaks_a_rule(situation: Make, small_shop: Shop, share: int) -> None:
    """Nobody and nothing in two places, everybody there, every rule held."""
    booked = 0
    for seed in range(share, examples(50), 5):
        made = random_situation(seed, small_shop, situation)
        plan = timetable(made, use_solver=bool(seed % 2))
        assert faults(plan) == [], f"seed {seed}"
        booked += len(meetings(plan))
    assert booked > 50
