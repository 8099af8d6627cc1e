"""Tries wrong places in forks of one collected run, so that each costs its own tests only.

`tests/mutate.py` hands this to pytest as a plugin. The suite is collected once, and a map is made
of which test runs which line (`mutants_map.py`). Then there is a fork for each place: the wrong
code is put into the functions that are there, or the wrong value where the sound one stands, and
the tests run that run this line, those with the fewest other functions first. The first failure
ends it, and so does the time that a place has.
"""

from __future__ import annotations

import functools
import gc
from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from types import CodeType, FunctionType
from typing import Any, Generic, TypeVar

import pytest

from mutants_forks import NOTHING, Work, in_forks
from mutants_map import Map, following, the_map
from mutants_values import put_in_values, users_of

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "plugins" / "benchleaf"
LEFT_OUT = "compute/test_corrupt.py"
TIMES, AT_LEAST = 8, 120
"""How much longer than sound code, and how many seconds in any case: an endless loop is seen."""
OTHERS = 10.0
"""Seconds for tests that call the function, though they are not known to run its line."""
P = TypeVar("P")


@dataclass(frozen=True)
class Wrong(Generic[P]):
    """A place: its line, the lines of its outermost function, and the module with it made wrong.

    Both are 0 for a place outside of functions.
    """

    place: P
    file: str
    line: int
    first: int
    last: int
    source: str


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
    if not wrong.last:
        return put_in_values(wrong.file, wrong.source)
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
                 seconds: float) -> None:  # fmt: skip
        self.wrongs, self.processes, self.done, self.seconds = wrongs, processes, done, seconds

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        capture = session.config.pluginmanager.getplugin("capturemanager")
        items = [one for one in session.items if LEFT_OUT not in one.nodeid]
        with capture.global_and_fixture_disabled():
            known = the_map(items, self.processes)
            for one, said in in_forks(self._work(known, items), self.processes):
                self.done(one.place, said if said != NOTHING else "")
        return True

    def _work(self, known: Map, items: list[pytest.Item]) -> Iterator[Work[Wrong[P]]]:
        at = {item.nodeid: item for item in items}
        size = sizes(known)
        for wrong in self.wrongs:
            tests = within(self.seconds, known, those_that_run(known, wrong, size))
            most = AT_LEAST + TIMES * sum(known.seconds[one] for one in tests)
            yield Work(wrong, partial(try_one, wrong, [at[known.names[n]] for n in tests]), most)


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


def those_that_run(known: Map, wrong: Wrong[Any], size: list[int]) -> list[int]:
    """The tests that may see it, those most likely to first: see `ranked`.

    First those that run its line, then some that call its function. For a value outside of
    functions, those that call a function which names it.
    """
    callers: set[int] = set()
    inside = ({(wrong.file, line) for line in range(wrong.first, wrong.last + 1)} if wrong.last
              else users_of(wrong.file, wrong.source))  # fmt: skip
    for function in inside:
        callers |= known.calls.get(function, set())
    if not wrong.last:
        return ranked(known, callers, size)
    bits = known.lines.get((wrong.file, wrong.line), 0)
    here = {one for one in callers if bits >> one & 1}
    others = ranked(known, callers - here, size)
    return ranked(known, here, size) + within(OTHERS, known, others)


def ranked(known: Map, tests: set[int], size: list[int]) -> list[int]:
    """One of each test function first, the narrowest first."""
    count: dict[str, int] = defaultdict(int)
    found = []
    for one in sorted(tests - set(known.failed), key=lambda n: (size[n], known.seconds[n])):
        function = known.names[one].partition("[")[0]
        found.append((count[function], size[one], known.seconds[one], one))
        count[function] += 1
    return [one for *_, one in sorted(found)]


def within(seconds: float, known: Map, tests: list[int]) -> list[int]:
    """As many of them as have taken so long when all was sound, and one at least."""
    found = []
    for one in tests:
        found.append(one)
        seconds -= known.seconds[one]
        if seconds < 0:
            break
    return found


def sizes(known: Map) -> list[int]:
    """How many functions each test calls."""
    found = [0] * len(known.names)
    for tests in known.calls.values():
        for one in tests:
            found[one] += 1
    return found
