"""The layers of the package: who may import whom, how large a file may be, how deep a folder.

This is the one place where the table stands. A new folder or a new library is added here first.
"""

from __future__ import annotations

import ast
import re
import sys
import tomllib
from collections import Counter
from collections.abc import Iterator
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

from running import for_each

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "plugins" / "benchleaf"

LAYERS: dict[str, tuple[set[str], set[str]]] = {
    # folder or module: (ours it may import, theirs it may import)
    "diagnose": (set(), set()),
    "formulas": (set(), set()),
    # Work shared among processes: the standard library only.
    "processes": (set(), set()),
    # Files and folders written: the standard library only, and nobody else writes.
    "write": (set(), set()),
    # imagesize reads the size of a picture from its first bytes.
    # ruamel.yaml writes YAML with its comments.
    "read": ({"diagnose", "processes", "write"}, {"PIL", "imagesize", "ruamel", "yaml"}),
    "model": ({"formulas"}, {"pydantic", "pydantic_core"}),
    "compute": ({"diagnose", "formulas", "model"}, set()),
    # pydantic for its ValidationError only: building.py turns it into findings.
    "validate": ({"diagnose", "formulas", "read", "model", "compute", "link"}, {"pydantic"}),
    "link": ({"diagnose", "model"}, set()),
    "meaning": ({"diagnose", "formulas", "model", "compute", "link"}, set()),
    "workbooks": ({"diagnose", "read", "model"}, {"openpyxl"}),
    # pydantic for its ValidationError only: causes.py tries edits that may not fit alone.
    "diff": ({"diagnose", "model", "compute", "link", "meaning"}, {"pydantic"}),
    # ortools is an extra: loaded where a plan may be better, and only where it is installed.
    "plan": ({"diagnose", "formulas", "model", "compute", "meaning"}, {"ortools"}),
    # pydantic for the types of two registers' entries.
    "registers": (
        {"diagnose", "read", "model", "compute", "validate", "link", "meaning", "diff"},
        {"pydantic"},
    ),
    # rcssmin and rjsmin take what only a reader of the source needs out of sheets and scripts.
    "html": (
        {"model", "compute", "link"}, {"jinja2", "markdown", "markupsafe", "rcssmin", "rjsmin"},
    ),
    "drawings": ({"model", "compute", "plan", "html"}, {"markupsafe", "segno"}),
    "search": ({"model", "link", "html", "write"}, set()),
    "people": (
        {"diagnose", "read", "model", "compute", "validate", "link", "meaning", "plan", "registers",
         "html", "drawings", "write"},
        {"markupsafe"},
    ),
    "pages": (
        {"diagnose", "formulas", "model", "compute", "link", "meaning", "diff", "plan", "registers",
         "html", "drawings", "search", "people", "workbooks"},
        {"markdown", "markupsafe"},
    ),
    "publish": ({"diagnose", "write"}, set()),
    "record_by_record": (
        {"diagnose", "processes", "model", "compute", "validate", "link", "meaning"},
        set(),
    ),
    "pipeline": (
        {"diagnose", "formulas", "processes", "read", "model", "compute", "validate", "link",
         "meaning", "plan", "registers", "html", "search", "pages", "publish",
         "record_by_record", "write"},
        set(),
    ),
    "commands": (
        {"diagnose", "formulas", "read", "model", "compute", "validate", "link", "meaning", "diff",
         "registers", "people", "pages", "pipeline", "publish", "workbooks", "write"},
        set(),
    ),
    "cli": ({"commands"}, set()),
    "engine": (
        {"diagnose", "html", "search", "people", "publish", "pipeline", "write"}, {"mkdocs"},
    ),
    "__init__": ({"pipeline", "commands"}, set()),
}  # fmt: skip

ONLY_IN = {
    "yaml": "read/",
    "ruamel": "read/tidy.py",
    "openpyxl": "workbooks/spreadsheet.py",
    "PIL": "read/photographs.py",
    "rcssmin": "html/lean.py",
    "rjsmin": "html/lean.py",
    "segno": "drawings/",
    "ortools": "plan/solver.py",
    "mkdocs": "engine/",
}
"""Libraries that stay in one file or folder, so that they can be replaced there."""

SHIPPED_AS = {
    "yaml": "pyyaml",
    "pydantic_core": "pydantic",
    "ruamel": "ruamel.yaml",
    "markupsafe": "jinja2",
    "PIL": "pillow",
}
"""What to install for an import whose name differs, or which comes with another library."""

LINES_AT_MOST = 400
BODY_LINES, LONG_SHARE = 35, 0.10
DEEPER = ("validate/rules", "html/templates", "html/assets")
"""Where a file may lie deeper than package/folder/file."""

