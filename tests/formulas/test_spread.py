"""How far inputs may be off: against the published values, and the worst case put together."""

from __future__ import annotations

from math import prod

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.formulas import spread
from benchleaf.formulas.jaw_friction import JAW_FRICTION, METAL_FACTOR
from benchleaf.formulas.worst_case import at_worst

TORQUES = ((15.7, (15.0, 12.6)), (11.3, (8.9, 6.4)), (37.2, (20.0, 33.9)))
"""The handbook's torque in N m, and what others print for the same cut."""
THRUSTS = ((4420.0, (2500.0, 4548.0)), (6665.0, (2286.0, 5550.0)))


def test_no_published_model_is_higher_than_what_is_counted() -> None:
    for key, published in (("torque", TORQUES), ("thrust", THRUSTS)):
        most = max(max(others) / ours for ours, others in published)
        assert most <= spread.MODEL[key] + 1e-3, key
    assert spread.MODEL["thrust"] == pytest.approx(4548 / 4420, abs=0.002)


def test_a_bar_a_quarter_harder_is_between_the_rows_of_the_table() -> None:
    # Kd 24000 at 200 BHN and 31000 at 300: halfway 27500
    assert spread.hardest_times("steel") == pytest.approx(27500 / 24000, abs=0.005)
    assert set(spread.HARDEST) == set(METAL_FACTOR)
    assert min(spread.HARDEST.values()) > 1


def test_a_geared_head_at_its_worst_is_the_lowest_of_the_handbooks_range() -> None:
    assert 0.80 / spread.drive_times(0.80) == pytest.approx(0.70, abs=0.001)


@pytest.mark.parametrize(("known_by", "left"), [("feel", 0.65), ("torque handle", 0.75)])
def test_a_clamp_falls_short_by_what_tightening_scatters(known_by: str, left: float) -> None:
    assert 1 / spread.clamp_times(known_by) == pytest.approx(left)


@pytest.mark.parametrize(("work", "jaws"), JAW_FRICTION)
def test_a_dry_job_has_no_surer_jaws_than_a_wet_one(work: str, jaws: str) -> None:
    wet = spread.friction_times(work, jaws, is_measured=False, is_wet=True)
    dry = spread.friction_times(work, jaws, is_measured=False, is_wet=False)
    assert 1 <= wet < dry


@given(st.floats(0.5, 3), st.floats(0.5, 3))
def test_a_duller_drill_never_ends_sharper(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert low * spread.dullest_times(low) <= high * spread.dullest_times(high) + 1e-9


@given(st.floats(0.01, 100), st.lists(st.floats(1, 3), max_size=5))
def test_the_worst_case_is_never_better_than_what_was_entered(
    ratio: float, times: list[float]
) -> None:
    worst = at_worst(ratio, times)
    assert worst <= ratio
    assert worst * prod(times) == pytest.approx(ratio)
    assert at_worst(ratio, [*times, 1.5]) < worst


def test_an_input_that_helps_is_refused() -> None:
    with pytest.raises(ValueError, match="times is"):
        at_worst(2.0, [0.9])
    for look_up in (spread.hardest_times, spread.clamp_times):
        with pytest.raises(ValueError, match="must be one of"):
            look_up("wood")
    with pytest.raises(ValueError, match="no table has them"):
        spread.friction_times("oily", "smooth", is_measured=False, is_wet=True)
