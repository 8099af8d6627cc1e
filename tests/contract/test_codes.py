"""Codes of findings: each is used, each has its words, its case and its place on a page."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

import benchleaf
from benchleaf.diagnose import CODES

PACKAGE = Path(benchleaf.__file__).parent
CASES = Path(__file__).parents[1] / "cases"
FILES = sorted(path for path in PACKAGE.rglob("*.py") if not path.name.startswith("codes"))
CODE = re.compile(r"[RFLVSAPC]\d{3}")
RAISED_ELSEWHERE = {code for code in CODES if code.startswith("P")} | {"C704", "R115"}
"""A whole site raises them (tests/publish, tests/e2e), a folder's place (tests/training), or the
tidying of a file (tests/read)."""


def strings(path: Path) -> set[str]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return {
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }


USED = {text for path in FILES for text in strings(path) if CODE.fullmatch(text)}


def test_every_code_is_used_and_every_code_used_is_known() -> None:
    assert set(CODES) == USED


def test_every_code_spoken_of_is_known() -> None:
    spoken = {
        (path.name, code)
        for path in FILES
        if "formulas" not in path.parts  # there such a sign is a page of a catalogue
        for code in re.findall(r"\b[RFLVSAPC]\d{3}\b", path.read_text(encoding="utf-8"))
    }
    assert {each for each in spoken if each[1] not in CODES} == set()


@pytest.mark.parametrize("code", CODES)
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


@pytest.mark.parametrize("code", sorted(set(CODES) - RAISED_ELSEWHERE))
def test_a_code_has_its_case(code: str) -> None:
    names = {path.name for path in (CASES / code).iterdir()}
    assert {"bad.yml", "expected.txt", "good.yml"} <= names


def test_no_case_is_for_a_code_that_is_gone() -> None:
    assert {path.name for path in CASES.iterdir() if path.is_dir()} <= set(CODES)
