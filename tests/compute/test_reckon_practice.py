"""Reckoning a learner's curve and a rate from what is typed."""

from __future__ import annotations

import pytest

from benchleaf.compute.reckon import OPERATIONS, InputError, Reckoning, reckon


def of(operation: str, **given: str) -> Reckoning:
    return reckon(OPERATIONS[operation], given)


def values(found: Reckoning) -> dict[str, float]:
    return {one.key: one.low for one in found.results}


def test_the_textbook_question_how_many_pieces_until_six_minutes() -> None:
    """Stevenson, Example 7S.4: 10 min at first, 90 %, the 29th piece takes less than 6 min."""
    found = values(of("learning-curve", first="10 min", learning_percent="90", standard="6 min"))
    assert found["pieces_to_standard"] == 29
    assert "mean_model_pieces" not in found


def test_each_model_has_a_percentage_of_its_own() -> None:
    """Wideman: at 80 % the second piece takes 60 % in the mean model, 80 % in the unit model."""
    unit = values(of("learning-curve", first="100 min", learning_percent="80", piece="2"))
    mean = values(of("learning-curve", first="100 min", mean_percent="80", piece="2"))
    assert unit["piece_time"] == pytest.approx(80)
    assert "mean_model_piece_time" not in unit
    assert mean["mean_model_piece_time"] == pytest.approx(60)
    assert mean["mean_time"] == pytest.approx(80)
    assert "piece_time" not in mean


def test_a_fit_of_one_model_never_feeds_the_other() -> None:
    gaps = of("learning-curve", observed="1: 100 s, 2: 80 s, 4: 64 s", piece="8")
    assert values(gaps)["piece_time"] == pytest.approx(51.2 / 60)
    assert values(gaps)["learning_percent"] == pytest.approx(80)
    left = {one.key: one.why for one in gaps.not_computed}
    assert "every piece from the first" in left["mean_first"]
    assert "mean_model_piece_time" in left
    whole = values(of("learning-curve", observed="1: 100 s, 2: 60 s, 3: 50.63 s", piece="4"))
    assert whole["mean_percent"] == pytest.approx(80, abs=0.01)
    assert whole["learning_percent"] < 75, "the unit model reads the same times otherwise"


def test_the_band_holds_the_expected_time() -> None:
    given = {"observed": "1: 6.4 min, 2: 5.3 min, 4: 4.5 min, 8: 3.6 min", "piece": "20"}
    found = of("learning-curve", **given)
    band = next(one for one in found.results if one.key == "piece_band")
    assert band.low < values(found)["piece_time"] < band.high


def test_a_rate_by_hand() -> None:
    """12 + 2 x 4 + 0.1 x 30 = 23 s; + 12 % = 25.76 s; 26400 s hold 1024."""
    found = values(
        of("rate", elements="12 s, 4 s x 2, 30 s x 0.1", allowance="12 %", shift="8 h",
           breaks="40 min")
    )  # fmt: skip
    assert found["basic"] == pytest.approx(23)
    assert found["standard"] == pytest.approx(25.76)
    assert found["an_hour"] == pytest.approx(3600 / 25.76)
    assert found["a_shift"] == 1024


def test_a_whole_number_of_pieces_is_not_lost_to_rounding() -> None:
    assert values(of("rate", basic="0.1 s", allowance="0", shift="0.3 s"))["a_shift"] == 3


@pytest.mark.parametrize(
    ("operation", "given", "said"),
    [
        ("learning-curve", {"learning_percent": "0.8"}, "write 51 to 100"),
        ("learning-curve", {"piece": "2.5"}, "whole number"),
        ("learning-curve", {"piece": "0"}, "whole number"),
        ("learning-curve", {"observed": "5 min, 4 min"}, "number: time"),
        ("learning-curve", {"observed": "1: 5 min, x: 4 min"}, "whole number"),
        ("learning-curve", {"observed": "1: 5"}, "no unit"),
        ("learning-curve", {"observed": "1: 5 s", "first": "5 s"}, "both given"),
        ("rate", {"elements": "12 s, 4"}, "no unit"),
        ("rate", {"elements": "12 s x -1"}, "above zero"),
        ("rate", {"allowance": "120"}, "0 to 100"),
        ("rate", {"elements": "12 s", "basic": "12 s"}, "both given"),
    ],
)
def test_what_cannot_be_taken_is_told(operation: str, given: dict[str, str], said: str) -> None:
    with pytest.raises(InputError) as caught:
        of(operation, **given)
    assert said in f"{caught.value.problem} {caught.value.cure}"


@pytest.mark.parametrize(
    ("given", "key", "said"),
    [
        ({"observed": "1: 2 s, 2: 3 s, 3: 4 s"}, "first", "only 51 to 100 %"),
        ({"observed": "1: 2 s, 2: 1.9 s"}, "first", "3 at least"),
        ({"first": "9 s", "learning_percent": "100", "standard": "8 s"}, "pieces_to_standard",
         "never reaches"),
    ],
)  # fmt: skip
def test_what_has_no_answer_says_why(given: dict[str, str], key: str, said: str) -> None:
    left = {one.key: one.why for one in of("learning-curve", **given).not_computed}
    assert said in left[key]


def test_breaks_as_long_as_the_shift_leave_no_rate() -> None:
    found = of("rate", basic="9 s", allowance="9", shift="1 h", breaks="1 h")
    assert {one.key for one in found.not_computed} >= {"working", "a_shift"}
