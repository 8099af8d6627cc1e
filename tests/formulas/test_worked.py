"""Published examples, run as they are printed; see tests/worked/README.md for their form."""

import inspect
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
import yaml

from benchleaf.formulas import drilling, speeds, travel
from oracles import drilling_inch
from oracles import travel as whole_travel

WORKED = Path(__file__).parents[1] / "worked"
EXAMPLES = {path.stem: yaml.safe_load(path.read_text("utf-8")) for path in WORKED.glob("*.yml")}

LEAST_INDEPENDENT_EXAMPLES = 6
LEAST_INDEPENDENT_RESULTS = 21

FLOAT_NOISE = 1e-9
"""Lets a value that lies exactly half a digit off pass on every machine, and no more."""


def half_last_digit(result: dict[str, Any]) -> float:
    """Half a unit in the last digit printed."""
    if "last_digit" in result:
        return float(result["last_digit"]) / 2
    _, _, decimals = result["printed"].partition(".")
    return 0.5 * 10.0 ** -len(decimals)


def factor(text: Any) -> float:
    """Read 1/60 or 1000."""
    top, _, bottom = str(text).partition("/")
    return float(Fraction(top) / Fraction(bottom or 1))


def argument(given: Any, known: dict[str, float]) -> float:
    """A number, a known name, or a known name times a factor for its unit."""
    if isinstance(given, dict):
        assert given.keys() == {"take", "times"}
        return known[given["take"]] * float(given["times"])
    return known[given] if isinstance(given, str) else given


def function(name: str) -> Any:
    modules = (speeds, drilling, travel, drilling_inch, whole_travel)
    return next(getattr(one, name) for one in modules if hasattr(one, name))


def computed(example: dict[str, Any]) -> list[tuple[dict[str, Any], float]]:
    """Every result of an example with our value for it, in our unit."""
    known: dict[str, float] = dict(example["givens"])
    values = []
    for result in example["results"]:
        args = {name: argument(given, known) for name, given in result["args"].items()}
        value = function(result["call"])(**args)
        known[result.get("name", result["quantity"])] = value
        values.append((result, value))
    return values


CASES = [
    pytest.param(result, value, id=f"{'' if example['independent'] else 'recalled-'}{name}-{at}")
    for name, example in sorted(EXAMPLES.items())
    for at, (result, value) in enumerate(computed(example))
    if "printed" in result
]


@pytest.mark.parametrize(("result", "value"), CASES)
def test_result_is_the_printed_one(result: dict[str, Any], value: float) -> None:
    ours = value * factor(result.get("times", 1))
    off = abs(ours - float(result["printed"]))
    assert off <= half_last_digit(result) + FLOAT_NOISE, f"{result['quantity']}: {ours}"


@pytest.mark.parametrize("name", sorted(EXAMPLES))
def test_example_says_where_it_comes_from(name: str) -> None:
    example = EXAMPLES[name]
    for key in ("source", "edition", "where", "obtained"):
        assert example[key].strip()
    assert any("printed" in result for result in example["results"])


@pytest.mark.parametrize("name", sorted(EXAMPLES))
def test_independent_means_printed_and_read(name: str) -> None:
    example = EXAMPLES[name]
    assert example["independent"] is (example["obtained"] == "printed, read")


def test_enough_examples_are_independent() -> None:
    independent = [each for each in EXAMPLES.values() if each["independent"] is True]
    printed = [each for one in independent for each in one["results"] if "printed" in each]
    assert len(independent) >= LEAST_INDEPENDENT_EXAMPLES
    assert len(printed) >= LEAST_INDEPENDENT_RESULTS


def test_every_drilling_time_formula_has_an_independent_example() -> None:
    called = {
        result["call"]
        for example in EXAMPLES.values()
        if example["independent"]
        for result in example["results"]
    }
    assert called >= {
        "spindle_speed_rpm",
        "feed_rate_mm_min",
        "seconds_for_travel",
        "removal_rate_mm3_min",
        "point_length_mm",
        "through_travel_mm",
        "blind_travel_mm",
    }


def test_arguments_are_given_by_name() -> None:
    for example in EXAMPLES.values():
        for result in example["results"]:
            assert (
                result["args"].keys()
                == inspect.signature(function(result["call"])).parameters.keys()
            )
