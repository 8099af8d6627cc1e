"""Odd inputs of `benchleaf reckon`, a line each in tests/odd/reckon.txt: exit code, words said."""

from __future__ import annotations

import shlex
from pathlib import Path

import pytest

from benchleaf.cli import main

TABLE = Path(__file__).parent / "odd" / "reckon.txt"
ROWS = [
    tuple(part.strip() for part in line.split(" | "))
    for line in TABLE.read_text(encoding="utf-8").splitlines()
    if line and not line.startswith("#")
]


def test_the_table_is_long_and_no_line_stands_in_it_twice() -> None:
    assert len(ROWS) > 300
    assert len({(phrase, line) for _, phrase, line in ROWS}) == len(ROWS)
    assert {code for code, _, _ in ROWS} == {"0", "1", "2"}


@pytest.mark.parametrize(("code", "phrase", "line"), ROWS)
def test_an_odd_input(
    code: str, phrase: str, line: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:  # fmt: skip
    monkeypatch.chdir(tmp_path)
    assert main(["reckon", *shlex.split(line)]) == int(code)
    printed, errors = capsys.readouterr()
    said = " ".join((printed or errors).split())
    assert " ".join(phrase.split()) in said
    # What is refused prints no figure that somebody could use.
    assert (printed == "") is (code == "2")
