"""The demo manual in a real browser, opened from disk with the network off."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from benchleaf import pipeline
from build_demo import KIOSK, LANDSCAPE, PHONE, ROOT

Visit = Callable[..., Any]


def _pages(site: Path) -> list[str]:
    return sorted(path.relative_to(site).as_posix() for path in site.rglob("*.html"))


def test_no_request_leaves_the_disk_and_the_console_stays_empty(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    for name in _pages(demo):
        page = visitor.open(demo, name)
        page.evaluate("window.scrollTo(0, document.body.scrollHeight)")
        page.wait_for_timeout(50)
    assert visitor.strays == []


@pytest.mark.parametrize("size", [KIOSK, LANDSCAPE, PHONE, (320, 700)])
def test_no_page_scrolls_sideways(demo: Path, visit: Visit, size: tuple[int, int]) -> None:
    visitor = visit(size)
    for name in _pages(demo):
        page = visitor.open(demo, name)
        assert page.evaluate("document.documentElement.scrollWidth") <= size[0], name


@pytest.mark.parametrize("size", [KIOSK, PHONE])
def test_from_home_to_any_job_in_three_taps_at_most(
    demo: Path, visit: Visit, size: tuple[int, int]
) -> None:
    jobs = pipeline.load(ROOT / "content").shop.jobs
    assert len(jobs) >= 8
    visitor = visit(size)
    for job in jobs.values():
        page = visitor.open(demo, "index.html")
        page.locator(f"main h3 a[href='machines/{job.machine}.html']").tap()
        page.wait_for_url(f"**/machines/{job.machine}.html")
        page.locator(f"main a.bl-tile[href$='/jobs/{job.id}.html']").first.tap()
        page.wait_for_url(f"**/jobs/{job.id}.html")
        assert page.locator("h1 .bl-number").inner_text() == job.id.upper()
    assert visitor.strays == []


def test_text_is_large_enough_for_a_standing_reader(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, "jobs/tr-0110.html")
    sizes = page.evaluate(
        """() => { const size = css => [...document.querySelectorAll(css)].map(
             element => parseFloat(getComputedStyle(element).fontSize));
           return {body: size('.md-typeset')[0], hazards: Math.min(...size('.bl-hazard p')),
                   points: Math.min(...size('.bl-point__why'))} }"""
    )
    assert sizes["body"] >= 24
    assert sizes["hazards"] >= sizes["body"]
    assert sizes["points"] >= sizes["body"]


def test_everything_can_be_read_without_scripts(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK, scripts=False)
    page = visitor.open(demo, "jobs/tr-0110.html")
    assert page.locator(".bl-step").count() >= 5
    assert page.locator(".bl-hazard").first.is_visible()
    working = page.locator("details.bl-figure").first
    working.locator("summary").tap()
    assert working.locator("dd").first.is_visible()


def test_dark_and_light_screen(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, "index.html")
    before = page.evaluate("getComputedStyle(document.body).backgroundColor")
    page.locator("[data-tool='light']").tap()
    page.wait_for_timeout(100)
    dark = page.evaluate("getComputedStyle(document.body).backgroundColor")
    assert dark != before
    visitor.open(demo, "jobs/tr-0110.html")
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == dark
    assert visitor.strays == []


def test_three_sizes_of_text_that_stay_on_the_next_page(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, "index.html")
    size = "parseFloat(getComputedStyle(document.querySelector('.bl-article')).fontSize)"
    seen = [page.evaluate(size)]
    for _ in range(3):
        page.locator("[data-tool='text']").tap()
        seen.append(page.evaluate(size))
    assert seen[0] == seen[3] < seen[1] < seen[2]
    page.locator("[data-tool='text']").tap()
    visitor.open(demo, "jobs/tr-0110.html")
    assert page.evaluate(size) == seen[1]
    assert visitor.strays == []


def test_the_policy_blocks_what_is_injected(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    for name in _pages(demo):
        page = visitor.open(demo, name)
        policy = page.locator("meta[http-equiv]").first.get_attribute("content") or ""
        assert "default-src 'none'" in policy, name
        assert "script-src 'self';" in policy, name
    page = visitor.open(demo, "index.html")
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
    page = visitor.open(demo, "jobs/tr-0510.html")
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
