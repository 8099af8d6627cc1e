"""Looking at a page as one who sees little, or touches with a glove: axe-core and measurements."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from importlib import resources
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit
from urllib.request import url2pathname

from playwright.sync_api import Browser, Page

AXE = resources.files("axe_playwright_python") / "axe.min.js"
MEASURE = Path(__file__).with_name("measure.js")
TAGS = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")
SIZES = {
    "portrait": (1080, 1920),
    "landscape": (1920, 1080),
    "tablet": (1280, 800),
    "phone": (390, 844),
}
KIOSKS = ("portrait", "landscape", "tablet")
LIGHTS = ("default", "slate")

_RUN = """async ([tags, part, contrast]) => { const found = await axe.run(part || document,
  {runOnly: {type: 'tag', values: tags}, resultTypes: ['violations', 'incomplete'],
   rules: {'color-contrast': {enabled: contrast}}});
  const short = one => one.nodes.map(node => one.id + ': ' + node.target.join(' ') + ' '
    + (node.any.concat(node.all, node.none)[0] || {message: ''}).message);
  return {violations: found.violations.flatMap(short),
    undecided: found.incomplete.filter(one => one.id !== 'color-contrast').flatMap(short),
    contrast: found.incomplete.filter(one => one.id === 'color-contrast')
      .reduce((sum, one) => sum + one.nodes.length, 0)} }"""


@dataclass
class Look:
    """What was found on one page, on one screen, in one state."""

    name: str
    faults: list[str] = field(default_factory=list)
    """Violations, and what axe could not judge, contrast apart, which is measured here."""
    contrast_left: int = 0
    """Nodes whose contrast axe left undecided."""
    texts: list[list[Any]] = field(default_factory=list)
    """Ratio, kind, words and element of every text."""
    letters: list[list[Any]] = field(default_factory=list)
    """Height, words and element of every text."""
    pictures: list[list[Any]] = field(default_factory=list)
    """Address, enlargement and words of every picture, and whether a button shows it larger."""
    targets: list[list[Any]] = field(default_factory=list)
    """Smaller side, words and element of every target outside running text."""
    layout: list[str] = field(default_factory=list)
    """Sideways scroll, text on text, figures not told or cut off."""


def page_types(site: Path) -> list[str]:
    """The first page of each folder that is no list, each list, and each page at the top."""
    names = [path.relative_to(site).as_posix() for path in sorted(site.rglob("*.html"))]
    top = [name for name in names if "/" not in name]
    lists = [name for name in names if name.endswith("/index.html")]
    first: dict[str, str] = {}
    for name in names:
        if "/" in name and not name.endswith("/index.html"):
            first.setdefault(name.partition("/")[0], name)
    return [*top, *lists, *first.values()]


def open_at(browser: Browser, size: tuple[int, int], light: str = "default", text: int = 1) -> Page:
    """A fresh reader's page at a screen of that size and light, with that size of text."""
    context = browser.new_context(
        viewport={"width": size[0], "height": size[1]},
        has_touch=True,
        offline=True,
        reduced_motion="reduce",
    )
    context.add_init_script(
        f"localStorage.setItem('benchleaf.light', '{light}');"
        f"localStorage.setItem('benchleaf.text', '{text}');"
    )
    return context.new_page()


def put_on(page: Page, size: tuple[int, int]) -> None:
    """Put the page on a screen of that size; what is opened there next is laid out for it."""
    if page.viewport_size != {"width": size[0], "height": size[1]}:
        page.goto("about:blank")
        page.set_viewport_size({"width": size[0], "height": size[1]})


def put(page: Page, script: Any) -> None:
    """Put a script into the page; the page's own policy does not hold the debugger back."""
    page.evaluate(script.read_text(encoding="utf-8") + "; 0")


def look_at(
    page: Page,
    name: str,
    *,
    axe: bool = True,
    contrast: bool = True,
    part: str = "",
    script: Any = AXE,
) -> Look:
    """Everything that is measured on the page as it stands; axe on a part of it, if one is named.

    axe takes seconds on a long page, so that of a page looked at already only the part that is new
    is worth its time. Most of them go into contrast, which is measured here as well, and more
    strictly: without `contrast` axe leaves it alone.
    """
    look = Look(name)
    put(page, MEASURE)
    if axe:
        put(page, script)
        found = page.evaluate(_RUN, [list(TAGS), part, contrast])
        look.faults = found["violations"] + found["undecided"]
        look.contrast_left = found["contrast"]
    for what, measured in page.evaluate("measure.all()").items():
        setattr(look, what, measured)
    return look


# States: a page, and what is done on it before it is looked at

JOB = "jobs/tr-0110.html"


def _step(page: Page, number: int, *, read: bool = True, round_of: int = 0) -> None:
    """Straight to a step, with its hazards read or not."""
    page.evaluate(
        """([number, read, round]) => { const follow = window.benchleafFollow;
             const screen = follow.steps[number - 1]; follow.state.round = round;
             if (read) follow.markRead(screen);
             follow.state.at = follow.screens.indexOf(screen); follow.show(); }""",
        [number, read, round_of],
    )


def _hazards(page: Page) -> None:
    page.evaluate(
        """() => { const follow = window.benchleafFollow; follow.state.at =
             follow.screens.findIndex(one => one.name === 'hazards'); follow.show(); }"""
    )


def _touch(css: str) -> Callable[[Page], None]:
    return lambda page: page.locator(css).first.click()


def _check(page: Page) -> None:
    page.locator("[data-do='rounds']").click()
    page.locator(".bl-extra .bl-choice").last.click()
    page.locator(".bl-check-count").wait_for()  # its script is loaded when it is asked for


