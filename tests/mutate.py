"""Makes the package wrong in one place after another, and says whether the fast tests see it.

    python tests/mutate.py --count 100 --seed 1     so many places, drawn at random
    python tests/mutate.py --only diff/ --list       the places below a folder

A place is a comparison, a sum, an `and`, a `not`, a number, a truth value or a returned value. It
is tried in a fork of one collected run, on the tests that run its line, for `--seconds` of them
(`mutants.py`). A place outside of functions that cannot be put in there is changed in a copy of the
package: first the tests of the same room run, then the first tier. `--whole` does so with all that
no fork has seen, and then runs all but the browser's. What none of them sees is printed with its
line. Exit 1 where fewer are seen than `--least` of a hundred. `engine/` is left out: only builds
would see it. `EQUAL` names places that no test can see, and why.
"""

from __future__ import annotations

import argparse
import ast
import os
import queue
import random
import shutil
import subprocess
import sys
import tempfile
import threading
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

import benchleaf
from mutants import Tries, Wrong

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "plugins" / "benchleaf"
COPIED = ("plugins", "tests", "content", "pyproject.toml", "mkdocs.yml", "README.md",
          "DEVELOPERS.md", ".ci", ".demo-crew", ".schemas", ".vscode", ".idea", ".pictures",
          ".gitignore", ".pre-commit-config.yaml", ".pre-commit-hooks.yaml")  # fmt: skip
LEFT_OUT = ("engine/",)
CODE_ONLY = (
    "--deselect=tests/contract/test_checkers.py",
    "--deselect=tests/contract/test_wheel.py",
)
"""Checks of the code itself, which are about how it is written and not about what it does."""
BROWSERS = "--ignore=tests/e2e"
EQUAL: dict[str, str] = {}
"""Places that work as before when made wrong, so that no test can see them, and why."""
SECONDS = 900
"""Longest time for the tests of one place: an endless loop is seen, too."""
OTHER: dict[type[ast.AST], type[ast.AST]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq, ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.In: ast.NotIn, ast.NotIn: ast.In,
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.Mod: ast.Mult,
    ast.FloorDiv: ast.Mult, ast.And: ast.Or, ast.Or: ast.And,
}  # fmt: skip


@dataclass(frozen=True)
class Place:
    """One place, and how it is made wrong."""

    file: str
    line: int
    start: int
    end: int
    new: str
    what: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}: {self.what}"

    def key(self) -> str:
        """By which `EQUAL` names it, wherever its line may move."""
        return f"{self.file}: {self.what}"

    def source(self) -> str:
        """The module with this place made wrong."""
        text = (PACKAGE / self.file).read_bytes()
        return (text[: self.start] + self.new.encode() + text[self.end :]).decode()

    def wrong(self) -> Wrong[Place]:
        """How a fork is told."""
        tree = ast.parse((PACKAGE / self.file).read_text(encoding="utf-8"))
        for first, last in _functions(tree):
            if first <= self.line <= last:
                return Wrong(self, self.file, self.line, first, last, self.source())
        return Wrong(self, self.file, self.line, 0, 0, self.source())


def places(only: str = "") -> list[Place]:
    """Every place of the package, or of what begins so."""
    found: list[Place] = []
    for path in sorted(PACKAGE.rglob("*.py")):
        name = path.relative_to(PACKAGE).as_posix()
        if name.startswith(only) and not name.startswith(LEFT_OUT):
            found += _places(name, path.read_text(encoding="utf-8"))
    return found


def _functions(tree: ast.AST) -> Iterator[tuple[int, int]]:
    """First and last line of each outermost function, its decorators among them."""
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.FunctionDef):
            first = min([node.lineno, *(one.lineno for one in node.decorator_list)])
            yield first, node.end_lineno or node.lineno
        else:
            yield from _functions(node)


def _places(name: str, text: str) -> Iterator[Place]:
    lines = text.encode().splitlines(keepends=True)
    starts = [0]
    for one in lines:
        starts.append(starts[-1] + len(one))
    for node, changed in _changes(ast.parse(text)):
        start = starts[node.lineno - 1] + node.col_offset
        end = starts[(node.end_lineno or node.lineno) - 1] + (node.end_col_offset or 0)
        new = "return None" if isinstance(node, ast.Return) else f"({ast.unparse(changed)})"
        old = text.encode()[start:end].decode()
        what = f"{' '.join(old.split())[:60]}  ->  {' '.join(new.split())[:60]}"
        yield Place(name, node.lineno, start, end, new, what)


