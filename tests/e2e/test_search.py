"""The search as a reader meets it: typed, touched, by key and from a scanner, all from disk."""

from __future__ import annotations

import re
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

from benchleaf.html.values import Found, SearchEntry
from benchleaf.model import Hazard, Shop, name_of
from benchleaf.search import write_search
from benchleaf.search.help_first import TITLES
from benchleaf.search.words import Splitter
from build_demo import KIOSK, LANDSCAPE, PHONE, demo_shop
from running import sample
from search_reader import index_of

Visit = Callable[..., Any]
BOX, FOUND, COUNT = "#bl-search-input", ".bl-found", ".bl-results__count"
HAND, SCANNER = 0.15, 0.01
"""Seconds between keys."""


CLEAR_COUNT = """() => { const count = document.querySelector('.bl-results__count');
  if (count) count.textContent = ''; }"""
IS_FOUND = """() => { const count = document.querySelector('.bl-results__count');
  const told = count && count.textContent;
  return told && document.querySelectorAll('.bl-found').length
    === Math.min(10, parseInt(told, 10) || 0); }"""
"""The count is told, and as many are shown as are shown in one go."""


def look_for(page: Page, text: str) -> Locator:
    """Put a text into the box, wait for what is found, hand it back."""
    page.evaluate(CLEAR_COUNT)
    page.locator(BOX).fill("")
    page.locator(BOX).fill(text)
    page.locator(".bl-results").wait_for()
    page.wait_for_function(IS_FOUND)
    return page.locator(FOUND)


def press(page: Page, text: str, gap: float) -> None:
    """Keys and Enter, so many seconds apart by their own time stamps, however busy the computer."""
    session = page.context.new_cdp_session(page)
    begin = time.time()
    for number, sign in enumerate((*text, "Enter")):
        key = {"key": sign, "timestamp": begin + number * gap}
        typed = "\r" if sign == "Enter" else sign
        session.send("Input.dispatchKeyEvent", {"type": "keyDown", "text": typed, **key})
        session.send("Input.dispatchKeyEvent", {"type": "keyUp", **key})


def kinds_and_addresses(results: Locator) -> list[tuple[str, str]]:
    got: list[list[str]] = results.evaluate_all(
        "all => all.map(a => [a.querySelector('.bl-found__kind').textContent,"
        " a.href.split('/').slice(-2).join('/')])"
    )
    return [(kind, address) for kind, address in got]


KINDS = [
    ("quill", "Word", "terms.html#quill"),
    ("pillar drill", "Machine", "machines/pillar-drill.html"),
    ("trw-204", "Part", "parts/trw-204.html"),
    ("chuck key", "Tool", "tools/chuck-key.html"),
    ("break-through", "Hazard", "hazards/break-through.html"),
    ("break-through grabs", "Hazard", "hazards/break-through.html"),
    ("acetal", "Material", "materials/acetal.html"),
    ("soluble oil", "Cutting fluid", "fluids/soluble-oil.html"),
    ("paint dot plain end", "Key point", "jobs/tr-0110.html#turn-plate"),
    ("gauge both holes", "Step", "jobs/tr-0110.html#gauge-holes"),
    ("tr 0120", "Job", "jobs/tr-0120.html"),
    ("at your place", "Page", "shift-start.html#at-your-place"),
    ("countersinking", "Formula", "operations/countersinking.html"),
    ("tap drills", "Chart", "charts/tap-drills.html"),
]


@pytest.mark.parametrize("size", sample([KIOSK, PHONE], 1, seed=1))
def test_what_is_found_says_what_kind_of_thing_it_is(
    demo: Path, visit: Visit, size: tuple[int, int]
) -> None:
    visitor = visit(size)
    page = visitor.open(demo, "machines/pillar-drill.html")
    for text, kind, address in KINDS:
        first = kinds_and_addresses(look_for(page, text))[:3]
        assert any((kind, address) == (one, there[-len(address) :]) for one, there in first), first
    assert visitor.strays == []


