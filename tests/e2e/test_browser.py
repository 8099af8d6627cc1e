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


@pytest.mark.parametrize("size", [KIOSK, PHONE])
def test_search_finds_the_words_of_a_step(demo: Path, visit: Visit, size: tuple[int, int]) -> None:
    visitor = visit(size)
    page = visitor.open(demo, "index.html")
    label = page.locator("label.bl-header__search")
    if label.is_visible():
        label.tap()
    box = page.locator("input.md-search__input")
    box.tap()
    box.press_sequentially("paint dot", delay=20)
    first = page.locator(".md-search-result__item a").first
    first.wait_for(timeout=5000)
    hrefs = page.locator(".md-search-result__item a").evaluate_all("all => all.map(a => a.href)")
    assert any("jobs/tr-0110.html#" in href for href in hrefs), hrefs
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


def test_a_term_leads_to_its_meaning_and_back(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, "jobs/tr-0110.html")
    term = page.locator("a.bl-term").first
    target = term.get_attribute("href")
    term.tap()
    assert target is not None
    page.wait_for_url(f"**{target.removeprefix('..')}")
    assert page.locator(f"[id='{target.partition('#')[2]}']").is_visible()
    page.go_back()
    page.wait_for_url("**/jobs/tr-0110.html")
    assert visitor.strays == []


def test_dark_and_light_screen(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, "index.html")
    before = page.evaluate("getComputedStyle(document.body).backgroundColor")
    page.locator("label[for^='__palette']:visible").tap()
    page.wait_for_timeout(100)
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") != before
    assert visitor.strays == []
