"""A loop that goes through nothing proves nothing: each loop with an assert must have run.

`tests/conftest.py` loads this as a plugin. While a test runs that holds such a loop, the lines that
it passes are noted; a loop in whose body no line was passed fails the test. A loop that may go
through nothing says so at its head: `# may be empty: why`. Tests of random cases are left alone.
"""

from __future__ import annotations

import ast
import inspect
import sys
import textwrap
from collections.abc import Callable, Generator, Iterator
from functools import cache
from types import CodeType, FrameType
from typing import Any

import pytest

MAY_BE_EMPTY = "# may be empty: "


@cache
def loops_of(function: Callable[..., object]) -> tuple[tuple[int, range], ...]:
    """Line of each loop with an assert, and the lines of its body."""
    lines, first = inspect.getsourcelines(function)
    (tree,) = ast.parse(textwrap.dedent("".join(lines))).body
    shift = first - 1
    return tuple(
        (loop.lineno + shift, range(loop.body[0].lineno + shift, _end(loop.body[-1]) + shift + 1))
        for loop in _loops(tree)
        if MAY_BE_EMPTY not in lines[loop.lineno - 1]
        and any(isinstance(one, ast.Assert) for each in loop.body for one in ast.walk(each))
    )


def _end(node: ast.stmt) -> int:
    return node.end_lineno or node.lineno


def _loops(tree: ast.AST) -> Iterator[ast.For]:
    """The loops of a function, without those of functions inside it."""
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.For):
            yield node
        if not isinstance(node, (ast.FunctionDef, ast.Lambda)):
            yield from _loops(node)


def passed(code: CodeType, seen: set[int]) -> Callable[[FrameType, str, Any], Any]:
    """A trace that notes the lines of one function."""

    def note(frame: FrameType, event: str, _: Any) -> Any:
        if event == "line":
            seen.add(frame.f_lineno)
        return note

    return lambda frame, *_: note if frame.f_code is code else None


@pytest.hookimpl(wrapper=True)
def pytest_pyfunc_call(pyfuncitem: pytest.Function) -> Generator[None, object, object]:
    function = getattr(pyfuncitem.function, "each_of", pyfuncitem.function)
    is_random = getattr(pyfuncitem.obj, "is_hypothesis_test", False)
    loops = () if is_random or sys.gettrace() else loops_of(function)
    if not loops:
        return (yield)
    seen: set[int] = set()
    sys.settrace(passed(function.__code__, seen))
    try:
        result = yield
    finally:
        sys.settrace(None)
    empty = [line for line, body in loops if not seen.intersection(body)]
    assert not empty, f"went through nothing, so proves nothing: the loops at lines {empty}"
    return result
