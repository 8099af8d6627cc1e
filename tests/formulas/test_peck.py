"""Pecking: the published reduction, and what holds for every plan."""

import math
from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.formulas.peck import (
    DEEPEST_RATIO,
    FIRST_PECK_RATIO,
    LEAST_PECK_RATIO,
    PECK_ABOVE_RATIO,
    PECK_SHRINK,
    deep_hole_cut,
    depth_ratio,
    peck_plan,
)

sizes = st.floats(0.5, 50)
ratios = st.floats(0.05, 5.999)


def test_printed_rows(table: Callable[[str], list[dict[str, str]]]) -> None:
    rows = table("deep_hole_reduction.csv")
    assert [float(row["depth_over_diameter"]) for row in rows] == [3, 4, 5, 6]
    for row in rows:
        cut = deep_hole_cut(8.5 * float(row["depth_over_diameter"]), 8.5)
        assert cut.speed_share == pytest.approx(1 - float(row["speed_cut_percent"]) / 100)
        assert cut.feed_share == pytest.approx(1 - float(row["feed_cut_percent"]) / 100)


@pytest.mark.parametrize(
    ("ratio", "speed", "feed"),
    [(2.99, 1.0, 1.0), (3.01, 0.8, 0.9), (4.01, 0.7, 0.8), (5.5, 0.6, 0.8)],
)
def test_between_rows_the_deeper_one_counts(ratio: float, speed: float, feed: float) -> None:
    cut = deep_hole_cut(ratio * 10, 10)
    assert (cut.speed_share, cut.feed_share) == pytest.approx((speed, feed))


@given(sizes, ratios, st.floats(1, 1.5))
def test_a_deeper_hole_is_never_drilled_faster(size: float, ratio: float, more: float) -> None:
    deeper = min(ratio * more, 5.999)
    here, there = deep_hole_cut(ratio * size, size), deep_hole_cut(deeper * size, size)
    assert there.speed_share <= here.speed_share
    assert there.feed_share <= here.feed_share


@pytest.mark.parametrize(
    ("depth", "depths"),
    [
        (30.0, (30.0,)),
        (30.1, (20.0, 30.0, 30.1)),
        (35.0, (20.0, 30.0, 35.0)),
        (42.0, (20.0, 30.0, 35.0, 40.0, 42.0)),
        (60.0, (20.0, 30.0, 35.0, 40.0, 45.0, 50.0, 55.0, 60.0)),
    ],
)
def test_plans_for_a_ten_millimetre_drill(depth: float, depths: tuple[float, ...]) -> None:
    assert peck_plan(depth, 10.0).depths_mm == pytest.approx(depths)


@given(sizes, ratios)
def test_every_plan_ends_at_the_depth_and_never_lengthens(size: float, ratio: float) -> None:
    depth = ratio * size
    plan = peck_plan(depth, size)
    assert plan.depth_ratio == pytest.approx(depth_ratio(depth, size))
    assert plan.depths_mm[-1] == depth
    assert sum(plan.pecks_mm) == pytest.approx(depth)
    assert len(plan.pecks_mm) == len(plan.depths_mm)
    assert all(peck > 0 for peck in plan.pecks_mm)
    for before, after in pairwise(plan.pecks_mm):
        assert after <= before * (1 + 1e-9)


@given(sizes, st.floats(3.001, 5.999))
def test_a_deep_hole_follows_the_rule(size: float, ratio: float) -> None:
    pecks = [peck / size for peck in peck_plan(ratio * size, size).pecks_mm]
    assert pecks[0] == pytest.approx(FIRST_PECK_RATIO)
    # The last is what is left.
    for before, after in pairwise(pecks[:-1]):
        assert after == pytest.approx(max(before * PECK_SHRINK, LEAST_PECK_RATIO))


@given(sizes, st.floats(0.05, 2.999))
def test_a_shallow_hole_is_drilled_in_one_go(size: float, ratio: float) -> None:
    assert len(peck_plan(ratio * size, size).pecks_mm) == 1


@pytest.mark.parametrize("size", [0.7, 1.1, 2.3, 3.3, 6.8, 8.7, 10.2])
def test_the_edges_of_the_rules_hold_for_any_size(size: float) -> None:
    # 4.2 over 0.7 is a hair above 6 to the machine; it is six diameters all the same.
    assert deep_hole_cut(round(DEEPEST_RATIO * size, 9), size).speed_share == pytest.approx(0.6)
    assert len(peck_plan(round(PECK_ABOVE_RATIO * size, 9), size).pecks_mm) == 1
    assert len(peck_plan(round(DEEPEST_RATIO * size, 9), size).pecks_mm) == 8


@pytest.mark.parametrize("rule", [deep_hole_cut, peck_plan])
@pytest.mark.parametrize(
    ("depth", "size", "message"),
    [
        (60.1, 10.0, r"depth_mm is 60\.1; it must be at most 6 diameters, 60: deeper is not cover"),
        (0.0, 10.0, "depth_mm is 0"),
        (10.0, 0.0, "diameter_mm is 0"),
        (math.nan, 10.0, "depth_mm is nan"),
        (math.inf, 10.0, "depth_mm is inf"),
    ],
)
def test_a_hole_not_covered_is_refused(
    rule: Callable[[float, float], object], depth: float, size: float, message: str
) -> None:
    with pytest.raises(ValueError, match=message):
        rule(depth, size)
