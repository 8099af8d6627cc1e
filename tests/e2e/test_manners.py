"""Manners of the screen: home when nobody is there, the age of the copy, reading aloud."""

from __future__ import annotations

import re
from collections.abc import Callable
from contextlib import suppress
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Error, Page, expect

from build_demo import KIOSK, PHONE, demo_shop
from visitor import to_touch

Visit = Callable[..., Any]
JOB = "jobs/tr-0110.html"
IDLE, STEPS_IDLE = 3 * 60, 30 * 60  # seconds, as in the demo's manual.yml
NOON = datetime.now(UTC).replace(hour=12, minute=0, second=0, microsecond=0)


def _with_clock(visitor: Any, demo: Path, name: str, now: datetime = NOON) -> Page:
    """A page whose clock stands still but for what a test lets it run.

    Were it to go on by itself, a busy machine would see the warning before its time.
    """
    page: Page = visitor.page
    page.clock.install(time=now)
    page.clock.pause_at(now + timedelta(hours=1))  # a time that has not come yet, however slow
    visitor.open(demo, name)
    return page


def _warning(page: Page) -> Any:
    return page.get_by_role("alertdialog")


def _let_it_go_home(page: Page) -> None:
    """Let the warning run out; the page that the clock runs in goes away meanwhile."""
    with suppress(Error):
        page.clock.run_for(31_000)
    expect(page).to_have_url(re.compile(r"/index\.html$"))
    page.wait_for_load_state()
    expect(page.locator("html")).to_have_attribute("data-text", "1")  # its scripts have run


