"""What moves when people were told a plan: random weeks, counted.

    python tests/bench/weeks.py [--count 40] [--no-solver]

Monday as planned is to move nothing; whatever happens, only what it hits and what waits for it.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from random import Random

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "plan")]

import test_survives_the_week as week  # noqa: E402
from made_crews import MONDAY, situation_of  # noqa: E402

from benchleaf import pipeline  # noqa: E402
from benchleaf.plan import timetable  # noqa: E402
from oracles.plans import faults  # noqa: E402


def main() -> None:
    """Measure."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--count", type=int, default=40)
    options.add_argument("--no-solver", action="store_true")
    given = options.parse_args()
    small = pipeline.load(TESTS / "shop").shop
    as_planned = beyond = moved = hits = happened = wrong = 0
    for seed in range(given.count):
        plan = week.start(seed, small, lambda *args, **more: situation_of(small, *args, **more))
        monday = timetable(week.after(plan, MONDAY), use_solver=not given.no_solver)
        as_planned += len(monday.schedule.moved)
        for made, hit in week.happenings(Random(seed), plan):
            new = timetable(made, use_solver=not given.no_solver)
            happened += 1
            hits += len(hit)
            moved += len(new.schedule.moved)
            beyond += len(week.no_more_than(plan, new, hit))
            wrong += len(faults(new))
    print(f"{given.count} weeks: {as_planned} moved where Monday went as planned")
    print(f"{happened} things happened: {hits} sessions and checks hit, {moved} moved, {beyond} of "
          f"them neither hit nor waiting; {wrong} faults found by the checker")  # fmt: skip


if __name__ == "__main__":
    main()
