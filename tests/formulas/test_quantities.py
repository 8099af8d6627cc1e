"""Quantities as a shop writes them: every form of the grammar, and what is refused with a cure."""

from __future__ import annotations

import math
from functools import cache
from typing import Any

import pint
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from benchleaf.formulas.quantities import (
    KINDS,
    Quantity,
    QuantityError,
    in_unit,
    inches,
    parse_quantity,
    parse_toleranced,
)


def refused(text: str, kind: str, *, range_allowed: bool = False) -> QuantityError:
    with pytest.raises(QuantityError) as caught:
        parse_quantity(text, kind, range_allowed=range_allowed)
    return caught.value


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("8.5 mm", "length", 8.5),
        ("8.5mm", "length", 8.5),
        (".5 mm", "length", 0.5),
        ("8 mm", "length", 8.0),
        ("  8.5   mm ", "length", 8.5),
        ("1/4 in", "length", 6.35),
        ("1-1/2 in", "length", 38.1),
        ("1 1/2 in", "length", 38.1),
        ("1 in", "length", 25.4),
        ("2.5 cm", "length", 25.0),
        ("0.04 m", "length", 40.0),
        ("20 um", "length", 0.02),
        ("0 mm", "length", 0.0),
        ("30 m/min", "cutting speed", 30.0),
        ("100 ft/min", "cutting speed", 30.48),
        ("0.5 m/s", "cutting speed", 30.0),
        ("0.15 mm/rev", "feed", 0.15),
        ("0.01 in/rev", "feed", 0.254),
        ("850 rpm", "spindle speed", 850.0),
        ("850 rev/min", "spindle speed", 850.0),
        ("10 rev/s", "spindle speed", 600.0),
        ("4 kN", "force", 4000.0),
        ("1 lbf", "force", 4.44822161526),
        ("1 kgf", "force", 9.80665),
        ("12 N m", "torque", 12.0),
        ("12 N·m", "torque", 12.0),
        ("1 lbf ft", "torque", 1.35581794833),
        ("1 lbf in", "torque", 0.112984829028),
        ("750 W", "power", 0.75),
        ("1 hp", "power", 0.745699871582),
        ("118 deg", "angle", 118.0),
        ("400 g", "mass", 0.4),
        ("1 lb", "mass", 0.45359237),
        ("1 oz", "mass", 0.028349523125),
        ("2 min", "time", 120.0),
        ("1 h", "time", 3600.0),
        ("2 bar", "pressure", 200.0),
        ("1 psi", "pressure", 6.89475729317),
        ("1 MPa", "pressure", 1000.0),
    ],
)
def test_one_value_comes_in_the_base_unit_of_its_kind(text: str, kind: str, value: float) -> None:
    # Conversion factors by the definitions of the inch, pound, kilogram-force and horsepower.
    quantity = parse_quantity(text, kind)
    assert quantity.value == pytest.approx(value, rel=1e-11)
    assert not quantity.is_range
    assert quantity.unit == KINDS[kind].base


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("24 to 30 m/min", 24.0, 30.0),
        ("24 - 30 m/min", 24.0, 30.0),
        ("24-30 m/min", 24.0, 30.0),
        ("24–30 m/min", 24.0, 30.0),
        ("80 to 110 ft/min", 24.384, 33.528),
        ("24 to 24 m/min", 24.0, 24.0),
    ],
)
def test_a_range_keeps_both_ends(text: str, low: float, high: float) -> None:
    quantity = parse_quantity(text, "cutting speed", range_allowed=True)
    assert (quantity.low, quantity.high) == pytest.approx((low, high))
    assert quantity.is_range == (low != high)


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [("1/2 to 3/4 in", 12.7, 19.05), ("1/2-3/4 in", 12.7, 19.05), ("1-1/2 to 2 in", 38.1, 50.8),
     ("1 1/2 - 2-1/4 in", 38.1, 57.15)],
)  # fmt: skip
def test_a_range_of_fractions(text: str, low: float, high: float) -> None:
    quantity = parse_quantity(text, "length", range_allowed=True)
    assert (quantity.low, quantity.high) == pytest.approx((low, high))


def test_a_range_has_no_one_value() -> None:
    quantity = parse_quantity("24 to 30 m/min", "cutting speed", range_allowed=True)
    with pytest.raises(ValueError, match="is a range"):
        _ = quantity.value


def test_the_text_is_kept_as_written_with_spaces_folded() -> None:
    assert parse_quantity("  1-1/2   in", "length").text == "1-1/2 in"


