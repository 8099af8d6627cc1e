"""The trainer's sheets and lists on A4 and US Letter: pages, heads, steps kept whole, symbols."""

from __future__ import annotations

import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page

from benchleaf.link import SHEETS
from benchleaf.model import Job
from build_demo import KIOSK, PHONE, demo_shop, forked_build
from paper import Sheet, choose, sheets
from running import in_turn, sample

Visit = Callable[..., Any]
PAPERS = {"A4": (210, 297), "Letter": (216, 279)}
ON_ITS_SIDE = ("card",)
MOST_PAGES = {"breakdown": 4, "card": 1, "try-out": 1, "get-ready": 2, "set-up": 2}
"""Of the get-ready list: what is ticked on the first, what is done with it on the second."""
SMALLEST_PX = 11 / 72 * 96
LONGEST = "tr-0390"
LIST = "onboarding/first-week.html"


@pytest.fixture(scope="module")
def job() -> Job:
    """The demo's first job."""
    return demo_shop().jobs["tr-0110"]


def printed(page: Page, paper: str, path: Path, *, drawn: bool = False) -> tuple[Sheet, ...]:
    choose(page, paper)
    page.pdf(path=path, prefer_css_page_size=True)
    return sheets(path, drawn=drawn)


def some_jobs(paper: str) -> list[Job]:
    """By day a fifth of the demo's jobs, other ones for each paper, and always the longest."""
    jobs = list(demo_shop().jobs.values())
    chosen = sample(jobs, len(jobs) // 5, seed=list(PAPERS).index(paper))
    return [one for one in jobs if one in chosen or one.id == LONGEST]


def opened(visit: Visit, full_demo: Path, name: str) -> Page:
    page: Page = visit(KIOSK).open(full_demo.with_name("site-full"), name)
    return page


@pytest.mark.parametrize(("name", "paper"), in_turn([*SHEETS], [*PAPERS]))
def test_a_sheet_on_paper(
    full_demo: Path, visit: Visit, tmp_path: Path, job: Job, name: str, paper: str
) -> None:
    page = opened(visit, full_demo, f"trainer/{job.id}-{name}.html")
    found = printed(page, paper, tmp_path / "sheet.pdf", drawn=True)
    assert len(found) <= MOST_PAGES[name]
    size = sorted(PAPERS[paper], reverse=name in ON_ITS_SIDE)
    for one in found:
        assert (one.width_mm, one.height_mm) == pytest.approx(size, abs=0.6)
        assert one.is_grey
        for wanted in (job.id.upper(), f"Revision {job.revision}", "still in force?"):
            assert wanted in one.text, name
        assert re.search(r"fingerprint [0-9a-f]{8}", one.text)
    every = [text for one in found for text, _ in one.symbols]
    mark = f"{job.id.upper()} {job.revision} [0-9a-f]{{8}}" if name == "try-out" else job.id.upper()
    assert len(every) == (name != "get-ready")
    assert all(re.fullmatch(mark, one) for one in every), every
    for _, width in found[0].symbols:  # may be empty: one of the sheets has none
        assert width == pytest.approx(20, abs=1)  # read from 200 mm, a tenth of it
    if shutil.which("pdfinfo"):
        said = subprocess.check_output(("pdfinfo", tmp_path / "sheet.pdf"), text=True)
        assert re.search(rf"Pages:\s+{len(found)}\b", said)


@pytest.mark.parametrize("paper", sample([*PAPERS], 1, seed=1))
def test_a_pocket_card_is_one_sheet_where_what_can_injure_fits_on_one(
    full_demo: Path, visit: Visit, tmp_path: Path, paper: str
) -> None:
    page = visit(KIOSK).page
    site = full_demo.with_name("site-full")
    long = []
    for job in some_jobs(paper):
        page.goto((site / f"trainer/{job.id}-card.html").as_uri())
        found = printed(page, paper, tmp_path / "card.pdf")
        for wanted in ("Wear:", "Stop:"):
            assert wanted in found[0].text, job.id
        for wanted in ("Handing on:", "If anything is not right:"):
            assert wanted in "".join(one.text for one in found), job.id
        if len(found) != 1:
            long.append((job.id, len(found)))
    # sixteen steps of lockout and mounting: what can injure alone is more than a sheet
    assert long == [(LONGEST, 2)]


@pytest.mark.parametrize("paper", sample([*PAPERS], 1, seed=2))
def test_nobody_signs_a_page_that_holds_nothing_but_lines_to_sign(
    full_demo: Path, visit: Visit, tmp_path: Path, paper: str
) -> None:
    page = visit(KIOSK).page
    site = full_demo.with_name("site-full")
    for job in some_jobs(paper):
        page.goto((site / f"trainer/{job.id}-try-out.html").as_uri())
        *_, last = printed(page, paper, tmp_path / "sheet.pdf")
        assert "Learner, signature and date" in last.text, job.id
        assert f"{len(job.steps)}. {job.steps[-1].title}" in last.text, job.id


def test_a_page_asks_for_the_paper_of_the_shop(project: Path) -> None:
    for paper, other in (("letter", "a4"), ("a4", "letter")):
        manual = project / "content" / "manual.yml"
        text = manual.read_text(encoding="utf-8").replace(f"paper: {other}\n", "")
        manual.write_text(f"paper: {paper}\n{text}", encoding="utf-8")
        done = forked_build(project)
        assert done.returncode == 0, done.stdout + done.stderr
        html = (project / "site" / "index.html").read_text(encoding="utf-8")
        assert f"paper-{paper}.css" in html
        assert f"paper-{other}.css" not in html


@pytest.mark.parametrize("paper", sample([*PAPERS], 1, seed=3))
def test_everything_to_tick_stands_on_the_first_page_of_the_get_ready_list(
    full_demo: Path, visit: Visit, tmp_path: Path, job: Job, paper: str
) -> None:
    page = opened(visit, full_demo, f"trainer/{job.id}-get-ready.html")
    first, *rest = printed(page, paper, tmp_path / "sheet.pdf")
    for words in ("Tools and gauges", "Props", "spring balance, up to", "Besides"):
        assert words in first.text, words
    after = " ".join(one.text for one in rest) or first.text
    how = ("Teach the pull by number", "Turn the isolator off", "at break-through", "Handing on")
    for words in how:
        assert words in after, words


@pytest.mark.parametrize("paper", sample([*PAPERS], 1, seed=4))
def test_no_step_is_split_and_every_step_is_there(
    full_demo: Path, visit: Visit, tmp_path: Path, paper: str
) -> None:
    """On the longest breakdown of the demo."""
    shop = demo_shop()
    longest = max(shop.jobs.values(), key=lambda one: len(one.steps))
    page = opened(visit, full_demo, f"trainer/{longest.id}-breakdown.html")
    found = printed(page, paper, tmp_path / "sheet.pdf")
    assert len(found) > 1
    for number, step in enumerate(longest.steps, 1):
        first = " ".join(f"{number}. {step.title}".split())
        on = [one for one in found if first in one.text]
        assert len(on) == 1, first
        for point in step.key_points:
            for text in (point.point, point.reason):
                words = re.sub(r"\[\[.*?\]\].*|[*`]", "", text).split()[:4]
                assert " ".join(words) in on[0].text, text


@pytest.mark.parametrize(
    "name", sample([*(f"trainer/tr-0110-{one}.html" for one in SHEETS), LIST], 3, seed=1)
)
def test_nothing_on_a_sheet_is_smaller_than_11_points(
    full_demo: Path, visit: Visit, name: str
) -> None:
    page = opened(visit, full_demo, name)
    page.emulate_media(media="print")
    sizes = page.evaluate(
        """() => [...document.querySelectorAll(".bl-paper *")]
            .filter(one => [...one.childNodes].some(n => n.nodeType === 3 && n.data.trim()))
            .filter(one => one.getClientRects().length && !one.closest("svg"))
            .map(one => parseFloat(getComputedStyle(one).fontSize))"""
    )
    assert len(sizes) > 10
    assert min(sizes) >= SMALLEST_PX - 0.01


def letters_on_paper(page: Page) -> list[float]:
    """Height in pixels of every text that the page prints, drawings apart."""
    page.emulate_media(media="print")
    found: list[float] = page.evaluate(
        """() => { const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
             const sizes = [];
             while (walker.nextNode()) {
               const node = walker.currentNode, parent = node.parentElement;
               if (!node.data.trim() || parent.closest("svg, .bl-unseen, option")) continue;
               if (!parent.checkVisibility({visibilityProperty: true})) continue;
               sizes.push(parseFloat(getComputedStyle(parent).fontSize));
             } return sizes; }"""
    )
    return found


@pytest.mark.parametrize("paper", sample([*PAPERS], 1, seed=6))
@pytest.mark.parametrize(
    ("name", "most", "words"),
    [
        ("watching.html", 3, ("Stand clear of the machine.", "Operator c, s", "Props for")),
        ("lessons/tr-0190.html", 3, ("What can hurt", "Was:", "Now:", "Who it is for")),
        ("trainer/tr-0190-changed.html", 2, ("Signature, date", "still in force?")),
    ],
)
def test_what_a_trainer_prints_fits_its_paper(
    full_demo: Path, visit: Visit, tmp_path: Path, name: str, most: int,
    words: tuple[str, ...], paper: str,
) -> None:  # fmt: skip
    page = opened(visit, full_demo, name)
    found = printed(page, paper, tmp_path / "page.pdf", drawn=True)
    assert len(found) <= most
    for one in found:
        assert (one.width_mm, one.height_mm) == pytest.approx(PAPERS[paper], abs=0.6)
        assert one.is_grey
    text = " ".join(one.text for one in found)
    assert [one for one in words if one not in text] == []
    for button in ("Print:", "Copy link", "It ends now", "Save as a file", "I train people"):
        assert button not in text, button
    sizes = letters_on_paper(page)
    assert len(sizes) > 30
    assert min(sizes) >= SMALLEST_PX - 0.01


@pytest.mark.parametrize("paper", sample([*PAPERS], 1, seed=5))
def test_a_list_on_paper_has_boxes_and_lines_to_sign(
    full_demo: Path, visit: Visit, tmp_path: Path, paper: str
) -> None:
    found = printed(opened(visit, full_demo, LIST), paper, tmp_path / "list.pdf")
    assert 1 < len(found) <= 3
    assert all("First week at the pillar drill" in one.text for one in found)
    text = " ".join(one.text for one in found)
    signed = [item for _, _, item in demo_shop().onboarding["first-week"].items()]
    roles = [role for item in signed for role in item.signed_by]
    assert text.count("Learner, date") == roles.count("learner") + 1
    assert text.count("Trainer, date") == roles.count("trainer") + 1
    assert "Print" not in re.findall(r"\bPrint\b", text)


@pytest.mark.parametrize(
    ("name", "text"),
    [("jobs/tr-0110.html", "TR-0110"), ("tools/plug-gauge-15-h7.html", "PLUG-GAUGE-15-H7")],
)
def test_the_symbol_at_a_page_s_end_is_read_from_the_print(
    demo: Path, visit: Visit, tmp_path: Path, name: str, text: str
) -> None:
    found = printed(visit(KIOSK).open(demo, name), "A4", tmp_path / "page.pdf", drawn=True)
    assert [one for sheet in found for one, _ in sheet.symbols] == [text]
    (width,) = [width for sheet in found for _, width in sheet.symbols]
    assert width == pytest.approx(30, abs=1)  # read from 300 mm, a tenth of it


# On the screen


@pytest.mark.parametrize("size", [KIOSK, PHONE])
def test_the_timetable_stays_on_the_screen_and_what_is_wider_says_so(
    full_demo: Path, visit: Visit, size: tuple[int, int]
) -> None:
    page = visit(size).open(full_demo.with_name("site-full"), "timetable.html")
    found = page.evaluate(
        """() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() => done(
             [...document.querySelectorAll('.bl-wide')].map(box =>
               [box.scrollWidth > box.clientWidth + 1, !box.previousElementSibling.hidden])))))"""
    )
    assert found[0] == [False, False]  # people and jobs
    assert all(is_wide == says_so for is_wide, says_so in found)
    assert any(is_wide for is_wide, _ in found) == (size == PHONE)
    # without their heads, cells say whose they are
    of = page.evaluate(
        """() => [...document.querySelectorAll('.bl-grid--people td:not(:empty)')].slice(0, 6)
             .map(cell => getComputedStyle(cell, '::before').content)"""
    )
    assert len(of) == 6
    assert all(("op-" in one) == (size == PHONE) for one in of)


def test_ticks_last_through_a_reload_and_no_longer(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, LIST)
    boxes = page.locator(".bl-tick input")
    signed = demo_shop().onboarding["first-week"].items()
    assert boxes.count() == len(signed)
    boxes.nth(1).check()
    page.reload()
    assert [boxes.nth(n).is_checked() for n in range(3)] == [False, True, False]
    assert page.evaluate("Object.keys(localStorage).filter(k => k.includes('tick'))") == []
    page.evaluate("sessionStorage.clear()")
    page.reload()
    assert not boxes.nth(1).is_checked()
    assert visitor.strays == []


def test_the_link_of_a_page_is_copied(full_demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    site = full_demo.with_name("site-full")
    page = visitor.open(site, "tools/plug-gauge-5.html#care")
    page.get_by_role("button", name="Copy link").click()
    status = page.locator(".bl-foot [role='status']")
    status.filter(has_text=re.compile(".")).wait_for()
    wanted = (site / "tools/plug-gauge-5.html").as_uri()
    assert status.inner_text() in ("Copied", wanted)
    if status.inner_text() == "Copied":
        page.context.grant_permissions(["clipboard-read"])
        assert page.evaluate("navigator.clipboard.readText()") == wanted


def test_without_scripts_no_control_is_dead(demo: Path, visit: Visit) -> None:
    page = visit(KIOSK, scripts=False).open(demo, LIST)
    assert page.locator(".bl-items input").count() == 0
    assert not page.get_by_role("button", name="Print").is_visible()
    assert not page.get_by_role("button", name="Copy link").is_visible()
    assert page.get_by_role("link", name="TR-0190").is_visible()