def _changes(tree: ast.AST) -> Iterator[tuple[ast.expr | ast.stmt, ast.AST]]:
    """Each node that can be made wrong, and the wrong one; what only types say is left alone."""
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.JoinedStr):
            continue  # its parts have no place of their own before Python 3.12
        if isinstance(node, ast.AnnAssign):
            yield from _changes(ast.Expression(node.value)) if node.value else ()
            continue
        if isinstance(node, ast.FunctionDef):
            for part in node.body:
                yield from _changes(ast.Module([part], []))
            continue
        if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test):
            continue
        if isinstance(node, (ast.expr, ast.Return)):
            yield from _wrong(node)
        yield from _changes(node)


def _wrong(node: ast.expr | ast.stmt) -> Iterator[tuple[ast.expr | ast.stmt, ast.AST]]:
    if isinstance(node, ast.Compare) and len(node.ops) == 1:
        other = OTHER[type(node.ops[0])]
        yield node, ast.Compare(node.left, [other()], node.comparators)  # type: ignore[list-item]
    elif isinstance(node, ast.BinOp) and type(node.op) in OTHER:
        yield node, ast.BinOp(node.left, OTHER[type(node.op)](), node.right)  # type: ignore[arg-type]
    elif isinstance(node, ast.BoolOp):
        yield node, ast.BoolOp(OTHER[type(node.op)](), node.values)  # type: ignore[arg-type]
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        yield node, node.operand
    elif isinstance(node, ast.Constant) and isinstance(node.value, bool):
        yield node, ast.Constant(not node.value)
    elif isinstance(node, ast.Constant) and isinstance(node.value, (int, float)):
        yield node, ast.Constant(node.value + 1)
    elif isinstance(node, ast.Return) and node.value and ast.unparse(node.value) != "None":
        yield node, ast.Return(None)


def tiers(place: Place, *, whole: bool) -> Iterator[tuple[str, ...]]:
    """What is run for a place, quickest first."""
    room = place.file.partition("/")[0].removesuffix(".py")
    near = [name for name in (f"tests/{room}", f"tests/test_{room}.py") if (ROOT / name).exists()]
    if room == "formulas":
        near.append(f"plugins/benchleaf/{place.file}")
    if near:
        yield tuple(near)
    yield ("tests", "--quick", *CODE_ONLY)
    if whole:
        yield ("tests", BROWSERS, *CODE_ONLY)


def seen_by(place: Place, copy: Path, whole: bool, sound: dict[tuple[str, ...], bool]) -> str:
    """The tests that see a place made wrong, "" where none does.

    Tests that fail before anything is wrong would see everything: those tell nothing. `sound` keeps
    which pass.
    """
    path = copy / "plugins" / "benchleaf" / place.file
    before = path.read_text(encoding="utf-8")
    for tier in tiers(place, whole=whole):
        if tier not in sound:
            sound[tier] = _passes(copy, *tier)
        if not sound[tier]:
            raise SystemExit(f"{' '.join(tier)}: fails before anything is made wrong")
        path.write_text(place.source(), encoding="utf-8")
        try:
            if not _passes(copy, *tier):
                return " ".join(tier[:2])
        finally:
            path.write_text(before, encoding="utf-8")
    return ""


def _passes(copy: Path, *arguments: str) -> bool:
    command = (sys.executable, "-m", "pytest", "-n", "0", "-x", "-q", "-p", "no:cacheprovider")
    known = {**os.environ, "PYTHONPATH": str(copy / "plugins"), "PYTHONDONTWRITEBYTECODE": "1"}
    try:
        ran = subprocess.run(
            (*command, *arguments), cwd=copy, env=known, capture_output=True, check=False,
            timeout=SECONDS,
        )  # fmt: skip
    except subprocess.TimeoutExpired:
        return False
    return ran.returncode == 0