@pytest.mark.parametrize(
    ("text", "nominal", "low", "high"),
    [
        ("8.5 +0.1/-0 mm", 8.5, 8.5, 8.6),
        ("8.5 + 0.1 / - 0.05 mm", 8.5, 8.45, 8.6),
        ("8.5 +/-0.1 mm", 8.5, 8.4, 8.6),
        ("8.5 ±0.1 mm", 8.5, 8.4, 8.6),
        ("8.5 ± 0.1 mm", 8.5, 8.4, 8.6),
        ("8.5 to 8.6 mm", 8.5, 8.5, 8.6),
        ("1/4 +0.005/-0 in", 6.35, 6.35, 6.477),
        ("1-1/2 +/-1/64 in", 38.1, 37.703125, 38.496875),
    ],
)
def test_a_size_with_its_limits(text: str, nominal: float, low: float, high: float) -> None:
    size = parse_toleranced(text)
    assert size.nominal == pytest.approx(nominal, abs=1e-9)
    assert (size.low, size.high) == pytest.approx((low, high), abs=1e-9)


def test_limits_carry_no_noise_of_binary_numbers() -> None:
    assert (parse_toleranced("8.1 +/-0.2 mm").low, parse_toleranced("8.1 +/-0.2 mm").high) == (
        7.9, 8.3,
    )  # fmt: skip


