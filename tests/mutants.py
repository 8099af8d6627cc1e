"""Tries wrong functions in forks of one collected run, so that each costs its own tests only.

`tests/mutate.py` hands this to pytest as a plugin. The suite is collected once. A first fork runs
every test and notes which functions it calls; that map is kept until a source changes. Then there
is a fork for each place: the wrong code is put into the functions that are there, the tests that
call them run, those with the fewest other functions first, and the first failure ends it.
"""

from __future__ import annotations

import functools
import gc
import hashlib
import os
import pickle
import resource
import select
import signal
import sys
import tempfile
import time
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from functools import partial
from itertools import islice
from pathlib import Path
from types import CodeType, FrameType, FunctionType
from typing import Any, Generic, TypeVar

import pytest

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "plugins" / "benchleaf"
DIED, NOTHING = "it died", "-"
STACK = 1 << 29
"""For what goes deep while its calls are noted."""
LONGEST = 3600.0
LEFT_OUT = "compute/test_corrupt.py"
FEW, SETTINGS = 10, "_hypothesis_internal_use_settings"
TIMES, AT_LEAST = 8, 120
"""How much longer than sound code, and how many seconds in any case: an endless loop is seen."""
Calls = dict[tuple[str, int], set[int]]
"""File and first line of a function, and the numbers of the tests that call it."""
P = TypeVar("P")


@dataclass
class Map:
    """Which tests call which functions, and how long each test takes."""

    names: list[str] = field(default_factory=list)
    seconds: list[float] = field(default_factory=list)
    calls: Calls = field(default_factory=lambda: defaultdict(set))
    failed: list[int] = field(default_factory=list)
    """Tests that fail before anything is wrong: those tell nothing."""


@dataclass(frozen=True)
class Wrong(Generic[P]):
    """A place in a function: the lines of the outermost one, and the module with it made wrong."""

    place: P
    file: str
    first: int
    last: int
    source: str


def whole(code: CodeType) -> Iterator[CodeType]:
    """A function's code and that of all that stands in it."""
    yield code
    for one in code.co_consts:
        if isinstance(one, CodeType):
            yield from whole(one)


def pairs(old: CodeType, new: CodeType) -> Iterator[tuple[CodeType, CodeType]]:
    """Each function of a module, with what it becomes in the other."""
    yield old, new
    inside = dict(_numbered(new))
    for key, one in _numbered(old):
        if key in inside:
            yield from pairs(one, inside[key])


def _numbered(code: CodeType) -> Iterator[tuple[tuple[str, int], CodeType]]:
    count: dict[str, int] = defaultdict(int)
    for one in code.co_consts:
        if isinstance(one, CodeType):
            count[one.co_name] += 1
            yield (one.co_name, count[one.co_name]), one


def put_in(wrong: Wrong[Any]) -> int:
    """The functions that are there work wrongly from now on; how many took the wrong code."""
    path = str(PACKAGE / wrong.file)
    sound = compile(Path(path).read_text(encoding="utf-8"), path, "exec")
    new = {
        (old.co_qualname, old.co_firstlineno): one
        for old, one in pairs(sound, compile(wrong.source, path, "exec"))
        if wrong.first <= old.co_firstlineno <= wrong.last and old != one
    }
    done = 0
    for thing in gc.get_objects():
        if isinstance(thing, FunctionType) and thing.__code__.co_filename == path:
            code = thing.__code__
            other = new.get((code.co_qualname, code.co_firstlineno))
            if other and other.co_freevars == code.co_freevars:
                thing.__code__ = other
                done += 1
        elif isinstance(thing, functools._lru_cache_wrapper):
            thing.cache_clear()
    return done


