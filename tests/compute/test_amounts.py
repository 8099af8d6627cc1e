"""A quantity in words: inches first or second, limits never wider than they are."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchleaf.compute import amount, entered, first, in_both, inside, span, told, told_entered
from benchleaf.compute.amounts import WAYS, has_amounts, in_inches, listed, safe
from benchleaf.compute.results import FeelCurve, FeelZone, Figure, figure
from benchleaf.compute.told_sheet import second, told_curve
from benchleaf.formulas.quantities import parse_quantity, parse_toleranced
from benchleaf.model import Units
from running import examples, some

INCH, METRIC = Units.INCH, Units.METRIC
UNITS = st.sampled_from(sorted(WAYS))
DIGITS = st.integers(0, 3)
SIZES = st.floats(0.05, 20_000)
NOISE = 1e-9
"""Relative: doubles carry some fifteen digits, and rounding keeps twelve of them."""
FEW = settings(max_examples=examples(200))


def back(shown: float, unit: str) -> float:
    """An inch figure in the metric unit again."""
    return shown * WAYS[unit].each


@FEW
@given(SIZES, st.floats(1e-4, 1.0), UNITS, DIGITS)
def test_a_range_in_inches_never_leaves_the_true_one(
    low: float, share: float, unit: str, decimals: int
) -> None:
    high = low * (1 + share)
    shown = first(low, high, unit, decimals, INCH)
    assert shown.low <= shown.high
    assert back(shown.low, unit) >= low * (1 - NOISE)
    assert back(shown.high, unit) <= high * (1 + NOISE)


@FEW
@given(SIZES, UNITS, st.sampled_from([-2, 0, 1, 2, 3]))
def test_a_greatest_value_goes_down_and_a_least_one_up(
    value: float, unit: str, decimals: int
) -> None:
    down, up, near = (
        first(value, value, unit, decimals, INCH, one) for one in ("down", "up", "nearest")
    )
    assert back(down.low, unit) <= value * (1 + NOISE)
    assert back(up.low, unit) >= value * (1 - NOISE)
    assert down.low <= near.low <= up.low
    assert float(down.number) == pytest.approx(down.low)  # what is printed is what was rounded


@FEW
@given(SIZES, UNITS)
def test_a_figure_in_inches_keeps_two_significant_digits(value: float, unit: str) -> None:
    shown = first(value, value, unit, 0, INCH)
    assert abs(back(shown.low, unit) - value) <= 0.051 * value


@FEW
@given(SIZES, UNITS, DIGITS)
def test_a_metric_sentence_is_what_it_always_was(value: float, unit: str, decimals: int) -> None:
    more = value * 2
    assert told(amount(value, unit, decimals), METRIC) == f"{value:.{decimals}f} {unit}"
    assert told(amount(value, unit), METRIC) == f"{value:g} {unit}"
    words = f"{value:.{decimals}f} to {more:.{decimals}f} {unit}"
    assert told(f"from {span(value, more, unit, decimals)}!", METRIC) == f"from {words}!"


@FEW
@given(SIZES, UNITS, st.sampled_from(list(Units)))
def test_no_number_stands_without_its_unit(value: float, unit: str, units: Units) -> None:
    marks = (amount(value, unit, 2), span(value, value * 2, unit), safe(value, unit, "up"))
    shown = WAYS[unit].unit if units is INCH else unit
    for words in some(told(one, units) for one in marks):
        assert not has_amounts(words)
        assert re.fullmatch(rf"[\d.]+(?: to [\d.]+)? {re.escape(shown)}", words), words


@pytest.mark.parametrize(
    ("written", "kind", "words"),
    [
        ("1/4 in", "length", "1/4 in"),
        ("6.5 mm", "length", "0.256 in (6.5 mm)"),
        ("80 ft/min", "cutting speed", "80 ft/min"),
        ("24 to 30 m/min", "cutting speed", "79 to 98 ft/min (24 to 30 m/min)"),
        ("0.13 mm/rev", "feed", "0.0051 in/rev (0.13 mm/rev)"),
        ("1.1 kW", "power", "1.48 hp (1.1 kW)"),
        ("12 lbf ft", "torque", "12 lbf ft"),
        ("0.6 lb", "mass", "0.6 lb"),
        ("30 psi", "pressure", "30 psi"),
        ("118 deg", "angle", "118 deg"),
        ("1500 rpm", "spindle speed", "1500 rpm"),
    ],
)
def test_what_was_entered_in_inches_stays_as_it_was_written(
    written: str, kind: str, words: str
) -> None:
    size = parse_quantity(written, kind, range_allowed=True)
    assert told_entered(size, INCH) == words
    assert told_entered(size, METRIC) == written


def test_a_rating_entered_in_metric_is_never_told_higher() -> None:
    rating = parse_quantity("6 kN", "force")  # 1348.85 lbf
    assert told_entered(rating, INCH, "down") == "1348 lbf (6 kN)"
    assert told(entered(rating, "down"), METRIC) == "6 kN"


def test_limits_entered_in_metric_are_told_to_the_inside() -> None:
    limits = parse_toleranced("8.5 +0.1/-0 mm")  # 0.33465 to 0.33858 in
    assert told_entered(limits, INCH) == "0.3347 to 0.3385 in (8.5 +0.1/-0 mm)"
    assert told(span(limits.low, limits.high, "mm"), METRIC) == "8.5 to 8.6 mm"
    assert inside(6.5278, 6.6294, "mm", 3).text == "6.528 to 6.629 mm"


def test_a_unit_that_both_have_stays() -> None:
    assert in_inches(850, 850, "rpm", 0) is None
    assert first(850, 900, "rpm", 0, INCH).text == "850 to 900 rpm"


def test_several_values_share_one_unit() -> None:
    stops = listed([11.7348, 16.84], "mm", 1)
    assert told(f"at {stops} on the scale", METRIC) == "at 11.7, 16.8 mm on the scale"
    assert told(f"at {stops} on the scale", INCH) == "at 0.462, 0.663 in on the scale"
    assert told(listed([11.7348], "mm", 1), INCH) == "0.462 in"
    assert listed([], "mm", 1) == ""


def test_a_diameter_stands_in_both() -> None:
    assert in_both(6.5278, METRIC) == "6.53 mm, 0.2570 in"
    assert in_both(6.5278, INCH) == "0.257 in, 6.53 mm"


def test_text_that_only_looks_like_a_mark_is_left_alone() -> None:
    odd = "a \ue000 that \ue001 nobody \ue002 writes"
    assert [told(odd, one) for one in Units] == [odd, odd]


def test_the_metric_figure_stands_second_but_for_what_is_of_neither_system() -> None:
    stop = figure(13.4, "mm", 1)
    assert second(stop, Figure(0.53, 0.53, "in", 3)) == stop
    assert second(figure(91, "N", 0), Figure(9.3, 9.3, "kgf", 1)).text == "91 N"
    assert second(stop, Figure(18, 18, "° of lever", 0)).text == "18 ° of lever"


def test_the_curve_of_the_hand_is_told_in_pounds() -> None:
    curve = FeelCurve(((0.0, 0.0), (10.0, 89.0)), (FeelZone("touch", 0.0, 10.0, 1),),
                      "mm of travel", "thrust, N")  # fmt: skip
    inch = told_curve(curve, INCH)
    assert inch is not None
    assert (inch.along, inch.upward) == ("in of travel", "thrust, lbf")
    assert inch.points[1] == pytest.approx((10 / 25.4, 89 / 4.4482216))
    assert inch.zones[0].end == pytest.approx(10 / 25.4)
    assert told_curve(curve, METRIC) is curve
