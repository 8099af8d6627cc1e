"""A term's meaning beside its word: by touch, by key, with scripts and without."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Locator, Page

from build_demo import KIOSK, LANDSCAPE, PHONE
from running import sample

Visit = Callable[..., Any]
JOB = "jobs/tr-0110.html#steps"
"""With what the page keeps one touch down."""
SCREENS = [KIOSK, LANDSCAPE, PHONE, (1280, 800), (320, 700)]

BEGIN = """one => {
  const [begin, box] = [one.getClientRects()[0], one.getBoundingClientRect()];
  return {x: begin.x - box.x + 6, y: begin.y - box.y + 8};
}"""
"""Where a word begins, in its box."""


def _terms(page: Page) -> Locator:
    return page.locator(".bl-step a.bl-term")


def _meaning(page: Page) -> Locator:
    return page.get_by_role("dialog")


@pytest.mark.parametrize("size", sample(SCREENS, 3, seed=2))
def test_a_meaning_is_beside_the_word_and_wholly_on_the_screen(
    demo: Path, visit: Visit, size: tuple[int, int]
) -> None:
    visitor = visit(size)
    page = visitor.open(demo, JOB)
    count = _terms(page).count()
    assert count >= 8
    for place, where in ((0, "start"), (count // 3, "center"), (count // 2, "end"), (-1, "end")):
        term = _terms(page).nth(place)
        term.evaluate("(one, where) => one.scrollIntoView({block: where})", where)
        # where the word begins: one that wraps has another word in the corner of its box
        term.tap(position=term.evaluate(BEGIN))
        _meaning(page).wait_for()
        box, word = _meaning(page).bounding_box(), term.bounding_box()
        assert box
        assert word
        assert box["x"] >= 0
        assert box["x"] + box["width"] <= size[0]
        assert box["y"] >= 0
        assert box["y"] + box["height"] <= size[1]
        is_below = box["y"] >= word["y"] + word["height"]
        assert is_below or box["y"] + box["height"] <= word["y"]
        page.keyboard.press("Escape")
    assert visitor.strays == []


def test_letters_and_targets_are_large_at_the_kiosk(demo: Path, visit: Visit) -> None:
    page = visit(KIOSK).open(demo, JOB)
    _terms(page).first.tap()
    _meaning(page).wait_for()
    sizes = page.evaluate(
        """[...document.querySelectorAll('.bl-meaning *')].filter(one => one.textContent).map(
             one => parseFloat(getComputedStyle(one).fontSize))"""
    )
    assert min(sizes) >= 24
    for target in (page.get_by_role("button", name="Close"), page.get_by_text("Whole entry")):
        box = target.bounding_box()
        assert box
        assert min(box["width"], box["height"]) >= 48


def test_touch_opens_and_a_touch_outside_closes(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, JOB)
    first, second = _terms(page).nth(0), _terms(page).nth(1)
    first.tap()
    _meaning(page).wait_for()
    assert _meaning(page).locator(".bl-meaning__text").inner_text().endswith(".")
    assert first.get_attribute("aria-expanded") == "true"
    second.tap()
    page.wait_for_function("() => document.querySelectorAll('[aria-expanded=true]').length === 1")
    assert second.get_attribute("aria-expanded") == "true"
    page.touchscreen.tap(5, 600)
    assert not _meaning(page).is_visible()
    second.tap()
    _meaning(page).wait_for()
    second.tap()  # a second touch on the word closes too
    assert not _meaning(page).is_visible()
    assert page.url.endswith(JOB)
    assert visitor.strays == []


def test_keys_open_and_close_and_give_the_place_back(demo: Path, visit: Visit) -> None:
    page = visit(KIOSK).open(demo, JOB)
    page.evaluate("document.addEventListener('keydown', event => (window.seen = event.key))")
    term = _terms(page).nth(1)
    term.focus()
    page.keyboard.press("Enter")
    _meaning(page).wait_for()
    focused = "document.activeElement.textContent"
    assert page.evaluate(focused) == "Close"
    page.evaluate("window.seen = ''")
    page.keyboard.press("Tab")
    assert page.evaluate(focused) == "Whole entry"
    page.keyboard.press("Tab")
    assert not _meaning(page).is_visible()
    assert term.evaluate("one => one === document.activeElement")
    page.keyboard.press("Enter")
    _meaning(page).wait_for()
    page.evaluate("window.seen = ''")
    page.keyboard.press("Escape")
    assert page.evaluate("window.seen") == ""  # no key of the meaning reached the page behind
    assert not _meaning(page).is_visible()
    assert term.evaluate("one => one === document.activeElement")
    page.keyboard.press("Enter")
    _meaning(page).wait_for()
    page.keyboard.press("PageDown")  # a key for the page closes the meaning and is not lost
    assert not _meaning(page).is_visible()
    assert page.evaluate("window.seen") == "PageDown"


def test_the_whole_entry_is_one_touch_away(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, JOB)
    target = _terms(page).first.get_attribute("href") or ""
    _terms(page).first.tap()
    page.get_by_text("Whole entry").tap()
    page.wait_for_url(f"**/{target.removeprefix('../')}")
    assert page.locator(f"[id='{target.partition('#')[2]}']").is_visible()
    page.get_by_text("Back to where you were").tap()  # a kiosk's browser shows no Back button
    page.wait_for_url(f"**/{JOB}")
    assert visitor.strays == []


def test_a_step_on_the_screen_explains_its_terms_and_stays(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, JOB)
    page.locator(".bl-learn__start").tap()
    page.evaluate("window.benchleafFollow.again = 0")  # a test touches faster than a finger
    for _ in range(40):
        if page.locator(".bl-now a.bl-term:visible").count():
            break
        page.locator("[data-do='next']").tap()
    where = page.locator(".bl-bottom__count").inner_text()
    page.locator(".bl-now a.bl-term:visible").first.tap()
    _meaning(page).wait_for()
    assert not page.get_by_text("Whole entry").is_visible()
    page.keyboard.press("ArrowDown")  # scrolls a long meaning; no step goes by
    assert page.locator(".bl-bottom__count").inner_text() == where
    page.keyboard.press("Escape")
    assert not _meaning(page).is_visible()
    assert page.locator(".bl-bottom__count").inner_text() == where
    assert visitor.strays == []


def test_a_term_that_a_free_page_names_opens_too(demo: Path, visit: Visit) -> None:
    page = visit(KIOSK).open(demo, "how-to-read.html")
    page.locator("main a[href^='terms.html#']").first.tap()
    _meaning(page).wait_for()
    assert "how-to-read" in page.url


def test_only_the_file_that_is_needed_is_loaded(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    loaded: list[str] = []
    visitor.page.on("request", lambda one: loaded.append(one.url.rpartition("benchleaf/")[2]))
    page = visitor.open(demo, JOB)
    assert not [name for name in loaded if name.startswith("terms/")]
    term = _terms(page).first
    term.tap()
    _meaning(page).wait_for()
    letter = (term.get_attribute("href") or "").partition("#")[2][0]
    assert [name for name in loaded if name.startswith("terms/")] == [f"terms/{letter}.js"]


def test_where_the_file_is_gone_the_link_leads_to_the_entry(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, JOB)
    page.evaluate("document.body.dataset.assets = '../nowhere'")
    _terms(page).first.tap()
    page.wait_for_url("**/terms.html#*")
    assert "nowhere/terms" in page.locator(".bl-seal").inner_text()


def test_without_scripts_a_term_is_a_plain_link(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK, scripts=False)
    page = visitor.open(demo, JOB)
    _terms(page).first.tap()
    page.wait_for_url("**/terms.html#*")
    assert visitor.strays == []
