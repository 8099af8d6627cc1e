"""A job on paper: black and white, whole steps, which revision it was, from any state."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from benchleaf.html.dates import long_date
from benchleaf.model import Job
from build_demo import KIOSK, demo_shop
from print_out import FORMATS, Sheet, printed, squeezed
from running import sample
from visitor import Visitor

Visit = Callable[..., Any]
OnPaper = Callable[[str, str], list[Sheet]]
JOB = "tr-0110"
ELEVEN_POINT = 11 * 96 / 72
"""In CSS pixels."""


@pytest.fixture(scope="module")
def job() -> Job:
    return demo_shop().jobs[JOB]


def plain(text: str) -> str:
    """Words without marks of emphasis and links, on one line."""
    text = re.sub(r"\[\[[^\]|]*\|?([^\]]*)\]\]", r"\1", text)
    return " ".join(re.sub(r"[*_`]", "", text).split())


def begin(text: str) -> str:
    """The first letters of a text, as far as no link stands in it."""
    return squeezed(plain(text.split("[[")[0])[:30])


def is_on(words: str, sheet: Sheet) -> bool:
    return squeezed(words) in sheet.text


@pytest.fixture(scope="module")
def on_paper(
    demo: Path, browser: Browser, tmp_path_factory: pytest.TempPathFactory
) -> Callable[[str, str], list[Sheet]]:
    """`on_paper("tr-0110", "A4")`: that job as it opens, printed once for all that is asked."""

    @cache
    def once_printed(name: str, paper: str) -> list[Sheet]:
        context = browser.new_context(viewport={"width": KIOSK[0], "height": KIOSK[1]})
        page = Visitor(context.new_page()).open(demo, f"jobs/{name}.html")
        sheets = printed(page, tmp_path_factory.mktemp("paper") / "job.pdf", paper)
        context.close()
        return sheets

    return once_printed


def said(sheets: list[Sheet]) -> str:
    """All letters of the print."""
    return "".join(one.text for one in sheets)


@pytest.mark.parametrize("paper", sample([*FORMATS], 1, seed=2))
def test_the_foot_of_every_page_says_which_revision(
    on_paper: OnPaper, job: Job, paper: str
) -> None:
    sheets = on_paper(JOB, paper)
    day = long_date(job.effective)
    assert 2 <= len(sheets) <= 15
    for number, sheet in enumerate(sheets, 1):
        assert sheet.size == pytest.approx(FORMATS[paper], abs=2)
        assert is_on(f"TR-0110, revision {job.revision}, in force from {day}", sheet)
        assert is_on("Check the kiosk for a hold and the current revision.", sheet)
        assert is_on(f"{number} / {len(sheets)}", sheet)


@pytest.mark.parametrize("paper", sample([*FORMATS], 1, seed=2))
@pytest.mark.parametrize("name", [JOB, "tr-0210"])
def test_no_step_is_split(on_paper: OnPaper, name: str, paper: str) -> None:
    steps = demo_shop().jobs[name].steps
    sheets = on_paper(name, paper)
    for number, step in enumerate(steps, 1):
        (at,) = (
            index
            for index, sheet in enumerate(sheets)
            if begin(step.title) in sheet.text and begin(step.key_points[0].point) in sheet.text
        )
        for point in step.key_points:
            assert begin(point.point) in sheets[at].text, (number, point.point)
            assert begin(point.reason) in sheets[at].text, (number, point.reason)
        if step.hazards:
            assert f"beforestep{number}" in sheets[at].text.lower(), number


def test_it_is_black_and_white_with_letters_of_eleven_points(
    demo: Path, visit: Visit, on_paper: OnPaper
) -> None:
    page = visit(KIOSK).open(demo, f"jobs/{JOB}.html")
    sheets = on_paper(JOB, "A4")
    assert max(sheet.colour for sheet in sheets) <= 2
    page.emulate_media(media="print")
    small = page.evaluate(
        """least => { const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
             const found = [];
             while (walker.nextNode()) {
               const node = walker.currentNode, parent = node.parentElement;
               if (!node.data.trim() || parent.closest('svg, .bl-unseen, template')) continue;
               if (!parent.checkVisibility({visibilityProperty: true})) continue;
               const size = parseFloat(getComputedStyle(parent).fontSize);
               if (size < least - 0.01) found.push(size + ' ' + node.data.trim());
             } return found; }""",
        ELEVEN_POINT,
    )
    assert small == []
    # The browser shrinks what is too wide for the paper: then the heading would be smaller too.
    assert sheets[0].largest == pytest.approx(17, abs=0.1)


def test_hazards_stand_in_boxes_with_their_words(demo: Path, visit: Visit) -> None:
    page = visit(KIOSK).open(demo, f"jobs/{JOB}.html")
    page.emulate_media(media="print")
    boxes = page.evaluate(
        """() => [...document.querySelectorAll('.bl-hazard')].map(one => {
             const style = getComputedStyle(one), word = one.querySelector('.bl-hazard__word');
             return [parseFloat(style.borderTopWidth), style.borderTopColor, word.innerText.trim(),
               getComputedStyle(word).color, getComputedStyle(word).backgroundColor,
               Boolean(word.querySelector('svg'))] })"""
    )
    assert len(boxes) >= 8
    for width, colour, word, ink, ground, has_symbol in boxes:
        assert width >= 2
        assert (colour, ink, ground) == ("rgb(0, 0, 0)", "rgb(0, 0, 0)", "rgb(255, 255, 255)")
        assert word in ("DANGER", "WARNING", "CAUTION", "NOTICE")
        assert has_symbol == (word != "NOTICE")


def test_nothing_that_leads_about_is_printed(on_paper: OnPaper) -> None:
    text = said(on_paper(JOB, "A4"))
    for words in ("Home", "Larger", "Learn this job", "Skip to", "I have read this", "Next step"):
        assert squeezed(words) not in text, words


@pytest.mark.parametrize(("number", "cards"), sample([(1, 1), (3, 3)], 1, seed=5))
def test_any_state_of_the_screen_prints_the_same(
    demo: Path, visit: Visit, on_paper: OnPaper, tmp_path: Path, number: int, cards: int
) -> None:
    page = visit(KIOSK).open(demo, f"jobs/{JOB}.html")
    wanted = on_paper(JOB, "A4")
    page.evaluate(
        "localStorage.setItem('benchleaf.light', 'slate');"
        "localStorage.setItem('benchleaf.text', '3')"
    )
    page.goto(page.url + "#follow")
    page.reload()
    page.locator(".bl-bottom").wait_for()
    page.evaluate(
        """round => { const follow = window.benchleafFollow, step = follow.steps[3];
             follow.state.round = round; follow.markRead(step);
             follow.state.at = follow.screens.indexOf(step); follow.show(); }""",
        number,
    )
    assert page.locator(".bl-say:visible").count() >= cards
    found = printed(page, tmp_path / "stepping.pdf")
    assert max(sheet.colour for sheet in found) <= 2
    assert len(found) == len(wanted)
    assert [sheet.text for sheet in found] == [sheet.text for sheet in wanted]


def test_a_working_is_printed_where_it_was_opened(
    demo: Path, visit: Visit, on_paper: OnPaper, tmp_path: Path
) -> None:
    page = visit(KIOSK).open(demo, f"jobs/{JOB}.html#set-up")
    assert "Withnumbers" not in said(on_paper(JOB, "A4"))
    page.locator("details.bl-figure summary").first.click()
    text = said(printed(page, tmp_path / "job.pdf"))
    assert text.count("Withnumbers") == 1