@pytest.mark.parametrize("text", ["8.5 mm", "8.5", "", "8.5 +0.1 mm", "8.5 H7 mm", "8.5 +0.1/-0"])
def test_a_size_without_both_limits_or_a_unit_is_refused(text: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse_toleranced(text)
    assert "8.5 +0.1/-0 mm" in caught.value.cure or "mm" in caught.value.cure


def test_limits_without_a_unit_are_a_matter_of_the_unit() -> None:
    for text in ("8.5 +0.1/-0", "8.5 to 8.6"):
        with pytest.raises(QuantityError) as caught:
            parse_toleranced(text)
        assert caught.value.unit_is_wrong, text


def test_no_size_can_be_below_zero() -> None:
    with pytest.raises(QuantityError):
        parse_toleranced("1 +0/-2 mm")


@pytest.mark.parametrize(
    ("text", "kind", "problem", "cure"),
    [
        ("8,5 mm", "length", "comma", "'8.5 mm'"),
        ("0,15 mm/rev", "feed", "comma", "'0.15 mm/rev'"),
        ("1,500 rpm", "spindle speed", "comma", "'1500 rpm'"),
        ("-1 mm", "length", "below zero", "never negative"),
        ("- 1 mm", "length", "below zero", "never negative"),
        ("0 rpm", "spindle speed", "zero", "above zero"),
        ("0 mm/rev", "feed", "zero", "above zero"),
        ("0 to 30 m/min", "cutting speed", "is a range", "one value"),
        ("1/0 in", "length", "divides by zero", "8.5 mm"),
        ("1-1/0 in", "length", "divides by zero", "8.5 mm"),
        ("about six", "length", "no length", "8.5 mm"),
        ("", "length", "no length", "8.5 mm"),
        ("mm", "length", "no length", "8.5 mm"),
        ("8.5.1 mm", "length", "no length", "8.5 mm"),
        ("1e3 mm", "length", "", "mm"),
        ("0x10 mm", "length", "", "mm"),
        ("nan mm", "length", "no length", "8.5 mm"),
        ("inf mm", "length", "no length", "8.5 mm"),
        ("½ in", "length", "no length", "8.5 mm"),
        ("8.5 mm and more", "length", "unit", "mm"),
        ("8.5 mm to 9 mm", "length", "unit", "mm"),
    ],
)
def test_what_is_no_quantity_is_refused_with_a_cure(
    text: str, kind: str, problem: str, cure: str
) -> None:
    error = refused(text, kind)
    assert problem in error.problem
    assert cure in error.cure
    assert f"'{text}'" in error.problem


def test_a_range_that_runs_backwards() -> None:
    error = refused("30 to 24 m/min", "cutting speed", range_allowed=True)
    assert "backwards" in error.problem
    assert "smaller end first" in error.cure


def test_a_range_from_zero_is_refused_where_zero_is_no_value() -> None:
    assert "zero" in refused("0 to 30 m/min", "cutting speed", range_allowed=True).problem


def test_a_range_where_one_value_is_wanted() -> None:
    assert "is a range" in refused("1 to 2 mm", "length").problem


@pytest.mark.parametrize(
    ("text", "kind", "hint"),
    [
        ("8.5 MM", "length", "'mm'"),
        ("8.5 Inch", "length", "'in'"),
        ("850 RPM", "spindle speed", "'rpm'"),
        ("100 sfm", "cutting speed", "'ft/min'"),
        ("0.005 ipr", "feed", "'in/rev'"),
        ("12 Nm", "torque", "'N m'"),
        ("118 degrees", "angle", "'deg'"),
        ("118°", "angle", "'deg'"),
        ("118 °", "angle", "'deg'"),
        ('1/4"', "length", "'in'"),
        ("1/4″", "length", "'in'"),
        ("20 µm", "length", "'um'"),
        ("20 μm", "length", "'um'"),
    ],
)
def test_a_unit_by_another_spelling_is_answered_with_ours(text: str, kind: str, hint: str) -> None:
    error = refused(text, kind)
    assert error.unit_is_wrong
    assert hint in error.cure


@pytest.mark.parametrize("kind", KINDS)
def test_a_number_without_a_unit_names_every_unit_of_its_kind(kind: str) -> None:
    error = refused("8.5", kind)
    assert error.unit_is_wrong
    assert all(unit in error.cure for unit in KINDS[kind].units)


@pytest.mark.parametrize("kind", KINDS)
def test_no_kind_takes_the_unit_of_another(kind: str) -> None:
    others = {unit for other in KINDS.values() for unit in other.units} - set(KINDS[kind].units)
    for unit in others:
        assert refused(f"8.5 {unit}", kind).unit_is_wrong


@pytest.mark.parametrize("kind", KINDS)
def test_the_example_of_each_kind_is_one(kind: str) -> None:
    known = KINDS[kind]
    assert parse_quantity(known.example, kind, range_allowed=True).text == known.example
    assert known.base in known.units


@pytest.mark.parametrize(
    "text",
    ["9" * 400 + " mm", "9" * 5000 + " mm", "9" * 400 + "/2 in", "9" * 5000 + "/2 in",
     "1/" + "9" * 5000 + " in", "9" * 308 + " m"],
    ids=["whole", "longer", "fraction", "longer fraction", "below", "after conversion"],
)  # fmt: skip
def test_a_number_that_is_too_large_is_refused_and_no_crash(text: str) -> None:
    refused(text, "length")


@pytest.mark.parametrize("text", ["٣ mm", "８.５ mm", "१/२ in", "८ mm", "²/3 in", "8² mm"])
def test_digits_of_other_scripts_are_refused(text: str) -> None:
    """No editor can be sure to see them for what they are."""
    refused(text, "length")


HUNDREDTHS = st.integers(1, 10**6).map(lambda whole: f"{whole // 100}.{whole % 100:02}")


@given(HUNDREDTHS)
def test_inches_to_millimetres_and_back(number: str) -> None:
    length = parse_quantity(f"{number} in", "length")
    assert inches(length.value) == pytest.approx(float(number), rel=1e-11)
    assert in_unit(length.value, "length", "in") == pytest.approx(float(number), rel=1e-11)


@given(HUNDREDTHS)
def test_millimetres_are_kept_exactly(number: str) -> None:
    assert parse_quantity(f"{number} mm", "length").value == float(number)


@given(st.sampled_from(sorted(KINDS)), st.data(), HUNDREDTHS)
def test_every_unit_of_every_kind_comes_back(kind: str, data: st.DataObject, number: str) -> None:
    unit = data.draw(st.sampled_from(sorted(KINDS[kind].units)))
    quantity = parse_quantity(f"{number} {unit}", kind)
    assert in_unit(quantity.value, kind, unit) == pytest.approx(float(number), rel=1e-10)


@given(st.integers(0, 20), st.integers(1, 200), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_a_fraction_is_worth_what_it_says(whole: int, top: int, bottom: int) -> None:
    for join in ("-", " "):
        length = parse_quantity(f"{whole}{join}{top}/{bottom} in", "length")
        assert length.value == pytest.approx((whole + top / bottom) * 25.4, rel=1e-11)


@given(HUNDREDTHS, HUNDREDTHS)
def test_a_range_is_in_order_or_refused(one: str, other: str) -> None:
    assume(one != other)
    low, high = sorted((one, other), key=float)
    quantity = parse_quantity(f"{low} to {high} mm", "length", range_allowed=True)
    assert (quantity.low, quantity.high) == (float(low), float(high))
    refused(f"{high} to {low} mm", "length", range_allowed=True)


@given(st.text(st.sampled_from("0123456789./- +±to,mincfthev°\"'%"), max_size=25),
       st.sampled_from(sorted(KINDS)))  # fmt: skip
def test_any_text_is_a_sound_quantity_or_refused_with_a_cure(text: str, kind: str) -> None:
    read = read_or_refused(text, kind)
    if isinstance(read, Quantity):
        assert 0 <= read.low <= read.high < math.inf
    else:
        assert read.problem
        assert read.cure


def read_or_refused(text: str, kind: str) -> Quantity | QuantityError:
    try:
        return parse_quantity(text, kind, range_allowed=True)
    except QuantityError as error:
        return error


@pytest.mark.parametrize(
    ("kind", "unit"), [(kind.name, unit) for kind in KINDS.values() for unit in kind.units]
)
def test_every_unit_is_what_an_independent_library_says(kind: str, unit: str) -> None:
    """Pint: a general library of units."""
    spoken = {
        "mm/rev": "mm", "in/rev": "inch", "in": "inch", "N m": "N*m", "lbf ft": "lbf*ft",
        "lbf in": "lbf*inch", "deg": "degree", "rev/s": "60 * rpm", "rev/min": "rpm",
    }  # fmt: skip
    base = KINDS[kind].base
    wanted = _pint()(spoken.get(unit, unit)).to(spoken.get(base, base)).magnitude
    assert in_unit(float(wanted), kind, unit) == pytest.approx(1, rel=1e-12)


@cache
def _pint() -> Any:
    return pint.UnitRegistry()
