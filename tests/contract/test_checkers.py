"""The checkers that read code: one run of each, by the settings in pyproject.toml and scripts/."""

from __future__ import annotations

import re
import subprocess
import sys
import sysconfig
from pathlib import Path

import pytest

import check_scripts
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


BAD_SCRIPT = """\
(function () {
  var box = document.querySelector(".bl-box");
  box.hidden = true;
  window.benchleafFollow = box;
  if (box == other) window.benchleafFollow.show = null;
})();
"""
"""Against the dialect, the rules and the types; without it none of this could fail."""


def test_scripts_are_of_one_dialect_and_their_types_fit(tmp_path: Path) -> None:
    """One run of each checker: it names the bad script, and nothing else."""
    bad = tmp_path / "bad.js"
    bad.write_text(BAD_SCRIPT, encoding="utf-8")
    every = check_scripts.scripts()
    assert len(every) > 10
    style, _ = check_scripts.lint([*every, bad], "--format=unix")
    rules = re.findall(r"^(\S+):\d+:\d+: .*\[\w+/(?:eslint\()?([\w-]+)", style, flags=re.M)
    assert {Path(path).name for path, _ in rules} == {"bad.js"}, style
    assert {rule for _, rule in rules} >= {"no-var", "eqeqeq", "no-undef"}
    said, _ = check_scripts.types([*every, bad])
    places = re.findall(r"^ +at file://(\S+):(\d+):\d+$", said, flags=re.M)
    assert {Path(path).name for path, _ in places} == {"bad.js"}, said
    assert {int(line) for _, line in places} == {3, 4, 5}
    assert check_scripts.given_twice([*every, bad]) == [
        "window.benchleafFollow is written by bad.js, steps.js"
    ]


def test_without_a_checker_of_scripts_there_is_no_passing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sysconfig, "get_path", lambda _: "/nowhere")
    with pytest.raises(AssertionError, match="oxlint is not in the environment"):
        check_scripts.lint([])


def test_a_script_is_written_in_the_dialect(tmp_path: Path) -> None:
    """What `--fix` does, as often as one change makes room for the next."""
    script = tmp_path / "old.js"
    old = "var f = function (a) { return [a].map(function (b) { return { b: b }; }); };\nf(1);\n"
    script.write_text(old, encoding="utf-8")
    check_scripts.fix([script])
    assert script.read_text(encoding="utf-8") == (
        "const f = function (a) { return [a].map((b) => ( { b } )); };\nf(1);\n"
    )
