"""Both editions as readers meet them: what each holds, its pictures, dark screens, and paper."""

from __future__ import annotations

import re
import shutil
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page

from benchleaf.model import Job, Shop, files
from build_demo import KIOSK, PHONE, demo_shop, forked_build
from running import in_turn, is_nightly, sample
from search_reader import index_of

Visit = Callable[..., Any]
FULL_PAGES = ("trainer.html", "engineer.html", "timetable.html", "watching.html")
FULL_FOLDERS = ("trainer/", "lessons/", "people/", "guide/", "assets/benchleaf/search/")
"""Also more files of the search, since it finds the guide."""


@pytest.fixture(scope="session")
def shop_of_demo() -> Shop:
    """The records of the demo manual."""
    return demo_shop()


def full_site(full_demo: Path) -> Path:
    return full_demo.with_name("site-full")


def notes(shop: Shop) -> list[str]:
    """Every note for the trainer, as it is written."""
    return [step.trainer for job in shop.jobs.values() for step in job.steps if step.trainer]


def longest_run(note: str) -> str:
    """The longest stretch of a note that no link, emphasis or entity interrupts."""
    plain = " ".join(note.split())
    return max(re.split(r"\[\[.*?\]\]|[*_`\\&<>\"']", plain), key=len).strip()


def spoken(path: Path) -> str:
    """The text of a file of the site, without tags, on one line."""
    text = path.read_text(encoding="utf-8", errors="replace")
    return " ".join(re.sub(r"<[^>]+>", "", text).split())


def texts_of(site: Path) -> Iterator[tuple[str, str]]:
    for path in sorted(site.rglob("*")):
        if path.suffix in (".html", ".js", ".json", ".txt", ".xml", ".css"):
            yield path.relative_to(site).as_posix(), spoken(path)


# The two editions


def test_the_kiosk_holds_no_word_for_the_trainer(demo: Path, shop_of_demo: Shop) -> None:
    runs = [longest_run(note) for note in notes(shop_of_demo)]
    assert len(runs) >= 10
    assert min(map(len, runs)) >= 12
    site = dict(texts_of(demo))
    assert any("search" in name for name in site), "the search index is looked through too"
    for name, text in site.items():
        assert [run for run in runs if run in text] == [], name


def test_the_full_edition_holds_every_word_for_the_trainer(
    full_demo: Path, shop_of_demo: Shop
) -> None:
    """And so shows that the test above would find them."""
    text = spoken(full_site(full_demo) / "trainer.html")
    assert [run for run in map(longest_run, notes(shop_of_demo)) if run not in text] == []


def test_notes_for_the_trainer_are_on_the_trainers_page_and_sheets_only(
    full_demo: Path, shop_of_demo: Shop
) -> None:
    runs = [longest_run(note) for note in notes(shop_of_demo)]
    for name, text in texts_of(full_site(full_demo)):
        if name != "trainer.html" and not name.endswith("-breakdown.html"):
            assert [run for run in runs if run in text] == [], name


def test_the_kiosk_has_no_page_for_trainers_and_engineers(demo: Path) -> None:
    assert [name for name in FULL_PAGES if (demo / name).exists()] == []
    for path in demo.rglob("*.html"):
        html = path.read_text(encoding="utf-8")
        assert not any(f'{name}"' in html for name in FULL_PAGES), path.name


def test_the_full_edition_never_lands_where_the_kiosk_reads(full_demo: Path) -> None:
    assert not full_demo.exists()
    site = full_site(full_demo)
    assert [name for name in FULL_PAGES if not (site / name).is_file()] == []
    assert sorted(path.name for path in site.parent.iterdir()) == ["site-full"]


def test_the_full_edition_has_every_page_of_the_kiosk(demo: Path, full_demo: Path) -> None:
    kiosk, full = (
        {path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file()}
        for site in (demo, full_site(full_demo))
    )
    more = {name for name in full - kiosk if not name.startswith(FULL_FOLDERS)}
    assert more == set(FULL_PAGES)
    assert kiosk <= full


def test_every_lesson_counts_its_key_points(full_demo: Path, shop_of_demo: Shop) -> None:
    text = spoken(full_site(full_demo) / "trainer.html")
    for job in shop_of_demo.jobs.values():
        points = [point for step in job.steps for point in step.key_points]
        hurt = sum(point.kind == "can injure" for point in points)
        wanted = f"{len(job.steps)} steps{len(points)} key points{hurt} of them can injure"
        assert wanted in text, job.id


