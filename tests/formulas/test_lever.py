"""The down-feed lever: no published worked example was found, so statics hold it."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.formulas.lever import (
    NEWTONS_PER_KGF,
    ONE_HAND_EASY_N,
    ONE_HAND_MOST_N,
    lever_force_n,
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


def test_the_hands_limits_are_twelve_and_twenty_two_kilograms_force() -> None:
    limits = [ONE_HAND_EASY_N, ONE_HAND_MOST_N]
    assert limits == pytest.approx([117.7, 215.7], abs=0.05)
    assert [each / NEWTONS_PER_KGF for each in limits] == pytest.approx([12, 22])


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
    ],
)
def test_a_wrong_number_is_refused(make: Callable[[], float], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        make()
