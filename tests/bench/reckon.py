"""Seconds to reckon drilling jobs with their force profiles and drawings, on one core.

    python tests/bench/reckon.py [--jobs 1000]

Takes the demo's drilling set-ups in turn, each with another start clearance, so that no answer
can be one reckoned before. Printed beside it: the same without the drawings. Run by hand; never
part of the tests.
"""

from __future__ import annotations

import argparse
import time
from collections.abc import Iterator
from itertools import cycle, islice
from pathlib import Path

from benchleaf import pipeline
from benchleaf.compute import set_up_sheets
from benchleaf.drawings.set_up_drawings import figures
from benchleaf.formulas.quantities import parse_quantity
from benchleaf.model import DrillingSetUp, Job, Shop

CONTENT = Path(__file__).parents[2] / "content"


def drilling_jobs(shop: Shop, count: int) -> Iterator[Job]:
    """Jobs with one drilling set-up each, no two alike."""
    found = [(job, one) for job in shop.jobs.values() for one in job.set_ups
             if isinstance(one, DrillingSetUp)]  # fmt: skip
    for number, (job, set_up) in enumerate(islice(cycle(found), count)):
        start = parse_quantity(f"{3 + number / 1000} mm", "length")
        own = set_up.model_copy(update={"start_clearance": start})
        yield job.model_copy(update={"set_ups": (own,)})


def main() -> None:
    """Measure, and print."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0] if __doc__ else None)
    parser.add_argument("--jobs", type=int, default=1000)
    count = parser.parse_args().jobs
    shop = pipeline.load(CONTENT).shop
    jobs = list(drilling_jobs(shop, count))
    begin = time.process_time()
    reckoned = [(job.set_ups[0], sheet) for job in jobs for sheet in set_up_sheets(shop, job)]
    between = time.process_time()
    drawn = [figures(sheet, set_up) for set_up, sheet in reckoned]
    end = time.process_time()
    profiles = sum(sheet.feel is not None for _, sheet in reckoned)
    print(f"{len(reckoned)} drilling set-ups, {profiles} with a force profile, "
          f"{sum(map(len, drawn))} drawings")  # fmt: skip
    print(f"  reckoned: {between - begin:.2f} s; drawn: {end - between:.2f} s; "
          f"both: {end - begin:.2f} s")  # fmt: skip


if __name__ == "__main__":
    main()
