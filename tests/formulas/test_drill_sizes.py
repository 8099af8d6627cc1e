"""Named drill sizes."""

from collections.abc import Callable

import pytest

from benchleaf.formulas.drill_sizes import SIZES, diameter_mm, is_known

Table = Callable[[str], list[dict[str, str]]]


def test_every_listed_size(table: Table) -> None:
    rows = table("drill_sizes.csv")
    assert [row["size"] for row in rows if not is_known(row["size"])] == []
    for row in rows:
        assert SIZES[row["size"]].diameter_in == float(row["diameter_in"]), row
        # The table's millimetres are cut or rounded to three decimals.
        assert diameter_mm(row["size"]) == pytest.approx(float(row["diameter_mm"]), abs=0.00051)


def test_no_size_beyond_the_list(table: Table) -> None:
    assert set(SIZES) == {row["size"] for row in table("drill_sizes.csv")}
    assert len(SIZES) == 80 + 26 + 64


def test_numbers_fall_and_letters_rise() -> None:
    numbers = [SIZES[f"#{at}"].diameter_in for at in range(80, 0, -1)]
    letters = [SIZES[chr(at)].diameter_in for at in range(ord("A"), ord("Z") + 1)]
    in_order = numbers + letters
    assert in_order == sorted(set(in_order))


@pytest.mark.parametrize("written", ["#7", " #7 ", "# 7"])
def test_spaces_do_not_count(written: str) -> None:
    assert diameter_mm(written) == 0.201 * 25.4


def test_case_does_not_count() -> None:
    assert diameter_mm("f") == diameter_mm("F")


@pytest.mark.parametrize("name", ["", "#0", "#81", "#7.5", "7", "2/8", "1/128", "65/64", "AA", "é"])
def test_an_unlisted_name_is_refused(name: str) -> None:
    assert not is_known(name)
    with pytest.raises(ValueError, match="it must be #1 to #80"):
        diameter_mm(name)
