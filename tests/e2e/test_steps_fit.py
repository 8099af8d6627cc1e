"""That steps fit their screens: parts, pictures, letters, targets; the cue where they do not."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from stepping import NOW, Visit, count, enter, read_hazards, to_step

import get_browser
from access import SIZES
from benchleaf.commands import layouts
from build_demo import KIOSK, LANDSCAPE, PHONE, demo_shop
from running import sample

MAIN = "document.getElementById('main')"
WALK = Path(__file__).with_name("walk.js").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", sample([*SIZES], 2, seed=2))
def test_no_step_scrolls_and_each_part_is_whole(demo: Path, visit: Visit, name: str) -> None:
    """By `tests/bench/screens.py` for all; by day a fifth of the jobs at two sizes."""
    shop = demo_shop()
    order = list(SIZES).index(name)
    jobs = [job for job in shop.jobs.values() if 'id="follow"' in
            (demo / f"jobs/{job.id}.html").read_text(encoding="utf-8")]  # fmt: skip
    visitor = visit(SIZES[name])
    divided = 0
    for job in sample(jobs, max(2, len(jobs) // 5), seed=order):
        page = visitor.open(demo, f"jobs/{job.id}.html#follow")
        page.locator(".bl-bottom").wait_for()
        for one, step in zip(page.evaluate(WALK), job.steps, strict=True):
            where = (name, job.id, one["name"])
            assert one["over"] == [], where
            assert one["cut"] == [], where
            assert one["pictures"] >= one["offers"], where
            assert set(one["read"]) == set(one["hazards"]) == set(step.hazards), where
            assert all(set(strip) == set(step.hazards) for strip in one["strips"]), where
            points = {int(index): set(parts) for index, parts in one["points"].items()}
            assert set(points) == set(range(len(step.key_points))), where
            act: set[int] | None = None
            for index, point in enumerate(step.key_points):
                if point.kind == "can injure":
                    assert act is None or points[index] <= act, where
                else:
                    act = points[index]
            divided += one["parts"] > 1
    assert divided or name != "phone"


def test_a_divided_step_goes_on_and_back_part_by_part(demo: Path, visit: Visit) -> None:
    page = enter(visit(PHONE), demo)
    to_step(page, 4)
    read_hazards(page)
    page.evaluate("window.benchleafFollow.again = 0")
    while page.locator(f"{NOW}.bl-shut").count():
        read_hazards(page)
    told = re.fullmatch(r"Step 4 of 7, part 1 of (\d)", count(page))
    assert told
    many = int(told[1])
    assert many > 1
    titles = []
    for part in range(1, many + 1):
        assert count(page) == f"Step 4 of 7, part {part} of {many}"
        marks = page.locator(".bl-rack__parts i").all_inner_texts()
        assert marks == list("abcdefgh"[:many])
        assert page.locator(".bl-rack__part--now").inner_text() == "abcdefgh"[part - 1]
        titles.append(page.locator(f"{NOW} .bl-step__title").inner_text())
        page.locator("[data-do='next']").tap()
    assert len(set(titles)) == 1
    assert count(page).startswith("Step 5 of 7")
    page.locator("[data-do='back']").tap()
    assert count(page) == f"Step 4 of 7, part {many} of {many}"
    page.reload()
    page.locator(f"{NOW}.bl-step").wait_for()
    assert count(page) == f"Step 4 of 7, part {many} of {many}"
    page.evaluate(
        """() => { const follow = window.benchleafFollow, screen = follow.steps[3];
             follow.goTo(screen, screen.parts[0].querySelector('.bl-point')); }"""
    )
    first = page.locator(f"{NOW} .bl-point").first
    assert first.is_visible()
    page.emulate_media(media="print")  # on paper a step is whole
    assert all(one.is_visible() for one in page.locator(f"{NOW} .bl-point").all())
    assert page.locator(f"{NOW} .bl-right").is_visible()
    page.emulate_media(media="screen")
    page.locator("[data-do='leave']").tap()
    assert page.locator(".bl-elsewhere").count() == 0


def test_larger_text_is_shown_whole_and_scrolls_with_a_cue(demo: Path, visit: Visit) -> None:
    """As on a screen that is smaller than any in the table: nothing is kept back."""
    page = enter(visit(PHONE), demo)
    to_step(page, 4)
    for set_up in (
        "document.documentElement.dataset.text = '3'",
        "document.documentElement.dataset.text = '1';"
        " window.benchleafFollow.steps[3].parts[0].removeAttribute('data-layouts')",
    ):
        page.evaluate(
            f"""() => {{ {set_up}; const follow = window.benchleafFollow;
                 follow.markRead(follow.steps[3]); follow.show(); }}"""
        )
        assert count(page) == "Step 4 of 7"
        assert page.locator(".bl-more").is_visible()
        shown = page.locator(f"{NOW} .bl-point")
        assert all(one.is_visible() for one in shown.all())
        page.evaluate(f"{MAIN}.scrollTo(0, {MAIN}.scrollHeight)")
        page.locator(".bl-more").wait_for(state="hidden")
        right = page.locator(f"{NOW} .bl-right").bounding_box()
        bar = page.locator(".bl-bottom").bounding_box()
        assert right["y"] + right["height"] <= bar["y"] + 1


def test_text_is_read_on_a_screen_of_320_by_200(demo: Path, visit: Visit) -> None:
    page = enter(visit((320, 200)), demo)
    to_step(page, 2)
    page.evaluate("window.benchleafFollow.markRead(window.benchleafFollow.steps[1])")
    page.evaluate("window.benchleafFollow.show()")
    page.locator(f"{NOW} .bl-point__what").first.evaluate("one => one.scrollIntoView()")
    room = page.evaluate(
        """() => { const box = css => document.querySelector(css).getBoundingClientRect();
             return [box('.bl-now .bl-point__what'), box('.bl-more').top, box('.bl-top').bottom]
               .map(one => one.top === undefined ? one : [one.top, one.bottom]); }"""
    )
    (top, bottom), cue, head = room
    assert head <= top + 1  # the bar above has given way
    assert bottom <= cue
    assert cue - max(0, head) >= 200 * 0.6


def test_layouts_are_measured_by_any_browser(built: Path) -> None:
    """The command on the small shop, at one size: what it finds holds every block of each step."""
    found = layouts.measure(built / "site", str(get_browser.browser()), "390x844")
    assert {key.rsplit("/", 1)[0] for key in found} >= {"vg-0010/clamp"}
    for key, layout in found.items():
        names = " ".join(layout["parts"]).split()
        assert names, key
        assert sum(name.startswith("p") for name in set(names)) >= 1, key
    text = layouts.table_text({key: {"390x844": one} for key, one in found.items()})
    assert set(json.loads(text)["steps"]) == set(found)


def test_back_and_next_are_large_and_everything_can_be_hit(demo: Path, visit: Visit) -> None:
    for size in sample([KIOSK, LANDSCAPE, PHONE], 1, seed=5):
        page = enter(visit(size), demo)
        to_step(page, 2)
        for name in ("back", "next"):
            box = page.locator(f".bl-bottom [data-do='{name}']").bounding_box()
            assert box["height"] >= (60 if size == PHONE else 96)
            assert box["y"] + box["height"] <= size[1]
        for button in page.locator("button:visible").all():
            box = button.bounding_box()
            assert min(box["width"], box["height"]) >= (48 if size == PHONE else 65)


LETTERS = {KIOSK: (46, 30, 24), LANDSCAPE: (44, 30, 24), (1280, 800): (30, 24, 20),
           PHONE: (24, 18, 16)}  # fmt: skip
"""Least height of letters in px: of the title, of a key point, of anything."""


@pytest.mark.parametrize("size", sample([*LETTERS], 2, seed=2))
def test_the_words_are_large_in_a_step(demo: Path, visit: Visit, size: tuple[int, int]) -> None:
    page = enter(visit(size), demo)
    for number in (3, 4):
        to_step(page, number)
        page.evaluate(
            """number => { const follow = window.benchleafFollow;
                 follow.markRead(follow.steps[number - 1]); follow.show(); }""",
            number,
        )
        sizes = page.evaluate(
            """() => { const size = css => [...document.querySelectorAll(css)].filter(
                 one => one.checkVisibility({visibilityProperty: true})).map(
                 one => parseFloat(getComputedStyle(one).fontSize));
               return [size('.bl-now .bl-step__title'), size('.bl-now .bl-point__what'),
                 size(`:is(.bl-now, .bl-top, .bl-bottom)
                   :is(p, li, dt, dd, button, b, figcaption)`)]; }"""
        )
        for found, least in zip(sizes, LETTERS[size], strict=True):
            assert min(found, default=least) >= least


def test_where_a_screen_does_not_fit_a_cue_says_so(demo: Path, visit: Visit) -> None:
    """Steps fit; screens that no table lays out may not, nor steps that are not in the table."""
    visitor = visit((1280, 800))
    page = enter(visitor, demo)
    over = page.evaluate(
        """() => { const main = document.getElementById('main'); const found = [];
             const follow = window.benchleafFollow;
             follow.steps[3].parts[0].removeAttribute('data-layouts');
             follow.screens.forEach((screen, at) => {
               follow.state.at = at; follow.markRead(screen); follow.show();
               const cue = document.querySelector("[data-do='more']");
               found.push([main.scrollHeight - main.clientHeight >= 24, !cue.hidden]); });
             return found; }"""
    )
    assert any(is_over for is_over, _ in over)
    assert all(is_over == cue for is_over, cue in over)


@pytest.mark.parametrize("size", sample([KIOSK, LANDSCAPE, PHONE], 1, seed=2))
def test_the_cue_stands_in_a_strip_of_its_own_and_passes_over_no_line(
    demo: Path, visit: Visit, size: tuple[int, int]
) -> None:
    page = enter(visit(size), demo, "tr-0390")
    page.locator("[data-do='wrong']").tap()
    cue, bar = (page.locator(one).bounding_box() for one in (".bl-more", ".bl-bottom"))
    back = page.locator(".bl-bottom__back").bounding_box()["y"]
    assert cue["y"] >= bar["y"]
    assert cue["y"] + cue["height"] <= back
    shown = bar["y"]
    page.evaluate("document.querySelector('.bl-more').click()")  # no scrolling but its own
    page.wait_for_function("document.getElementById('main').scrollTop > 0")
    assert page.evaluate("document.getElementById('main').scrollTop") < shown


@pytest.mark.parametrize("size", sample([KIOSK, LANDSCAPE], 1, seed=1))
def test_a_job_of_six_steps_is_seen_whole(demo: Path, visit: Visit, size: tuple[int, int]) -> None:
    page = enter(visit(size), demo)
    read_first = "window.benchleafFollow.steps.splice(6); document.querySelector('[data-do=all]')"
    page.evaluate(f"{read_first}.click()")
    assert page.locator(".bl-card").count() == 6
    main = "document.getElementById('main')"
    assert page.evaluate(f"{main}.scrollHeight <= {main}.clientHeight")
    assert page.locator(".bl-card__point").count() >= 12
