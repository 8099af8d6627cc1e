"""One step at a time, the showing, the four rounds and the self-check, from disk."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from stepping import JOB, NOW, Visit, choose_round, count, enter, read_hazards, to_step

from benchleaf.model import ROUNDS, WATCH_FIRST, Job, SignalWord, control_shown
from build_demo import KIOSK, LANDSCAPE, PHONE, demo_shop, forked_build
from running import sample
from visitor import to_touch


@pytest.fixture(scope="module")
def job() -> Job:
    return demo_shop().jobs[JOB]


@pytest.mark.parametrize("size", sample([KIOSK, LANDSCAPE, PHONE], 1, seed=5))
def test_a_whole_job_by_touch(demo: Path, visit: Visit, size: tuple[int, int], job: Job) -> None:
    visitor = visit(size)
    page = enter(visitor, demo)
    page.evaluate("window.benchleafFollow.again = 0")  # a test touches faster than a finger
    assert count(page).startswith("Get ready, 1 of")
    assert "Wear this" in page.locator(NOW).first.inner_text()
    seen: list[str] = []
    for _ in range(60):
        if not page.locator("[data-do='next']").is_visible():
            break
        top = page.locator(".bl-top__job").inner_text()
        assert job.id.upper() in top
        assert f"Revision {job.revision}" in top
        if not read_hazards(page):
            seen.append(count(page))
            page.locator("[data-do='next']").tap()
    steps = dict.fromkeys(one.split(",")[0] for one in seen if one.startswith("Step"))
    assert list(steps) == [
        f"Step {number} of {len(job.steps)}" for number in range(1, len(job.steps) + 1)
    ]
    assert page.locator(".bl-extra h2").inner_text() == "You have seen every step"
    assert visitor.strays == []


def test_grave_hazards_come_first_and_wait_for_an_answer(
    demo: Path, visit: Visit, job: Job
) -> None:
    visitor = visit(KIOSK)
    page = enter(visitor, demo)
    to_step(page, 3, fresh=True)
    hazards, points = page.locator(f"{NOW} > .bl-hazard").first, page.locator(f"{NOW} .bl-points")
    assert hazards.is_visible()
    assert not points.is_visible()
    for key in ("PageDown", " ", "ArrowRight", "Enter"):
        page.keyboard.press(key)
        assert hazards.is_visible()
    page.locator("[data-do='next']").tap(force=True)
    assert count(page) == "Step 3 of 7"
    assert hazards.is_visible()
    assert "First touch" in page.locator(f"{NOW} .bl-ack__help").inner_text()
    to_touch(page).tap()
    assert points.is_visible()
    assert not hazards.is_visible()
    strip = page.locator(f"{NOW} .bl-strip")
    hazard = demo_shop().hazards["key-in-chuck"]
    for words in ("DANGER", "WARNING", hazard.title, control_shown(hazard, job.steps[2])):
        assert words in strip.inner_text()
    strip.locator(".bl-strip__whole").first.tap()  # the whole text is one touch away
    assert hazards.is_visible()
    assert "Take off gloves" in hazards.inner_text()
    assert not points.is_visible()
    page.locator("[data-do='back']").tap()
    assert points.is_visible()
    for key in ("Enter", " "):  # on the button that has the focus, a key answers
        to_step(page, 3, fresh=True)
        to_touch(page).focus()
        page.keyboard.press(key)
        assert points.is_visible(), key
    is_told_whole_once_a_sitting(page)


def is_told_whole_once_a_sitting(page: Any) -> None:
    """Whole where it is first met; danger once in each round; an idle reset ends the sitting."""
    to_step(page, 3, fresh=True)
    read_hazards(page)
    to_step(page, 4)
    seen = page.locator(NOW).inner_text()
    assert "tear the work out of its holding" in seen  # break-through is new here
    assert "tear off a finger" not in seen  # danger was told at step 3
    assert "Caught by the turning spindle." in seen  # and stands in the strip
    read_hazards(page)
    choose_round(page, 2)
    to_step(page, 2)  # nothing new, no danger
    assert page.locator(f"{NOW}.bl-shut").count() == 0
    to_step(page, 3)
    assert page.locator(f"{NOW} .bl-answer").count() == 3  # danger asks again
    assert "tear off a finger" not in page.locator(NOW).inner_text()
    read_hazards(page)
    to_step(page, 4)
    assert page.locator(f"{NOW}.bl-shut").count() == 0
    page.evaluate("document.dispatchEvent(new CustomEvent('benchleaf:reset'))")
    assert page.evaluate("Object.keys(window.benchleafFollow.state.told).length") == 0
    page.locator(".bl-learn__start").tap()
    page.locator(
        ".bl-bottom__count", has_text="Get ready, 1 of"
    ).wait_for()  # the address changes first


def test_every_step_with_a_grave_hazard_in_the_demo_is_shut_at_first(
    demo: Path, visit: Visit
) -> None:
    """From whatever door: each step as the first of a sitting, and each after those before it."""
    shop = demo_shop()
    grave = (SignalWord.DANGER, SignalWord.WARNING)
    visitor = visit(KIOSK)
    for job in sample(list(shop.jobs.values()), len(shop.jobs) // 5, seed=3):
        page = visitor.open(demo, f"jobs/{job.id}.html#follow")
        shut, in_turn = page.evaluate(
            """() => { const follow = window.benchleafFollow, state = follow.state;
                 const next = document.querySelector("[data-do='next']");
                 const begin = () => Object.assign(state, {told: {}, read: {}});
                 const isShut = screen => { state.at = follow.screens.indexOf(screen);
                   Object.assign(state, {part: 99, partOf: screen.name + ' before'}); /* the last */
                   follow.show(); return document.querySelector('.bl-now.bl-shut')
                     && next.ariaDisabled === 'true'; };
                 const first = follow.steps.filter(one => { begin(); return isShut(one); });
                 begin();
                 const turn = follow.steps.filter(one => { const shut = isShut(one);
                   follow.markRead(one); return shut; });
                 return [first, turn].map(list => list.map(one => one.name)); }"""
        )
        steps = {f"step-{one.id}": [h for h in one.hazards
                 if shop.hazards[h].signal_word in grave] for one in job.steps}  # fmt: skip
        assert [name for name, hazards in steps.items() if hazards] == shut, job.id
        told: set[str] = set()
        wanted = []
        for name, hazards in steps.items():
            if set(hazards) - told:
                wanted.append(name)
            told |= set(hazards)
        assert wanted == in_turn, job.id


def test_keys_and_touches_go_exactly_one_step_on_and_back(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = enter(visitor, demo)
    page.locator("[data-do='next']").dblclick()  # the same finger, once more
    assert count(page).startswith("Get ready, 2 of")
    to_step(page, 2)
    read_hazards(page)
    for on, back in (("PageDown", "PageUp"), (" ", "ArrowLeft"), ("ArrowRight", "ArrowUp")):
        page.keyboard.press(on)
        assert count(page) == "Step 3 of 7"
        page.keyboard.press(back)
        assert count(page) == "Step 2 of 7"
    page.keyboard.down("ArrowLeft")
    for _ in range(4):
        page.keyboard.down("ArrowLeft")  # held down: the browser calls it a repeat
    page.keyboard.up("ArrowLeft")
    assert count(page) == "Step 1 of 7"
    for _ in range(30):
        page.keyboard.press("PageUp")
    assert count(page).startswith("Get ready, 1")
    assert page.url.endswith(f"jobs/{JOB}.html#follow")


def test_a_step_stays_through_a_reload(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = enter(visitor, demo)
    to_step(page, 4)
    read_hazards(page)
    page.reload()
    page.locator(f"{NOW}.bl-step").wait_for()
    assert count(page) == "Step 4 of 7"
    assert visitor.strays == []


def test_the_rounds_have_one_numbering(demo: Path, visit: Visit) -> None:
    page = enter(visit(KIOSK), demo)
    button = page.locator("[data-do='rounds']")
    assert button.inner_text() == WATCH_FIRST.name
    button.tap()
    assert page.locator(".bl-extra h2").inner_text() == "Watch first, then four rounds"
    choices = page.locator(".bl-extra .bl-choice b").all_inner_texts()
    wanted = [f"Round {one.number}: {one.name}" for one in ROUNDS]
    assert choices == [WATCH_FIRST.name, *wanted, "Check yourself"]
    page.locator("[data-do='back']").tap()
    for one in ROUNDS:
        choose_round(page, one.number)
        assert button.inner_text() == f"Round {one.number} of 4: {one.name}"
        assert page.evaluate("window.benchleafFollow.state.round") == one.number
    page.evaluate("""() => { const follow = window.benchleafFollow;
        follow.state.at = follow.screens.length; follow.show(); }""")
    assert page.locator(".bl-extra h2").inner_text() == "Round 4 is done"
    assert page.locator(".bl-extra .bl-choice b").first.inner_text() == "Check yourself"
    page.reload()
    page.locator(".bl-extra h2").wait_for()
    assert button.inner_text() == "Round 4 of 4: Reasons"


@pytest.mark.parametrize("number", sample([1, 2], 1, seed=1))
def test_a_hidden_step_still_shows_hazards_figures_and_stop(
    demo: Path, visit: Visit, job: Job, number: int
) -> None:
    page = enter(visit(KIOSK), demo)
    choose_round(page, number)
    to_step(page, 4)
    assert page.locator(f"{NOW} > .bl-hazard:not(.bl-told)").first.is_visible()
    assert not page.locator(f"{NOW} .bl-say, {NOW} .bl-halt").first.is_visible()
    read_hazards(page)
    step = job.steps[3]
    seen = page.locator(NOW).inner_text()
    tree = page.locator(NOW).aria_snapshot()
    for one in ("WARNING", "Step 4.", "1480 rpm", "Emergency stop", "red button"):
        assert one in seen
    for one in (step.title, step.key_points[0].point[:12], step.key_points[0].reason[:12],
                "When it is right", "Where to stand"):  # fmt: skip
        assert one not in tree
    page.locator(f"{NOW} .bl-say").tap()
    seen = page.locator(NOW).inner_text()
    for one in (step.title, "Where to stand", "When it is right", "1480 rpm"):
        assert one in seen
    assert page.locator(".bl-halt").count() == 0


def test_what_protects_hands_inside_is_hidden_in_no_round(project: Path, visit: Visit) -> None:
    path = project / "content/jobs/vg-0010.yml"
    before = "    right: A steady hiss"
    text = path.read_text(encoding="utf-8")
    assert before in text
    hands = (
        "    hands_inside:\n      doing: cleaning\n      protected_by: own control of the start\n"
    )
    hands += "      how: The red handle is off.\n"
    path.write_text(text.replace(before, hands + before), encoding="utf-8")
    built = forked_build(project)
    assert built.returncode == 0, built.stdout + built.stderr
    for size in sample([KIOSK, LANDSCAPE, PHONE], 1, seed=7):
        page = visit(size).open(project / "site", "jobs/vg-0010.html#follow")
        page.locator(".bl-bottom").wait_for()
        for number in range(len(ROUNDS) + 1):
            page.evaluate(
                """round => { const follow = window.benchleafFollow, step = follow.steps[1];
                     follow.state.round = round; follow.markRead(step);
                     follow.state.at = follow.screens.indexOf(step); follow.show(); }""",
                number,
            )
            box = page.locator(f"{NOW} .bl-hands")
            assert box.is_visible()
            assert box.inner_text() == "Before your hands go in. The red handle is off."
            tops = page.evaluate(
                """() => ['.bl-hands', '.bl-points'].map(one => document.querySelector(
                     '.bl-now ' + one).getBoundingClientRect()).map(one => [one.top, one.bottom])"""
            )
            if number in (0, 3, 4):
                assert tops[0][1] <= tops[1][0] + 1
            bars = page.evaluate(
                """() => { const one = document.querySelector('.bl-now .bl-hands'), at =
                     one.getBoundingClientRect(); return [...document.querySelectorAll(
                     '.bl-now > *')].filter(other => other !== one && !other.contains(one)
                     && other.checkVisibility()).map(other => other.getBoundingClientRect())
                     .filter(other => other.height && other.top < at.bottom - 1
                       && other.bottom > at.top + 1 && other.left < at.right - 1
                       && other.right > at.left + 1).length; }"""
            )
            assert bars == 0, (size, number)


def test_round_two_hides_the_step_until_it_is_touched(demo: Path, visit: Visit, job: Job) -> None:
    page = enter(visit(KIOSK), demo)
    choose_round(page, 2)
    to_step(page, 1)
    read_hazards(page)
    tree = page.locator(NOW).aria_snapshot()
    assert job.steps[0].title not in tree
    assert job.steps[0].key_points[1].reason[:12] not in tree
    page.locator(f"{NOW} .bl-say").tap()
    tree = page.locator(NOW).aria_snapshot()
    assert job.steps[0].title in tree
    assert "Run too fast, the corners" in tree


def test_round_three_hides_each_key_point(demo: Path, visit: Visit, job: Job) -> None:
    page = enter(visit(KIOSK), demo)
    choose_round(page, 3)
    to_step(page, 2)
    read_hazards(page)
    points = [point.point.split()[0:2] for point in job.steps[1].key_points]
    cards = page.locator(f"{NOW} .bl-say")
    assert cards.count() == len(points)
    tree = page.locator(NOW).aria_snapshot()
    assert job.steps[1].title in tree
    assert not any(" ".join(words) in tree for words in points)
    others = cards.nth(1).bounding_box(), page.locator("[data-do='next']").bounding_box()
    cards.first.tap()  # nothing moves under the finger
    assert others == (cards.nth(0).bounding_box(), page.locator("[data-do='next']").bounding_box())
    tree = page.locator(NOW).aria_snapshot()
    assert [" ".join(words) in tree for words in points] == [True, False, False, False]


def shown_words(page: Any) -> str:
    """What can be read on the screen, on one line; a link inside a sentence does not part it."""
    return " ".join(page.locator(NOW).inner_text().split())


def test_round_four_hides_each_reason(demo: Path, visit: Visit, job: Job) -> None:
    page = enter(visit(KIOSK), demo)
    choose_round(page, 4)
    to_step(page, 3)
    read_hazards(page)
    words = shown_words(page)
    reasons = [point.reason for point in job.steps[2].key_points]
    assert job.steps[2].key_points[0].point in words
    assert not any(reason[:20] in words for reason in reasons)
    page.locator(f"{NOW} .bl-say").first.focus()
    page.keyboard.press("Enter")
    assert reasons[0] in shown_words(page)


def test_what_was_hidden_is_whole_again_on_the_page(demo: Path, visit: Visit, job: Job) -> None:
    page = enter(visit(KIOSK), demo)
    choose_round(page, 3)
    to_step(page, 2)
    read_hazards(page)
    page.locator("[data-do='leave']").tap()
    step = page.locator(f"[id='{job.steps[1].id}']")
    assert step.locator(".bl-point__what").count() == len(job.steps[1].key_points)
    assert all(one.is_visible() for one in step.locator(".bl-point__what").all())
    assert page.locator(".bl-say").count() == 0
    assert page.locator(".bl-header").is_visible()
    link = page.locator("[data-screen='have'] a, [data-screen='ready'] a").first
    assert link.get_attribute("href")


def test_all_steps_leads_past_no_unread_hazard(demo: Path, visit: Visit) -> None:
    page = enter(visit(KIOSK), demo)
    page.locator("[data-do='all']").tap()
    page.locator(".bl-card").nth(4).tap()
    assert count(page).startswith("Get ready, 3")
    assert page.locator(f"{NOW}.bl-shut").count() == 1


def test_something_is_wrong_is_one_touch_away(demo: Path, visit: Visit, job: Job) -> None:
    page = enter(visit(KIOSK), demo)
    to_step(page, 2)
    page.locator("[data-do='wrong']").tap()
    text = page.locator(NOW).inner_text()
    assert text.index("hurt") < text.index("Call") < text.index(job.if_wrong[0].sign)
    room = page.evaluate(
        """() => { const list = document.querySelector(".bl-now .bl-trouble ol");
             return list.querySelector("li").getBoundingClientRect().left
               - list.closest(".bl-article").getBoundingClientRect().left; }"""
    )
    assert room > 40  # a number of a line takes some 30
    page.locator("[data-do='back']").tap()
    assert count(page) == "Step 2 of 7"


def press(page: Any, key: str) -> None:
    """A key that no keyboard of the test has, as a pedal sends it."""
    script = (
        "key => document.body.dispatchEvent(new KeyboardEvent('keydown', {key, bubbles: true}))"
    )
    page.evaluate(script, key)


def start_check(page: Any) -> None:
    page.locator("[data-do='rounds']").tap()
    page.locator(".bl-extra .bl-choice").last.tap()
    page.locator(".bl-check-count").wait_for()  # its script is loaded when it is asked for


def test_the_self_check_says_why_and_stores_nothing(demo: Path, visit: Visit, job: Job) -> None:
    visitor = visit(KIOSK)
    page = enter(visitor, demo)
    start_check(page)
    choices = page.locator(".bl-extra .bl-choice")
    shown = [one.inner_text() for one in choices.all()]
    titles = [step.title for step in job.steps]
    assert sorted(shown) == sorted(titles)
    assert shown != titles
    choices.filter(has_text=titles[3]).tap()
    verdict = page.locator(".bl-verdict").inner_text()
    assert verdict.startswith("Not this one.")
    assert job.steps[0].key_points[0].reason.split(".")[0][:20] in verdict
    for title in titles:
        choices.filter(has_text=title).first.tap()
    reasons = {point.point: point.reason for step in job.steps for point in step.key_points}
    for _ in range(3):
        page.locator(".bl-choice--on").tap()
        asked = page.locator(".bl-extra h2").inner_text()
        point = next(one for one in reasons if one in asked)
        wrong = next(one for one in choices.all() if one.inner_text() != reasons[point])
        wrong.tap()
        assert "That is the reason for" in page.locator(".bl-verdict").inner_text()
        choices.get_by_text(reasons[point], exact=True).or_(
            choices.filter(has_text=reasons[point][:25])
        ).first.tap()
        assert page.locator(".bl-verdict").inner_text().startswith("Right.")
    page.locator(".bl-choice--on").tap()
    assert "spindle speed to set" in page.locator(".bl-extra h2").inner_text()
    choices.filter(has_text="1200 rpm").tap()
    assert "fastest one inside" in page.locator(".bl-verdict").inner_text()
    choices.filter(has_text="1480 rpm").tap()
    assert "Source: " in page.locator(".bl-verdict").inner_text()
    page.locator(".bl-choice--on").tap()
    choices.filter(has_text="10.0 mm").tap()
    page.locator(".bl-choice--on").tap()
    assert page.locator(".bl-extra h2").inner_text() == "Show this to your trainer"
    assert "1 of 6 right at once" in page.locator(".bl-score").inner_text()
    kept = page.evaluate("JSON.stringify(sessionStorage) + JSON.stringify(localStorage)")
    assert "right" not in kept.lower()
    assert "slip" not in kept
    page.locator("[data-do='back']").tap()
    assert page.locator(".bl-score").count() == 0
    assert visitor.strays == []


def test_a_job_that_must_not_be_run_cannot_be_stepped_through(project: Path, visit: Visit) -> None:
    (machine,) = (project / "content/machines").glob("*.yml")
    text = machine.read_text(encoding="utf-8")
    assert "rated_thrust: 4 kN" in text
    machine.write_text(text.replace("rated_thrust: 4 kN", "rated_thrust: 4 N"), encoding="utf-8")
    built = forked_build(project)
    assert built.returncode == 0, built.stdout + built.stderr
    visitor = visit(KIOSK)
    page = visitor.open(project / "site", "jobs/vg-0010.html#follow")
    assert page.locator(".bl-stop").first.is_visible()
    assert page.locator(".bl-learn__start, .bl-bottom, #follow").count() == 0
    assert not page.evaluate("document.documentElement.classList.contains('bl-stepping')")
    assert visitor.strays == []


def test_a_pedal_works_only_where_the_shop_turns_it_on(demo: Path, visit: Visit) -> None:
    page = enter(visit(KIOSK), demo)
    press(page, "F13")
    assert count(page).startswith("Get ready, 1")


def test_a_pedal_that_is_turned_on_goes_on_and_never_acknowledges(
    project: Path, visit: Visit
) -> None:
    manual = project / "content/manual.yml"
    kiosk = "kiosk:\n  pedal_next: F13\n  pedal_back: F14\n"
    manual.write_text(manual.read_text(encoding="utf-8") + kiosk, encoding="utf-8")
    built = forked_build(project)
    assert built.returncode == 0, built.stdout + built.stderr
    visitor = visit(KIOSK)
    page = visitor.open(project / "site", "jobs/vg-0010.html")
    page.locator(".bl-learn__start").tap()
    assert "pedal of the machine" in page.locator(".bl-pedal").inner_text()
    press(page, "F13")
    assert count(page).startswith("Get ready, 2")
    press(page, "F14")
    assert count(page).startswith("Get ready, 1")
    for _ in range(20):
        press(page, "F13")
    assert page.locator(f"{NOW}.bl-shut").count() == 1
