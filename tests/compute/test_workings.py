"""Every printed working is worked out again: formula, numbers put in, result, unit, figure shown.

The oracles (tests/oracles/) read print only, and bind each symbol to the record or the row that
it must stand for. tests/corrupt.py shows that they see a wrong sign, factor, number or unit.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

import corrupt
from benchleaf.compute import set_up_sheets
from benchleaf.compute.operations import OPERATIONS
from benchleaf.compute.reckon import InputError, reckon
from benchleaf.pages.reference_view import formulas_of
from oracles import set_ups
from oracles.arithmetic import value_of
from oracles.rows import reckoning_problems
from oracles.workings import LOOKED_UP, UNITS, split
from running import examples


def test_every_row_of_every_job_of_the_demo() -> None:
    shop, rows = set_ups.demo(), 0
    for job in shop.jobs.values():
        assert list(set_ups.problems_of(shop, job)) == [], job.id
        rows += sum(len(sheet.rows) for sheet in set_up_sheets(shop, job))
    assert rows > 100


def test_every_row_of_the_small_shop() -> None:
    shop = set_ups.small_shop()
    for job in shop.jobs.values():
        assert list(set_ups.problems_of(shop, job)) == [], job.id
    assert any(job.set_ups for job in shop.jobs.values())


@pytest.mark.parametrize("kind", set_ups.KINDS)
def test_every_row_of_each_kind_of_set_up(kind: str) -> None:
    shop, job = set_ups.made(*set_ups.KINDS[kind])
    assert list(set_ups.missing_from(shop, job)) == []
    assert list(set_ups.problems_of(shop, job)) == []


QUANTITY = re.compile(r"^(\d+(?:\.\d+)?) (mm|deg|mm/rev|kN|m/min)$")


def scaled(fields: Mapping[str, Any], draw: st.DataObject) -> dict[str, Any]:
    """The same fields with each quantity somewhat smaller or larger."""
    made: dict[str, Any] = {}
    for key, value in fields.items():
        found = QUANTITY.match(value) if isinstance(value, str) else None
        if isinstance(value, Mapping):
            made[key] = scaled(value, draw)
        elif found:
            share = draw.draw(st.integers(60, 170), label=key) / 100
            made[key] = f"{float(found.group(1)) * share:.4g} {found.group(2)}"
        else:
            made[key] = value
    return made


@given(st.sampled_from(sorted(set_ups.KINDS)), st.data())
@settings(max_examples=examples(25))
def test_rows_of_random_set_ups(kind: str, data: st.DataObject) -> None:
    fields, tool = set_ups.KINDS[kind]
    try:
        shop, job = set_ups.made(scaled(fields, data), scaled(tool, data))
    except ValidationError:
        return  # sizes that no job may have
    assert list(set_ups.problems_of(shop, job)) == []


GIVEN = {
    "drill": ("8.5 mm", "7/32 in", "#7", "F", "12.7 mm", "3 mm"),
    "spindle speed": ("850 rpm", "1480 rpm", "181.5 rpm"),
    "cutting speed": ("24 m/min", "87 ft/min", "12.34 m/min"),
    "feed": ("0.15 mm/rev", "0.006 in/rev", "0.0837 mm/rev"),
    "angle": ("118 deg", "90 deg", "82 deg", "135.5 deg"),
    "length": ("16 mm", "30 mm", "5/8 in", "23.4 mm", "0.7 mm"),
    "error": ("0.03 mm", "-0.2 mm", "0 mm"),
    "force": ("6 kN", "2350 N", "200 lbf"),
    "torque": ("4.5 N m", "51 lbf in"),
    "time": ("12 s", "3.7 min", "8 h", "41.3 s"),
    "number": ("0.18", "1.3", "5", "0.9", "24000", "3900", "0.125"),
    "thread": ("M8", "M6", "M8x1", "1/4-20 UNC", "#10-32 UNF", "M12"),
    "power": ("1.5 kW", "750 W", "1 hp"),
    "life": ("30 min", "11 min"),
    "trials": ("24 m/min: 40 min, 32 m/min: 9.5 min", "31.3 m/min: 12 min, 25 m/min: 40 min"),
    "two pieces": ("1: 5 min, 8: 3 min", "2: 311 s, 7: 240 s"),
    "feeds": ("0.05 mm/rev, 0.1 mm/rev, 0.16 mm/rev", "0.006 in/rev"),
    "text": ("trial with a wet plate, the lowest of ten",),
    "work surface": ("ground", "machined", "unmachined"),
    "jaw surface": ("smooth", "diamond serrated", "serrated"),
    "metal": ("steel", "brass", "grey cast iron"),
    "known by": ("feel", "torque handle", "lowest measured"),
    "wetness": ("wet", "dry"),
    "cut": ("drilling", "enlarging", "tapping"),
    "hole class": ("H7", "H8", "F8"),
    "shaft class": ("g6", "p6"),
    "class": ("H7", "g6", "H8", "p6", "F8"),
    "series": ("fine", "medium", "coarse"),
    "percent": ("75", "62.5"),
    "count": ("1", "10", "37"),
    "learning": ("80", "87.3"),
    "allowance": ("0", "12", "7.5"),
    "timed pieces": ("1: 5 min, 2: 4.2 min, 3: 4 min", "1: 300 s, 2: 240 s, 3: 221 s, 5: 180 s"),
    "times": ("12 s, 4 s x 2", "31.5 s"),
}
"""Texts of every kind of input, in several units."""
NUMBERS = {
    "chisel_ratio": ("0.18", "0.03", "0.237"), "wear": ("1.3", "1"), "efficiency": ("0.9", "0.87"),
    "lever_efficiency": ("0.9", "0.83"), "kd_thrust": ("24000", "12345"),
    "kd_torque": ("24000", "9870"), "chamfer": ("5", "10", "1.5"), "kc": ("3900", "2345"),
    "tap_factor": ("1.35", "0.95"), "friction": ("0.15", "0.2"), "exponent": ("0.125", "0.2"),
    "hold": ("1", "1.3", "1.948"),
}  # fmt: skip
"""Plain numbers that the formula of their own name takes."""


@pytest.mark.parametrize("name", OPERATIONS)
def test_reckon_in_every_direction(name: str) -> None:
    operation = OPERATIONS[name]
    seen: set[str] = set()

    @given(st.data())
    @settings(max_examples=examples(15))
    def check(data: st.DataObject) -> None:
        names = data.draw(st.sets(st.sampled_from(sorted(operation.inputs))), label="given")
        texts = {
            one: data.draw(st.sampled_from(NUMBERS.get(one) or GIVEN[operation.inputs[one].kind]))
            for one in names
        }
        try:
            found = reckon(operation, texts)
        except InputError:
            return  # what was drawn contradicts itself, or nobody believes it
        seen.update(one.key for one in found.results)
        assert list(reckoning_problems(found)) == []

    check()
    # What the random inputs may have missed: the inputs of tests/corrupt.py bring every figure.
    for given_to, texts in corrupt.RECKONED:
        if given_to == name:
            found = reckon(operation, texts)
            seen.update(one.key for one in found.results)
            assert list(reckoning_problems(found)) == []
    wanted = {one.asked_as for one in operation.figures}
    assert wanted <= seen | set(operation.zero_unless_given), wanted - seen


@pytest.mark.parametrize("name", OPERATIONS)
def test_every_formula_of_an_operations_page(name: str) -> None:
    operation = OPERATIONS[name]
    shown = formulas_of(operation)
    assert len(shown) == len(operation.figures)
    for view, one in zip(shown, operation.figures, strict=True):
        assert view.unit == UNITS[one.key]
        assert view.formula == one.formula
        if one.looked_up:
            assert view.formula in LOOKED_UP
            continue
        arithmetic, _ = split(view.formula)
        # The first is the largest, so that no root is drawn of what is left below zero.
        numbers = {symbol.name: 9.0 - at for at, symbol in enumerate(one.symbols)}
        value_of(arithmetic, numbers | {one.symbols[0].name: 900.0})


@pytest.mark.parametrize(
    ("printed", "wanted"),
    [("1000 × 24 ÷ (π × 8)", 954.9297), ("8 − √(8² − 2.5²)", 0.4006579),
     ("(6.5 ÷ 2) ÷ tan(118° ÷ 2)", 1.952797), ("2 × 3^(1 ÷ 2) · 2", 6.928203),
     ("20 + (−7) ÷ 1000", 19.993), ("ln(exp(2)) + log2(8)", 5.0)],
)  # fmt: skip
def test_the_oracle_reads_arithmetic(printed: str, wanted: float) -> None:
    assert value_of(printed) == pytest.approx(wanted, rel=1e-6)


@pytest.mark.parametrize("printed", ["by table", "2 ×", "(3 + 4", "n × 3", "2; 3", "__import__"])
def test_the_oracle_refuses_prose(printed: str) -> None:
    with pytest.raises(ValueError, match=r"no arithmetic|has no number"):
        value_of(printed)
