"""How much of a job is warning, how often it is repeated, and how many touches it asks for.

Usage: python tests/bench/hazards.py [SITE [FORMER_SITE]]
Walks through the four rounds of every job in the step view of a built demo (built here, if no site
is named), as one sitting, and prints a line a job; with a site that was built before a change, what
it was there. Exits 1 where a hazard of a step was not told whole before the step, where its strip
leaves one out, or where hazards and controls of a step are not those of the former site.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, sync_playwright

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "e2e")]

import get_browser  # noqa: E402
from build_demo import FLAGS, KIOSK, ROOT, mkdocs_build  # noqa: E402

ROUNDS = (1, 2, 3, 4)


@dataclass(frozen=True)
class Walked:
    """What four rounds of one job were."""

    warned: int
    work: int
    touches: tuple[int, ...]
    again: int
    """Whole texts that came a second time within a round."""
    steps: dict[str, Any]
    faults: tuple[str, ...]

    def __str__(self) -> str:
        share = self.warned / (self.work or 1)
        return f"{self.warned:6} {self.work:6} {share:6.2f} {sum(self.touches):4} {self.again:4}"


def main() -> int:
    """Walk, print, compare."""
    sites = [Path(one) for one in sys.argv[1:3]]
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        if not sites:
            done = mkdocs_build(ROOT, "--site-dir", f"{folder}/site")
            if done.returncode:
                sys.exit(done.stdout + done.stderr)
            sites = [Path(folder, "site")]
        path = get_browser.browser()
        browser = playwright.chromium.launch(executable_path=path, args=list(FLAGS))
        page = browser.new_page(viewport={"width": KIOSK[0], "height": KIOSK[1]})
        walks = [{job: walked(page, site, job) for job in _jobs(site)} for site in sites]
        browser.close()
    return _report(walks)


def _jobs(site: Path) -> Iterator[str]:
    for path in sorted((site / "jobs").glob("*.html")):
        if 'id="follow"' in path.read_text(encoding="utf-8"):
            yield path.stem


def walked(page: Page, site: Path, job: str) -> Walked:
    """The four rounds of one job, as one sitting."""
    page.goto("about:blank")
    page.goto((site / f"jobs/{job}.html").as_uri())
    page.evaluate("sessionStorage.clear()")
    page.goto((site / f"jobs/{job}.html").as_uri() + "#follow")
    page.locator(".bl-bottom").wait_for()
    page.evaluate(Path(__file__).with_suffix(".js").read_text(encoding="utf-8") + "; 0")
    steps = page.evaluate("bench.steps()")
    found = page.evaluate("rounds => bench.walk(rounds)", list(ROUNDS))
    faults = [f"{job}: not told before the step: {one}" for one in found["late"]]
    if page.locator(".bl-step [data-hazard]").count():
        strips = page.evaluate("bench.strips()")
        faults += [f"{job}: strip of {name}: {b}, not {a}" for name, a, b in strips if a != b]
    return Walked(
        found["warned"],
        found["work"],
        tuple(found["touches"]),
        found["again"],
        steps,
        tuple(faults),
    )


def _report(walks: list[dict[str, Walked]]) -> int:
    faults = [fault for walk in walks[:1] for one in walk.values() for fault in one.faults]
    print("four rounds     warned   work  share touch again")
    for job, one in walks[0].items():
        print(f"{job:14} {one}")
        if len(walks) > 1 and job in walks[1]:
            print(f"{'  before':14} {walks[1][job]}")
            if walks[1][job].steps != one.steps:
                faults.append(f"{job}: hazards and controls are not those of before")
    print("\n".join(faults) or "every hazard and control of every step is there")
    return bool(faults)


if __name__ == "__main__":
    sys.exit(main())
