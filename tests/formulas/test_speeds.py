"""Speeds, feeds, times and the choice of a spindle step."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.formulas.speeds import (
    StepChoice,
    choose_step,
    cutting_speed_m_min,
    feed_rate_mm_min,
    removal_rate_mm3_min,
    seconds_for_travel,
    spindle_speed_rpm,
)

MM_PER_IN = 25.4
M_PER_FT = 0.3048

cutting_speeds = st.floats(1, 600)
diameters = st.floats(0.3, 150)
spindle_speeds = st.floats(20, 20000)
feeds = st.floats(0.01, 2)
steps = st.lists(spindle_speeds, min_size=1, max_size=12)

Table = Callable[[str], list[dict[str, str]]]


def table_rpm(row: dict[str, str]) -> float:
    speed = float(row["cutting_speed_ft_min"]) * M_PER_FT
    return spindle_speed_rpm(speed, float(row["diameter_in"]) * MM_PER_IN)


def test_shop_table_within_its_rounding(table: Table) -> None:
    rows = [row for row in table("rpm_table.csv") if row["row"] == "read"]
    assert len(rows) == 79
    for row in rows:
        assert table_rpm(row) == pytest.approx(float(row["printed_rpm"]), rel=0.07), row


def test_misprints_of_the_shop_table_are_no_rounding(table: Table) -> None:
    rows = [row for row in table("rpm_table.csv") if row["row"] == "misprint"]
    assert len(rows) == 2
    for row in rows:
        assert float(row["printed_rpm"]) > 1.9 * table_rpm(row), row


@given(cutting_speeds, diameters)
def test_spindle_and_cutting_speed_are_inverses(speed: float, diameter: float) -> None:
    there = spindle_speed_rpm(speed, diameter)
    assert cutting_speed_m_min(there, diameter) == pytest.approx(speed, rel=1e-12)


@given(cutting_speeds, diameters, st.floats(1.01, 3))
def test_a_larger_drill_turns_slower(speed: float, diameter: float, more: float) -> None:
    assert spindle_speed_rpm(speed, diameter * more) < spindle_speed_rpm(speed, diameter)


@given(feeds, spindle_speeds, st.floats(1, 200))
def test_time_times_feed_rate_is_the_travel(feed: float, speed: float, travel: float) -> None:
    rate = feed_rate_mm_min(feed, speed)
    assert seconds_for_travel(travel, rate) * rate / 60 == pytest.approx(travel, rel=1e-12)


@given(diameters, st.floats(1, 2000), st.floats(1, 60))
def test_metal_removed_is_the_hole(diameter: float, rate: float, depth: float) -> None:
    minutes = seconds_for_travel(depth, rate) / 60
    hole = math.pi * (diameter / 2) ** 2 * depth
    assert removal_rate_mm3_min(diameter, rate) * minutes == pytest.approx(hole, rel=1e-12)


@given(steps, spindle_speeds, spindle_speeds)
def test_a_step_is_never_chosen_above_the_range(
    machine: list[float], one: float, other: float
) -> None:
    low, high = sorted((one, other))
    choice = choose_step(machine, low, high)
    if choice.chosen is None:
        assert min(machine) > high
        return
    assert choice.chosen in machine
    assert choice.chosen <= high
    assert not any(choice.chosen < step <= high for step in machine)


@given(steps, spindle_speeds, spindle_speeds)
def test_inside_and_below_are_told_apart(machine: list[float], one: float, other: float) -> None:
    low, high = sorted((one, other))
    choice = choose_step(machine, low, high)
    assert choice.inside == tuple(sorted({step for step in machine if low <= step <= high}))
    assert choice.below_range == (choice.chosen is not None and choice.chosen < low)


@pytest.mark.parametrize(
    ("low", "high", "expected"),
    [
        (900, 1200, StepChoice((1100,), 1100, False)),
        (500, 1100, StepChoice((500, 750, 1100), 1100, False)),
        (800, 1000, StepChoice((), 750, True)),
        (2000, 3000, StepChoice((), 1600, True)),
        (100, 400, StepChoice((), None, False)),
        (750, 750, StepChoice((750,), 750, False)),
    ],
)
def test_rule_for_a_step(low: float, high: float, expected: StepChoice) -> None:
    assert choose_step([1600, 500, 750, 1100, 750], low, high) == expected


@pytest.mark.parametrize(
    ("machine", "low", "high", "message"),
    [
        ([], 100, 200, "steps_rpm is empty"),
        ([500, 0], 100, 200, "steps_rpm is 0"),
        ([500, math.nan], 100, 200, "steps_rpm is nan"),
        ([500], 200, 100, "low_rpm is 200; it must not be above high_rpm, 100"),
        ([500], 100, math.inf, "high_rpm is inf"),
        ([500], -1, 100, "low_rpm is -1"),
    ],
)
def test_a_bad_range_gives_no_step(
    machine: list[float], low: float, high: float, message: str
) -> None:
    with pytest.raises(ValueError, match=message):
        choose_step(machine, low, high)
