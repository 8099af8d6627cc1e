"""The JSON of `benchleaf reckon`: real output against its published schema, and what it tells."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pint
import pytest
from jsonschema import Draft202012Validator

import corrupt
from benchleaf.cli import main
from benchleaf.compute import set_up_sheets
from benchleaf.compute.declaration import STEPS
from benchleaf.compute.operations import OPERATIONS
from benchleaf.compute.printed_json import job_json
from benchleaf.compute.si import IN_SI, in_si
from benchleaf.model.told import TOLD
from oracles import set_ups

Shop = Callable[..., Path]
Edited = Callable[..., dict[str, str]]
Captured = pytest.CaptureFixture[str]
PUBLISHED = Path(__file__).parents[1] / ".schemas"


def schema(name: str) -> Any:
    return json.loads((PUBLISHED / f"{name}.schema.json").read_text(encoding="utf-8"))


def faults(name: str, told: Any) -> list[str]:
    """Where a document breaks its schema."""
    checker = Draft202012Validator(schema(name))
    return [f"{one.json_path}: {one.message}" for one in checker.iter_errors(told)]


def asked(capsys: Captured, *arguments: str) -> Any:
    main(["reckon", *arguments, "--format", "json"])
    return json.loads(capsys.readouterr().out)


def figure_of(told: Any, key: str) -> Any:
    return next(one for one in told["results"] if one["key"] == key)


@pytest.mark.parametrize("name", TOLD)
def test_the_published_schema_is_a_schema_and_each_key_has_a_meaning(name: str) -> None:
    published = schema(name)
    Draft202012Validator.check_schema(published)
    parts = [published, *published["$defs"].values()]
    for part in parts:
        assert part["additionalProperties"] is False
        assert set(part["required"]) == set(part["properties"])
        for key, one in part["properties"].items():
            assert one.get("description"), key


@pytest.mark.parametrize("name", TOLD)
def test_schema_prints_what_is_published(name: str, capsys: Captured) -> None:
    assert main(["schema", name]) == 0
    assert json.loads(capsys.readouterr().out) == schema(name)


@pytest.mark.parametrize("name", OPERATIONS)
def test_every_figure_of_every_operation_holds_its_schema(name: str, capsys: Captured) -> None:
    """The inputs of tests/corrupt.py bring every figure of every operation."""
    seen: set[str] = set()
    cases = [texts for operation, texts in corrupt.RECKONED if operation == name]
    for texts in cases:
        told = asked(capsys, name, *(f"{key}={text}" for key, text in texts.items()))
        assert faults("reckoning", told) == []
        seen |= {one["key"] for one in told["results"]}
    assert cases
    wanted = {one.asked_as for one in OPERATIONS[name].figures}
    assert wanted <= seen | set(OPERATIONS[name].zero_unless_given)


@pytest.mark.parametrize("name", OPERATIONS)
def test_an_operation_from_nothing_holds_its_schema(name: str, capsys: Captured) -> None:
    told = asked(capsys, name)
    assert faults("reckoning", told) == []
    assert told["not_computed"]


def test_every_job_of_the_demo_holds_its_schema() -> None:
    shop, figures = set_ups.demo(), 0
    for job in shop.jobs.values():
        told = json.loads(job_json(job, set_up_sheets(shop, job)))
        assert faults("set-ups", told) == [], job.id
        figures += sum(len(one["results"]) for one in told["set_ups"])
    assert figures > 100


def test_a_job_that_must_not_run_holds_its_schema_and_tells_side_limit_and_cure(
    shop: Shop, edited: Edited, capsys: Captured
) -> None:
    content = shop(edited("machines/bench-drill.yml", "rated_thrust: 4 kN", "rated_thrust: 2.8 kN"))
    told = asked(capsys, "VG-0010", "--content", str(content))
    assert faults("set-ups", told) == []
    (one,) = told["set_ups"]
    assert (told["may_run"], one["may_run"]) == (False, False)
    (stop,) = one["do_not_run"]
    assert (stop["code"], stop["side"], stop["path"]) == ("S503", "above", ["set_ups", 0, "feed"])
    assert "2900 N" in stop["reason"]
    assert "a feed of 0.090 mm/rev or finer" in stop["cure"]
    thrust = figure_of(one, "thrust")
    assert thrust["limits"]["do_not_run"] == {"at_least": None, "at_most": 2800.0, "side": "above"}
    # by the handbook, as worked out in tests/compute/test_set_up_figures.py
    assert thrust["value"] == pytest.approx(2865, abs=1)
    assert thrust["shown"] == "2900 N"
    assert thrust["other"]["unit"] == "lbf"
    assert "two digits" in thrust["note"]


def test_a_doubt_and_the_limit_it_passes_are_told(
    shop: Shop, edited: Edited, capsys: Captured
) -> None:
    lever = ("radius: 350 mm\n  pinion", "radius: 284 mm\n  pinion")
    content = shop(edited("machines/bench-drill.yml", *lever))
    (one,) = asked(capsys, "VG-0010", "--content", str(content))["set_ups"]
    assert [(doubt["code"], doubt["side"]) for doubt in one["doubts"]] == [("hand-pull", "above")]
    limits = figure_of(one, "lever_force")["limits"]
    assert limits["advised"] == {"at_least": None, "at_most": 110.0, "side": "above"}
    assert limits["do_not_run"]["side"] is None
    assert limits["do_not_run"]["at_most"] == pytest.approx(215.7, abs=0.1)


def test_the_bound_at_worst_is_told_as_a_limit(shop: Shop, capsys: Captured) -> None:
    (one,) = asked(capsys, "VG-0010", "--content", str(shop()))["set_ups"]
    # A harder bar 1.15, a dull drill 1.5 / 1.3, another published thrust 1.03: 1.367 times.
    thrust = figure_of(one, "thrust")["limits"]
    assert thrust["do_not_run"]["at_most"] == 4000.0
    assert thrust["advised"]["at_most"] == pytest.approx(4000 / 1.3667, rel=1e-3)
    held = figure_of(one, "holding")
    least = held["limits"]["do_not_run"]["at_least"]
    # By feel 1 / 0.65, 0.15 entered against 0.14 or an oily film: more than twice the torque.
    assert least > 2 * figure_of(one, "torque")["value"]
    assert least == pytest.approx(held["value"] / _at_worst(held), rel=1e-9)
    assert held["limits"]["do_not_run"]["side"] is None


def _at_worst(figure: dict[str, Any]) -> float:
    (found,) = (one["value"] for one in figure["sums"] if one["formula"].startswith("at worst"))
    return float(found)


def test_a_figure_tells_its_sources_one_by_one_with_how_they_were_come_by(
    shop: Shop, capsys: Captured
) -> None:
    (one,) = asked(capsys, "VG-0010", "--content", str(shop()))["set_ups"]
    sources = {each["key"]: each for each in figure_of(one, "thrust")["sources"]}
    assert sources["mh31-table-3"]["status"] == "from memory"
    assert sources["mh31-drilling"]["where"].startswith("p. 1152")
    assert sources[None]["status"] == "as the shop's records say"
    for each in one["results"]:
        assert each["sources"], each["key"]
        for cited in each["sources"]:
            assert cited["title"] in each["source"], each["key"]


def test_what_is_shown_is_the_value_rounded_and_the_si_value_is_the_value(
    shop: Shop, capsys: Captured
) -> None:
    (one,) = asked(capsys, "VG-0010", "--content", str(shop()))["set_ups"]
    speed = figure_of(one, "cutting_speed")
    # pi x 8 x 1000 / 1000 m/min
    assert speed["value"] == pytest.approx(25.132741, abs=1e-6)
    assert speed["si"]["value"] == pytest.approx(25.132741 / 60, abs=1e-7)
    assert speed["si"]["unit"] == "m/s"
    assert speed["shown"] == "25.1 m/min"
    rate = figure_of(one, "spindle_speed_range")
    assert rate["value"] is None
    assert rate["si"]["low"] == pytest.approx(rate["low"] / 60)


@pytest.mark.parametrize(
    "spoil",
    [
        lambda told: told["results"][0].pop("unit"),
        lambda told: told["results"][0].update(more=1),
        lambda told: told["results"][0].update(low="8"),
        lambda told: told["results"][0]["limits"].update(text=None),
        lambda told: told.update(format="benchleaf reckoning 2"),
        lambda told: told.pop("doubts"),
    ],
)
def test_the_schema_refuses_what_is_not_told_so(
    spoil: Callable[[Any], object], capsys: Captured
) -> None:
    told = asked(capsys, "fit", "size=10 mm", "tolerance=H7")
    assert faults("reckoning", told) == []
    spoilt = copy.deepcopy(told)
    spoil(spoilt)
    assert faults("reckoning", spoilt) != []


_IN_PINT = {
    "rpm": "1/minute", "mm/rev": "mm", "mm3/min": "mm**3/minute", "m/min": "m/minute",
    "mm/min": "mm/minute", "min": "minute", "h": "hour", "s": "second", "mm": "mm", "N": "newton",
    "N m": "newton*m", "kW": "kW", "deg": "degree", "° of lever": "degree", "%": "percent",
    "% of the pull": "percent", "threads an inch": "1/inch",
}  # fmt: skip
_SI = {"1": "dimensionless", "1/s": "1/second", "N m": "newton*m", "m3/s": "m**3/second",
       "rad": "radian", "s": "second", "W": "watt", "N": "newton"}  # fmt: skip


@cache
def pint_units() -> Any:
    return pint.UnitRegistry()


@pytest.mark.parametrize("unit", STEPS)
def test_every_unit_of_a_figure_has_its_si_unit(unit: str) -> None:
    registry = pint_units()
    value, si = in_si(7.0, unit)
    told = registry.Quantity(7.0, _IN_PINT.get(unit, "dimensionless"))
    right = told.to(registry.Unit(_SI.get(si, si)))
    assert right.magnitude == pytest.approx(value, rel=1e-12)
    assert set(STEPS) <= set(IN_SI)
