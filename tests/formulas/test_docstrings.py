"""A formula's docstring must say what its signature says: names, order, units, source, status."""

import dataclasses
import importlib
import inspect
import pkgutil
import re
import typing
from collections.abc import Callable
from types import ModuleType
from typing import Any

import pytest

from benchleaf import compute, formulas
from benchleaf.compute.declaration import Declaration
from benchleaf.formulas import drilling, speeds
from benchleaf.formulas.sources import SOURCES
from running import for_each

PLAIN = {"domain", "sources", "quantities"}
"""Guards, the list of sources and the reader of written quantities: no formulas in them."""

SUFFIX_UNITS = {
    "mm3_min": "mm3/min",
    "m_min": "m/min",
    "mm_min": "mm/min",
    "mm_rev": "mm/rev",
    "in_rev": "in/rev",
    "in_lbf": "in.lbf",
    "n_mm2": "N/mm2",
    "percent": "%",
    "um": "um",
    "rpm": "rpm",
    "lbf": "lbf",
    "deg": "deg",
    "mm": "mm",
    "nm": "N.m",
    "kw": "kW",
    "hp": "hp",
    "in": "in",
    "n": "N",
    "min": "min",
    "s": "s",
}
"""Unit of a name by its ending; the longest ending that fits decides."""

UNITS_WITHOUT_SUFFIX = {"-", "any", "text"}
"""A pure number, a number in whatever unit the caller uses, and words."""

RESULT_UNITS_BY_NAME = {
    "seconds_for_travel": "s",
    "percent_of_thread": "%",
    "hours_to_piece": "h",
}
"""Functions whose name says the unit in another way than by its ending."""

SECTIONS = ["Equation:", "Args:", "Returns:", "Valid:", ">>> ", "Source:"]


def printed() -> frozenset[Callable[..., Any]]:
    """Functions that a declared figure runs and prints: their formula stands there alone."""
    names = [one.name for one in pkgutil.iter_modules(compute.__path__)]
    members = [
        member
        for name in names
        if name.startswith("figures_")
        for value in vars(importlib.import_module(f"benchleaf.compute.{name}")).values()
        for member in (value.values() if isinstance(value, dict) else [value])
    ]
    return frozenset(
        run
        for one in members
        if isinstance(one, Declaration) and not one.looked_up
        for run in (one.run, one.gives)
        if run is not None
    )


PRINTED = printed()


PUBLISHED = ("drilling_catalogue", "drilling_inch", "learning_totals", "tap_torque", "tool_life",
             "travel")  # fmt: skip
"""Published formulas that no page shows: oracles, told like the others."""


def modules() -> list[ModuleType]:
    names = [found.name for found in pkgutil.iter_modules(formulas.__path__)]
    return [
        importlib.import_module(name)
        for name in [
            *(f"benchleaf.formulas.{one}" for one in sorted(names) if one not in PLAIN),
            *(f"oracles.{one}" for one in PUBLISHED),
        ]
    ]


def public_functions() -> list[Callable[..., Any]]:
    return [
        member
        for module in modules()
        for name, member in vars(module).items()
        if inspect.isfunction(member)
        and not name.startswith("_")
        and member.__module__ == module.__name__
    ]


def unit_of(name: str) -> str | None:
    """Unit a name ends in, or None."""
    for ending in sorted(SUFFIX_UNITS, key=len, reverse=True):
        if name == ending or name.endswith(f"_{ending}"):
            return SUFFIX_UNITS[ending]
    return None


def section(doc: str, title: str) -> str:
    """Text of a section, up to the next empty line."""
    found = re.search(rf"^{title}(.*?)(?:\n\n|\Z)", doc, re.DOTALL | re.MULTILINE)
    assert found, f"no section {title}"
    return found.group(1)


def entries(text: str) -> list[tuple[str, str]]:
    """Pairs of name and unit, one a line; deeper lines go on with the one above."""
    return re.findall(r"^ {4}(\w+): \[([^\]]+)\] \S", text, re.MULTILINE)


def result_class(function: Callable[..., Any]) -> type | None:
    """The dataclass a function returns, by itself or in a tuple."""
    hint = typing.get_type_hints(function)["return"]
    options = [hint, *typing.get_args(hint)]
    return next((one for one in options if isinstance(one, type) and dataclasses.is_dataclass(one)),
                None)  # fmt: skip


def problems(function: Callable[..., Any]) -> list[str]:
    """All that is wrong with one docstring."""
    doc = inspect.getdoc(function) or ""
    wanted = SECTIONS[1:] if function in PRINTED else SECTIONS
    places = [doc.find(title) for title in wanted]
    if -1 in places or places != sorted(places):
        return [f"sections must be {wanted}, in this order"]
    if function in PRINTED and SECTIONS[0] in doc:
        return ["the formula is declared with the figure: no Equation here"]
    found = []
    if not re.match(r"[A-Z][^\n]*\.\n\n", doc):
        found.append("must open with one sentence on one line")
    return (
        found
        + argument_problems(function, doc)
        + result_problems(function, doc)
        + (source_problems(doc))
    )