class Tries(Generic[P]):
    """The plugin: in place of the tests, a fork for each wrong place."""

    def __init__(self, wrongs: list[Wrong[P]], processes: int, done: Callable[[P, str], None],
                 most: int) -> None:  # fmt: skip
        self.wrongs, self.processes, self.done, self.most = wrongs, processes, done, most

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        capture = session.config.pluginmanager.getplugin("capturemanager")
        with capture.global_and_fixture_disabled():
            left = self.wrongs
            for items in tiers(session.items):
                known = the_map(items, self.processes)
                missed = []
                for one, said in in_forks(self._work(left, known, items), self.processes):
                    if said == NOTHING:
                        missed.append(one)
                    else:
                        self.done(one.place, said)
                left = missed
            for one in left:
                self.done(one.place, "")
        return True

    def _work(
        self, wrongs: list[Wrong[P]], known: Map, items: list[pytest.Item]
    ) -> Iterator[Work[Wrong[P]]]:
        at = {item.nodeid: item for item in items}
        for wrong in wrongs:
            tests = callers_of(known, wrong)[: self.most]
            most = AT_LEAST + TIMES * sum(known.seconds[one] for one in tests)
            yield Work(wrong, partial(try_one, wrong, [at[known.names[n]] for n in tests]), most)


@dataclass(frozen=True)
class Work(Generic[P]):
    """What one fork does, and for how many seconds at most."""

    what: P
    do: Callable[[], str]
    seconds: float


def in_forks(every: Iterable[Work[P]], processes: int) -> Iterator[tuple[P, str]]:
    """Each piece of work, and what it says at its end; several at a time."""
    running: dict[int, tuple[int, Work[P], float]] = {}
    waiting = iter(every)
    while True:
        for work in islice(waiting, processes - len(running)):
            pid, pipe = forked(work.do)
            running[pipe] = pid, work, time.monotonic() + work.seconds
        if not running:
            return
        ready, _, _ = select.select(list(running), [], [], 1)
        for pipe, (pid, work, end) in list(running.items()):
            if pipe not in ready and time.monotonic() < end:
                continue
            if pipe not in ready:
                os.kill(pid, signal.SIGKILL)
            said = os.read(pipe, 4000).decode() if pipe in ready else "it never ends"
            os.waitpid(pid, 0)
            os.close(pipe)
            del running[pipe]
            yield work.what, said or DIED


def tiers(items: list[pytest.Item]) -> Iterator[list[pytest.Item]]:
    """The tests of the first tier, then what is slow, but for tests of the oracles themselves."""
    slow = [one for one in items if one.get_closest_marker("slow")]
    yield [one for one in items if not one.get_closest_marker("slow")]
    yield [one for one in slow if LEFT_OUT not in one.nodeid]


def forked(work: Callable[[], str]) -> tuple[int, int]:
    """Begin it in a fork; its number, and the pipe through which what it says comes at its end."""
    out, into = os.pipe()
    pid = os.fork()
    if pid:
        os.close(into)
        return pid, out
    said, me = DIED, os.getpid()
    try:
        resource.setrlimit(resource.RLIMIT_STACK, (STACK, resource.RLIM_INFINITY))
        silence = os.open(os.devnull, os.O_WRONLY)
        os.dup2(silence, 1)
        os.dup2(silence, 2)
        said = work() or NOTHING
    finally:
        if os.getpid() == me:  # and no process that a test has made
            os.write(into, said.encode()[:4000])
        os._exit(0)


def try_one(wrong: Wrong[Any], items: list[pytest.Item]) -> str:
    """The first test that sees a place made wrong, "" where none does."""
    if not put_in(wrong):
        return ""
    failed: list[str] = []

    class Note:
        def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
            if report.failed:
                failed.append(report.nodeid)

    for number, item in enumerate(items):
        if not number:
            item.config.pluginmanager.register(Note())
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=following(items, number))
        if failed:
            return failed[0]
    return ""


def following(items: list[pytest.Item], number: int) -> pytest.Item | None:
    """The next test, or this one at the end: what it shares need not be taken down."""
    return items[min(number + 1, len(items) - 1)]


