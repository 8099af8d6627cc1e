"""What a release says of itself: version, licence, bounds, and the versions it was tested with."""

from __future__ import annotations

import ast
import re
import shlex
import sys
import tomllib
from importlib.metadata import metadata
from pathlib import Path
from typing import Any

import pytest
import yaml

import benchleaf
import engines

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "plugins" / "benchleaf"
SPECIFIER = re.compile(
    r"(?P<name>[A-Za-z0-9._-]+)(?:>=(?P<least>[\d.]+)(?:,<(?P<below>[\d.]+))?)?$"
)


@pytest.fixture(scope="module")
def project() -> dict[str, Any]:
    whole = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    return {**whole["project"], "hatch": whole["tool"]["hatch"]}


def pins(name: str) -> dict[str, str]:
    """Package and version of each line of a constraints file."""
    lines = (ROOT / "tests" / name).read_text(encoding="utf-8").splitlines()
    found = [line.split("==") for line in lines if line and not line.startswith("#")]
    return {package.lower(): version for package, version in found}


def numbers(version: str) -> tuple[int, ...]:
    """A version as numbers, without the zeros at its end."""
    found = [int(one) for one in re.findall(r"\d+", version)]
    while found and not found[-1]:
        found.pop()
    return tuple(found)


def bounds(requirements: list[str]) -> dict[str, tuple[str, str]]:
    """The lower and the upper bound of each package; nothing where it has none."""
    matches = [SPECIFIER.match(one) for one in requirements]
    assert None not in matches, requirements
    return {
        one["name"].lower(): (one["least"] or "0", one["below"] or "9999") for one in matches if one
    }


def test_the_version_stands_in_one_place(project: dict[str, Any]) -> None:
    assert "version" not in project
    assert project["dynamic"] == ["version"]
    assert ROOT / project["hatch"]["version"]["path"] == PACKAGE / "__init__.py"
    tree = ast.parse((PACKAGE / "__init__.py").read_text(encoding="utf-8"))
    assigned = [
        ast.literal_eval(node.value)
        for node in tree.body
        if isinstance(node, ast.Assign)
        and [getattr(one, "id", "") for one in node.targets] == ["__version__"]
    ]
    assert assigned == [benchleaf.__version__]


def test_the_changes_of_this_version_are_told() -> None:
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    changes = text.partition("\n## Changes\n")[2].partition("\n## ")[0]
    newest = re.search(r"^### (\S+)", changes, re.M)
    assert newest is not None
    assert newest[1] == benchleaf.__version__
    assert len(changes.split()) > 20


def test_the_licence_is_in_the_package_and_told_to_the_index(project: dict[str, Any]) -> None:
    (name,) = project["license-files"]
    text = (ROOT / name).read_text(encoding="utf-8")
    assert (ROOT / name).is_relative_to(PACKAGE)
    assert project["license"] == "MIT"
    assert re.match(r"MIT License\n\nCopyright \(c\) \d{4} The Benchleaf authors\n", text)
    assert "WITHOUT WARRANTY OF ANY KIND" in text
    told = metadata("benchleaf")
    assert told["License-Expression"] == "MIT"
    assert told.get_all("License-File") == [name]


def test_the_classifiers_begin_with_the_oldest_python(project: dict[str, Any]) -> None:
    told = [one.rpartition(" ")[2] for one in project["classifiers"] if re.search(r"3\.\d+$", one)]
    assert project["requires-python"] == f">={told[0]}"
    minors = [int(one.removeprefix("3.")) for one in told]
    assert minors == list(range(minors[0], minors[0] + len(minors)))
    assert not [one for one in project["classifiers"] if one.startswith("License ::")]


def test_the_versions_of_the_last_run_lie_in_the_bounds(project: dict[str, Any]) -> None:
    wanted = bounds([*project["dependencies"], *project["optional-dependencies"]["dev"]])
    tested = pins("constraints.txt")
    assert set(wanted) - set(tested) == set()
    for package, (least, below) in wanted.items():
        assert numbers(least) <= numbers(tested[package]) < numbers(below), package


def test_the_oldest_versions_are_the_lower_bounds(project: dict[str, Any]) -> None:
    wanted = {
        package: numbers(least) for package, (least, _) in bounds(project["dependencies"]).items()
    }
    assert {package: numbers(one) for package, one in pins("oldest.txt").items()} == wanted


def test_each_hook_before_a_commit_is_local_and_its_command_is_there() -> None:
    text = (ROOT / ".pre-commit-config.yaml").read_text(encoding="utf-8")
    (repository,) = yaml.safe_load(text)["repos"]
    assert repository["repo"] == "local"
    offered = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))
    ids = [one["id"] for one in repository["hooks"]]
    assert {one["id"] for one in offered} <= set(ids)
    for hook in repository["hooks"]:
        assert hook["language"] == "system"
        start, module, *_ = shlex.split(hook["entry"].removeprefix("python "))
        assert (start, module) in {("-m", "ruff"), ("-m", "benchleaf.cli")}


# The comparison of engines itself needs a package index; what it compares with does not.


def test_a_site_that_differs_in_one_byte_is_found(tmp_path: Path) -> None:
    for name in ("one", "two"):
        (tmp_path / name / "jobs").mkdir(parents=True)
        (tmp_path / name / "jobs" / "a.html").write_bytes(b"<p>8.5 mm</p>")
    one, two = (engines.files(tmp_path / name) for name in ("one", "two"))
    assert list(engines.differences(one, two)) == []
    (tmp_path / "two" / "jobs" / "a.html").write_bytes(b"<p>8.6 mm</p>")
    (tmp_path / "two" / "b.html").write_bytes(b"")
    changed = engines.files(tmp_path / "two")
    assert list(engines.differences(one, changed)) == ["b.html is new", "jobs/a.html differs"]


def test_an_engine_that_builds_nothing_is_found(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(engines, "_run", lambda *_, **__: None)
    with pytest.raises(SystemExit, match="built no kiosk edition"):
        engines.build(sys.executable, engines.MKDOCS, tmp_path, "kiosk")


def test_the_engine_and_our_own_package_are_not_taken_over() -> None:
    named = {line.partition("==")[0] for line in engines.pinned().splitlines()}
    assert {"mkdocs-material", "markdown"} <= named
    assert not {"mkdocs", "benchleaf"} & named


def test_the_guide_names_the_engines_that_are_compared() -> None:
    text = (PACKAGE / "guide" / "upkeep.md").read_text(encoding="utf-8")
    assert [one.package for one in engines.FORKS if one.package not in text] == []
