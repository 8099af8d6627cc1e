"""A copy that judges itself: each damage is told on the screen, and nothing is that is none."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
from playwright.sync_api import Page, Route, expect

from build_demo import KIOSK, PHONE, forked_build
from running import is_nightly, once, sample, some

Visit = Callable[..., Any]
Do = Callable[[Path, Path], object]
ASSETS = Path("assets/benchleaf")
JOB = Path("jobs/vg-0010.html")
DAMAGED = "This copy is damaged. Do not work from it."
UNCHECKED = "This copy has not been checked."
EARLY = Path(__file__).parents[2] / "plugins/benchleaf/html" / ASSETS.parent / "early.js"


@pytest.fixture(scope="session")
def older(first_build: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small shop's site before an edit of one word."""

    def make(folder: Path) -> None:
        shutil.copytree(first_build, folder, dirs_exist_ok=True)
        manual = folder / "content/manual.yml"
        text = manual.read_text(encoding="utf-8")
        manual.write_text(text.replace("ask: Ask your", "ask: Always ask your"), encoding="utf-8")
        done = forked_build(folder)
        assert done.returncode == 0, done.stderr

    return once(tmp_path_factory, "older-shop", make) / "site"


def _gone(name: Path) -> Do:
    return lambda site, _: (site / name).unlink()


def _cut(name: Path, share: float) -> Do:
    def cut(site: Path, _: Path) -> None:
        data = (site / name).read_bytes()
        (site / name).write_bytes(data[: int(len(data) * share)])

    return cut


def _before(name: Path, sign: bytes) -> Do:
    """Cut right before the last place where that stands."""

    def cut(site: Path, _: Path) -> None:
        data = (site / name).read_bytes()
        (site / name).write_bytes(data[: data.rindex(sign)])

    return cut


def _of_older(name: Path) -> Do:
    return lambda site, older: shutil.copyfile(older / name, site / name)


def _lost(site: Path, _: Path) -> None:
    """A block in the middle of the page, as a disk loses it."""
    data = (site / JOB).read_bytes()
    at = data.index(b'id="clamp"')
    (site / JOB).write_bytes(data[:at] + b" " * 4096 + data[at + 4096 :])


DAMAGES: dict[str, tuple[Do, str]] = {
    "page cut at 60 %": (_cut(JOB, 0.6), "This page is not whole"),
    "page cut before its last element": (_before(JOB, b"<span data-end"), "This page is not whole"),
    "page that lost a block": (_lost, "This page is not whole"),
    "page of an older build": (_of_older(JOB), "of another build"),
    "script of another build": (_of_older(ASSETS / "steps.js"), "steps.js is not whole, or of"),
    "no early.js": (_gone(ASSETS / "early.js"), ""),
    "early.js cut": (_cut(ASSETS / "early.js", 0.5), ""),
    "early.js that judges nothing": (
        lambda site, _: (site / ASSETS / "early.js").write_text(
            'document.documentElement.classList.replace("no-js", "js");', encoding="utf-8"
        ),
        "",
    ),
    "no screen.js": (_gone(ASSETS / "screen.js"), "screen.js is missing"),
    "no steps.js": (_gone(ASSETS / "steps.js"), "steps.js is missing"),
    "script cut in half": (_cut(ASSETS / "steps.js", 0.5), "steps.js is not whole"),
    "script cut between two lines of it": (
        _before(ASSETS / "terms.js", b"(function(){"), "terms.js is not whole",
    ),
    "no style sheet": (_gone(ASSETS / "benchleaf.css"), "benchleaf.css is"),
    "style sheet cut": (_cut(ASSETS / "parts.css", 0.7), "parts.css is not whole"),
    "no picture": (_gone(Path("pictures/clamped-plate.svg")), "clamped-plate.svg is missing"),
    "picture cut": (_cut(Path("pictures/clamped-plate.svg"), 0.5), "clamped-plate.svg is"),
    "no index": (_gone(ASSETS / "search/start.js"), "search/start.js is missing"),
    "index cut": (_cut(ASSETS / "search/start.js", 0.5), "search/start.js is not whole"),
}  # fmt: skip


def text_of(page: Page) -> str:
    """What the page says on paper."""
    return "".join(one.get_textpage().get_text_range() for one in pypdfium2.PdfDocument(page.pdf()))


def _notice(page: Page) -> Any:
    return page.locator(".bl-seal")


@pytest.mark.parametrize("damage", sample([*DAMAGES], 7, seed=9))
def test_each_damage_is_told(
    first_build: Path, older: Path, tmp_path: Path, visit: Visit, damage: str
) -> None:
    do, found = DAMAGES[damage]
    site = Path(shutil.copytree(first_build / "site", tmp_path / "site"))
    do(site, older)
    shown = "#clamp" if "picture" in damage else ""  # loaded where it is to be seen
    page = visit(PHONE).open(site, f"{JOB.as_posix()}{shown}")
    if "index" in damage:
        assert not _notice(page).is_visible()  # it is loaded at its first use
        page.locator("#bl-search-input").focus()
    expect(_notice(page)).to_contain_text(DAMAGED)
    expect(_notice(page)).to_contain_text(found)
    expect(_notice(page)).to_be_in_viewport()