def argument_problems(function: Callable[..., Any], doc: str) -> list[str]:
    written = entries(section(doc, "Args:"))
    names = list(inspect.signature(function).parameters)
    if [name for name, _ in written] != names:
        return [f"arguments are {names}, written are {[name for name, _ in written]}"]
    return [problem for name, unit in written for problem in unit_problems(name, unit)]


def unit_problems(name: str, unit: str) -> list[str]:
    expected = unit_of(name)
    if unit == expected or (expected is None and unit in UNITS_WITHOUT_SUFFIX):
        return []
    return [f"{name} is written [{unit}], its name says {expected}"]


def result_problems(function: Callable[..., Any], doc: str) -> list[str]:
    text = section(doc, "Returns:")
    cls = result_class(function)
    if cls is not None:
        return field_problems(cls, entries(text))
    unit = re.match(r"\n {4}\[([^\]]+)\] \S", text)
    if unit is None:
        return ["result has no unit"]
    name = function.__name__
    if name in RESULT_UNITS_BY_NAME:
        return [] if unit[1] == RESULT_UNITS_BY_NAME[name] else [f"result is written [{unit[1]}]"]
    return unit_problems(name, unit[1])


def field_problems(cls: type, written: list[tuple[str, str]]) -> list[str]:
    names = [field.name for field in dataclasses.fields(cls)]
    if [name for name, _ in written] != names:
        return [f"fields are {names}, written are {[name for name, _ in written]}"]
    # StepChoice's fields have no endings, as its function's arguments tell the unit.
    return [
        problem
        for name, unit in written
        if not (cls.__name__ == "StepChoice" and unit == "rpm")
        for problem in unit_problems(name, unit)
    ]


def source_problems(doc: str) -> list[str]:
    cited = re.findall(r"\[([\w.-]+),\s+([^\]]+)\]", section(doc, "Source:"))
    if not cited:
        return ["no source as [key, status]"]
    return [
        f"source [{key}, {status}] is not in the list"
        for key, status in cited
        if key not in SOURCES or SOURCES[key].status.value != status
    ]


@for_each("function", public_functions(), ids=lambda each: each.__name__)
def test_docstring_says_what_the_signature_says(function: Callable[..., Any]) -> None:
    assert problems(function) == []


def test_the_formulas_were_found() -> None:
    assert {each.__name__ for each in public_functions()} >= {
        "spindle_speed_rpm",
        "point_length_mm",
        "thrust_n",
        "torque_nm",
        "friction_torque_nm",
        "catalogue_thrust_n",
        "shown",
    }


def test_a_formula_that_a_figure_prints_is_not_told_twice() -> None:
    assert speeds.spindle_speed_rpm in PRINTED
    assert drilling.thrust_n not in PRINTED  # a figure of our own wraps it


def test_results_cannot_be_changed() -> None:
    seen = 0
    for module in modules():
        for member in vars(module).values():
            if isinstance(member, type) and dataclasses.is_dataclass(member):
                seen += 1
                assert vars(member)["__dataclass_params__"].frozen, member
    assert seen


def sample(diameter_mm: float, wear: float) -> float:
    """Find a sample.

    Equation: F = D W

    Args:
        diameter_mm: [mm] diameter
        wear: [-] wear factor

    Returns:
        [-] product

    Valid: all

    >>> 1
    1

    Source: statics [statics, geometry]
    """
    return diameter_mm * wear


@pytest.mark.parametrize(
    ("old", "new", "complaint"),
    [
        ("diameter_mm: [mm]", "diameter_mm: [in]", "diameter_mm is written [in]"),
        ("diameter_mm: [mm]", "size_mm: [mm]", "arguments are"),
        ("wear: [-]", "wear: [N]", "wear is written [N]"),
        ("    [-] product", "    [mm] product", "sample is written [mm]"),
        ("    [-] product", "    product", "result has no unit"),
        ("Source: statics", "Origin: statics", "sections must be"),
        ("[statics, geometry]", "", "no source"),
        ("[statics, geometry]", "[statics, read]", "is not in the list"),
        ("Valid: all", "", "sections must be"),
        (">>> 1", "1", "sections must be"),
        ("Find a sample.", "find a sample", "must open with one sentence"),
    ],
)
def test_the_contract_notices(
    monkeypatch: pytest.MonkeyPatch, old: str, new: str, complaint: str
) -> None:
    assert problems(sample) == []
    doc = sample.__doc__ or ""
    assert old in doc
    monkeypatch.setattr(sample, "__doc__", doc.replace(old, new))
    assert any(complaint in problem for problem in problems(sample))


def test_the_contract_notices_a_changed_order(monkeypatch: pytest.MonkeyPatch) -> None:
    doc = sample.__doc__ or ""
    indent = doc.partition("diameter_mm:")[0].rpartition("\n")[2]  # Python 3.13 takes some away
    one, two = f"{indent}diameter_mm: [mm] diameter\n", f"{indent}wear: [-] wear factor\n"
    assert one + two in doc
    monkeypatch.setattr(sample, "__doc__", doc.replace(one + two, two + one))
    assert any("arguments are" in problem for problem in problems(sample))
