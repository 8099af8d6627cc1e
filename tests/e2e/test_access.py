"""Access, in both editions: axe-core, contrast, sizes of letters and targets, the focus, reflow.

By day each state and half of the types of page are measured on one of eight screens, which take
turns. axe judges a seeded part of them, and the contrast of a few; `measure.js` judges the contrast
of every text. By night, and in `python tests/bench/access.py`, all are looked at on every
screen, and wholly.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from access import (
    KIOSKS,
    LIGHTS,
    MEASURE,
    PARTS,
    SIZES,
    STATES,
    Look,
    least_height,
    letters_of_pictures,
    look_at,
    open_at,
    page_types,
    prepare,
    put,
    put_on,
)
from build_demo import KIOSK
from running import is_nightly, sample

Visit = tuple[Path, str, str]
"""Site, address, state ("" for a page as it opens)."""
NAMES = tuple(SIZES)
SCREENS = [(size, light) for size in NAMES for light in LIGHTS]
SHARES = ("pages", "states")
"""Of the work: each is given to one process (`tests/running.py`)."""
BY_AXE, CONTRAST_TOO = 6, 2
"""One in so many of a share's pages is judged by axe; of those so many by their contrast, too."""
NARROW = (((320, 640), 1), (KIOSK, 3), (SIZES["phone"], 3))
"""Screens that are narrow, or have the largest text."""


def turns(number: int) -> list[tuple[str, str]]:
    """One of the eight screens for the page or state of that number."""
    return SCREENS if is_nightly() else [SCREENS[number % len(SCREENS)]]


def visits(demo: Path, full_demo: Path, share: str = "") -> Iterator[Visit]:
    """All that is looked at, or one share of it."""
    full = full_demo.with_name("site-full")
    if share in ("", "pages"):
        yield from ((demo, name, "") for name in page_types(demo))
        more = (name for name in page_types(full) if not (demo / name).exists())
        yield from ((full, name, "") for name in more)
    if share in ("", "states"):
        yield from ((demo, address, state) for state, (address, _) in STATES.items())


