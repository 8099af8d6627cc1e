"""Time to the first readable text and to the first search result, on a slow processor, from disk.

    python tests/bench/search.py [--jobs 100 1000] [--slower 6] [--rounds 5] [--site FOLDER]

Builds synthetic shops as build.py does, opens their pages in Chromium slowed down so many times,
and prints best, median and worst, the bytes of script and style that a page loads, and what the
index costs. "Work" is the page's own processor time, slowed as well: it says what a wait would be
where other programs do not hold the processor. With `--site` it measures a site that is built
already. Run by hand.
"""

from __future__ import annotations

import argparse
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from pathlib import Path
from urllib.parse import unquote, urlparse

from playwright.sync_api import Browser, Page, sync_playwright

sys.path.insert(0, str(Path(__file__).parents[1]))

from build import BENCHLEAF_YML, synthesise

import get_browser

FLAGS = ("--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-sync")
QUESTIONS = (
    "drill",
    "dr",
    "chuck key",
    "quill lock spring",
    "reemer",
    "presure",
    "sy-00042",
    "the",
)
"""A common word, a beginning, two words, three, two slips, a number, a word on every page."""

BEFORE_TYPING = 500
"""ms from the touch on the box, which loads what finds, to the first letter."""

PAINTED = """() => new Promise(done => {
  const told = () => performance.getEntriesByName('first-contentful-paint')[0]?.startTime;
  const wait = () => told() === undefined ? setTimeout(wait, 20) : done(told());
  wait(); })"""
ANSWERED = """text => new Promise(done => {
  const box = document.getElementById('bl-search-input');
  const told = document.querySelector('.bl-results__count');
  const begin = performance.now();
  new MutationObserver((_, one) => { one.disconnect();
    requestAnimationFrame(() => setTimeout(() => done(performance.now() - begin))); }
  ).observe(told, {childList: true});
  box.value = text;
  box.dispatchEvent(new Event('input', {bubbles: true})); })"""


def main() -> None:
    """Measure each size in turn."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0] if __doc__ else None)
    parser.add_argument("--jobs", type=int, nargs="+", default=[100, 1000])
    parser.add_argument("--slower", type=float, default=6)
    parser.add_argument("--rounds", type=int, default=5)
    parser.add_argument("--site", type=Path)
    options = parser.parse_args()
    with sync_playwright() as playwright:
        path = get_browser.browser()
        browser = playwright.chromium.launch(executable_path=path, args=list(FLAGS))
        for name, site in _sites(options.jobs, options.site):
            print(f"{name}, processor slowed {options.slower:g} times")
            measure(browser, site, options.slower, options.rounds)


def _sites(sizes: list[int], given: Path | None) -> Iterator[tuple[str, Path]]:
    if given:
        yield str(given), given.resolve()
        return
    for count in sizes:
        with tempfile.TemporaryDirectory() as temporary:
            folder = Path(temporary)
            synthesise(folder / "content", count, 7)
            (folder / "mkdocs.yml").write_text(BENCHLEAF_YML, encoding="utf-8")
            command = (sys.executable, "-m", "mkdocs", "build", "--quiet")
            subprocess.run(command, cwd=folder, check=True)
            yield f"{count} jobs", folder / "site"


def measure(browser: Browser, site: Path, slower: float, rounds: int) -> None:
    """Print the figures of one site."""
    a_job = next(iter(sorted((site / "jobs").glob("[!i]*.html")))).relative_to(site).as_posix()
    for name in ("index.html", a_job):
        with SlowPage(browser, slower) as slow:
            times = [_painted(slow.page, site, name) for _ in range(rounds)]
            _tell(f"first text of {name}", times)
        print(f"  {name}: {_bytes(browser, site, name)}")
    for question in QUESTIONS:
        times, warm, work = [], [], []
        for _ in range(rounds):
            with SlowPage(browser, slower) as slow:
                page = slow.page
                page.goto((site / a_job).as_uri())
                page.locator("#bl-search-input").tap()
                page.wait_for_timeout(BEFORE_TYPING)
                page.evaluate("0")  # what drives the browser puts its own script in first
                before = slow.work()
                times.append(page.evaluate(ANSWERED, question))
                work.append(slow.work() - before)
                page.evaluate(ANSWERED, "stop")
                warm.append(page.evaluate(ANSWERED, question))
                found = page.locator(".bl-results__count").text_content()
        _tell(f"first result of '{question}' ({found})", times, warm, work)
    _index(site)


class SlowPage:
    """A page with a fresh profile on a slow processor."""

    def __init__(self, browser: Browser, slower: float) -> None:
        self._context = browser.new_context(
            viewport={"width": 1080, "height": 1920}, has_touch=True, offline=True
        )
        self.page = self._context.new_page()
        self._session = self._context.new_cdp_session(self.page)
        self._session.send("Performance.enable", {"timeDomain": "threadTicks"})
        self._session.send("Emulation.setCPUThrottlingRate", {"rate": slower})

    def work(self) -> float:
        """Milliseconds of processor time that the page's main thread has used."""
        metrics = self._session.send("Performance.getMetrics")["metrics"]
        return 1000 * next(float(one["value"]) for one in metrics if one["name"] == "TaskDuration")

    def __enter__(self) -> SlowPage:
        return self

    def __exit__(self, *_: object) -> None:
        self._context.close()


def _painted(page: Page, site: Path, name: str) -> float:
    page.goto("about:blank")
    page.goto((site / name).as_uri())
    return float(page.evaluate(PAINTED))


def _tell(
    what: str, cold: list[float], warm: Sequence[float] = (), work: Sequence[float] = ()
) -> None:
    again = f"; again {statistics.median(warm):.0f}" if warm else ""
    again += f"; work {statistics.median(work):.0f}" if work else ""
    best, middle, worst = min(cold), statistics.median(cold), max(cold)
    print(f"  {what}: best {best:.0f} ms, median {middle:.0f}, worst {worst:.0f}{again}")


def _bytes(browser: Browser, site: Path, name: str) -> str:
    """Bytes that a page loads, by kind."""
    sizes = {"document": 0, "script": 0, "stylesheet": 0, "image": 0}
    with browser.new_context() as context:
        page = context.new_page()
        page.on(
            "request",
            lambda one: sizes.update(
                {one.resource_type: sizes.get(one.resource_type, 0) + _size(one.url)}
            ),
        )
        page.goto((site / name).as_uri())
        page.wait_for_timeout(300)
    return ", ".join(f"{kind} {size / 1000:.1f} kB" for kind, size in sizes.items())


def _size(url: str) -> int:
    path = Path(unquote(urlparse(url).path))
    return path.stat().st_size if url.startswith("file:") and path.is_file() else 0


def _index(site: Path) -> None:
    folder = site / "assets/benchleaf/search"
    sizes = {path.name: path.stat().st_size for path in folder.iterdir()}
    start, words = sizes["start.js"], sizes["all-words.js"]
    shelves = [size for name, size in sizes.items() if name.startswith("words-")]
    texts = [size for name, size in sizes.items() if name.startswith("texts-")]
    whole = sum(sizes.values())
    print(
        f"  the index: {len(sizes)} files, {whole / 1e6:.1f} MB; start {start / 1000:.1f} kB,"
        f" all words {words / 1000:.1f} kB, largest shelf {max(shelves) / 1000:.1f} kB,"
        f" largest texts {max(texts) / 1000:.1f} kB"
    )


if __name__ == "__main__":
    begin = time.perf_counter()
    main()
    print(f"measured in {time.perf_counter() - begin:.0f} s")
