"""Which tests run which lines of the package: the map by which a wrong place finds its tests.

It is made once, by running every test in a fork of one collected run, and kept until a source
changes. A call is noted each time, lines only in the first few calls of a function within a test:
to note them all would take ten times as long. So the tests known to run a line come first, and then
others that call its function.
"""

from __future__ import annotations

import hashlib
import os
import pickle
import sys
import tempfile
import time
from collections import defaultdict
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from types import CodeType, FrameType
from typing import Any

import pytest

from mutants_forks import NOTHING, Work, in_forks

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "plugins" / "benchleaf"
HERE = str(PACKAGE) + os.sep
LONGEST = 3600.0
FEW, SETTINGS = 10, "_hypothesis_internal_use_settings"
CALLS_BY_LINE = 3
"""In so many calls of a function within one test its lines are noted."""
Lines = dict[tuple[str, int], int]
"""File and line, and the tests that ran it: a number whose bits are theirs."""
Calls = dict[tuple[str, int], set[int]]
"""File and first line of a function, and the numbers of the tests that call it."""


@dataclass
class Map:
    """Which tests call which functions and run which lines, and how long each test takes."""

    names: list[str] = field(default_factory=list)
    seconds: list[float] = field(default_factory=list)
    calls: Calls = field(default_factory=lambda: defaultdict(set))
    failed: list[int] = field(default_factory=list)
    """Tests that fail before anything is wrong: those tell nothing."""
    lines: Lines = field(default_factory=lambda: defaultdict(int))


def the_map(items: list[pytest.Item], processes: int) -> Map:
    """From earlier runs on the same sources, else made by running the tests, a fork a file.

    What a file's tests ran holds until they change, or what they share, or the package.
    """
    folder = Path(tempfile.gettempdir(), f"benchleaf-ran-{_told(_shared())}")
    folder.mkdir(exist_ok=True)
    files: dict[str, list[pytest.Item]] = defaultdict(list)
    for item in items:
        files[item.nodeid.partition("::")[0]].append(item)
    at = {name: folder / f"{name.replace('/', '-')}-{_told([ROOT / name], of)}"
          for name, of in files.items()}  # fmt: skip
    work = (Work(name, partial(note, files[name], at[name]), LONGEST)
            for name in files if not at[name].exists())  # fmt: skip
    for name, said in in_forks(work, processes):
        if said != NOTHING:
            print(f"{name}: {said} before anything is wrong", flush=True)
    return joined(pickle.loads(path.read_bytes()) for path in at.values() if path.exists())


def _shared() -> list[Path]:
    """The package, and all that is no test file."""
    tests = (path for path in (ROOT / "tests").rglob("*.py") if path.name[:5] != "test_")
    return sorted((*PACKAGE.rglob("*.py"), *tests))


def _told(paths: Iterable[Path], items: Iterable[pytest.Item] = ()) -> str:
    told = hashlib.sha256("\n".join(item.nodeid for item in items).encode())
    for path in paths:
        told.update(path.read_bytes())
    return told.hexdigest()[:16]


def joined(every: Iterable[Map]) -> Map:
    """The maps of several files as one."""
    found = Map()
    for one in every:
        first = len(found.names)
        found.names += one.names
        found.seconds += one.seconds
        found.failed += [first + number for number in one.failed]
        for key, tests in one.calls.items():
            found.calls[key] |= {first + number for number in tests}
        for line, bits in one.lines.items():
            found.lines[line] |= bits << first
    return found


def note(items: list[pytest.Item], kept: Path) -> str:
    """Run the tests of a file, and keep which functions of the package each calls."""
    known, shared = Map(), dict[int, Ran]()
    failed: list[str] = []

    class Note:
        def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
            if report.failed and report.nodeid not in failed:
                failed.append(report.nodeid)

        @pytest.hookimpl(wrapper=True)
        def pytest_fixture_setup(self, fixturedef: Any) -> Any:
            """What a fixture calls is called by each test that uses it, not by the first alone."""
            seen = shared.setdefault(id(fixturedef), Ran())
            before = sys.gettrace()
            sys.settrace(seen.trace)
            try:
                return (yield)
            finally:
                sys.settrace(before)

    items[0].config.pluginmanager.register(Note())
    for number, item in enumerate(items):
        seen = Ran()
        try_fewer(item)
        begun = time.process_time()
        sys.settrace(seen.trace)
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=following(items, number))
        sys.settrace(None)
        known.names.append(item.nodeid)
        known.seconds.append(time.process_time() - begun)
        if len(failed) > len(known.failed):
            known.failed.append(number)
        uses: Any = getattr(item, "_fixtureinfo", None)
        for definitions in uses.name2fixturedefs.values() if uses else ():
            for one in definitions:
                seen.join(shared.get(id(one)))
        seen.tell(known, number)
    part = kept.with_suffix(f".{os.getpid()}")
    known.calls, known.lines = dict(known.calls), dict(known.lines)
    part.write_bytes(pickle.dumps(known))
    part.rename(kept)
    return " ".join(failed) and f"fails: {' '.join(failed)}"


def try_fewer(item: pytest.Item) -> None:
    """Of random cases a few tell which functions are called; the rest would only take longer."""
    from hypothesis import Phase, settings  # pytest wants to load it first

    function: Any = getattr(item, "obj", None)
    usual = getattr(function, SETTINGS, None)
    if usual:
        fewer = settings(usual, max_examples=FEW, phases=(Phase.explicit, Phase.generate))
        setattr(getattr(function, "__func__", function), SETTINGS, fewer)


class Ran:
    """What ran: functions, and the lines of their first calls."""

    def __init__(self) -> None:
        self.calls: dict[CodeType, int] = {}
        self.lines: set[tuple[CodeType, int]] = set()
        self.trace = self._tracer()

    def join(self, other: Ran | None) -> None:
        if other is not None:
            self.calls.update(other.calls)
            self.lines |= other.lines

    def tell(self, known: Map, number: int) -> None:
        """Add to the map that this test ran it."""
        for code in self.calls:
            if code.co_filename.startswith(HERE):
                known.calls[code.co_filename[len(HERE) :], code.co_firstlineno].add(number)
        for code, line in self.lines:
            known.lines[code.co_filename[len(HERE) :], line] |= 1 << number

    def _tracer(self) -> Callable[[FrameType, str, Any], Any]:
        calls, add = self.calls, self.lines.add

        def line(frame: FrameType, *_: Any) -> Any:
            add((frame.f_code, frame.f_lineno))
            return line

        def call(frame: FrameType, *_: Any) -> Any:
            code = frame.f_code
            times = calls.get(code, 0)
            calls[code] = times + 1
            if times < CALLS_BY_LINE and code.co_filename.startswith(HERE):
                return line
            return None

        return call


def following(items: list[pytest.Item], number: int) -> pytest.Item | None:
    """The next test, or this one at the end: what it shares need not be taken down."""
    return items[min(number + 1, len(items) - 1)]