def test_after_a_while_a_warning_and_then_home_with_nothing_left(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = _with_clock(visitor, demo, JOB)
    page.locator(".bl-header [data-tool='text']").tap()
    page.locator(".bl-header [data-tool='light']").tap()
    page.evaluate("sessionStorage.setItem('benchleaf.step', '3')")
    page.evaluate("localStorage.setItem('of-another-program', 'stays')")
    page.clock.run_for((IDLE - 2) * 1000)
    assert not _warning(page).is_visible()
    page.clock.run_for(3000)
    assert _warning(page).is_visible()
    assert page.evaluate("document.activeElement.textContent") == "I am still here"
    assert page.locator(".bl-idle__count").inner_text() in ("30 seconds", "29 seconds")
    page.clock.run_for(20_000)
    assert _warning(page).is_visible()
    assert page.locator(".bl-idle__count").inner_text() in ("10 seconds", "9 seconds")
    _let_it_go_home(page)
    assert page.evaluate("sessionStorage.length") == 0
    assert page.evaluate("Object.keys(localStorage)") == ["of-another-program"]
    assert page.evaluate("document.documentElement.dataset.text") == "1"
    assert page.evaluate("document.documentElement.dataset.mdColorScheme") == "default"
    assert visitor.strays == []


def test_any_touch_or_key_stops_the_warning_and_does_nothing_else(demo: Path, visit: Visit) -> None:
    page = _with_clock(visit(KIOSK), demo, JOB)
    page.evaluate("['click', 'keydown'].forEach(name => document.addEventListener(name, "
                  "event => (window.seen = event.type)))")  # fmt: skip
    ways: list[Callable[[], None]] = [
        lambda: page.get_by_role("button", name="I am still here").tap(),
        lambda: page.touchscreen.tap(30, 900),
        lambda: page.keyboard.press("PageDown"),
        lambda: page.keyboard.press("Escape"),
    ]
    for way in ways:  # as often as somebody likes: WCAG 2.2.1 asks for ten times at least
        page.clock.run_for((IDLE + 1) * 1000)
        assert _warning(page).is_visible()
        page.clock.run_for(15_000)
        way()
        page.clock.run_for(500)
        assert not _warning(page).is_visible()
        page.clock.run_for((IDLE - 10) * 1000)
        assert not _warning(page).is_visible()
        page.touchscreen.tap(4, 900)  # the margin, where no link is
        page.evaluate("window.seen = ''")
    page.clock.run_for((IDLE + 1) * 1000)
    page.keyboard.press("PageDown")
    assert page.evaluate("window.seen") == ""
    assert page.url.endswith(JOB)


def test_a_step_on_the_screen_has_its_own_longer_limit(demo: Path, visit: Visit) -> None:
    page = _with_clock(visit(KIOSK), demo, JOB)
    page.evaluate("document.documentElement.classList.add('bl-stepping')")
    page.clock.run_for((STEPS_IDLE - 2) * 1000)
    assert not _warning(page).is_visible()
    page.clock.run_for(3000)
    assert _warning(page).is_visible()
    assert page.locator(".bl-idle__count").inner_text() in ("60 seconds", "59 seconds")


def test_a_computer_that_slept_warns_first_and_counts_only_what_can_be_seen(
    demo: Path, visit: Visit
) -> None:
    page = _with_clock(visit(KIOSK), demo, JOB)
    page.clock.run_for(1000)
    page.clock.fast_forward(8 * 3600 * 1000)
    page.clock.run_for(1000)
    assert _warning(page).is_visible()
    page.clock.fast_forward(3600 * 1000)  # asleep again while it counts
    page.clock.run_for(1000)
    assert _warning(page).is_visible()
    _let_it_go_home(page)


def test_home_waits_until_somebody_comes(demo: Path, visit: Visit) -> None:
    page = _with_clock(visit(KIOSK), demo, "index.html")
    page.clock.run_for(3 * IDLE * 1000)
    assert not _warning(page).is_visible()
    page.touchscreen.tap(4, 900)
    page.clock.run_for((IDLE + 1) * 1000)
    assert _warning(page).is_visible()


def test_off_where_the_limit_is_nought(demo: Path, visit: Visit) -> None:
    page = _with_clock(visit(KIOSK), demo, JOB)
    page.evaluate("document.body.dataset.idle = '0'")
    page.clock.run_for(3 * IDLE * 1000)
    assert not _warning(page).is_visible()


@pytest.mark.parametrize(
    ("days", "words"),
    [(0, ""), (-1, ""), (30, ""), (32, "This copy is old."), (-9, "The clock of this screen")],
)
def test_an_old_copy_or_a_wrong_clock_says_so(
    demo: Path, visit: Visit, days: int, words: str
) -> None:
    page = _with_clock(visit(PHONE), demo, "index.html", NOON + timedelta(days=days))
    notice = page.locator(".bl-age")
    assert notice.get_attribute("role") == "status"
    assert notice.is_visible() is bool(words)
    assert notice.inner_text().startswith(words)
    if words:
        assert str(NOON.year) in notice.inner_text()


SPEECH = """
(() => {
  const voices = %s;
  class Utterance extends EventTarget { constructor(text) { super(); this.text = text; } }
  const speech = new EventTarget();
  let queue = [];
  window.said = [];
  window.cancelled = 0;
  window.next = () => { queue.shift().dispatchEvent(new Event('end')); begin(); };
  window.come = () => { voices.forEach(one => { one.late = false; });
                        speech.dispatchEvent(new Event('voiceschanged')); };
  const begin = () => { if (queue[0]) queue[0].dispatchEvent(new Event('start')); };
  Object.assign(speech, {
    getVoices: () => voices.filter(one => !one.late),
    speak(one) { window.said.push(one.text); queue.push(one); if (queue.length === 1) begin(); },
    cancel() { if (queue.length) window.cancelled += 1; queue = []; },
  });
  Object.defineProperty(speech, 'speaking', {get: () => queue.length > 0});
  Object.defineProperty(window, 'speechSynthesis', {value: speech});
  window.SpeechSynthesisUtterance = Utterance;
})();
"""
LOCAL = "{name: 'here', lang: 'en-GB', localService: true}"
REMOTE = "{name: 'elsewhere', lang: 'en-GB', localService: false}"
FOREIGN = "{name: 'other', lang: 'de-DE', localService: true}"
LATE = "{name: 'here', lang: 'en-GB', localService: true, late: true}"


def _speaking(visitor: Any, demo: Path, *voices: str) -> Page:
    page: Page = visitor.page
    page.add_init_script(SPEECH % f"[{', '.join(voices)}]")
    visitor.open(demo, f"{JOB}#steps")  # where the steps stand open
    return page


def test_no_control_without_a_voice_of_this_computer_and_this_language(
    demo: Path, visit: Visit
) -> None:
    page = _speaking(visit(KIOSK), demo, REMOTE, FOREIGN)
    assert page.get_by_role("button", name="Read aloud").count() == 0
    page = _speaking(visit(KIOSK), demo, LATE)
    assert page.get_by_role("button", name="Read aloud").count() == 0
    page.evaluate("come()")
    assert page.get_by_role("button", name="Read aloud").count() == page.locator(".bl-step").count()


def test_a_step_is_read_hazards_first_then_title_key_points_and_reasons(
    demo: Path, visit: Visit
) -> None:
    visitor = visit(KIOSK)
    page = _speaking(visitor, demo, LOCAL)
    job = demo_shop().jobs["tr-0110"]
    step = job.steps[1]
    button = page.get_by_role("button", name="Read aloud step 2")
    box = button.bounding_box()
    assert box
    assert min(box["width"], box["height"]) >= 48
    button.tap()
    said = page.evaluate("said")
    title = said.index(f"Step 2. {step.title}.")
    words = {line.strip(".").lower() for line in said[:title]}
    assert {"warning", "caution"} & words
    first, last = step.key_points[0], step.key_points[-1]
    assert title < said.index(first.point) < said.index(f"Reason. {first.reason}")
    assert said.index(f"Reason. {first.reason}") < said.index(f"Reason. {last.reason}")
    assert page.locator(".bl-spoken").count() == 1
    assert page.get_by_role("button", name="Stop reading step 2").is_visible()
    for _ in said:
        page.evaluate("next()")
    assert page.locator(".bl-spoken").count() == 0
    assert page.get_by_role("button", name="Read aloud step 2").is_visible()
    assert visitor.strays == []


def test_in_the_step_view_what_is_on_the_screen_is_read_and_no_more(
    demo: Path, visit: Visit
) -> None:
    """First the hazards, before they are touched; then the step; hidden reasons stay unsaid."""
    visitor = visit(KIOSK)
    page = _speaking(visitor, demo, LOCAL)
    page.locator(".bl-learn__start").tap()
    page.evaluate("window.benchleafFollow.again = 0")  # a test touches faster than a finger
    read, stop = (page.locator(".bl-top").get_by_role("button", name=name, exact=True)
                  for name in ("Read aloud", "Stop reading"))  # fmt: skip
    read.tap()
    assert page.evaluate("said")[0] == page.locator(".bl-now h2").first.inner_text() + "."
    for _ in range(40):
        if page.locator(".bl-step.bl-now.bl-shut").count():
            break
        shut = to_touch(page)
        (shut.first if shut.count() else page.locator("[data-do='next']")).tap()
    assert page.evaluate("[cancelled, speechSynthesis.speaking]") == [1, False]
    page.evaluate("said.length = 0")
    read.tap()
    said = page.evaluate("said")
    assert said[1] in ("DANGER.", "WARNING.")
    assert not [line for line in said if line.startswith(("Step", "Reason"))]
    to_touch(page).tap()
    assert page.evaluate("[cancelled, speechSynthesis.speaking]") == [2, False]
    page.evaluate(
        """() => { said.length = 0; document.querySelectorAll('.bl-now .bl-point__why').forEach(
                    one => { one.hidden = true; }); }"""
    )
    read.tap()
    said = page.evaluate("said")
    assert said[0].startswith(("DANGER", "WARNING"))
    assert [line for line in said if line.startswith("Step 1.")]
    assert not [line for line in said if line.startswith("Reason")]
    stop.tap()
    assert page.evaluate("[cancelled, speechSynthesis.speaking]") == [3, False]
    assert visitor.strays == []


def test_home_shows_each_station_by_its_drawing(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, "index.html")
    doors = page.locator(".bl-door")
    assert doors.count() == len(demo_shop().machines)
    for door in doors.all():
        drawn, box = door.locator("svg").bounding_box(), door.bounding_box()
        assert drawn
        assert box
        assert min(drawn["width"], drawn["height"]) >= 96
        assert box["height"] >= 144
    doors.first.tap(position={"x": 8, "y": 8})  # the cell, not its words
    page.wait_for_url("**/machines/*.html")
    assert visitor.strays == []


def test_without_scripts_no_control_is_dead(demo: Path, visit: Visit) -> None:
    page = visit(KIOSK, scripts=False).open(demo, JOB)
    assert page.locator("button:visible, input:visible").count() == 0
    assert not page.locator(".bl-age").is_visible()