def _wrong_answer(page: Page) -> None:
    _check(page)
    page.locator(".bl-extra .bl-choice").last.click()


def _result(page: Page) -> None:
    """Through the whole self-check, right or wrong."""
    _check(page)
    page.evaluate(
        """() => { const all = css => [...document.querySelectorAll('.bl-extra ' + css)];
             for (let turn = 0; turn < 200 && !all('.bl-score').length; turn += 1) {
               all('.bl-choice:not(.bl-choice--on)').forEach(one => one.click());
               all('.bl-choice--on').forEach(one => one.click()); } }"""
    )
    page.locator(".bl-score").wait_for()


def _end(page: Page) -> None:
    page.evaluate(
        """() => { const follow = window.benchleafFollow;
             follow.state.at = follow.screens.length; follow.show(); }"""
    )


def _find(page: Page) -> None:
    page.locator("#bl-search-input").fill("vice")
    page.locator(".bl-found").first.wait_for()


def _find_nothing(page: Page) -> None:
    page.locator("#bl-search-input").fill("zzqqxx")
    page.locator(".bl-results__count").wait_for()


def _term(page: Page) -> None:
    page.locator("main .bl-term:visible").first.click()
    page.locator(".bl-meaning").wait_for()


def _idle(page: Page) -> None:
    """The warning before the screen goes home, long before its time."""
    page.evaluate("document.body.dataset.idle = '0.1'")
    page.locator(".bl-idle[open]").wait_for()


def _old_copy(page: Page) -> None:
    """The notice that the copy is older than the shop's rule."""
    page.evaluate("document.querySelector('.bl-age').textContent = 'This copy is 40 days old.'")


def _large(page: Page) -> None:
    page.locator(".bl-larger:visible").first.click()
    page.locator(".bl-large[open]").wait_for()


def _working(page: Page) -> None:
    page.locator("details.bl-figure summary").first.click()


STATES: dict[str, tuple[str, Callable[[Page], None]]] = {
    "found": ("index.html", _find),
    "nothing found": ("index.html", _find_nothing),
    "term": ("machines/pillar-drill.html", _term),
    "idle": ("fluids/index.html", _idle),
    "old copy": ("index.html", _old_copy),
    "large picture": (JOB, _large),
    "working": (f"{JOB}#set-up", _working),
    "get ready": (f"{JOB}#follow", lambda page: None),
    "hazards of the job": (f"{JOB}#follow", _hazards),
    "hazards of a step": (f"{JOB}#follow", lambda page: _step(page, 3, read=False)),
    "step": (f"{JOB}#follow", lambda page: _step(page, 4)),
    "round 1": (f"{JOB}#follow", lambda page: _step(page, 4, round_of=1)),
    "round 2": (f"{JOB}#follow", lambda page: _step(page, 2, round_of=2)),
    "round 3": (f"{JOB}#follow", lambda page: _step(page, 2, round_of=3)),
    "round 4": (f"{JOB}#follow", lambda page: _step(page, 2, round_of=4)),
    "end of a round": (f"{JOB}#follow", _end),
    "all steps": (f"{JOB}#follow", _touch("[data-do='all']")),
    "the rounds": (f"{JOB}#follow", _touch("[data-do='rounds']")),
    "something is wrong": (f"{JOB}#follow", _touch("[data-do='wrong']")),
    "at work": (f"{JOB}#bl-at-work", _touch("[data-work-do='done']")),
    "slip": (f"{JOB}#if-wrong", _touch("[data-slip='make']")),
    "self-check": (f"{JOB}#follow", _wrong_answer),
    "result of the self-check": (f"{JOB}#follow", _result),
}
"""Name: address, what is done there."""


PARTS = {
    "idle": ".bl-idle",
    "term": ".bl-meaning",
    "large picture": ".bl-large",
    "working": ".bl-setup",
    "old copy": ".bl-age",
    "something is wrong": ".bl-now",
    "at work": ".bl-work",
    "slip": ".bl-slip",
}
"""What a state adds to a page that is looked at without it too."""


def prepare(page: Page, site: Path, address: str, state: str) -> None:
    """Open a page, in a tab that remembers nothing, and bring it into a state."""
    name, mark, anchor = address.partition("#")
    page.goto("about:blank")
    page.goto((site / name).as_uri())
    page.evaluate("sessionStorage.clear()")
    if mark:
        page.goto((site / name).as_uri() + mark + anchor)
    page.evaluate("document.querySelectorAll('.bl-rest').forEach(one => { one.open = true; })")
    if anchor == "follow":
        page.locator(".bl-bottom").wait_for()
    if state:
        STATES[state][1](page)


def letters_of_pictures(look: Look) -> Iterator[tuple[float, str]]:
    """The smallest letters of each drawn picture as displayed.

    Small copies beside words that say the same, and those that a button shows larger, are apart;
    the larger one is a state of its own.
    """
    for address, times, words, has_larger in look.pictures:
        if words and not has_larger:
            name = address.rpartition("/")[2]
            yield from ((height, name) for height in letters_of(address, times))


def letters_of(address: str, times: float) -> Iterator[float]:
    """The smallest letters of a drawn picture, shown so many times as large; none of others."""
    path = Path(url2pathname(urlsplit(address).path))
    if path.suffix == ".svg":
        sizes = re.findall(r'font-size="([\d.]+)', path.read_text(encoding="utf-8"))
        if sizes:
            yield min(map(float, sizes)) * times


def least_height(size: str) -> int:
    """Pixels: 24 where a screen is 1080 wide or more, 20 at 1280 by 800, 16 on a telephone."""
    return {"tablet": 20, "phone": 16}.get(size, 24)