SAME_THING = {
    "addresses", "break_through", "codes", "compare", "crew", "enlarging", "feel", "follow_up",
    "hold", "holding", "lever", "may", "onboarding", "operations", "printed_json", "reckon",
    "schema", "slips", "tapping", "tidy", "timetable", "travel", "unfinished",
}  # fmt: skip
"""Stems that several rooms have, for the same thing at another stop."""

FILES = sorted(path for path in PACKAGE.rglob("*.py"))


def name_of(path: Path) -> str:
    return path.relative_to(PACKAGE).as_posix()


def layer_of(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def imported(path: Path) -> Iterator[tuple[int, str]]:
    """Line and full dotted name of everything a file imports, wherever in the file."""
    package = ["benchleaf", *path.relative_to(PACKAGE).parts[:-1]]
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            above = package[: len(package) - node.level + 1] if node.level else []
            module = ".".join([*above, *(node.module or "").split(".")]).strip(".")
            yield from ((node.lineno, f"{module}.{alias.name}") for alias in node.names)


def breaches(path: Path) -> Iterator[str]:
    """Every import of a file that the table does not allow."""
    layer = layer_of(path)
    ours, theirs = LAYERS[layer]
    for line, name in imported(path):
        top, *below = name.split(".")
        where = f"{name_of(path)}:{line} imports {name}"
        if top == "benchleaf":
            if below and below[0] not in {layer, *ours} and not below[0].startswith("_"):
                yield where
        elif top not in sys.stdlib_module_names and (
            top not in theirs or not name_of(path).startswith(ONLY_IN.get(top, ""))
        ):
            yield where


def test_every_folder_is_in_the_table() -> None:
    assert {layer_of(path) for path in FILES} <= set(LAYERS)


@for_each("path", FILES, ids=name_of)
def test_a_file_imports_only_what_its_layer_may(path: Path) -> None:
    assert list(breaches(path)) == []


def test_a_stem_means_one_thing() -> None:
    stems = Counter(path.stem for path in FILES if path.stem != "__init__")
    assert {stem for stem, count in stems.items() if count > 1} <= SAME_THING


def test_few_modules_lie_loose() -> None:
    loose = {path.stem for path in FILES if path.parent == PACKAGE}
    assert "pipeline" in loose
    assert len(loose - {"__init__"}) <= 4, loose


def test_the_table_itself_has_no_ring() -> None:
    order = list(
        TopologicalSorter({layer: ours for layer, (ours, _) in LAYERS.items()}).static_order()
    )
    assert set(order) == set(LAYERS)


def test_a_breach_would_be_found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys.modules[__name__], "PACKAGE", tmp_path)
    (tmp_path / "link").mkdir()
    bad = tmp_path / "link" / "bad.py"
    bad.write_text(
        "from ..pages import x\nfrom benchleaf import read\nimport yaml\nimport re\n"
        "from .terms import y\nfrom benchleaf.model import z\n"
        "def f():\n    import mkdocs.config\n"
    )
    assert [breach.split(" imports ")[1] for breach in breaches(bad)] == [
        "benchleaf.pages.x", "benchleaf.read", "yaml", "mkdocs.config",
    ]  # fmt: skip


def test_what_is_imported_is_what_gets_installed() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    asked_for = [*project["dependencies"], *project["optional-dependencies"]["plan"]]
    installed = {re.split(r"[<>=~! \[]", each)[0].lower() for each in asked_for}
    wanted = {
        SHIPPED_AS.get(top, top)
        for path in FILES
        for _, name in imported(path)
        if (top := name.split(".")[0]) not in sys.stdlib_module_names and top != "benchleaf"
    }
    assert wanted - installed == set()


@for_each("path", FILES, ids=name_of)
def test_a_file_is_short_enough_to_be_read(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) <= LINES_AT_MOST


def body_lines(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Lines of a function below its docstring."""
    body = function.body[1:] if ast.get_docstring(function) else function.body
    return (function.end_lineno or 0) - body[0].lineno + 1 if body else 0


def test_nine_functions_in_ten_are_short() -> None:
    functions = {
        f"{name_of(path)}:{node.lineno} {node.name}": body_lines(node)
        for path in FILES
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
    }
    long = {name: lines for name, lines in functions.items() if lines > BODY_LINES}
    assert len(functions) > 200
    assert len(long) < LONG_SHARE * len(functions), long


def test_no_folder_is_deeper_than_package_folder_file() -> None:
    deep = [
        name_of(path)
        for path in PACKAGE.rglob("*")
        if path.is_file()
        and "__pycache__" not in path.parts
        and len(path.relative_to(PACKAGE).parts) > 2
        and not name_of(path).startswith(DEEPER)
    ]
    assert deep == []


def test_every_module_opens_with_what_it_is_for() -> None:
    silent = [
        name_of(path)
        for path in FILES
        if not (ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))) or "").strip()
    ]
    assert silent == []
