"""What each page is given, and what search finds on it, is as it was when last looked at.

From views alone: no template is filled in, so that words and layout of a page may change without a
word here (`kept.py` says what to do where a page is named).
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from plainly import lines

import read_once
from benchleaf import pipeline
from benchleaf.html.values import PlannedPage
from benchleaf.html.writer import Writer
from benchleaf.people import crews
from kept import Kept, digests

ROOT = Path(__file__).parents[2]
NOON = "1775476800"
"""2026-04-06: pages tell on which day they were made."""
SHOPS = {
    "demo": ("content", "full", ".demo-crew"),
    "small": ("tests/shop", "full", "tests/crew"),
    "small-kiosk": ("tests/shop", "kiosk", ""),
    "bench": ("tests/stations/bench", "full", ""),
    "press": ("tests/stations/press", "kiosk", ""),
    "inch": ("tests/inch_shop/content", "full", ""),
}
"""Content, edition, and the crew whose people have pages."""


def room_of(address: str) -> str:
    """The pages below one folder are one test."""
    return address.split("/")[0] if "/" in address else "top"


ROOMS = [
    (name, room)
    for name in SHOPS
    for room in sorted({room_of(one) for one in digests(f"views/{name}")})
]


@cache
def pages_of(name: str) -> dict[str, PlannedPage]:
    folder, edition, crew = SHOPS[name]
    loaded = read_once.demo() if name == "demo" else pipeline.load(ROOT / folder)
    people = None
    if crew:
        read = crews.load_crew(ROOT / crew, loaded.shop, ROOT / folder)
        people = crews.plan_people(read.crew, loaded)
    site = pipeline.plan_site(loaded, edition=edition, people=people)
    return {one.address: one for one in site.pages}


@pytest.fixture
def given(monkeypatch: pytest.MonkeyPatch) -> Callable[[PlannedPage], list[str]]:
    """`given(page)` is all that its templates are given and search is told, without filling one."""
    seen: list[str] = []

    def write(_: Writer, template: str, here: str, ends: Any = None, **view: object) -> str:
        seen.extend(lines(view, f"{template} at {here}", is_own=here.startswith("jobs/")))
        if ends is not None:
            seen.extend(lines(ends.former, "former"))
            seen.extend(lines(ends.foot() if ends.foot else None, "foot"))
        return ""

    monkeypatch.setattr(Writer, "write", write)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", NOON)

    def of(page: PlannedPage) -> list[str]:
        seen.clear()
        rendered = page.render()
        facts = (page.title, page.source_file, page.styles, page.scripts, page.foot, page.is_draft)
        return [*lines(facts, page.address), *seen, *lines(rendered.entries, "entries")]

    return of


@pytest.mark.parametrize(("name", "room"), ROOMS)
def test_each_page_is_given_what_it_was_given(
    name: str, room: str, given: Callable[[PlannedPage], list[str]], kept: Kept
) -> None:
    pages = [one for one in pages_of(name).values() if room_of(one.address) == room]
    kept(f"views/{name}", {one.address: "\n".join(given(one)) for one in pages})


@pytest.mark.parametrize("name", SHOPS)
def test_all_pages_are_kept(
    name: str,
    given: Callable[[PlannedPage], list[str]],
    kept: Kept,
    request: pytest.FixtureRequest,
) -> None:
    pages = pages_of(name)
    if request.config.getoption("--update-golden"):
        kept(f"views/{name}", {key: "\n".join(given(one)) for key, one in pages.items()})
    assert sorted(digests(f"views/{name}")) == sorted(pages)
