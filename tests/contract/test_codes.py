"""Codes of findings: each is declared once, used, and has its words and its case."""

from __future__ import annotations

import ast
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

import benchleaf
from benchleaf.diagnose import CODES, make_known
from benchleaf.diagnose.codes import JOURNEY
from running import for_each

PACKAGE = Path(benchleaf.__file__).parent
CASES = Path(__file__).parents[1] / "cases"
FILES = sorted(PACKAGE.rglob("*.py"))
CODE = re.compile(r"[RFLVSAPC]\d{3}")
RAISED_ELSEWHERE = {code for code in CODES if code.startswith("P")} | {
    "A612", "A614", "A615", "C704", "R115", "R116", "R117", "R122", "R124", "R125"
}  # fmt: skip
"""A whole site raises them (tests/publish, tests/e2e), a build, another revision or a release that
was cut off (tests/registers), a folder's place (tests/training), the tidying of a file
or the environment (tests/read), a spreadsheet or slips (tests/workbooks), or the table of layouts
(tests/page)."""


def codes_in(node: ast.AST) -> Iterator[str]:
    """Every string below a node that is a code and nothing else."""
    for one in ast.walk(node):
        if isinstance(one, ast.Constant) and CODE.fullmatch(str(one.value)):
            yield str(one.value)


def is_declaration(node: ast.AST) -> bool:
    return isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Code"


@cache
def tree_of(path: Path) -> ast.Module:
    """A file of the package, parsed once."""
    return ast.parse(path.read_text(encoding="utf-8"))


@cache
def declared_in(path: Path) -> Counter[str]:
    """The codes that a file declares."""
    tree = tree_of(path)
    return Counter(code for one in ast.walk(tree) if is_declaration(one) for code in codes_in(one))


def used_in(path: Path) -> set[str]:
    """The codes that a file names outside declarations, and those of constants that it raises."""
    tree = tree_of(path)
    names = {
        node.targets[0].id: next(codes_in(node.value))
        for node in tree.body
        if isinstance(node, ast.Assign) and is_declaration(node.value)
        if isinstance(node.targets[0], ast.Name)
    }
    rest = Counter(codes_in(tree)) - declared_in(path)
    raised = [one for body in ast.walk(tree) if isinstance(body, ast.FunctionDef)
              for one in ast.walk(body) if isinstance(one, ast.Name)]  # fmt: skip
    return {*rest, *(names[one.id] for one in raised if one.id in names)}


def test_every_code_is_declared_once_and_known() -> None:
    declared = sum((declared_in(path) for path in FILES), Counter[str]())
    assert set(declared) == set(CODES)
    assert [code for code, times in declared.items() if times > 1] == []


def test_every_code_is_used_and_every_code_used_is_known() -> None:
    assert set(CODES) == {code for path in FILES for code in used_in(path)}


def test_a_code_that_is_declared_anew_is_refused() -> None:
    known = CODES["V505"]
    make_known([known])
    with pytest.raises(ValueError, match="V505 is declared twice"):
        make_known([replace(known, title="Another")])
    assert CODES["V505"] == known


def test_codes_stand_in_the_order_of_the_journey() -> None:
    letters = "".join(dict.fromkeys(code[0] for code in CODES))
    assert letters == JOURNEY
    for letter in letters:
        of_it = [code for code in CODES if code.startswith(letter)]
        assert of_it == sorted(of_it)


def test_every_code_spoken_of_is_known() -> None:
    spoken = {
        (path.name, code)
        for path in FILES
        if "formulas" not in path.parts  # there such a sign is a page of a catalogue
        for code in re.findall(r"\b[RFLVSAPC]\d{3}\b", path.read_text(encoding="utf-8"))
    }
    assert {each for each in spoken if each[1] not in CODES} == set()


@for_each("code", CODES)
def test_a_code_has_its_words(code: str) -> None:
    entry = CODES[code]
    assert entry.id == code
    assert CODE.fullmatch(code)
    assert entry.title[0].isupper()
    assert not entry.title.endswith(".")
    for sentence in (entry.why, entry.instead):
        assert sentence[0].isupper() or sentence[0].isdigit()
        assert sentence.endswith(".")


def test_no_two_codes_say_the_same() -> None:
    assert len({entry.title for entry in CODES.values()}) == len(CODES)


@for_each("code", sorted(set(CODES) - RAISED_ELSEWHERE))
def test_a_code_has_its_case(code: str) -> None:
    folder = CASES / code
    names = {path.name for path in folder.iterdir()} if folder.is_dir() else set()
    assert bool(CODES[code].bad) != ({"bad.yml", "expected.txt", "good.yml"} <= names)


def test_no_case_is_for_a_code_that_is_gone() -> None:
    assert {path.name for path in CASES.iterdir() if path.is_dir()} <= set(CODES)
