"""What the suite costs: processor seconds of every test file, those of browsers and forks included.

Usage: python tests/bench/suite.py [what pytest shall run, and its options]

The suite keeps every core busy, so that only less work makes it shorter. Each process of the suite
reads, before and after a test with its fixtures, what it has used so far, and for tests with a
browser what all below it have (`/proc`, so on Linux only). What a site or a browser costs is
counted where it is asked for first.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

import pytest

TO = "BENCHLEAF_SUITE_COSTS"
"""Environment: the folder into which each process of the suite writes."""
TICKS = os.sysconf("SC_CLK_TCK")
SHOWN = 60
"""Lines of each table."""


def used() -> float:
    """Processor seconds so far of this process, all below it, and those that have ended."""
    parents: dict[int, int] = {}
    ticks: dict[int, int] = {}
    for entry in os.scandir("/proc"):
        if entry.name.isdigit():
            try:
                told = Path(entry.path, "stat").read_bytes().rpartition(b")")[2].split()
            except OSError:
                continue  # it has just ended
            parents[int(entry.name)] = int(told[1])
            ticks[int(entry.name)] = sum(map(int, told[11:15]))
    mine = {os.getpid()}
    more = True
    while more:
        below = {one for one, parent in parents.items() if parent in mine} - mine
        mine |= below
        more = bool(below)
    return sum(ticks.get(one, 0) for one in mine) / TICKS


def own() -> float:
    """The same without what still runs below this process: a thousand times faster."""
    return sum(os.times()[:4])


class Costs:
    """Notes in one process what each test costs, and what is spent outside of tests."""

    def __init__(self, to: Path) -> None:
        self.file = (to / f"{os.environ.get('PYTEST_XDIST_WORKER', 'first')}.txt").open(
            "w", buffering=1
        )
        self.ended = own()
        self.note("outside of tests, before the collection", self.ended)

    def note(self, name: str, cost: float) -> None:
        self.file.write(f"{cost:.4f} {name}\n")

    def pytest_collection_finish(self) -> None:
        now = own()
        self.note("outside of tests, the collection", now - self.ended)
        self.ended = now

    @pytest.hookimpl(hookwrapper=True, tryfirst=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        self.note("outside of tests, between them", own() - self.ended)
        reading = used if "/e2e/" in item.nodeid else own
        before = reading()
        yield
        # A browser that ends takes what it has used with it.
        self.note(item.nodeid, max(0.0, reading() - before))
        self.ended = own()

    def pytest_unconfigure(self) -> None:
        self.file.close()


def pytest_configure(config: pytest.Config) -> None:
    if TO in os.environ:
        hands_out = not hasattr(config, "workerinput") and config.getoption("numprocesses", None)
        if not hands_out:
            config.pluginmanager.register(Costs(Path(os.environ[TO])))


def main(options: list[str]) -> int:
    with tempfile.TemporaryDirectory(prefix="suite-costs-") as folder:
        here = os.pathsep.join([str(Path(__file__).parent), os.environ.get("PYTHONPATH", "")])
        code = subprocess.call(
            [sys.executable, "-m", "pytest", "-p", "suite", "-q", *options],
            env={**os.environ, TO: folder, "PYTHONPATH": here},
        )
        lines = [
            one.split(" ", 1)
            for file in Path(folder).iterdir()
            for one in file.read_text(encoding="utf-8").splitlines()
        ]
    tests: dict[str, float] = defaultdict(float)
    files: dict[str, float] = defaultdict(float)
    for seconds, name in lines:
        tests[name] += float(seconds)
        files[name.partition("::")[0]] += float(seconds)
    print(f"{sum(files.values()):8.1f} s of processor time")
    for what in (files, tests):
        print()
        for name, cost in sorted(what.items(), key=lambda one: -one[1])[:SHOWN]:
            print(f"{cost:8.1f} {name}")
    return code


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
