"""How long `benchleaf check` takes on many breakdowns, stop by stop.

    python tests/bench/check.py [--jobs 1000] [--rounds 3] [--seed 7]

Makes synthetic breakdowns of the demo's richness. Prints the whole command's best time, then how
long each stop takes in one process and with helpers. Run by hand; never part of the tests.
"""

from __future__ import annotations

import argparse
import os
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path

from build import check_seconds, synthesise

from benchleaf import link, read, validate
from benchleaf import processes as spread
from benchleaf import record_by_record as survey
from benchleaf.model import FOLDERS


def _processor_seconds() -> float:
    times = os.times()
    return times.user + times.system + times.children_user + times.children_system


@contextmanager
def _told(what: str) -> Iterator[None]:
    wall, worked = time.perf_counter(), _processor_seconds()
    yield
    wall, worked = time.perf_counter() - wall, _processor_seconds() - worked
    print(f"  {what:<10} {wall:5.2f} s, {worked:5.2f} s of processor time")


def stops(content: Path) -> None:
    """Each stop of a check, timed."""
    with spread.no_collecting():
        with _told("read"):
            contents = read.read_content(content, FOLDERS)
        with _told("records"):
            shop, places, _ = validate.gather(contents, {}, {})
        with _told("survey"):
            terms = link.TermIndex(shop.terms.values())
            survey.survey(shop, places, terms, date.today(), keep_sheets=False)
        with _told("shop rules"):
            list(validate.check_shop(shop, places))


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0] if __doc__ else None)
    parser.add_argument("--jobs", type=int, default=1000)
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--seed", type=int, default=7)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as temporary:
        folder = Path(temporary)
        synthesise(folder / "content", options.jobs, options.seed)
        best = min(check_seconds(folder) for _ in range(options.rounds))
        print(f"{options.jobs} jobs: benchleaf check {best:.1f} s on {os.cpu_count()} cores")
        print("with helpers:")
        stops(folder / "content")
        print("in one process:")
        spread.MOST_PROCESSES = 1
        stops(folder / "content")


if __name__ == "__main__":
    main()
