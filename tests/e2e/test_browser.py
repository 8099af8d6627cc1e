"""The demo manual in a real browser, opened from disk with the network off."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from build_demo import KIOSK, LANDSCAPE, PHONE, demo_shop
from running import is_nightly, sample, some
from visitor import Visitor, watch

Visit = Callable[..., Any]


def _pages(site: Path) -> list[str]:
    return sorted(path.relative_to(site).as_posix() for path in site.rglob("*.html"))


def _to_open(site: Path) -> list[str]:
    """Every page at the top, a quarter of the jobs, and a twelfth of the rest; by night all."""
    every = _pages(site)
    top = [one for one in every if "/" not in one]
    jobs = [one for one in every if one.startswith("jobs/")]
    rest = [one for one in every if one not in top and one not in jobs]
    chosen = [*sample(jobs, len(jobs) // 4, seed=7), *sample(rest, len(rest) // 12, seed=7)]
    return sorted([*top, *chosen])


@dataclass
class Seen:
    """One page, opened once."""

    name: str
    policy: str
    widths: dict[tuple[int, int], int] = field(default_factory=dict)
    """How wide its contents are, at each size of the screen."""


@dataclass(frozen=True)
class Walk:
    """Every page of the demo in turn, scrolled to its end."""

    pages: tuple[Seen, ...]
    strays: tuple[str, ...]


SIZES = (KIOSK, LANDSCAPE, PHONE, (320, 700))


def _sizes(number: int) -> tuple[tuple[int, int], ...]:
    """Two of the four for the page of that number, one wide and one narrow; by night all."""
    wide, narrow = SIZES[number % 2], SIZES[2 + number // 2 % 2]
    return SIZES if is_nightly() else (wide, narrow)


@pytest.fixture(scope="module")
def walk(demo: Path, browser: Browser) -> Walk:
    """Opened once for all that is asked of every page; a resized page is laid out anew."""
    context = browser.new_context(has_touch=True, offline=True)
    visitor = Visitor(context.new_page())
    watch(visitor)
    found = []
    for number, name in enumerate(_to_open(demo)):
        first, *others = _sizes(number)
        visitor.page.set_viewport_size({"width": first[0], "height": first[1]})
        page = visitor.open(demo, name)
        page.evaluate("document.querySelectorAll('.bl-rest').forEach(one => { one.open = true; });"
                      "window.scrollTo(0, document.body.scrollHeight)")  # fmt: skip
        policy = page.locator("meta[http-equiv]").first.get_attribute("content")
        found.append(Seen(name, policy or ""))
        found[-1].widths[first] = page.evaluate("document.documentElement.scrollWidth")
        for size in others:
            page.set_viewport_size({"width": size[0], "height": size[1]})
            found[-1].widths[size] = page.evaluate("document.documentElement.scrollWidth")
    context.close()
    return Walk(tuple(found), tuple(visitor.strays))


def test_no_request_leaves_the_disk_and_the_console_stays_empty(walk: Walk) -> None:
    assert len(walk.pages) > 25
    assert walk.strays == ()


@pytest.mark.parametrize("size", SIZES)
def test_no_page_scrolls_sideways(walk: Walk, size: tuple[int, int]) -> None:
    widths = {one.name: one.widths[size] for one in walk.pages if size in one.widths}
    assert len(widths) > 10
    assert {name: width for name, width in widths.items() if width > size[0]} == {}
    assert min(widths.values()) == size[0]


def test_every_page_has_the_policy(walk: Walk) -> None:
    for one in some(walk.pages):
        assert "default-src 'none'" in one.policy, one.name
        assert "script-src 'self';" in one.policy, one.name


@pytest.mark.parametrize("size", sample([KIOSK, PHONE], 1, seed=1))
def test_from_home_to_any_job_in_three_taps_at_most(
    demo: Path, visit: Visit, size: tuple[int, int]
) -> None:
    jobs = demo_shop().jobs
    assert len(jobs) >= 8
    visitor = visit(size)
    for job in sample(list(jobs.values()), 2, seed=size[0]):
        page = visitor.open(demo, "index.html")
        page.locator(f"main h3 a[href='machines/{job.machine}.html']").tap()
        page.wait_for_url(f"**/machines/{job.machine}.html")
        page.locator(f"main a.bl-job-door[href$='/jobs/{job.id}.html']").first.tap()
        page.wait_for_url(f"**/jobs/{job.id}.html")
        assert page.locator("h1 .bl-number").inner_text() == job.id.upper()
    assert visitor.strays == []


def test_text_is_large_enough_for_a_standing_reader(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, "jobs/tr-0110.html")
    sizes = page.evaluate(
        """() => { const size = css => [...document.querySelectorAll(css)].map(
             element => parseFloat(getComputedStyle(element).fontSize));
           return {body: size('.bl-article')[0], hazards: Math.min(...size('.bl-hazard p')),
                   points: Math.min(...size('.bl-point__why'))} }"""
    )
    assert sizes["body"] >= 24
    assert sizes["hazards"] >= sizes["body"]
    assert sizes["points"] >= sizes["body"]
    # On the first screen what can hurt, what is worn, and the stop; on the second the ways on
    last = "css => [...document.querySelectorAll(css)].pop().getBoundingClientRect().bottom"
    assert page.locator(".bl-gravest .bl-word--danger").is_visible()
    assert page.evaluate(last, "[data-stop]") <= KIOSK[1]
    assert page.evaluate(last, ".bl-rest") <= 2 * KIOSK[1]
    assert page.locator(".bl-steps-short li").count() == page.locator(".bl-step").count()
    assert not page.locator(".bl-step:visible, #hazards:visible").count()
    page.locator(".bl-rest[data-part='steps'] summary").tap()
    assert page.locator(".bl-step").last.is_visible()


def test_everything_can_be_read_without_scripts(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK, scripts=False)
    page = visitor.open(demo, "jobs/tr-0110.html")
    assert page.locator(".bl-step").count() >= 5
    assert page.locator(".bl-hazard").first.is_visible()
    assert page.locator(".bl-step").last.is_visible()
    working = page.locator("details.bl-figure").first
    working.locator("summary").tap()
    assert working.locator("dd").first.is_visible()


def test_dark_and_light_screen(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, "index.html")
    before = page.evaluate("getComputedStyle(document.body).backgroundColor")
    page.locator(".bl-header [data-tool='light']").tap()
    page.wait_for_function(
        "before => !document.getAnimations().length"
        " && getComputedStyle(document.body).backgroundColor !== before",
        arg=before,
    )
    dark = page.evaluate("getComputedStyle(document.body).backgroundColor")
    here = ".bl-header__link[aria-current]"
    assert page.locator(here).inner_text() == "Home"
    visitor.open(demo, "jobs/tr-0110.html")
    assert page.locator(here).inner_text() == "Jobs"  # the part that the page belongs to
    assert page.locator(here).get_attribute("aria-current") == "true"
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == dark
    assert visitor.strays == []


def test_three_sizes_of_text_that_stay_on_the_next_page(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, "index.html")
    size = "parseFloat(getComputedStyle(document.querySelector('.bl-article')).fontSize)"
    seen = [page.evaluate(size)]
    for _ in range(3):
        page.locator(".bl-header [data-tool='text']").tap()
        seen.append(page.evaluate(size))
    assert seen[0] == seen[3] < seen[1] < seen[2]
    page.locator(".bl-header [data-tool='text']").tap()
    visitor.open(demo, "jobs/tr-0110.html")
    assert page.evaluate(size) == seen[1]
    assert visitor.strays == []


def test_the_policy_blocks_what_is_injected(demo: Path, visit: Visit) -> None:
    page = visit(KIOSK).open(demo, "index.html")
    ran = page.evaluate(
        """() => { const add = (tag, set) => { const one = document.createElement(tag);
             Object.assign(one, set); document.body.append(one); };
           add('script', {textContent: 'window.ran = true'});
           add('script', {src: 'data:text/javascript,window.ran=true'});
           add('p', {innerHTML: '<img src=x onerror="window.ran=true">'});
           return new Promise(done => setTimeout(() => done(window.ran === true), 200)); }"""
    )
    assert ran is False
    assert page.evaluate("fetch('index.html').then(() => 'read', () => 'blocked')") == "blocked"


def test_a_picture_opens_large_and_closes_again(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, "jobs/tr-0510.html#set-up")
    for css in (".bl-picture", ".bl-drawing__frame"):
        frame = page.locator(css).first
        small = frame.locator("> img, > svg").bounding_box()
        frame.locator(".bl-larger").tap()
        large = page.locator("dialog[open] .bl-large__body > *")
        assert large.bounding_box()["height"] > small["height"]
        ids = page.evaluate("[...document.querySelectorAll('[id]')].map(one => one.id)")
        assert len(ids) == len(set(ids))
        page.keyboard.press("Escape")
        assert page.locator("dialog[open]").count() == 0
        frame.locator("> img, > svg").tap()
        page.locator("dialog[open] button").tap()
        assert page.locator("dialog[open]").count() == 0
    assert visitor.strays == []
