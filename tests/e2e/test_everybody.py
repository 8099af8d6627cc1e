"""Who has no finger on the glass passes too: by keys, by what a screen reader hears, by a voice.

What is pressed and what is heard stand in the accessibility tree, so nothing here knows a class.
"""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from playwright.sync_api import CDPSession, Page

from benchleaf.model import ROUNDS, Hazard, Job, SignalWord, Step, control_shown
from build_demo import KIOSK, demo_shop
from running import sample

Visit = Callable[..., Any]
JOB = "tr-0130"
"""The job with the fewest steps of those with a question."""
NEXT = re.compile(r"Next( step)?( \d+)?( [a-z])?")
"""The button, and the step and part that it leads to."""
STEP = re.compile(r"(Step \d+ of \d+)(, part .*)?")
"""Where one stands at a step itself, in whatever part of it."""
GRAVE = (SignalWord.DANGER, SignalWord.WARNING)


@dataclass(frozen=True)
class Heard:
    """One thing that a screen reader comes to."""

    role: str
    name: str
    node: int
    disabled: bool = False


class Listener:
    """Reads a page as its accessibility tree has it, from the first to the last, and presses."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.session: CDPSession = page.context.new_cdp_session(page)
        self.session.send("Accessibility.enable")

    def heard(self) -> list[Heard]:
        nodes = self.session.send("Accessibility.getFullAXTree")["nodes"]
        by_id = {one["nodeId"]: one for one in nodes}
        return list(self._walk(by_id, nodes[0]))

    def _walk(self, by_id: dict[str, Any], node: dict[str, Any]) -> Iterator[Heard]:
        if not node.get("ignored"):
            name = node.get("name", {}).get("value", "")
            off = any(
                one["name"] == "disabled" and one["value"].get("value")
                for one in node.get("properties", ())
            )
            yield Heard(node["role"]["value"], name, node.get("backendDOMNodeId", 0), off)
        for child in node.get("childIds", ()):
            if child in by_id:
                yield from self._walk(by_id, by_id[child])

    def press(self, one: Heard) -> None:
        """As a screen reader or a voice command does: a click that no finger made."""
        found = self.session.send("DOM.resolveNode", {"backendNodeId": one.node})
        self.session.send(
            "Runtime.callFunctionOn",
            {"functionDeclaration": "function () { this.click(); }",
             "objectId": found["object"]["objectId"]},
        )  # fmt: skip

    def find(self, role: str, words: str) -> Heard:
        """Listen until it is there: a page may still be on its way."""
        for _ in range(600):
            found = (one for one in self.heard() if one.role == role and words in one.name)
            one = next(found, None)
            if one:
                return one
            self.page.wait_for_timeout(100)
        raise AssertionError(f"no {role} is called {words}")


def right_answers(job: Job) -> set[str]:
    shop = demo_shop()
    return {
        control_shown(shop.hazards[one], step)
        for step in job.steps
        for one in step.hazards
        if shop.hazards[one].wrong_answers
    }


def test_a_whole_job_as_a_screen_reader_hears_it(demo: Path, visit: Visit) -> None:
    """From the first page to the end of the last round, each time by what comes next."""
    shop, job = demo_shop(), demo_shop().jobs[JOB]
    visitor = visit(KIOSK)
    page = visitor.open(demo, "index.html")
    listener = Listener(page)
    for words in (shop.machines[job.machine].name, job.title, "Learn this job"):
        listener.press(listener.find("link", words))
        page.wait_for_load_state()
    page.evaluate("window.benchleafFollow.again = 0")
    right, asked = right_answers(job), 0
    for number in range(len(ROUNDS) + 1):
        steps: list[str] = []
        for _ in range(80):
            heard = listener.heard()
            names = [one.name for one in heard]
            buttons = {one.name: one for one in heard if one.role == "button"}
            ways_on = [one for one in buttons if NEXT.fullmatch(one)]
            if not ways_on:
                break
            told = next((one for one in names if one.startswith("Step ") and " of " in one), "")
            on = next(
                (buttons[one] for one in buttons
                 if one in ("I have read this", "I have this in mind") or one in right), None,
            )  # fmt: skip
            if on:
                hazards = [place for place, one in enumerate(heard) if one.role == "note"]
                if hazards:  # what it is about is heard before it is answered
                    assert min(hazards) < heard.index(on)
                asked += on.name in right
            elif (step := STEP.fullmatch(told)) and step[1] not in steps:
                steps.append(step[1])
                assert names.index(told) < names.index(ways_on[0])
            assert on or not buttons[ways_on[0]].disabled
            listener.press(on or buttons[ways_on[0]])
        wanted = [f"Step {one} of {len(job.steps)}" for one in range(1, len(job.steps) + 1)]
        assert steps == wanted, number
        ends = "You have seen every step" if number == 0 else f"Round {number} is done"
        assert listener.find("heading", ends)
        if number < len(ROUNDS):
            listener.press(listener.find("button", f"Round {number + 1}: {ROUNDS[number].name}"))
    assert asked > 0
    assert visitor.strays == []


FOCUSED = """() => { const one = document.activeElement;
  return [one.tagName, one.innerText || one.getAttribute('aria-label') || '']; }"""


def tab_to(page: Page, wanted: Callable[[str], bool]) -> str:
    """Press Tab until the focus is on a link or button that is wanted."""
    for _ in range(90):
        page.keyboard.press("Tab")
        tag, words = page.evaluate(FOCUSED)
        if tag in ("A", "BUTTON") and wanted(" ".join(words.split())):
            return " ".join(words.split())
    raise AssertionError(page.evaluate(FOCUSED))


def test_a_whole_job_by_keyboard_alone(demo: Path, visit: Visit) -> None:
    """Tab, Enter and Space on the button that has the focus, and nothing else."""
    job = demo_shop().jobs[JOB]
    visitor = visit(KIOSK)
    page = visitor.open(demo, f"jobs/{JOB}.html")
    tab_to(page, lambda words: words.startswith("Learn this job"))
    page.keyboard.press("Enter")
    page.locator(".bl-bottom").wait_for()
    right, pressed, count = right_answers(job), 0, page.locator(".bl-bottom__count")
    answers = {"I have read this", "I have this in mind", *right}
    while (told := count.inner_text()) != "The end of the job":
        asks = page.locator("[data-do='next']").get_attribute("aria-disabled") == "true"
        ways_on = answers if asks else {"Next", "Next step"}
        tab_to(page, lambda words, ways_on=ways_on: words in ways_on)  # type: ignore[misc]
        page.keyboard.press("Enter" if pressed % 2 else " ")
        pressed += 1
        assert pressed < 80, told
        if asks:  # the answer goes on, and no further: the step itself comes next
            assert page.locator("[data-do='next']").get_attribute("aria-disabled") == "false"
    assert page.locator(".bl-extra h2").inner_text() == "You have seen every step"
    assert visitor.strays == []


def asked_step(job: Job) -> tuple[int, Step, Hazard]:
    """The first step at which a question is asked in a sitting that begins there."""
    shop = demo_shop()
    for number, step in enumerate(job.steps):
        hazards = [shop.hazards[one] for one in step.hazards]
        asks = [one for one in hazards if one.wrong_answers and one.signal_word in GRAVE]
        if asks:
            return number, step, min(asks, key=lambda one: one.signal_word.rank)
    raise AssertionError("no step asks")


SHOW = """number => { const follow = window.benchleafFollow, state = follow.state;
  state.at = follow.screens.indexOf(follow.steps[number]);
  Object.assign(state, {told: {}, read: {}}); follow.show(); }"""


PEDAL = """() => ['keydown', 'keyup'].forEach(kind => document.activeElement.dispatchEvent(
  new KeyboardEvent(kind, {key: 'F13', bubbles: true, cancelable: true})))"""


def test_a_question_has_one_right_answer_and_a_wrong_touch_shows_it(
    demo: Path, visit: Visit
) -> None:
    job = demo_shop().jobs["tr-0110"]
    number, step, hazard = asked_step(job)
    assert hazard.wrong_answers
    right = control_shown(hazard, step)
    visitor = visit(KIOSK)
    page = visitor.open(demo, "jobs/tr-0110.html#follow")
    page.locator(".bl-bottom").wait_for()
    orders, offered = set(), set()
    for _ in range(12):
        page.evaluate(SHOW, number)
        words = page.locator(".bl-now .bl-answer").all_inner_texts()
        assert right in words
        assert set(words) - {right} <= set(hazard.wrong_answers.answers)
        assert len(words) == 3
        orders.add(words.index(right))
        offered |= set(words)
    assert len(orders) > 1  # in changing places: twelve times the same by chance once in 177,000
    assert len(offered) > 3 or len(hazard.wrong_answers.answers) < 3
    assert hazard.title in page.locator(".bl-now .bl-question").inner_text()
    assert step.title in page.locator(".bl-now .bl-step__before").inner_text()
    page.locator(".bl-now .bl-answer").filter(has_text=right).focus()
    page.evaluate(PEDAL)  # also where the focus is on the very answer
    page.locator("[data-do='next']").tap(force=True)
    assert page.locator(".bl-now.bl-shut").count() == 1
    wrong = next(one for one in words if one != right)
    page.get_by_role("button", name=wrong, exact=True).tap()
    assert page.locator(".bl-now.bl-shut").count() == 1
    assert right in page.get_by_role("status").filter(has_text="Not this one").inner_text()
    assert page.locator(".bl-answer--yes").inner_text() == right
    targets = page.locator(".bl-now .bl-answer").evaluate_all(
        "all => Math.min(...all.map(one => one.getBoundingClientRect().height))"
    )
    assert targets >= 65
    page.locator(".bl-answer--yes").tap()
    assert page.locator(".bl-now .bl-points").is_visible()
    page.emulate_media(media="print")
    assert not page.locator(".bl-question").first.is_visible()
    assert visitor.strays == []


def colours(shot: bytes) -> int:
    image = Image.open(io.BytesIO(shot)).convert("RGB").quantize(8)
    found = image.getcolors() or []
    return len([count for count, _ in found if count > image.width * image.height * 0.02])


@pytest.mark.parametrize("scheme", sample(["light", "dark"], 1, seed=5))
def test_colours_of_the_screens_own_keep_rack_badge_and_box(
    demo: Path, visit: Visit, scheme: Any
) -> None:
    page = visit(KIOSK).open(demo, "jobs/tr-0110.html")
    page.emulate_media(forced_colors="active", color_scheme=scheme)
    badge = page.locator(".bl-gravest .bl-word").first
    assert badge.evaluate("one => parseFloat(getComputedStyle(one).borderTopWidth)") >= 2
    page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    box = "getComputedStyle(document.querySelector('.bl-list--box > li'), '::before')"
    assert page.evaluate(f"parseFloat({box}.borderTopWidth)") >= 2
    page.goto(page.url + "#follow")
    page.locator(".bl-bottom").wait_for()
    page.evaluate(SHOW, 2)
    teeth = page.locator(".bl-rack li").evaluate_all(
        "all => all.map(one => getComputedStyle(one).backgroundColor)"
    )
    paper = page.evaluate("getComputedStyle(document.querySelector('.bl-bottom')).backgroundColor")
    assert len(set(teeth)) == 3  # behind, here, ahead
    assert paper not in teeth
    assert colours(page.locator(".bl-rack").screenshot()) >= 3
    strip = page.locator(".bl-now .bl-hazard__word").first
    assert strip.evaluate("one => parseFloat(getComputedStyle(one).borderTopWidth)") >= 2
    assert page.locator(".bl-now .bl-answer").first.evaluate(
        "one => parseFloat(getComputedStyle(one).borderTopWidth)") >= 2  # fmt: skip


def test_text_light_and_search_work_inside_the_step_view(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, "jobs/tr-0110.html#follow")
    page.locator(".bl-bottom").wait_for()
    page.evaluate(SHOW, 1)
    told = page.locator(".bl-bottom__count").inner_text()
    tools = page.locator(".bl-top")
    tools.locator("[data-tool='text']").tap()
    assert page.evaluate("document.documentElement.dataset.text") == "2"
    tools.locator("[data-tool='light']").tap()
    assert page.evaluate("document.documentElement.dataset.mdColorScheme") == "slate"
    tools.locator("[data-tool='search']").tap()
    page.locator(".bl-keys").wait_for()
    for sign in "120":
        page.get_by_role("button", name=sign, exact=True).tap()
    page.locator(".bl-found").first.wait_for()
    for key in ("ArrowDown", "ArrowRight", "PageDown"):  # none is a key for the step behind
        page.keyboard.press(key)
    assert page.locator(".bl-bottom__count").inner_text() == told
    page.get_by_role("button", name="Close").tap()
    assert not page.locator(".bl-results").is_visible()
    assert page.locator(".bl-now").first.is_visible()
    assert page.locator(".bl-bottom__count").inner_text() == told
    assert page.locator(".bl-header .bl-search").count() == 1  # the box is back in its place
    tools.locator("[data-tool='search']").tap()
    page.locator("#bl-search-input").fill("blood")
    page.get_by_role("button", name="Something is wrong with this job").tap()
    assert "hurt" in page.locator(".bl-now").first.inner_text()
    assert visitor.strays == []
