"""The checkers that read code: one run of each, by the settings in pyproject.toml."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.mark.parametrize(
    "command",
    [
        ["ruff", "check", "--no-cache", "--quiet", "plugins", "tests"],
        ["ruff", "format", "--check", "--no-cache", "--quiet", "tests"],
        ["mypy", "--no-error-summary"],
    ],
    ids=lambda command: " ".join(command[:2]),
)
def test_a_checker_has_nothing_to_say(command: list[str]) -> None:
    ran = subprocess.run(
        [sys.executable, "-m", *command], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert (ran.stdout, ran.stderr, ran.returncode) == ("", "", 0)
