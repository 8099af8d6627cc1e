"""Named drill sizes."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.formulas.drill_sizes import (
    SIZES,
    diameter_in,
    diameter_mm,
    is_known,
    nearest_sizes,
)

Table = Callable[[str], list[dict[str, str]]]


def test_every_listed_size(table: Table) -> None:
    rows = table("drill_sizes.csv")
    assert [row["size"] for row in rows if not is_known(row["size"])] == []
    for row in rows:
        assert diameter_in(row["size"]) == float(row["diameter_in"]), row
        # The table's millimetres are cut or rounded to three decimals.
        assert diameter_mm(row["size"]) == pytest.approx(float(row["diameter_mm"]), abs=0.00051)


def test_no_size_beyond_the_list(table: Table) -> None:
    assert set(SIZES) == {row["size"] for row in table("drill_sizes.csv")}
    assert len(SIZES) == 80 + 26 + 64


def test_numbers_fall_and_letters_rise() -> None:
    numbers = [diameter_in(f"#{at}") for at in range(80, 0, -1)]
    letters = [diameter_in(chr(at)) for at in range(ord("A"), ord("Z") + 1)]
    in_order = numbers + letters
    assert in_order == sorted(set(in_order))


@pytest.mark.parametrize("written", ["#7", " #7 ", "# 7"])
def test_spaces_do_not_count(written: str) -> None:
    assert diameter_in(written) == 0.201


def test_case_does_not_count() -> None:
    assert diameter_mm("f") == diameter_mm("F")


@pytest.mark.parametrize("name", ["", "#0", "#81", "#7.5", "7", "2/8", "1/128", "65/64", "AA", "é"])
def test_an_unlisted_name_is_refused(name: str) -> None:
    assert not is_known(name)
    with pytest.raises(ValueError, match="it must be #1 to #80"):
        diameter_in(name)
    with pytest.raises(ValueError, match="it must be #1 to #80"):
        diameter_mm(name)


@given(st.sampled_from(sorted(SIZES)))
def test_a_size_is_nearest_to_itself(name: str) -> None:
    assert nearest_sizes(diameter_mm(name), 1)[0].diameter_mm == diameter_mm(name)


@given(st.floats(0.1, 40), st.integers(1, 20))
def test_no_size_left_out_is_nearer(diameter: float, count: int) -> None:
    given_back = nearest_sizes(diameter, count)
    assert len({size.name for size in given_back}) == count
    away = [abs(size.diameter_mm - diameter) for size in given_back]
    assert away == sorted(away)
    others = [size for size in SIZES.values() if size not in given_back]
    assert all(abs(size.diameter_mm - diameter) >= away[-1] for size in others)


def test_both_names_of_one_diameter_are_given() -> None:
    assert {size.name for size in nearest_sizes(6.35, 2)} == {"E", "1/4"}


@pytest.mark.parametrize("count", [0, 171, -1, 1.5])
def test_only_a_sensible_count(count: int) -> None:
    with pytest.raises(ValueError, match=r"count is .* from 1 to 170"):
        nearest_sizes(6.0, count)


@pytest.mark.parametrize("diameter", [0.0, -6.0, math.nan, math.inf])
def test_only_a_real_diameter(diameter: float) -> None:
    with pytest.raises(ValueError, match="diameter_mm is"):
        nearest_sizes(diameter, 3)