FITS = ("watching.html", "lessons/tr-0190.html", "trainer/tr-0190-changed.html", "timetable.html")
FITTED = (KIOSK, (1920, 1080), PHONE)


def test_the_full_edition_opens_without_a_message(full_demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    site = full_site(full_demo)
    page = visitor.open(site, "index.html")
    page.locator("main a[href='trainer.html']").tap()
    page.wait_for_url("**/trainer.html")
    assert page.locator("h1").inner_text() == "I train people"
    assert visitor.open(site, "engineer.html").locator(".bl-machine").count() >= 8
    assert visitor.strays == []


@pytest.mark.parametrize(("name", "size"), in_turn(FITS, FITTED))
def test_a_page_of_the_full_edition_fits_its_screen_without_a_message(
    full_demo: Path, visit: Visit, name: str, size: tuple[int, int]
) -> None:
    visitor = visit(size)
    page = visitor.open(full_site(full_demo), name)
    page.evaluate("window.scrollTo(0, document.body.scrollHeight)")
    assert page.evaluate("document.documentElement.scrollWidth") == size[0]
    assert visitor.strays == []


def test_search_entries_point_to_pages_that_are_there(demo: Path) -> None:
    entries = index_of(demo).texts
    assert len(entries) > 300
    for address, *_ in entries:
        page, _, anchor = address.partition("#")
        html = (demo / page).read_text(encoding="utf-8")
        assert not anchor or f'id="{anchor}"' in html, address


# Pictures


def test_only_pictures_and_sheets_that_are_named_are_published(
    demo: Path, shop_of_demo: Shop
) -> None:
    named = {
        f"{folder}/{name}"
        for _, _, record in shop_of_demo.every()
        for _, folder, name in files(record)
    }
    there = {
        path.relative_to(demo).as_posix()
        for folder in ("pictures", "sheets")
        for path in (demo / folder).rglob("*")
        if path.is_file()
    }
    assert there == named
    assert len([name for name in named if name.startswith("pictures/")]) >= 5


def test_every_picture_loads_in_the_size_that_the_page_keeps_for_it(
    demo: Path, visit: Visit
) -> None:
    visitor, seen = visit(KIOSK), set()
    pages = [one for one in sorted(demo.rglob("*.html")) if "<img" in one.read_text("utf-8")]
    for path in sample(pages, len(pages) // 6, seed=11):
        page = visitor.open(demo, path.relative_to(demo).as_posix())
        images = page.evaluate(
            """async () => { document.querySelectorAll('.bl-rest').forEach(
                   one => { one.open = true; });
                 const all = [...document.querySelectorAll('main img')];
                 for (const one of all) { one.loading = 'eager'; await one.decode(); }
                 return all.map(one => [one.getAttribute('src'), one.naturalWidth,
                   one.naturalHeight, +one.getAttribute('width'), +one.getAttribute('height'),
                   one.closest('figure') ? one.alt : 'small, beside its words', one.loading,
                   one.clientWidth, innerWidth]) }"""
        )
        for src, width, height, kept_width, kept_height, alt, _, shown, screen in images:
            assert width > 0, f"{path.name}: {src}"
            assert (width, height) == (kept_width, kept_height), f"{path.name}: {src}"
            assert len(alt) > 10, f"{path.name}: {src}"
            assert 0 < shown <= screen, f"{path.name}: {src}"
            seen.add(Path(src).name)
    assert len(seen) >= 5
    assert visitor.strays == []


def test_every_drawing_of_a_set_up_fits_a_phone(demo: Path, visit: Visit) -> None:
    visitor, count = visit(PHONE), 0
    drawn = [path for path in sorted((demo / "jobs").glob("*.html"))
             if "bl-drawing" in path.read_text(encoding="utf-8")]  # fmt: skip
    for path in sample(drawn, len(drawn) // 5, seed=19):
        page = visitor.open(demo, f"jobs/{path.name}#steps")
        outside = page.evaluate(
            """() => [...document.querySelectorAll('svg.bl-drawing')].flatMap(svg => {
                 const frame = svg.viewBox.baseVal;
                 return [...svg.querySelectorAll('text')].filter(one => {
                   const box = one.getBBox();
                   return box.x < -1 || box.y < -1 || box.x + box.width > frame.width + 1
                     || box.y + box.height > frame.height + 1;
                 }).map(one => one.textContent) })"""
        )
        assert outside == [], path.name
        count += page.locator("svg.bl-drawing").count()
    assert count >= 4


# Every type of page on every screen


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


def test_every_type_of_page_is_looked_at(demo: Path) -> None:
    folders = {name.partition("/")[0] for name in page_types(demo)}
    assert {"jobs", "machines", "materials", "tools", "fluids", "hazards", "parts", "charts",
            "operations", "index.html", "terms.html", "signal-words.html"} <= folders  # fmt: skip


SCREENS = [(PHONE, "default"), (PHONE, "slate"), (KIOSK, "slate")]


@pytest.mark.parametrize(("size", "scheme"), SCREENS)
def test_no_type_of_page_has_a_message_for_the_console(
    demo: Path, visit: Visit, size: tuple[int, int], scheme: str
) -> None:
    """Each in turn on one of these, by night on all; the light kiosk is in test_browser.py."""
    visitor = visit(size)
    page: Page = visitor.open(demo, "index.html")
    if scheme == "slate":
        page.locator(".bl-header [data-tool='light']").tap()
    every, turn = page_types(demo), SCREENS.index((size, scheme))
    for name in every if is_nightly() else every[turn :: len(SCREENS)]:
        visitor.open(demo, name)
        found = page.evaluate(
            """() => { const body = document.body, style = getComputedStyle(body);
                 return [document.documentElement.dataset.mdColorScheme, style.color,
                   style.backgroundColor, document.querySelectorAll('h1').length,
                   document.documentElement.scrollWidth] }"""
        )
        assert found[0] == scheme, name
        assert found[1] != found[2], name
        assert found[3] == 1, name
        assert found[4] <= size[0], name
    assert visitor.strays == []


# Paper


def runnable(shop: Shop) -> Job:
    return shop.jobs["tr-0110"]


def printed(page: Page, tmp_path: Path) -> str:
    """What stands on the paper: the text of the PDF, else of the page in its print form."""
    path = tmp_path / "job.pdf"
    page.pdf(path=path, format="A4")
    data = path.read_bytes()
    assert data.startswith(b"%PDF")
    reader = shutil.which("pdftotext")
    if reader is None:
        page.emulate_media(media="print")
        return " ".join(page.locator("body").inner_text().split())
    done = subprocess.run(
        (reader, "-layout", str(path), "-"), capture_output=True, text=True, check=True
    )
    return " ".join(done.stdout.split())


def test_a_job_on_paper_says_which_and_of_what_revision(
    demo: Path, visit: Visit, shop_of_demo: Shop, tmp_path: Path
) -> None:
    job = runnable(shop_of_demo)
    page = visit(KIOSK).open(demo, f"jobs/{job.id}.html")
    text = printed(page, tmp_path)
    assert job.id.upper() in text
    assert re.search(rf"[Rr]evision {job.revision}\b", text)
    assert "Do not run" not in text
    for step in job.steps:
        assert step.title.split()[0] in text


def test_on_paper_every_working_is_open_and_no_button_is_left(demo: Path, visit: Visit) -> None:
    page = visit(KIOSK).open(demo, "jobs/tr-0110.html")
    page.emulate_media(media="print")
    body = page.locator("body").inner_text()
    shown = " ".join(body.split())
    assert "TR-0110" in shown
    assert "Do not run" not in shown
    for css in (".bl-header", ".bl-search", ".bl-contents", ".bl-header [data-tool='light']"):
        assert not any(one.is_visible() for one in page.locator(css).all()), css


def test_on_paper_a_job_that_must_not_run_says_so(
    project: Path, visit: Visit, tmp_path: Path
) -> None:
    machine = project / "content/machines/bench-drill.yml"
    text = machine.read_text(encoding="utf-8")
    machine.write_text(text.replace("quill_travel: 60 mm", "quill_travel: 5 mm"), encoding="utf-8")
    done = forked_build(project)
    assert done.returncode == 0, done.stdout + done.stderr
    page = visit(KIOSK).open(project / "site", "jobs/vg-0010.html")
    text = printed(page, tmp_path)
    assert "VG-0010" in text
    assert re.search(r"Do not run", text, re.IGNORECASE)
    assert "1000 rpm" not in text
