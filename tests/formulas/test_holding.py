"""Holding the work: statics, and what is refused."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.formulas.holding import (
    DEFAULT_MARGIN,
    friction_torque_nm,
    holding_ratio,
    stop_torque_nm,
)
from oracles.drilling_catalogue import TORQUE_MODEL_SPREAD

forces = st.floats(1, 50000)
arms = st.floats(1, 500)
frictions = st.floats(0.01, 1)


def test_a_clamp_worked_by_hand() -> None:
    # 2 faces, each 0.2 times 5000 N = 1000 N, at 40 mm: 2 times 40 N.m.
    assert friction_torque_nm(5000, 0.2, 40, 2) == pytest.approx(80)


@given(forces, arms)
def test_a_stop_holds_its_force_times_its_arm_in_metres(force: float, arm: float) -> None:
    assert stop_torque_nm(force, arm) / (arm / 1000) == pytest.approx(force)


@given(forces, frictions, arms)
def test_friction_holds_no_more_than_a_stop_of_the_same_force(
    force: float, friction: float, arm: float
) -> None:
    one = friction_torque_nm(force, friction, arm, 1)
    assert one <= stop_torque_nm(force, arm) * (1 + 1e-12)
    assert friction_torque_nm(force, friction, arm, 2) == pytest.approx(2 * one)


@given(st.floats(0.1, 500), st.floats(0.1, 500))
def test_the_ratio_says_whether_the_work_turns(capacity: float, torque: float) -> None:
    assert (holding_ratio(capacity, torque) > 1) == (capacity > torque)


def test_the_margin_covers_the_spread_of_the_models() -> None:
    assert DEFAULT_MARGIN > 1 + TORQUE_MODEL_SPREAD


@pytest.mark.parametrize("faces", [0, 3, -1, 2.0, True])
def test_a_clamp_presses_one_face_or_two(faces: int) -> None:
    with pytest.raises(ValueError, match=r"faces is .* whole number from 1 to 2"):
        friction_torque_nm(4000, 0.15, 50, faces)


@pytest.mark.parametrize("friction", [0.0, -0.1, 1.01, 15, math.nan])
def test_an_unbelievable_friction_is_refused(friction: float) -> None:
    with pytest.raises(ValueError, match="friction is"):
        friction_torque_nm(4000, friction, 50, 2)