def chosen(demo: Path, full_demo: Path, share: str) -> list[Visit]:
    """What is looked at of a share: every state, and a little over half of the types of page."""
    every = list(visits(demo, full_demo, share))
    return sample(every, len(every) * 11 // 20, seed=17) if share == "pages" else every


def look_through(browser: Browser, share: list[Visit]) -> list[Look]:
    """Everything that is measured, on every type of page and in every state of a share."""
    found = []
    tabs = {light: open_at(browser, KIOSK, light) for light in LIGHTS}
    by_axe = random.Random(len(share)).sample(range(len(share)), len(share) // BY_AXE)
    for number, (site, address, state) in enumerate(share):
        for turn, (size, light) in enumerate(turns(number)):
            page = tabs[light]
            put_on(page, SIZES[size])
            prepare(page, site, address, state)
            name, part = f"{address} {state} {size} {light}", PARTS.get(state, "")
            axe = is_nightly() or (number in by_axe and not turn)
            contrast = is_nightly() or number in by_axe[:CONTRAST_TOO]
            found.append(look_at(page, name, axe=axe, contrast=contrast, part=part))
    for page in tabs.values():
        page.context.close()
    return found


@pytest.fixture(scope="session")
def seen(demo: Path, full_demo: Path, browser: Browser) -> Callable[[str], list[Look]]:
    """Each share is looked through once, in whatever order the tests ask."""
    return cache(lambda share: look_through(browser, chosen(demo, full_demo, share)))


@pytest.fixture(params=SHARES)
def looks(request: pytest.FixtureRequest, seen: Callable[[str], list[Look]]) -> list[Look]:
    return seen(request.param)


def test_every_type_of_page_and_every_state_is_looked_at(
    demo: Path, full_demo: Path, looks: list[Look], request: pytest.FixtureRequest
) -> None:
    share = request.node.callspec.params["looks"]
    every = chosen(demo, full_demo, share)
    assert len(every) >= len(STATES) >= 20
    assert {look.name.rsplit(" ", 2)[0] for look in looks} == {f"{at} {do}" for _, at, do in every}
    for size, light in SCREENS:
        assert sum(look.name.endswith(f"{size} {light}") for look in looks) >= 2
    assert sum(len(look.texts) for look in looks) > 2000
    assert sum(len(look.targets) for look in looks) > 400


def test_axe_finds_nothing(looks: list[Look]) -> None:
    assert [f"{look.name}: {fault}" for look in looks for fault in look.faults] == []


def test_running_text_has_a_contrast_of_seven(looks: list[Look]) -> None:
    least = {"text": 7.0, "signal": 4.5, "off": 0.0}
    low = [(look.name, *one) for look in looks for one in look.texts if one[0] < least[one[1]]]
    assert low == []


def least_letter(look: Look) -> int:
    return least_height(look.name.split()[-2])


def test_letters_are_24_pixels_and_more_at_a_kiosk(looks: list[Look]) -> None:
    at_kiosk = [look for look in looks if look.name.split()[-2] in KIOSKS]
    small = [
        (look.name, *one)
        for look in at_kiosk
        for one in look.letters
        if one[0] < least_letter(look)
    ]
    drawn = [
        (look.name, *one)
        for look in at_kiosk
        for one in letters_of_pictures(look)
        if one[0] < least_letter(look)
    ]
    assert small == []
    assert drawn == []


def test_targets_are_48_pixels_and_more(looks: list[Look]) -> None:
    small = [(look.name, *one) for look in looks for one in look.targets if one[0] < 48]
    assert small == []


def test_nothing_overflows_or_is_cut_off_and_every_figure_is_told(looks: list[Look]) -> None:
    assert [f"{look.name}: {fault}" for look in looks for fault in look.layout] == []


@pytest.mark.parametrize("share", SHARES)
def test_narrow_screens_and_the_largest_text_need_no_sideways_scroll(
    demo: Path, full_demo: Path, browser: Browser, share: str
) -> None:
    """A fifth of the pages, a third of the states, at one of these each; by night all at all."""
    tabs = {text: open_at(browser, KIOSK, text=text) for text in {text for _, text in NARROW}}
    looked, every = 0, list(visits(demo, full_demo, share))
    part = 1 / 5 if share == "pages" else 1 / 3
    for number, (site, address, state) in enumerate(sample(every, int(len(every) * part), seed=13)):
        for size, text in NARROW if is_nightly() else [NARROW[number % len(NARROW)]]:
            page = tabs[text]
            put_on(page, size)
            prepare(page, site, address, state)
            put(page, MEASURE)
            found = page.evaluate(
                "measure.sideways().concat(measure.overlaps(), measure.covered())"
            )
            assert found == [], (address, state, page.viewport_size)
            looked += 1
    assert looked >= 7
    for page in tabs.values():
        page.context.close()


def test_hazards_are_no_smaller_than_the_text(demo: Path, browser: Browser) -> None:
    page = open_at(browser, KIOSK)
    prepare(page, demo, "jobs/tr-0110.html", "")
    small, body = page.evaluate(
        """() => { const size = one => parseFloat(getComputedStyle(one).fontSize);
             return [Math.min(...[...document.querySelectorAll('.bl-hazard *')]
               .filter(one => one.textContent.trim()).map(size)),
               size(document.querySelector('.bl-article > p'))]; }"""
    )
    page.context.close()
    assert small >= body


@pytest.mark.parametrize(
    ("address", "size", "light"),
    sample(
        [
            ("index.html", "portrait", "default"),
            ("jobs/tr-0110.html", "tablet", "slate"),
            ("jobs/tr-0110.html#follow", "landscape", "default"),
            ("hazards/index.html", "phone", "slate"),
            ("charts/index.html", "landscape", "slate"),
        ],
        3,
        seed=4,
    ),
)
def test_every_stop_of_the_tab_key_is_seen(
    demo: Path, browser: Browser, address: str, size: str, light: str
) -> None:
    page = open_at(browser, SIZES[size], light)
    prepare(page, demo, address, "")
    put(page, MEASURE)
    stops = []
    for _ in range(60):
        page.keyboard.press("Tab")
        stop = page.evaluate("measure.focus()")
        if stop is None:
            break
        stops.append(stop)
    page.context.close()
    assert len({one[0] for one in stops}) >= 4
    for name, is_seen, ring, contrast in stops:
        assert is_seen, name
        assert ring >= 2, name
        assert contrast >= 3, name
