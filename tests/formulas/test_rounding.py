"""Rounding for the page."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.formulas.rounding import shown, significant, to_step

values = st.floats(-1e9, 1e9)
shop_values = st.floats(0.001, 1e6)
digits = st.integers(1, 12)


@pytest.mark.parametrize(
    ("value", "keep", "expected"),
    [
        (626.594, 3, 627),
        (23812.5, 3, 23800),
        (0.0019995, 3, 0.00200),
        (2.675, 3, 2.68),
        (1.005, 3, 1.01),
        (-2.5, 1, -3),
        (9.99, 2, 10),
        (0.1 + 0.2, 12, 0.3),
        (0, 3, 0),
    ],
)
def test_significant(value: float, keep: int, expected: float) -> None:
    assert significant(value, keep) == expected


@pytest.mark.parametrize(
    ("value", "step", "nearest", "down", "up"),
    [
        (23.26, 0.05, 23.25, 23.25, 23.3),
        (0.1 * 3, 0.1, 0.3, 0.3, 0.3),
        (0.7 / 0.1 * 0.1, 0.1, 0.7, 0.7, 0.7),
        (1.15, 0.1, 1.2, 1.1, 1.2),
        (-0.26, 0.1, -0.3, -0.3, -0.2),
        (741, 50, 750, 700, 750),
        (0, 5, 0, 0, 0),
    ],
)
def test_to_step(value: float, step: float, nearest: float, down: float, up: float) -> None:
    assert to_step(value, step) == nearest
    assert to_step(value, step, direction="down") == down
    assert to_step(value, step, direction="up") == up


@pytest.mark.parametrize(
    ("value", "keep", "text"),
    [
        (626.594, 3, "627"),
        (12345678.0, 3, "12300000"),
        (1.5e-7, 2, "0.00000015"),
        (12.0001, 3, "12"),
        (0.30000000000000004, 4, "0.3"),
        (100.0, 2, "100"),
        (-0.0, 3, "0"),
        (-8.5, 3, "-8.5"),
        (9.996, 3, "10"),
    ],
)
def test_shown(value: float, keep: int, text: str) -> None:
    assert shown(value, keep) == text


@given(values, digits)
def test_what_is_shown_is_what_is_rounded(value: float, keep: int) -> None:
    text = shown(value, keep)
    assert "e" not in text.lower()
    assert not ("." in text and text.endswith(("0", ".")))
    assert float(text) == significant(value, keep)


@given(values, digits)
def test_rounding_twice_changes_nothing(value: float, keep: int) -> None:
    once = significant(value, keep)
    assert significant(once, keep) == once


@given(shop_values, st.sampled_from([0.01, 0.05, 0.1, 0.25, 1.0, 5.0, 50.0]))
def test_a_step_lies_on_the_side_asked_for(value: float, step: float) -> None:
    down = to_step(value, step, direction="down")
    up = to_step(value, step, direction="up")
    noise = 1e-11 * max(value, step)
    assert down - noise <= value <= up + noise
    assert up - down <= step * (1 + 1e-9) + noise
    assert to_step(value, step) in (down, up)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_only_finite_values(value: float) -> None:
    with pytest.raises(ValueError, match=r"value is -?(nan|inf); it must be a finite number"):
        significant(value, 3)
    with pytest.raises(ValueError, match="value is"):
        shown(value, 3)
    with pytest.raises(ValueError, match="value is"):
        to_step(value, 0.1)


@pytest.mark.parametrize("keep", [0, 13, -1, 2.5, True])
def test_only_sensible_digits(keep: int) -> None:
    with pytest.raises(ValueError, match=r"digits is .* whole number from 1 to 12"):
        significant(1.0, keep)


@pytest.mark.parametrize("step", [0.0, -0.1, math.nan, math.inf])
def test_only_a_real_step(step: float) -> None:
    with pytest.raises(ValueError, match="step is"):
        to_step(1.0, step)


def test_only_a_known_direction() -> None:
    with pytest.raises(ValueError, match="direction is 'sideways'; it must be one of nearest"):
        to_step(1.0, 0.1, direction="sideways")  # type: ignore[arg-type]
