"""What the wheel holds: every file of the package, and commands that lead somewhere."""

from __future__ import annotations

import importlib.util
import subprocess
import tomllib
import zipfile
from importlib.metadata import EntryPoint
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "plugins" / "benchleaf"
KINDS_OF_FILE = {
    ".py", ".jinja", ".html", ".css", ".js", ".json", ".svg", ".woff2", ".txt", ".md", ".typed",
}  # fmt: skip


@pytest.fixture(scope="module")
def project() -> dict[str, Any]:
    return tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def files() -> list[Path]:
    found = (path for path in PACKAGE.rglob("*") if path.is_file())
    return sorted(path for path in found if "__pycache__" not in path.parts)


def test_the_wheel_takes_the_package_folder(project: dict[str, Any]) -> None:
    wheel = project["tool"]["hatch"]["build"]["targets"]["wheel"]
    assert wheel == {"packages": ["plugins/benchleaf"]}
    assert project["build-system"]["build-backend"] == "hatchling.build"


def test_no_file_of_the_package_is_ignored_and_so_left_out() -> None:
    """The builder leaves out what version control ignores."""
    ran = subprocess.run(
        ["git", "check-ignore", "--no-index", *map(str, files())],
        cwd=ROOT, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert (ran.stdout, ran.returncode) == ("", 1)


def test_nothing_strange_lies_in_the_package() -> None:
    assert [path.name for path in files() if path.suffix not in KINDS_OF_FILE] == []


def test_every_command_and_plugin_leads_somewhere(project: dict[str, Any]) -> None:
    groups = {"console_scripts": project["project"]["scripts"]}
    groups |= project["project"]["entry-points"]
    for group, entries in groups.items():
        for name, value in entries.items():
            assert callable(EntryPoint(name, value, group).load()), value


def test_the_files_named_by_the_project_are_there(project: dict[str, Any]) -> None:
    assert (ROOT / project["project"]["readme"]).is_file()
    included = project["tool"]["hatch"]["build"]["targets"]["sdist"]["include"]
    assert [name for name in included if not (ROOT / name).exists()] == []


def test_a_built_wheel_holds_every_file(tmp_path: Path) -> None:
    builders = importlib.import_module("hatchling.builders.wheel")
    (built,) = builders.WheelBuilder(str(ROOT)).build(
        directory=str(tmp_path), versions=["standard"]
    )
    with zipfile.ZipFile(built) as wheel:
        held = {name for name in wheel.namelist() if ".dist-info/" not in name}
    assert held == {path.relative_to(PACKAGE.parent).as_posix() for path in files()}
