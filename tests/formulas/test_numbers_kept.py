"""What each formula gives near its own example is as it was when last looked at.

Each number of the example in a docstring is taken smaller and larger in turn, and to nothing and
below; the result, or what is refused and in which words, is kept as a digest (`kept.py`). That the
examples themselves are right is held by the oracles: this sees what moves beside them.
"""

from __future__ import annotations

import ast
import doctest
import importlib
import pkgutil
from collections.abc import Iterator
from dataclasses import asdict, is_dataclass
from functools import cache
from types import FunctionType, ModuleType
from typing import Any

import pytest

import benchleaf.formulas
from kept import Kept, digests

FACTORS = (0.5, 0.8, 0.99, 1.01, 1.25, 2.0, 10.0, 1000.0, 0.0, -1.0)
NEAR = (-1, 1)
"""Added to a whole number: a limit of pieces or turns may lie right beside it."""
DIGITS = 9
MODULES = sorted(one.name for one in pkgutil.iter_modules(benchleaf.formulas.__path__))


@cache
def module_of(name: str) -> ModuleType:
    return importlib.import_module(f"benchleaf.formulas.{name}")


def functions(name: str) -> Iterator[FunctionType]:
    module = module_of(name)
    for one in vars(module).values():
        if isinstance(one, FunctionType) and one.__module__ == module.__name__ and one.__doc__:
            yield one


def tried(function: FunctionType) -> Iterator[str]:
    """A line for each example, and for each number in it that is taken otherwise."""
    names: dict[str, Any] = dict(function.__globals__)
    for example in doctest.DocTestParser().get_examples(function.__doc__ or ""):
        (statement,) = ast.parse(example.source).body
        if not isinstance(statement, ast.Expr):
            exec(example.source, names)
            continue
        tree = ast.Expression(statement.value)
        yield given(tree, names)
        for number in [one for one in ast.walk(tree) if _is_number(one)]:
            usual = number.value  # type: ignore[attr-defined]
            for other in _others(usual):
                number.value = other  # type: ignore[attr-defined]
                yield f"{ast.unparse(tree)} -> {given(tree, names)}"
            number.value = usual  # type: ignore[attr-defined]


def _is_number(node: ast.AST) -> bool:
    return isinstance(node, ast.Constant) and type(node.value) in (int, float)


def _others(usual: Any) -> Iterator[Any]:
    if isinstance(usual, int):
        yield from (usual + by for by in NEAR)
    else:
        yield from (usual * by for by in FACTORS)


def given(tree: ast.Expression, names: dict[str, Any]) -> str:
    try:
        return shown(eval(compile(tree, "example", "eval"), names))
    except (ValueError, TypeError, LookupError, ArithmeticError) as error:
        return f"{type(error).__name__}: {error}"


def shown(value: Any) -> str:
    """To so many digits that every processor agrees."""
    if isinstance(value, float):
        return f"{value:.{DIGITS}g}"
    if is_dataclass(value) and not isinstance(value, type):
        return shown(asdict(value))
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {shown(one)}" for key, one in value.items()) + "}"
    if isinstance(value, (list, tuple)):
        return f"[{', '.join(map(shown, value))}]"
    return repr(value)


@pytest.mark.parametrize("name", MODULES)
def test_a_formula_gives_what_it_gave(name: str, kept: Kept) -> None:
    found = {f"{name}.{one.__name__}": "\n".join(tried(one)) for one in functions(name)}
    kept("formulas", {key: text for key, text in found.items() if text})


def test_most_formulas_have_such_examples() -> None:
    known = digests("formulas")
    every = [f"{name}.{one.__name__}" for name in MODULES for one in functions(name)
             if not one.__name__.startswith("_")]  # fmt: skip
    assert len(known) > 100
    assert len(known) > 0.8 * len(every)
