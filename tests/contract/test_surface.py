"""The public doors: what `__all__` says is there, and what others use goes through it."""

from __future__ import annotations

import ast
import importlib.metadata
import importlib.util
from pathlib import Path
from types import ModuleType

import pytest

import benchleaf
from benchleaf import pipeline
from running import for_each

PACKAGE = Path(benchleaf.__file__).parent
DOORS = sorted(
    ".".join(("benchleaf", *path.parent.relative_to(PACKAGE).parts))
    for path in PACKAGE.rglob("__init__.py")
)


def public_names(module: ModuleType) -> set[str]:
    """What a module offers by name, other modules left out."""
    return {
        name
        for name, value in vars(module).items()
        if not name.startswith("_") and not isinstance(value, ModuleType)
    }


def test_every_package_is_found() -> None:
    assert {"benchleaf", "benchleaf.read", "benchleaf.engine", "benchleaf.pages"} <= set(DOORS)


@pytest.mark.parametrize("door", DOORS)
def test_a_package_imports_cleanly_and_says_what_it_is(door: str) -> None:
    module = importlib.import_module(door)
    assert (module.__doc__ or "").strip()
    assert "TODO" not in (module.__doc__ or "")


@pytest.mark.parametrize("door", DOORS)
def test_every_name_in_all_is_there_once(door: str) -> None:
    module = importlib.import_module(door)
    names = getattr(module, "__all__", [])
    assert len(set(names)) == len(names)
    assert [name for name in names if not hasattr(module, name)] == []
    assert [name for name in names if name.startswith("_") and name != "__version__"] == []


@pytest.mark.parametrize("door", DOORS)
def test_a_package_without_all_has_nothing_but_its_modules(door: str) -> None:
    module = importlib.import_module(door)
    if not hasattr(module, "__all__") and door != "benchleaf.validate.rules":
        assert public_names(module) == set()


def test_the_front_door_is_exactly_what_all_says() -> None:
    assert public_names(benchleaf) | {"__version__"} == set(benchleaf.__all__)
    assert len(benchleaf.__all__) <= 12, "a few names"


@for_each(
    "path", sorted(PACKAGE.rglob("*.py")), ids=lambda path: path.relative_to(PACKAGE).as_posix()
)
def test_a_name_taken_from_another_package_is_public_there(path: Path) -> None:
    for door, name in taken(path):  # may be empty: not every module takes one
        public = getattr(importlib.import_module(door), "__all__", ())
        is_module = importlib.util.find_spec(f"{door}.{name}") is not None
        assert name in public or is_module, f"{path}: {name} of {door}"


def taken(path: Path) -> list[tuple[str, str]]:
    """Package and name of all that a module takes from the front of a package."""
    return [
        (node.module, alias.name)
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.ImportFrom) and not node.level and node.module in DOORS
        for alias in node.names
    ]


def test_names_are_taken_from_other_packages() -> None:
    """Else the test above would prove nothing."""
    assert sum(len(taken(path)) for path in PACKAGE.rglob("*.py")) > 100


def test_the_version_is_that_of_the_project() -> None:
    assert importlib.metadata.version("benchleaf") == benchleaf.__version__


def test_the_pipeline_offers_only_what_is_its_own() -> None:
    assert pipeline.__all__
    for name in pipeline.__all__:
        assert getattr(pipeline, name).__module__ == "benchleaf.pipeline", name
