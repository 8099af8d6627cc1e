"""The checkers that read code: one run of each, by the settings in pyproject.toml."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from running import some

ROOT = Path(__file__).parents[2]


def said(*command: str) -> tuple[str, str, int]:
    """What a checker prints, and its exit code."""
    ran = subprocess.run(
        [sys.executable, "-m", *command], cwd=ROOT, capture_output=True, text=True, check=False
    )
    return ran.stdout, ran.stderr, ran.returncode


@pytest.mark.parametrize(
    "command",
    [
        ["ruff", "check", "--no-cache", "--quiet", "plugins", "tests"],
        ["ruff", "format", "--check", "--no-cache", "--quiet", "plugins", "tests"],
    ],
    ids=lambda command: " ".join(command[:2]),
)
def test_a_checker_has_nothing_to_say(command: list[str]) -> None:
    assert said(*command) == ("", "", 0)


def test_all_types_fit() -> None:
    """Of the package and of the tests; the files named conftest.py one by one, as one name is
    one module."""
    assert said("mypy", "--no-error-summary") == ("", "", 0)
    for path in some(sorted((ROOT / "tests").glob("*/conftest.py"))):
        assert said("mypy", "--no-error-summary", str(path)) == ("", "", 0)