def callers_of(known: Map, wrong: Wrong[Any]) -> list[int]:
    """The tests that call what is wrong: one of each test function first, the narrowest first."""
    found: set[int] = set()
    for (file, line), tests in known.calls.items():
        if file == wrong.file and wrong.first <= line <= wrong.last:
            found |= tests
    found.difference_update(known.failed)
    size = sizes(known)
    count: dict[str, int] = defaultdict(int)
    ranked = []
    for one in sorted(found, key=lambda n: (size[n], known.seconds[n])):
        function = known.names[one].partition("[")[0]
        ranked.append((count[function], size[one], known.seconds[one], one))
        count[function] += 1
    return [one for *_, one in sorted(ranked)]


def sizes(known: Map) -> list[int]:
    """How many functions each test calls."""
    found = [0] * len(known.names)
    for tests in known.calls.values():
        for one in tests:
            found[one] += 1
    return found


# The map


def the_map(items: list[pytest.Item], processes: int) -> Map:
    """From an earlier run on the same sources, else made by running the tests, a fork a file."""
    told = hashlib.sha256("\n".join(item.nodeid for item in items).encode())
    for path in sorted((*PACKAGE.rglob("*.py"), *(ROOT / "tests").rglob("*.py"))):
        told.update(path.read_bytes())
    folder = Path(tempfile.gettempdir(), f"benchleaf-calls-{told.hexdigest()[:16]}")
    folder.mkdir(exist_ok=True)
    files: dict[str, list[pytest.Item]] = defaultdict(list)
    for item in items:
        files[item.nodeid.partition("::")[0]].append(item)
    at = {name: folder / name.replace("/", "-") for name in files}
    work = (Work(name, partial(note, files[name], at[name]), LONGEST)
            for name in files if not at[name].exists())  # fmt: skip
    for name, said in in_forks(work, processes):
        if said != NOTHING:
            print(f"{name}: {said} before anything is wrong", flush=True)
    return joined(pickle.loads(path.read_bytes()) for path in at.values() if path.exists())


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
    return found


def note(items: list[pytest.Item], kept: Path) -> str:
    """Run the tests of a file, and keep which functions of the package each calls."""
    known, shared = Map(), dict[int, set[CodeType]]()
    failed: list[str] = []
    here = str(PACKAGE) + os.sep

    class Note:
        def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
            if report.failed and report.nodeid not in failed:
                failed.append(report.nodeid)

        @pytest.hookimpl(wrapper=True)
        def pytest_fixture_setup(self, fixturedef: Any) -> Any:
            """What a fixture calls is called by each test that uses it, not by the first alone."""
            seen = shared.setdefault(id(fixturedef), set())
            before = sys.gettrace()
            sys.settrace(tracer(seen))
            try:
                return (yield)
            finally:
                sys.settrace(before)

    items[0].config.pluginmanager.register(Note())
    for number, item in enumerate(items):
        seen: set[CodeType] = set()
        try_fewer(item)
        begun = time.perf_counter()
        sys.settrace(tracer(seen))
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=following(items, number))
        sys.settrace(None)
        known.names.append(item.nodeid)
        known.seconds.append(time.perf_counter() - begun)
        if len(failed) > len(known.failed):
            known.failed.append(number)
        uses: Any = getattr(item, "_fixtureinfo", None)
        for definitions in uses.name2fixturedefs.values() if uses else ():
            for one in definitions:
                seen |= shared.get(id(one), set())
        for code in seen:
            if code.co_filename.startswith(here):
                known.calls[code.co_filename[len(here) :], code.co_firstlineno].add(number)
    part = kept.with_suffix(f".{os.getpid()}")
    known.calls = dict(known.calls)
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


def tracer(seen: set[CodeType]) -> Callable[[FrameType, str, Any], None]:
    """Notes each function that is called, and no line of it."""
    add = seen.add

    def note(frame: FrameType, *_: Any) -> None:
        add(frame.f_code)

    return note
