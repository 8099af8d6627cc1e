"""The down-feed lever: no published worked example was found, so statics hold it."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.formulas.lever import (
    NEWTONS_PER_KGF,
    ONE_HAND_MOST_N,
    STANDING_LIMIT_N,
    Direction,
    lever_force_n,
    share_who_reach,
    told_share,
    travel_per_turn_mm,
)

thrusts = st.floats(1, 50000)
pinions = st.floats(3, 60)
levers = st.floats(50, 600)
efficiencies = st.floats(0.1, 1)


@given(thrusts, pinions, levers, efficiencies)
def test_the_hands_work_is_the_quills_work_and_the_loss(
    thrust: float, pinion: float, lever: float, efficiency: float
) -> None:
    # Over one turn: force times the knob's path, against thrust times the quill's travel.
    by_hand = lever_force_n(thrust, pinion, lever, efficiency) * 2 * math.pi * lever
    assert by_hand * efficiency == pytest.approx(thrust * travel_per_turn_mm(pinion))


@given(thrusts, pinions, levers)
def test_without_loss_the_moments_about_the_pinion_are_equal(
    thrust: float, pinion: float, lever: float
) -> None:
    assert lever_force_n(thrust, pinion, lever, 1.0) * lever == pytest.approx(thrust * pinion)


@given(thrusts, pinions, levers, st.floats(0.1, 0.9), st.floats(1.01, 1.1))
def test_what_makes_the_pull_harder(
    thrust: float, pinion: float, lever: float, efficiency: float, more: float
) -> None:
    here = lever_force_n(thrust, pinion, lever, efficiency)
    assert lever_force_n(thrust * more, pinion, lever, efficiency) > here
    assert lever_force_n(thrust, pinion * more, lever, efficiency) > here
    assert lever_force_n(thrust, pinion, lever * more, efficiency) < here
    assert lever_force_n(thrust, pinion, lever, efficiency * more) < here


@given(pinions)
def test_a_turn_unrolls_the_pinion(pinion: float) -> None:
    # Sum of short chords round the pitch circle, each 2 r sin(half its angle).
    chords = 20000
    unrolled = chords * 2 * pinion * math.sin(math.pi / chords)
    assert travel_per_turn_mm(pinion) == pytest.approx(unrolled, rel=1e-7)


def test_a_case_worked_by_hand() -> None:
    # 3000 N at 20 mm are 60 N.m; at 300 mm 200 N, and 250 N where a fifth is lost.
    assert lever_force_n(3000, 20, 300, 1.0) == pytest.approx(200)
    assert lever_force_n(3000, 20, 300, 0.8) == pytest.approx(250)


def test_the_hands_limits_are_those_printed() -> None:
    """110 N standing, arms stretched out (Kodak's table); 22 kgf, the most for one hand (ILO)."""
    assert STANDING_LIMIT_N == 110
    assert pytest.approx(22) == ONE_HAND_MOST_N / NEWTONS_PER_KGF


@pytest.mark.parametrize(
    ("way", "mean", "three_quarters", "nineteen_of_twenty", "of_112"),
    # The authors' program, women, lever at elbow height: newtons, and the share that reaches 112 N.
    [("down", 106, 88, 61, 0.41), ("towards", 162, 133, 91, 0.88)],
)
def test_the_shares_are_those_of_the_published_model(
    way: Direction, mean: float, three_quarters: float, nineteen_of_twenty: float, of_112: float
) -> None:
    assert share_who_reach(mean, way) == pytest.approx(0.5, abs=0.01)
    assert share_who_reach(three_quarters, way) == pytest.approx(0.75, abs=0.01)
    assert share_who_reach(nineteen_of_twenty, way) == pytest.approx(0.95, abs=0.005)
    assert share_who_reach(112, way) == pytest.approx(of_112, abs=0.005)


@given(st.floats(11, 400), st.floats(1.01, 3))
def test_a_harder_pull_is_reached_by_fewer_and_towards_the_body_by_more(
    pull: float, more: float
) -> None:
    assert share_who_reach(pull * more, "down") < share_who_reach(pull, "down")
    assert share_who_reach(pull, "towards") >= share_who_reach(pull, "down")


@pytest.mark.parametrize(
    ("share", "told"),
    [(0.04, "hardly any"), (0.06, "about 1 of 10"), (0.94, "about 9 of 10"), (0.96, "nearly all")],
)
def test_a_share_is_told_no_finer_than_in_tens(share: float, told: str) -> None:
    assert told_share(share) == told


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda: lever_force_n(0, 20, 300, 0.9), "thrust_n is 0"),
        (lambda: lever_force_n(3000, -20, 300, 0.9), "pinion_radius_mm is -20"),
        (lambda: lever_force_n(3000, 20, 0, 0.9), "lever_radius_mm is 0"),
        (lambda: lever_force_n(3000, 20, 300, 0), "efficiency is 0"),
        (lambda: lever_force_n(3000, 20, 300, 90), "efficiency is 90; .* from 0 to 1"),
        (lambda: lever_force_n(math.nan, 20, 300, 0.9), "thrust_n is nan"),
        (lambda: travel_per_turn_mm(math.inf), "pinion_radius_mm is inf"),
        (lambda: share_who_reach(0, "down"), "pull_n is 0"),
        (lambda: told_share(1.1), r"share is 1\.1"),
    ],
)
def test_a_wrong_number_is_refused(make: Callable[[], float], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        make()