def copied(folder: Path) -> Path:
    """All that the tests need, with a register of changes of its own."""
    for name in COPIED:
        source = ROOT / name
        if source.is_dir():
            shutil.copytree(
                source, folder / name, ignore=shutil.ignore_patterns("__pycache__", ".*_cache")
            )
        elif source.is_file():
            shutil.copy(source, folder / name)
    subprocess.run(("git", "init", "-q"), cwd=folder, check=True)
    return folder


def tried(chosen: list[Place], processes: int, whole: bool) -> Iterator[tuple[Place, str]]:
    """Each place, and what saw it."""
    waiting: queue.Queue[Place] = queue.Queue()
    done: queue.Queue[tuple[Place, str | BaseException]] = queue.Queue()
    for one in chosen:
        waiting.put(one)

    def work(folder: Path) -> None:
        copy, sound = copied(folder), dict[tuple[str, ...], bool]()
        while not waiting.empty():
            one = waiting.get()
            try:
                done.put((one, seen_by(one, copy, whole, sound)))
            except BaseException as error:
                done.put((one, error))

    with tempfile.TemporaryDirectory() as top:
        for number in range(processes):
            folder = Path(top, str(number))
            folder.mkdir()
            threading.Thread(target=work, args=(folder,), daemon=True).start()
        for _ in chosen:
            place, seen = done.get()
            if isinstance(seen, BaseException):
                raise seen
            yield place, seen


def in_forks(
    chosen: list[Place], processes: int, seconds: float, tests: list[str]
) -> dict[Place, str]:
    """What saw each place."""
    wrongs = [place.wrong() for place in chosen]
    seen: dict[Place, str] = {}

    def note(place: Place, said: str) -> None:
        seen[place] = said
        if said:
            print(f"seen by {said}: {place}", flush=True)

    options = ("-n", "0", "-qq", "-p", "no:cacheprovider", BROWSERS, *CODE_ONLY)
    if wrongs:
        os.chdir(ROOT)
        assert Path(benchleaf.__file__).parent == PACKAGE, "another copy of the package is imported"
        pytest.main([*options, *tests], plugins=[Tries(wrongs, processes, note, seconds)])
        assert len(seen) == len(wrongs), "the run in forks broke off"
    return seen


def main() -> int:
    """Try the places asked for; 1 where too few are seen."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--count", type=int, default=100)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", default="", help="files whose name begins so")
    parser.add_argument("--line", type=int, default=0, help="this line of it")
    parser.add_argument("--processes", type=int, default=2)
    parser.add_argument(
        "--seconds", type=float, default=40, help="of tests for one place in a fork"
    )
    parser.add_argument("--tests", nargs="+", default=["tests", "plugins/benchleaf"],
                        help="what runs in forks")  # fmt: skip
    parser.add_argument("--forks-only", action="store_true", help="try no further what is left")
    parser.add_argument("--whole", action="store_true", help="try what is left on all tests")
    parser.add_argument("--least", type=float, default=89)
    parser.add_argument("--list", action="store_true", help="name the places and stop")
    asked = parser.parse_args()
    every = [one for one in places(asked.only) if asked.line in (0, one.line)]
    if asked.list:
        print("\n".join(map(str, every)), f"\n{len(every)} places")
        return 0
    chosen = random.Random(asked.seed).sample(every, min(asked.count, len(every)))
    alike = [one for one in chosen if one.key() in EQUAL]
    for one in alike:
        print(f"works as before, {EQUAL[one.key()]}: {one}")
    chosen = [one for one in chosen if one not in alike]
    seen = in_forks(chosen, asked.processes, asked.seconds, asked.tests)
    left = [one for one in chosen if not seen[one]]
    rest = [] if asked.forks_only else [one for one in left if asked.whole or not one.wrong().last]
    for place, what in tried(rest, min(asked.processes, len(rest)), asked.whole):
        seen[place] = what
        if what:
            print(f"seen by {what}: {place}", flush=True)
    print("\n".join(f"NOT SEEN: {one}" for one in chosen if not seen[one]))
    number = sum(map(bool, seen.values()))
    rate = 100 * number / max(1, len(chosen))
    print(f"{len(chosen)} of {len(every)} places, {number} seen: {rate:.0f} %")
    return 1 if rate < asked.least else 0


if __name__ == "__main__":
    sys.exit(main())
