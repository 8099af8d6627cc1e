"""Holes across round work: no published worked example was found, so the circle is sampled."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.formulas.round_work import (
    bar_depth_mm,
    bore_mm,
    one_wall_depth_mm,
    room_to_far_wall_mm,
    saddle_mm,
)

outsides = st.floats(2, 300)
parts = st.floats(0.02, 0.98)


def falls_along_the_rim(round_diameter: float, drill: float) -> list[float]:
    """How far the surface lies below its crown, all round the rim of the hole.

    A place on the surface is found by its angle about the work's axis, not by a root.
    """
    falls = []
    for at in range(361):
        off_axis = drill / 2 * math.sin(math.radians(at))
        angle = math.asin(off_axis / (round_diameter / 2))
        falls.append(round_diameter / 2 * (1 - math.cos(angle)))
    return falls


@given(outsides, parts)
def test_the_saddle_is_the_deepest_place_of_the_rim(outside: float, part: float) -> None:
    falls = falls_along_the_rim(outside, outside * part)
    assert saddle_mm(outside, outside * part) == pytest.approx(max(falls), rel=1e-9, abs=1e-12)
    assert min(falls) == 0


@given(outsides, parts)
def test_the_rim_lies_on_the_circle(outside: float, part: float) -> None:
    drop = outside / 2 - saddle_mm(outside, outside * part)
    assert math.hypot(drop, outside * part / 2) == pytest.approx(outside / 2)


def test_a_three_four_five_triangle() -> None:
    # Radii 5 and 3: the height left is 4.
    assert saddle_mm(10.0, 6.0) == pytest.approx(1.0)


@given(outsides, st.floats(0.01, 0.1))
def test_a_small_hole_has_nearly_the_saddle_of_a_parabola(outside: float, part: float) -> None:
    drill = outside * part
    assert saddle_mm(outside, drill) == pytest.approx(drill**2 / (4 * outside), rel=0.01)


@given(outsides, st.floats(0.02, 0.9), st.floats(1.01, 1.08))
def test_a_larger_hole_and_a_smaller_bar_have_a_deeper_saddle(
    outside: float, part: float, more: float
) -> None:
    drill = outside * part
    assert saddle_mm(outside, drill * more) > saddle_mm(outside, drill)
    assert saddle_mm(outside * more, drill) < saddle_mm(outside, drill)


@given(outsides, st.floats(0.02, 0.4), parts)
def test_one_wall_is_cleared_where_the_bore_is_lowest_on_the_rim(
    outside: float, wall_part: float, part: float
) -> None:
    wall = outside * wall_part
    drill = bore_mm(outside, wall) * part
    lowest = wall + max(falls_along_the_rim(outside - 2 * wall, drill))
    depth = one_wall_depth_mm(outside, wall, drill)
    assert depth == pytest.approx(lowest)
    assert wall < depth < outside / 2


@given(outsides, st.floats(0.02, 0.4))
def test_bore_and_two_walls_are_the_outside(outside: float, part: float) -> None:
    wall = outside * part
    assert bore_mm(outside, wall) + 2 * wall == pytest.approx(outside)


@given(outsides, st.floats(0.02, 0.4), parts)
def test_no_room_is_left_when_the_tip_reaches_the_far_wall(
    outside: float, part: float, deep: float
) -> None:
    wall = outside * part
    at_wall = wall + bore_mm(outside, wall)
    assert room_to_far_wall_mm(outside, wall, at_wall) == pytest.approx(0, abs=1e-9)
    assert room_to_far_wall_mm(outside, wall, at_wall * deep) > 0
    assert room_to_far_wall_mm(outside, wall, at_wall * (1 + deep)) < 0


@given(outsides, parts)
def test_a_bar_is_cleared_at_its_far_side(outside: float, part: float) -> None:
    assert bar_depth_mm(outside, outside * part) == outside


@pytest.mark.parametrize("depth", [saddle_mm, bar_depth_mm])
@pytest.mark.parametrize("drill", [20.0, 25.0])
def test_a_drill_as_wide_as_the_work_is_refused(
    depth: Callable[[float, float], float], drill: float
) -> None:
    with pytest.raises(ValueError, match=r"drill_diameter_mm is .* smaller than the round .*20"):
        depth(20.0, drill)


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda: saddle_mm(0.0, 1.0), "round_diameter_mm is 0"),
        (lambda: saddle_mm(20.0, math.nan), "drill_diameter_mm is nan"),
        (lambda: bore_mm(20.0, 10.0), "wall_mm is 10.0; a tube of 20.0 has no bore"),
        (lambda: bore_mm(20.0, -1.0), "wall_mm is -1"),
        (lambda: one_wall_depth_mm(25.0, 2.0, 21.0), "drill_diameter_mm is 21"),
        (lambda: room_to_far_wall_mm(25.0, 2.0, 0.0), "tip_depth_mm is 0"),
        (lambda: room_to_far_wall_mm(25.0, 13.0, 5.0), "has no bore"),
    ],
)
def test_a_wrong_number_is_refused(make: Callable[[], float], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        make()
