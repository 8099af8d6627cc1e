"""Life of an edge: printed examples of Taylor's law, and what holds for any constants."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.formulas.drill_life import (
    LONGEST_LIFE_MIN,
    holes_between_grinds,
    tool_life_min,
)
from benchleaf.formulas.speeds import feed_rate_mm_min, seconds_for_travel
from oracles.tool_life import TURNING_CONSTANTS, TaylorLaw, speed_for_life_m_min, taylor_law

M_PER_FT = 0.3048

Table = Callable[[str], list[dict[str, str]]]

exponents = st.floats(0.06, 0.9)
lives = st.floats(0.5, 5000)
constants = st.floats(10, 3000)


def law_of(row: dict[str, str], unit: float) -> TaylorLaw:
    """Constants as given, or from the two tests of the example."""
    if row["exponent"]:
        return TaylorLaw(float(row["exponent"]), float(row["c"]) * unit)
    fast, slow = float(row["fast"]) * unit, float(row["slow"]) * unit
    return taylor_law(fast, float(row["fast_life_min"]), slow, float(row["slow_life_min"]))


def answer(row: dict[str, str]) -> float:
    unit = {"m/min": 1.0, "ft/min": M_PER_FT}[row["speed_unit"]]
    law = law_of(row, unit)
    if row["wanted"] == "exponent":
        return law.exponent
    if row["wanted"] == "c":
        return law.c_m_min / unit
    at = float(row["at"])
    if row["wanted"] == "life":
        return tool_life_min(at * unit, law.exponent, law.c_m_min)
    return speed_for_life_m_min(at, law.exponent, law.c_m_min) / unit


def test_printed_examples(table: Table) -> None:
    rows = table("taylor_tool_life.csv")
    assert len(rows) == 10
    assert {row["wanted"] for row in rows} == {"exponent", "c", "life", "speed"}
    for row in rows:
        decimals = len(row["printed"].partition(".")[2])
        assert answer(row) == pytest.approx(float(row["printed"]), abs=0.5 * 10**-decimals), row


def test_half_the_speed_is_sixteen_times_the_life() -> None:
    """Another author: a public question bank, turning at n = 0.25, answer 16 (curioustab, read)."""
    lives = [tool_life_min(speed, 0.25, 300.0) for speed in (120.0, 60.0)]
    assert lives[1] / lives[0] == pytest.approx(16)


def test_turning_constants_are_the_printed_ones(table: Table) -> None:
    rows = table("table_22_2_taylor.csv")
    assert {row["tool"] for row in rows} == set(TURNING_CONSTANTS)
    for row in rows:
        ours = TURNING_CONSTANTS[row["tool"]]
        assert ours.exponent == float(row["exponent"])
        for kind, value in (("nonsteel", ours.c_nonsteel_m_min), ("steel", ours.c_steel_m_min)):
            printed = row[f"c_{kind}_m_min"]
            assert value == (float(printed) if printed else None)
            if value is not None:
                feet = float(row[f"c_{kind}_ft_min"]) * M_PER_FT
                assert value == pytest.approx(feet, rel=0.15), row


@given(constants, exponents, lives)
def test_life_and_speed_are_inverses(c: float, n: float, life: float) -> None:
    speed = speed_for_life_m_min(life, n, c)
    assert tool_life_min(speed, n, c) == pytest.approx(life, rel=1e-9)


@given(constants, exponents, lives, st.floats(1.05, 20))
def test_two_tests_give_the_law_back(c: float, n: float, life: float, more: float) -> None:
    longer = min(life * more, LONGEST_LIFE_MIN)
    fast, slow = (speed_for_life_m_min(each, n, c) for each in (life, longer))
    law = taylor_law(fast, life, slow, longer)
    assert law.exponent == pytest.approx(n, rel=1e-6)
    assert law.c_m_min == pytest.approx(c, rel=1e-6)


@given(constants, exponents)
def test_the_constant_is_the_speed_of_one_minute(c: float, n: float) -> None:
    assert tool_life_min(c, n, c) == pytest.approx(1)


@given(constants, exponents, st.floats(0.5, 2000), st.floats(1.01, 1.5))
def test_faster_wears_sooner(c: float, n: float, life: float, more: float) -> None:
    speed = speed_for_life_m_min(life, n, c)
    assert tool_life_min(speed * more, n, c) < tool_life_min(speed, n, c)


@given(lives, st.floats(0.1, 2000))
def test_the_holes_fit_in_the_life(life: float, cut: float) -> None:
    holes = holes_between_grinds(life, cut)
    assert holes * cut <= life * 60 * (1 + 1e-8)
    assert (holes + 1) * cut > life * 60


@given(st.integers(1, 300), st.floats(0.1, 2000))
def test_a_life_of_whole_holes_loses_none(holes: int, cut: float) -> None:
    assert holes_between_grinds(holes * cut / 60, cut) == holes


def test_holes_from_travel_feed_and_speed() -> None:
    # 21 mm at 0.2 mm/rev and 700 rpm are 9 s; an hour in the cut is 400 holes.
    cut = seconds_for_travel(21.0, feed_rate_mm_min(0.2, 700.0))
    assert cut == pytest.approx(9)
    assert holes_between_grinds(60.0, 9.0) == 400
    assert holes_between_grinds(0.1, 9.0) == 0


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda: tool_life_min(0.0, 0.125, 70), "cutting_speed_m_min is 0"),
        (lambda: tool_life_min(50, 0.0, 70), r"exponent is 0\.0; .* from 0\.05 to 1"),
        (lambda: tool_life_min(50, 12.5, 70), r"exponent is 12\.5"),
        (lambda: tool_life_min(50, 0.125, -70), "c_m_min is -70"),
        (lambda: tool_life_min(5, 0.125, 70), r"cutting_speed_m_min is 5; it must be at least 22"),
        (lambda: tool_life_min(1e-9, 0.05, 3000), "must be at least"),
        (lambda: speed_for_life_m_min(0, 0.125, 70), "life_min is 0"),
        (lambda: speed_for_life_m_min(20000, 0.125, 70), "life_min is 20000; .* to 10000"),
        (lambda: taylor_law(100, 41, 160, 5), "fast_m_min is 100; it must be above slow_m_min"),
        (lambda: taylor_law(160, 41, 100, 5), "slow_life_min is 5; it must be above fast_life"),
        (lambda: taylor_law(160, 5, 100, 5.1), "exponent is 23"),
        (lambda: taylor_law(math.nan, 5, 100, 41), "fast_m_min is nan"),
        (lambda: holes_between_grinds(10, 0), "cut_time_s is 0"),
        (lambda: holes_between_grinds(math.inf, 5), "life_min is inf"),
    ],
)
def test_a_wrong_number_is_refused(make: Callable[[], object], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        make()
