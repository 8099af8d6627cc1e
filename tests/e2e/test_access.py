"""Access, in both editions: axe-core, contrast, sizes of letters and targets, the focus, reflow.

Each type of page and each state is measured in both lights, at two sizes that take turns, and by
axe at one of them; `python tests/bench/access.py` looks at every type at every size in both lights.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from access import (
    KIOSKS,
    LIGHTS,
    MEASURE,
    PARTS,
    SIZES,
    STATES,
    Look,
    letters_of_pictures,
    look_at,
    open_at,
    page_types,
    prepare,
    put,
)
from build_demo import KIOSK

NAMES = tuple(SIZES)


def turns(number: int) -> list[tuple[str, str]]:
    """Two of the eight screens for the page of that number: each light, sizes in turn."""
    return [(NAMES[(number + 2 * turn) % 4], light) for turn, light in enumerate(LIGHTS)]


def visits(demo: Path, full_demo: Path) -> Iterator[tuple[Path, str, str]]:
    """Site, address, state ("" for a page as it opens)."""
    full = full_demo.with_name("site-full")
    for name in page_types(demo):
        yield demo, name, ""
    for name in page_types(full):
        if not (demo / name).exists():
            yield full, name, ""
    for state, (address, _) in STATES.items():
        yield demo, address, state


@pytest.fixture(scope="module")
def looks(demo: Path, full_demo: Path, browser: Browser) -> list[Look]:
    """Everything that is measured, on every type of page and in every state."""
    found = []
    screens: dict[tuple[str, str], Page] = {
        (size, light): open_at(browser, SIZES[size], light) for size in NAMES for light in LIGHTS
    }
    for number, (site, address, state) in enumerate(visits(demo, full_demo)):
        for turn, (size, light) in enumerate(turns(number)):
            page = screens[size, light]
            prepare(page, site, address, state)
            name, axe = f"{address} {state} {size} {light}", turn == number // 2 % 2
            found.append(look_at(page, name, axe=axe, part=PARTS.get(state, "")))
    for page in screens.values():
        page.context.close()
    return found


def test_every_type_of_page_and_every_state_is_looked_at(looks: list[Look]) -> None:
    assert len(looks) >= 80
    for size in NAMES:
        for light in LIGHTS:
            assert sum(look.name.endswith(f"{size} {light}") for look in looks) >= 8
    assert sum(len(look.texts) for look in looks) > 5000
    assert sum(len(look.targets) for look in looks) > 1000


def test_axe_finds_nothing(looks: list[Look]) -> None:
    assert [f"{look.name}: {fault}" for look in looks for fault in look.faults] == []


def test_running_text_has_a_contrast_of_seven(looks: list[Look]) -> None:
    least = {"text": 7.0, "signal": 4.5, "off": 0.0}
    low = [(look.name, *one) for look in looks for one in look.texts if one[0] < least[one[1]]]
    assert low == []


def test_letters_are_24_pixels_and_more_at_a_kiosk(looks: list[Look]) -> None:
    at_kiosk = [look for look in looks if look.name.split()[-2] in KIOSKS]
    small = [(look.name, *one) for look in at_kiosk for one in look.letters if one[0] < 24]
    drawn = [
        (look.name, *one) for look in at_kiosk for one in letters_of_pictures(look) if one[0] < 24
    ]
    assert small == []
    assert drawn == []


def test_targets_are_48_pixels_and_more(looks: list[Look]) -> None:
    small = [(look.name, *one) for look in looks for one in look.targets if one[0] < 48]
    assert small == []


def test_nothing_overflows_or_is_cut_off_and_every_figure_is_told(looks: list[Look]) -> None:
    assert [f"{look.name}: {fault}" for look in looks for fault in look.layout] == []


@pytest.mark.parametrize(("size", "text"), [((320, 640), 1), (KIOSK, 3), (SIZES["phone"], 3)])
def test_narrow_screens_and_the_largest_text_need_no_sideways_scroll(
    demo: Path, full_demo: Path, browser: Browser, size: tuple[int, int], text: int
) -> None:
    page = open_at(browser, size, text=text)
    for number, (site, address, state) in enumerate(visits(demo, full_demo)):
        if number % 2 and not state:
            continue  # the other half is measured at the usual size of text above
        prepare(page, site, address, state)
        put(page, MEASURE)
        found = page.evaluate("measure.sideways().concat(measure.overlaps())")
        assert found == [], (address, state)
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
    [
        ("index.html", "portrait", "default"),
        ("jobs/tr-0110.html", "tablet", "slate"),
        ("jobs/tr-0110.html#follow", "landscape", "default"),
        ("hazards/index.html", "phone", "slate"),
        ("charts/index.html", "landscape", "slate"),
    ],
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
