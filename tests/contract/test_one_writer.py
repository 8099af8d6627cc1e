"""One room writes: everybody else hands it what is to be written, so that no file is ever half."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[2] / "plugins" / "benchleaf"
FILES = sorted(path for path in PACKAGE.rglob("*.py") if path.parent != PACKAGE / "write")

WRITING = {
    "chmod", "copy2", "copyfile", "copymode", "copytree", "extractall", "hardlink_to",
    "makedirs", "mkdir", "mkdtemp", "mkfifo", "mkstemp", "move",
    "NamedTemporaryFile", "removedirs", "rename", "renames", "rmdir", "rmtree", "touch", "truncate",
    "unlink", "write_bytes", "write_text",
}  # fmt: skip
"""Names of calls that change a disk, of whatever they are called on."""
OF_MODULE = {
    ("os", "remove"),
    ("os", "replace"),
    ("os", "link"),
    ("os", "symlink"),
    ("shutil", "copy"),
}
"""Calls whose names mean something else elsewhere."""
IN_MEMORY = {"image.save", "frames[0].save", "book.save"}
"""What is saved into a buffer."""
READING = set("rbt")


def writes(path: Path) -> Iterator[str]:
    """Every call of a file that may write, by its line."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.Call):
            continue
        called = ast.unparse(node.func)
        owner, _, name = called.rpartition(".")
        if (
            (owner and name in WRITING)
            or (owner.split(".")[-1], name) in OF_MODULE
            or (name == "open" and owner != "os" and not _only_reads(node, owner))
            or (owner == "os" and name == "open" and "devnull" not in ast.unparse(node))
            or (name == "save" and called not in IN_MEMORY)
            or (name in WRITING and not owner and name not in _of_writer(path))
        ):
            yield f"{path.name}:{node.lineno} {called}"


def _only_reads(call: ast.Call, owner: str) -> bool:
    if owner == "Image":
        return True
    given = [
        *call.args[0 if owner else 1 :][:1],
        *(k.value for k in call.keywords if k.arg == "mode"),
    ]
    return all(isinstance(one, ast.Constant) and set(str(one.value)) <= READING for one in given)


def _of_writer(path: Path) -> set[str]:
    """Names that a file takes from the room that writes."""
    return {
        alias.name
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.ImportFrom) and node.module == "benchleaf.write"
        for alias in node.names
    }


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_a_file_leaves_writing_to_the_one_writer(path: Path) -> None:
    assert list(writes(path)) == []


@pytest.mark.parametrize(
    "line",
    [
        "path.write_text('x')", "path.open('w')", "open(path, mode='ab')", "open(path, 'r+')",
        "path.mkdir()", "os.replace(a, b)", "shutil.rmtree(a)", "a.rename(b)", "a.unlink()",
        "open(path, how)", "workbook.save(path)", "os.open(path, 1)", "write_bytes(path, data)",
    ],
)  # fmt: skip
def test_a_file_that_writes_by_itself_would_be_found(tmp_path: Path, line: str) -> None:
    bad = tmp_path / "bad.py"
    bad.write_text(f"def f():\n    {line}\n    path.open('rb')\n    open(path)\n", encoding="utf-8")
    assert len(list(writes(bad))) == 1
