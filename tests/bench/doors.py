"""How long the first pages are, and how many touches lead from home to the first step of a job.

Usage: python tests/bench/doors.py [SITE] [--forty]
For a built demo (built here, if no site is named) at four sizes: the height of each job page and of
home in screens, folded as it opens and with all open; whether a job's ways on, and of *Something is
wrong* the first two things (who is called, the four choices), stand on the first screen. With
`--forty` the shop of 40 jobs on 8 stations is built, and the touches from home to the first step of
each job are counted at the kiosk; what would need scrolling is named.
"""

from __future__ import annotations

import argparse
import re
import statistics
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "e2e")]


from doors import first_two_are_seen, screens_high, seen, touches_to_first_step  # noqa: E402

import get_browser  # noqa: E402
from access import SIZES  # noqa: E402
from build_demo import FLAGS, KIOSK, MKDOCS_YML, ROOT, mkdocs_build, write_files  # noqa: E402
from forty_jobs import forty_jobs  # noqa: E402


def main() -> int:
    """Measure, and print a line a size."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("site", nargs="?")
    parser.add_argument("--forty", action="store_true")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        site = Path(given.site or _built(Path(folder), forty=given.forty)).absolute()
        browser = playwright.chromium.launch(
            executable_path=get_browser.browser(), args=list(FLAGS)
        )
        for name, size in SIZES.items():
            _lengths(browser, site, name, size)
        if given.forty:
            _touches(browser, site)
        browser.close()
    return 0


def _built(folder: Path, *, forty: bool) -> str:
    if forty:
        shop = TESTS / "shop"
        base = {
            one.relative_to(shop).as_posix(): one.read_text(encoding="utf-8")
            for one in sorted(shop.rglob("*"))
            if one.is_file() and one.name != "revisions.yml"
        }
        write_files(folder / "content", forty_jobs(base))
        (folder / "mkdocs.yml").write_text(MKDOCS_YML, encoding="utf-8")
    done = mkdocs_build(folder if forty else ROOT, "--site-dir", str(folder / "site"))
    if done.returncode:
        sys.exit(done.stdout + done.stderr)
    return f"{folder}/site"


def _jobs(site: Path) -> list[Path]:
    """The pages of jobs: no list, and no address that has moved."""
    pages = sorted((site / "jobs").glob("*.html"))
    return [one for one in pages if 'id="machine-controls"' in one.read_text(encoding="utf-8")]


def _open(browser: Browser, size: tuple[int, int]) -> Page:
    context = browser.new_context(
        viewport={"width": size[0], "height": size[1]}, has_touch=True, offline=True
    )
    return context.new_page()


def _lengths(browser: Browser, site: Path, name: str, size: tuple[int, int]) -> None:
    page = _open(browser, size)
    page.goto((site / "index.html").as_uri())
    home = screens_high(page)
    folded, whole, ways, wrong = [], [], 0, 0
    for path in _jobs(site):
        page.goto(path.as_uri())
        folded.append(screens_high(page))
        ways += seen(page, ".bl-ways-on, .bl-learn__start")
        page.evaluate("document.querySelectorAll('.bl-rest').forEach(one => { one.open = true; })")
        page.wait_for_timeout(50)
        whole.append(screens_high(page))
        page.goto(path.as_uri() + "#if-wrong")
        wrong += first_two_are_seen(page)
    jobs = len(folded)
    print(
        f"{name:10} home {home:.2f} screens; {jobs} jobs: folded {min(folded):.2f} to "
        f"{max(folded):.2f}, middle {statistics.median(folded):.2f}; all open "
        f"{statistics.median(whole):.1f}, most {max(whole):.1f}; ways on seen at once {ways}; "
        f"first two of what is wrong seen {wrong}"
    )
    page.context.close()


def _touches(browser: Browser, site: Path) -> None:
    counted: dict[str, int] = {}
    for path in _jobs(site):
        page = _open(browser, KIOSK)
        page.goto((site / "index.html").as_uri())
        crumb = re.search(
            r"bl-crumbs\"><a href=\"\.\./machines/([\w-]+)", path.read_text(encoding="utf-8")
        )
        told = touches_to_first_step(page, crumb[1] if crumb else "", path.stem)
        counted[told] = counted.get(told, 0) + 1
        page.context.close()
    print("; ".join(f"{told}: {count} jobs" for told, count in sorted(counted.items())))


if __name__ == "__main__":
    sys.exit(main())
