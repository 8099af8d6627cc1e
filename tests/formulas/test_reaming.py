"""The hole before reaming, and the limits after it."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.formulas.fits import limits
from benchleaf.formulas.reaming import (
    DRILL_OVERSIZE_MM,
    REAMING_ALLOWANCE,
    hole_before_reaming_mm,
    reamed_hole_limits,
)

MM_PER_IN = 25.4
reamers = st.floats(1, 100)

# IBE/GTZ course, steel, read: reamer diameter up to, allowance from and to.
SECOND_SOURCE_MM = {5.0: (0.1, 0.2), 20.0: (0.2, 0.3)}


def test_a_second_course_has_the_same_allowance() -> None:
    for top, (low, high) in SECOND_SOURCE_MM.items():
        assert (REAMING_ALLOWANCE[top].low_mm, REAMING_ALLOWANCE[top].high_mm) == (low, high)


@pytest.mark.parametrize("reamer_in", [0.25, 0.375, 0.5, 0.75])
def test_an_old_trade_text_has_the_same_allowance(reamer_in: float) -> None:
    # Read: a hundredth to a sixty-fourth of an inch small, never over a thirty-second.
    drills = hole_before_reaming_mm(reamer_in * MM_PER_IN)
    least = reamer_in - drills.largest_mm / MM_PER_IN
    most = reamer_in - drills.smallest_mm / MM_PER_IN
    assert least == pytest.approx(1 / 100, rel=0.02)
    assert 1 / 100 < most < 1 / 64


@given(reamers, st.booleans())
def test_the_drill_is_smaller_than_the_reamer(reamer: float, light: bool) -> None:
    drills = hole_before_reaming_mm(reamer, light_metal=light)
    assert 0 < drills.smallest_mm < drills.largest_mm < reamer - DRILL_OVERSIZE_MM


@given(reamers)
def test_light_metal_leaves_half_as_much_again(reamer: float) -> None:
    steel, light = hole_before_reaming_mm(reamer), hole_before_reaming_mm(reamer, light_metal=True)
    for one, other in (
        (steel.smallest_mm, light.smallest_mm),
        (steel.largest_mm, light.largest_mm),
    ):
        left = reamer - DRILL_OVERSIZE_MM
        assert left - other == pytest.approx(1.5 * (left - one))


def test_the_allowance_steps_at_the_printed_sizes() -> None:
    left = [10.0 - hole_before_reaming_mm(10.0).largest_mm]
    left += [size - hole_before_reaming_mm(size).largest_mm for size in (5.0, 5.1, 20.0, 20.5, 51)]
    assert left == pytest.approx([0.25, 0.15, 0.25, 0.25, 0.35, 0.55])


@pytest.mark.parametrize("reamer", [0.0, 0.9, -10.0, 100.1, math.nan, math.inf])
def test_only_reamers_there_are(reamer: float) -> None:
    with pytest.raises(ValueError, match="reamer_mm is"):
        hole_before_reaming_mm(reamer)


def test_a_reamed_hole_has_the_limits_of_its_fit() -> None:
    assert reamed_hole_limits("H7", 10.0) == limits("H7", 10.0)
    with pytest.raises(ValueError, match="tolerance_class is 'g6'; a hole's starts with a capital"):
        reamed_hole_limits("g6", 10.0)


def test_the_note_is_copied_as_printed() -> None:
    printed = [(0.1, 0.2), (0.2, 0.3), (0.3, 0.5), (0.5, 1.0)]
    assert [(each.low_mm, each.high_mm) for each in REAMING_ALLOWANCE.values()] == printed
    assert list(REAMING_ALLOWANCE) == [5.0, 20.0, 50.0, 100.0]