def test_nothing_is_loaded_before_search_is_used(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    asked: list[str] = []
    visitor.page.on("request", lambda one: asked.append(one.url))
    page = visitor.open(demo, "jobs/tr-0110.html")
    page.wait_for_timeout(300)
    assert not [url for url in asked if "search/" in url or "search-find" in url]
    with page.expect_request("**/start.js"):
        page.locator(BOX).tap()
    page.wait_for_timeout(300)  # and nothing more
    loaded = {url.rpartition("/")[2] for url in asked if "search" in url}
    wanted = {"search.css", "search.js", "search-panel.js", "search-find.js", "start.js"}
    assert loaded == {*wanted, "search-keys.js"}, loaded  # of ours the keys, for a finger only
    look_for(page, "quill")
    shelves = [url for url in asked if "/words-" in url]
    assert 1 <= len(shelves) <= 4, shelves


NUMBERS = ("tr120", "TR-120", "tr 0120", "0120", "120")


def test_a_number_in_short_is_found_first(demo: Path, visit: Visit) -> None:
    page = visit(KIOSK).open(demo, "index.html")
    for typed in NUMBERS:
        first = kinds_and_addresses(look_for(page, typed))[0]
        assert first == ("Job", "jobs/tr-0120.html"), typed
        assert "No page has" not in page.locator(".bl-results__notes").inner_text()
    assert ("Part", "parts/trw-204.html") in kinds_and_addresses(look_for(page, "204"))[:1]
    assert "jobs/tr-0110.html" in str(
        kinds_and_addresses(look_for(page, "01"))
    )  # as far as it goes
    for size in ("1.20", "12.0 mm"):  # no number of a job
        assert ("Job", "jobs/tr-0120.html") not in kinds_and_addresses(look_for(page, size))


def test_a_kiosk_without_a_keyboard_has_keys_of_its_own(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, "machines/pillar-drill.html")
    page.locator(BOX).tap()
    keys = page.locator(".bl-keys")
    keys.wait_for()
    assert page.locator(BOX).get_attribute("inputmode") == "none"  # and no system's
    sizes = page.locator(".bl-keys button, .bl-results__button:visible").evaluate_all(
        "all => all.map(one => one.getBoundingClientRect())"
        ".map(at => Math.min(at.width, at.height))"
    )
    assert len(sizes) >= 40
    assert min(sizes) >= 65
    for sign in ("T", "R", "Space", "1", "2", "3", "Delete the last letter", "0"):
        keys.get_by_role("button", name=sign, exact=True).tap()
    assert page.locator(BOX).input_value() == "tr 120"
    expect(page.locator(FOUND).first).to_contain_text("TR-0120")
    assert keys.bounding_box()["y"] > page.locator(FOUND).first.bounding_box()["y"]
    page.locator(FOUND).first.tap()
    page.wait_for_url("**/jobs/tr-0120.html")
    page.locator(BOX).tap()
    page.get_by_role("link", name="What do you see?").tap()
    page.wait_for_url("**/see.html")
    shop = demo_shop()
    things = page.locator(".bl-see__thing")
    assert things.count() == len(shop.parts) + len(shop.machines) + len(shop.tools)
    pictured = things.evaluate_all("all => all.every(one => one.querySelector('img, svg'))")
    assert pictured
    smallest = things.evaluate_all(
        "all => Math.min(...all.map(one => one.getBoundingClientRect().height))"
    )
    assert smallest >= 65
    page.get_by_role("link", name="TRW-204").tap()
    page.wait_for_url("**/parts/trw-204.html")
    assert visitor.strays == []
    phone = visit(PHONE).open(demo, "index.html")  # which brings its own keys
    phone.locator(BOX).tap()
    phone.locator(".bl-results__button").first.wait_for()
    assert phone.locator(".bl-keys").count() == 0


def test_what_was_found_is_seen_though_nothing_was_focused(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, "jobs/tr-0110.html")
    page.evaluate(
        """() => { const box = document.getElementById('bl-search-input'); box.value = 'quill';
             box.dispatchEvent(new Event('input', {bubbles: true})); }"""
    )
    page.locator(FOUND).first.wait_for()
    assert page.locator(".bl-results").is_visible()
    assert visitor.strays == []


ASKED = """async ([helps, others]) => {
  await benchleafSearch.load('search-panel.js');
  const { find, told } = await benchleafSearch.panel.ready();
  const kind = async text => benchleafSearch.panel.asksForHelp(
    told.first, text, (await find(text)).words);
  return [await Promise.all(helps.map(kind)), await Promise.all(others.map(kind))]; }"""
HURT, STOP, FIRE, STUCK = TITLES.values()
HELP = {
    HURT: (
        "blood; bleeding; cut finger; I cut my finger; cut my hand; finger is caught; hair caught"
        "; my sleeve is stuck; glove stuck in chuck; first aid; first aid box; somebody is hurt"
        "; he is hurt; chip in eye; something in my eye is hurt; burnt hand; electric shock; help"
        "; ambulance; blod; bleding; accident; injury; i cant breathe"
    ),
    STOP: (
        "e stop; e-stop; estop; emergency stop; stop; it will not stop; it won't stop"
        "; machine wont stop; does not stop; doesn't stop; drill cannot stop; stop the drill"
        "; keeps turning; keeps running; still turning; switch it off; turn off; red button"
        "; emergancy stop"
    ),
    FIRE: (
        "fire; smoke; there is smoke; burning smell; flames; the grinder is on fire"
        "; fire extinguisher"
    ),
    STUCK: (
        "stuck; it is stuck; drill stuck; drill is stuck; jammed; tap broke; broken drill"
        "; strange noise"
    ),
}
OTHERS = (
    "work stop; depth stop; stop card; stop on the vice; set the depth stop; end stop; stop block"
    "; eye shield; chip tray; burr; hand tap; cut the thread with a hand tap; hand countersink"
    "; wait until still; finger guard; cold fluid; fluid tap; grinding wheel; broken corner"
    "; break the corners; ease the lever; spark plug; safety glasses; helper; hurter; feed stop"
    "; positive stop"
)


def test_plain_words_for_trouble_come_before_all_else(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, "machines/pillar-drill.html")
    shop = demo_shop()
    helps = [(kind, one.strip()) for kind, texts in HELP.items() for one in texts.split(";")]
    names = [name_of(one) for *_, one in shop.every() if not isinstance(one, Hazard)]
    others = [*(one.strip() for one in OTHERS.split(";")), *names]
    got, wrong = page.evaluate(ASKED, [[text for _, text in helps], others])
    assert [(one, kind) for one, kind in zip(helps, got, strict=True) if one[0] != kind] == []
    calls = {text for text, kind in zip(others, wrong, strict=True) if kind}
    assert calls == {"emergency stop"}  # a word of the trade that is reached for in danger
    look_for_help(page, "blood", shop)
    page.get_by_role("link", name="Safety page").tap()
    page.wait_for_url("**/safety.html#if-something-goes-wrong")
    assert page.locator("#if-something-goes-wrong").is_visible()
    page.locator(BOX).fill("it will not stop")
    page.get_by_role("link", name="Where to stop: Pillar drill").tap()
    page.wait_for_url("**/machines/pillar-drill.html#controls")
    assert page.locator("#controls").is_visible()
    assert visitor.strays == []


def look_for_help(page: Page, text: str, shop: Shop) -> None:
    """What the shop says first stands above everything that is found."""
    page.locator(BOX).fill(text)
    box = page.locator(".bl-first-help__box")
    box.wait_for()
    plain = " ".join(shop.manual.emergency.split())
    assert plain in " ".join(box.inner_text().split())
    assert "white call button" in box.inner_text()
    found = page.locator(FOUND)
    if found.count():
        assert box.bounding_box()["y"] < found.first.bounding_box()["y"]  # type: ignore[index]


SLIPS = [
    ("reemer", "reamer", "terms.html#reamer"),
    ("quil lokc", "lock", "terms.html#quill-lock"),
    ("cuontersinking", "countersinking", "countersinking.html"),
]


def test_a_typing_slip_is_forgiven_and_said(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, "index.html")
    for typed, meant, address in SLIPS:
        results = look_for(page, typed)
        assert meant in page.locator(".bl-results__notes").inner_text()
        assert any(there.endswith(address) for _, there in kinds_and_addresses(results)), typed
    assert visitor.strays == []


def test_a_number_is_never_taken_for_another(demo: Path, visit: Visit) -> None:
    page = visit(KIOSK).open(demo, "index.html")
    results = look_for(page, "tr-0111")
    assert results.count() == 0
    assert "Nothing" in page.locator(COUNT).inner_text()
    page.get_by_role("button", name="tr 0110").tap()
    expect(results.first).to_contain_text("TR-0110")


def test_where_nothing_is_found_it_says_so_and_offers_a_way_on(demo: Path, visit: Visit) -> None:
    visitor = visit(PHONE)
    page = visitor.open(demo, "jobs/tr-0110.html")
    assert look_for(page, "xyzzyq").count() == 0
    assert page.locator(COUNT).inner_text() == "Nothing found for “xyzzyq”."
    assert look_for(page, "quill acetal").count() == 0
    page.get_by_role("button", name="“quill” alone").tap()
    expect(page.locator(FOUND).first).to_contain_text("quill")
    assert look_for(page, "xyzzyq").count() == 0
    page.get_by_role("link", name="Look in the lists").tap()
    page.wait_for_url("**/find.html")
    assert visitor.strays == []


def test_all_words_must_stand_there_and_plurals_count(demo: Path, visit: Visit) -> None:
    page = visit(KIOSK).open(demo, "index.html")
    assert 0 < look_for(page, "chips warning").count() < 10
    texts = [text.lower() for text in page.locator(FOUND).all_inner_texts()]
    assert all("chip" in text and "warning" in text for text in texts), texts
    assert "burr" in look_for(page, "burrs").first.inner_text()


def test_a_number_typed_whole_leads_straight_to_its_page(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    for typed in ("TR-0120", "tr0120", "TR 0120"):
        page = visitor.open(demo, "machines/pillar-drill.html")
        box = page.locator(BOX)
        box.tap()
        press(page, typed, HAND)
        page.wait_for_url("**/jobs/tr-0120.html")
        assert page.locator(BOX).input_value() == ""
    assert visitor.strays == []


@pytest.mark.parametrize("where", sample(["body", "box", "link"], 1, seed=7))
def test_a_scanner_that_types_leads_straight_to_the_page(
    demo: Path, visit: Visit, where: str
) -> None:
    visitor = visit(KIOSK)
    for scanned, address in (("TR-0120", "jobs/tr-0120"), ("TRW-204", "parts/trw-204")):
        page = visitor.open(demo, "index.html")
        if where == "box":
            look_for(page, "qui")  # what stands in the box already is not part of the number
        elif where == "link":
            page.locator("main a").first.focus()
        press(page, scanned, SCANNER)
        page.wait_for_url(f"**/{address}.html")
    assert visitor.strays == []


def test_a_number_that_is_not_there_is_told_after_a_scan(demo: Path, visit: Visit) -> None:
    page = visit(KIOSK).open(demo, "index.html")
    press(page, "TR-9999", SCANNER)
    expect(page.locator(COUNT)).to_contain_text("Nothing")
    assert page.url.endswith("index.html")


def test_slow_keys_and_keys_in_a_dialog_are_no_scan(demo: Path, visit: Visit) -> None:
    page = visit(KIOSK).open(demo, "index.html")
    press(page, "TR-0120", HAND)
    page.wait_for_timeout(300)
    assert page.locator(BOX).input_value() == ""
    page.evaluate(
        "() => { const one = document.createElement('dialog'); one.tabIndex = 0;"
        " document.body.append(one); one.showModal(); }"
    )
    press(page, "TR-0120", SCANNER)
    page.wait_for_timeout(300)
    assert page.url.endswith("index.html")
    assert page.locator(BOX).input_value() == ""


def test_a_scan_never_leaves_a_job_that_is_followed_step_by_step(demo: Path, visit: Visit) -> None:
    page = visit(KIOSK).open(demo, "jobs/tr-0110.html#follow")
    page.locator("html.bl-stepping").wait_for()
    press(page, "TR-0120", SCANNER)
    page.wait_for_timeout(300)
    assert page.url.endswith("jobs/tr-0110.html#follow")
    assert not page.locator(".bl-results").is_visible()


def focused(page: Page) -> str:
    return str(page.evaluate("document.activeElement.className || document.activeElement.id"))


def test_by_keyboard_alone(demo: Path, visit: Visit) -> None:
    visitor = visit(LANDSCAPE)
    page = visitor.open(demo, "jobs/tr-0110.html")
    page.evaluate("window.scrollTo(0, 900)")
    look_for(page, "quill")
    assert not page.locator(".bl-article").is_visible()
    page.keyboard.press("ArrowDown")  # the button that closes
    page.keyboard.press("ArrowDown")
    assert focused(page) == "bl-found"
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowUp")
    assert "bl-search__input" in focused(page)
    page.keyboard.press("Escape")
    assert page.locator(".bl-article").is_visible()
    assert not page.locator(".bl-results").is_visible()
    assert page.locator(BOX).input_value() == ""
    assert page.evaluate("window.scrollY") == 900
    look_for(page, "quill")
    page.keyboard.press("Enter")
    expect(page.locator(".bl-found").first).to_be_focused()
    page.keyboard.press("Enter")
    page.wait_for_url("**/terms.html#quill")
    assert visitor.strays == []


def test_a_step_of_the_page_that_is_open(demo: Path, visit: Visit) -> None:
    page = visit(KIOSK).open(demo, "jobs/tr-0110.html")
    look_for(page, "gauge both holes").first.tap()
    page.wait_for_url("**/jobs/tr-0110.html#gauge-holes")
    assert page.locator("#gauge-holes").is_visible()
    top = page.locator("#gauge-holes").evaluate("one => one.getBoundingClientRect().top")
    assert -5 <= top <= 400


def test_the_count_is_told_and_more_can_be_shown(demo: Path, visit: Visit) -> None:
    page = visit(PHONE).open(demo, "index.html")
    results = look_for(page, "drill")
    status = page.get_by_role("status").filter(has_text="found")
    number = int(status.inner_text().split()[0])
    assert number > 100
    assert results.count() == 10
    page.get_by_role("button", name="Show more").tap()
    expect(results).to_have_count(20)
    assert focused(page) == "bl-found"


@pytest.mark.parametrize("size", sample([KIOSK, LANDSCAPE, PHONE, (320, 700)], 2, seed=4))
def test_results_are_large_enough_and_fit_the_screen(
    demo: Path, visit: Visit, size: tuple[int, int]
) -> None:
    page = visit(size).open(demo, "index.html")
    for text in ("drill", "tr-0111", "reemer"):
        look_for(page, text)
        smallest = page.evaluate(
            """() => { const all = '.bl-results a, .bl-results button, #bl-search-input';
               const seen = [...document.querySelectorAll(all)].filter(
                 one => one.checkVisibility());
               const text = [...document.querySelectorAll('.bl-results *')].filter(
                 one => one.checkVisibility() && one.childNodes[0]?.nodeType === 3);
               return {target: Math.min(...seen.map(one => one.getBoundingClientRect().height)),
                 text: Math.min(...text.map(one => parseFloat(getComputedStyle(one).fontSize))),
                 wide: document.documentElement.scrollWidth}; }"""
        )
        assert smallest["target"] >= 48
        assert smallest["text"] >= (24 if size in (KIOSK, LANDSCAPE) else 18)
        assert smallest["wide"] <= size[0]


def test_what_is_typed_stays_text(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, "index.html")
    page.locator(BOX).fill("<img src=x onerror=alert(1)> </p><b>quill")
    page.locator(BOX).press("Enter")
    expect(page.locator(COUNT)).to_contain_text("Nothing")
    assert page.locator(".bl-results img, .bl-results b").count() == 0
    assert visitor.strays == []


def test_without_scripts_a_link_leads_to_the_lists(demo: Path, visit: Visit) -> None:
    page = visit(KIOSK, scripts=False).open(demo, "jobs/tr-0110.html")
    assert not page.locator(BOX).is_visible()
    page.get_by_role("link", name="Find", exact=True).tap()
    page.wait_for_url("**/find.html")
    assert page.get_by_role("heading", level=1).inner_text() == "Everything from A to Z"
    for target in ("jobs-by-part.html", "jobs-by-hazard.html", "machines/index.html"):
        assert page.locator(f"main a[href='{target}']").count() >= 1
    page.locator("main a[href='jobs/tr-0530.html']").tap()
    page.wait_for_url("**/jobs/tr-0530.html")


def test_everything_is_in_the_list_from_a_to_z(demo: Path, visit: Visit) -> None:
    page = visit(KIOSK).open(demo, "find.html")
    assert not page.get_by_role("link", name="Find", exact=True).is_visible()
    links = page.locator("main a").evaluate_all("all => all.map(a => a.getAttribute('href'))")
    shop = demo_shop()
    wanted = {
        f"terms.html#{one}" if kind == "terms" else f"{kind}/{one}.html"
        for kind, one, _ in shop.every()
    }
    assert wanted <= set(links)


@pytest.fixture
def odd_site(demo: Path, tmp_path: Path) -> tuple[Path, list[SearchEntry]]:
    """A site with an index of odd words, on the demo's own page and scripts."""
    entries = [
        SearchEntry("a.html", "15H7 µm Größe Ømega", Found.TOOL, ("maker’s N/mm² ½ in",)),
        SearchEntry("b.html", "constructor __proto__ toString", Found.HAZARD, ("go/no-go",)),
        SearchEntry("c.html", "Café naïve ﬁt ＡＢＣ", Found.TERM, ("8.5 mm, 8.5mm; M8x1.25",)),
        SearchEntry("d.html", "привет 日本 ٣٤", Found.PAGE, ("TRW-204/B. e.g. end.Next",)),
    ]
    site = tmp_path / "odd"
    assets = site / "assets" / "benchleaf"
    assets.mkdir(parents=True)
    for path in (demo / "assets" / "benchleaf").glob("*.*"):
        (assets / path.name).write_bytes(path.read_bytes())
    page = (demo / "find.html").read_text(encoding="utf-8")
    unsealed = re.sub(r'data-seal="[^"]*"', 'data-seal=""', page)  # its index is of another site
    (site / "index.html").write_text(unsealed, encoding="utf-8")
    write_search(site, entries)
    return site, entries


FIND_EACH = """async words => {
  await benchleafSearch.load('search-find.js');
  const find = async word => [word, (await benchleafSearch.finder.find(word)).places];
  return Object.fromEntries(await Promise.all(words.map(find))); }"""


def test_odd_words_are_split_alike_by_the_build_and_by_the_browser(
    odd_site: tuple[Path, list[SearchEntry]], visit: Visit
) -> None:
    site, entries = odd_site
    page = visit(KIOSK).open(site, "index.html")
    written = {
        word: place
        for place, entry in enumerate(entries_in_order(entries))
        for word in " ".join((entry.title, *entry.lines)).split()
        if Splitter().words((word,))
    }
    found = page.evaluate(FIND_EACH, list(written))
    assert {word: places for word, places in found.items() if written[word] not in places} == {}


def entries_in_order(entries: list[SearchEntry]) -> list[SearchEntry]:
    rank = list(Found)
    return sorted(entries, key=lambda one: rank.index(one.kind))


def test_every_word_of_the_manual_is_found_in_the_browser(demo: Path, visit: Visit) -> None:
    made = index_of(demo)
    page = visit(KIOSK).open(demo, "index.html")
    every = sorted(word for word in made.words if word[0] not in "=~+")
    words = sample(every, len(every) // 40, seed=3)
    assert len(words) > 40
    found = page.evaluate(FIND_EACH, words)
    for word in words:
        alone = {place for rank in made.words[word][:3] for place in rank}
        assert alone <= set(found[word]), word
