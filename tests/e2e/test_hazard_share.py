"""What `check --readability` reckons of hazards is what the screen shows: words and touches."""

from __future__ import annotations

import importlib.util
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from benchleaf import pages, pipeline
from build_demo import KIOSK, ROOT
from running import sample

BENCH = Path(__file__).parents[1] / "bench" / "hazards.py"


def bench() -> Any:
    spec = importlib.util.spec_from_file_location("bench_hazards", BENCH)
    assert spec
    assert spec.loader
    module = sys.modules[spec.name] = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_what_is_reckoned_of_hazards_is_what_the_screen_shows(
    demo: Path, visit: Callable[..., Any]
) -> None:
    """By day two of the jobs; the bench script goes through all of them."""
    loaded = pipeline.load(ROOT / "content")
    reckoned = pages.hazard_shares(loaded.shop, loaded.terms, loaded.sheets)
    assert len(reckoned) == len(loaded.shop.jobs)
    walked = bench().walked
    page = visit(KIOSK).page
    for job in sample(sorted(reckoned), 2, seed=5):
        seen, one = walked(page, demo, job), reckoned[job]
        assert (seen.warned, seen.work, seen.touches) == (one.warned, one.work, one.touches), job
        assert seen.faults == ()
        assert seen.again == 0