def test_the_notice_covers_no_help_and_stands_on_no_paper(
    first_build: Path, tmp_path: Path, visit: Visit
) -> None:
    site = Path(shutil.copytree(first_build / "site", tmp_path / "site"))
    (site / ASSETS / "terms.js").unlink()
    visitor = visit(PHONE)
    page: Page = visitor.page
    for address, helps in {
        "wrong.html": ".bl-wrong__first",
        f"{JOB.as_posix()}#follow": "[data-do='wrong']",
        f"{JOB.as_posix()}#bl-at-work": ".bl-ways-on [href*='wrong']",
    }.items():
        page.goto("about:blank")
        visitor.open(site, address)
        expect(_notice(page)).to_contain_text(DAMAGED)
        expect(page.locator(helps).first).to_be_in_viewport()
        over = page.locator(helps).first.evaluate(
            "one => { const at = one.getBoundingClientRect(), mine ="
            " document.querySelector('.bl-seal').getBoundingClientRect();"
            " const there = document.elementFromPoint(at.x + at.width / 2, at.y + at.height / 2);"
            " return [at.top >= mine.bottom, one.contains(there)]; }"
        )
        assert over == [True, True], address
    (site / ASSETS / "benchleaf.css").unlink()
    page.reload()
    expect(_notice(page)).to_be_visible()
    assert "damaged" not in text_of(page)
    expect(_notice(page)).to_be_visible()


def test_without_scripts_nobody_has_checked(
    first_build: Path, tmp_path: Path, visit: Visit
) -> None:
    page = visit(PHONE, scripts=False).open(first_build / "site", JOB.as_posix())
    page.locator("#clamp").scroll_into_view_if_needed()
    expect(_notice(page)).to_have_text(UNCHECKED)
    expect(_notice(page)).to_be_in_viewport()
    assert "not been checked" not in text_of(page)
    site = Path(shutil.copytree(first_build / "site", tmp_path / "site"))
    for script in some(list((site / ASSETS).glob("*.js"))):
        script.unlink()
    page = visit(PHONE).open(site, JOB.as_posix())
    expect(_notice(page)).to_have_text(UNCHECKED)
    expect(_notice(page)).to_be_in_viewport()


def test_a_whole_copy_is_never_called_damaged(first_build: Path, visit: Visit) -> None:
    """On a slow disk, going on and back, zoomed, with an extension's doings, on paper."""
    page: Page = visit(KIOSK).page
    held: list[Route] = []
    page.clock.install()
    page.route("**/age.js", lambda route: held.append(route))
    page.goto((first_build / "site" / JOB).as_uri(), wait_until="commit")
    expect(page.locator("[data-end]")).to_be_attached()
    page.clock.run_for(19_000)
    expect(_notice(page)).to_be_hidden()
    page.clock.run_for(2_000)
    expect(_notice(page)).to_have_text(UNCHECKED)  # unknown is not known
    expect(_notice(page)).to_be_visible()
    held[0].continue_()
    page.unroute("**/age.js")
    page.wait_for_load_state("load")
    expect(_notice(page)).to_be_hidden()
    page.evaluate("""() => { document.body.style.zoom = 3;
        const foreign = new Image(); foreign.src = 'data:,none'; document.body.append(foreign);
        const script = document.createElement('script'); script.src = 'data:text/javascript,0';
        document.head.append(script, document.createElement('style')); }""")
    page.locator(".bl-header__link").first.click()
    page.wait_for_load_state("load")
    expect(_notice(page)).to_be_hidden()
    page.go_back()
    page.wait_for_load_state("load")
    expect(_notice(page)).to_be_hidden()
    assert "This copy has" not in text_of(page)
    expect(_notice(page)).to_be_hidden()


def test_a_new_copy_under_an_open_page_is_read_and_not_called_damaged(
    first_build: Path, older: Path, tmp_path: Path, visit: Visit
) -> None:
    site = Path(shutil.copytree(older, tmp_path / "site"))
    page = visit(PHONE).open(site, JOB.as_posix())
    former = page.locator("html").get_attribute("data-seal")
    shutil.copytree(first_build / "site", site, dirs_exist_ok=True)
    page.locator("#bl-search-input").focus()
    expect(page.locator("html")).not_to_have_attribute("data-seal", former or "")
    page.locator("#bl-search-input").fill("guide hole")
    expect(page.locator(".bl-found").first).to_be_visible()
    expect(_notice(page)).to_be_hidden()


COUNT = """([pages, parts]) => pages.filter(([, text]) => {
    const page = new DOMParser().parseFromString(text, "text/html");
    const said = Number(page.documentElement.dataset.seal.split(" ")[1]);
    return !page.querySelector("[data-end]") || page.querySelectorAll(parts).length < said;
}).map(([name]) => name)"""


def test_every_page_of_both_editions_has_the_parts_that_it_says(
    demo: Path, full_demo: Path, visit: Visit
) -> None:
    found = re.search(r'const PARTS = (".*?");', EARLY.read_text(encoding="utf-8"))
    assert found
    page: Page = visit(KIOSK).page
    for site in (demo, full_demo.with_name("site-full")):
        every = sorted(site.rglob("*.html"))
        of_folder = {one.parent: one for one in every}.values()
        top = list(site.glob("*.html"))
        names = every if is_nightly() else [*of_folder, *top]
        pages = [(str(one), one.read_text(encoding="utf-8")) for one in some(names)]
        sealed = [re.search(r'data-seal="[0-9a-f]{6} [1-9]\d*"', text) for _, text in pages]
        assert all(sealed)
        assert page.evaluate(COUNT, [pages, json.loads(found[1])]) == []
