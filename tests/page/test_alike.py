"""Pages of one job on several like machines, and the kiosk that stands at one of them."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from planned import Planned

from benchleaf import pipeline
from like_machines import FIRST, SECOND, second_drill, with_group

PAGES = [f"jobs/{one}.html" for one in (FIRST, SECOND)]
CELL = re.compile(r"<t[hd][^>]*>(.*?)</t[hd]>", re.DOTALL)


@pytest.fixture
def at(shop: Callable[..., Path], base_shop: dict[str, str]) -> Callable[..., Planned]:
    """`at("bench-drill")` is the kiosk of that machine; the second drill as in the pairs."""

    def plan(machine: str = "", *pairs: str) -> Planned:
        loaded = pipeline.load(shop({**with_group(base_shop), **second_drill(base_shop, *pairs)}))
        return Planned(loaded, pipeline.plan_site(loaded, machine=machine))

    return plan


def table(html: str) -> list[list[str]]:
    """The cells of the table of machines, row by row, without tags."""
    (inside,) = re.findall(r"<table class=\"bl-chart__table bl-chart__table--text\">(.*?)</table>",
                           html, re.DOTALL)  # fmt: skip
    rows = inside.split("<tr>")[1:]
    return [[re.sub(r"<[^>]*>", "", one).strip() for one in CELL.findall(row)] for row in rows]


def test_each_page_shows_the_machines_side_by_side(at: Callable[..., Planned]) -> None:
    site = at("", "  - 1000 rpm\n", "  - 1100 rpm\n")
    first, second = (site.html(one) for one in PAGES)
    assert table(first) == [
        ["Machine", "May it run", "Spindle speed to set", "Feed per turn",
         "Depth stop, from first touch", "What is its own"],
        ["Bench drill this page", "Yes", "1000 rpm", "0.15 mm/rev", "9.4 mm",
         "Turns at 1000, 1500 rpm too; quill travel 60 mm"],
        ["Bench drill 2", "Yes", "1100 rpm", "0.15 mm/rev", "9.4 mm",
         "Turns at 1100 rpm too; quill travel 55 mm"],
    ]  # fmt: skip
    assert table(second)[1][0] == "Bench drill"
    assert f'href="{SECOND}.html"' in first
    assert "This page is for <b>Bench drill</b> alone." in first


def test_other_buttons_are_named_among_what_is_its_own(at: Callable[..., Planned]) -> None:
    """A hand goes where the button was on the other machine."""
    html = at("", "Press the red button, and wait", "Press the black button, and wait").html(
        PAGES[0]
    )
    own = [row[-1] for row in table(html)[1:]]
    assert [one.count("start, stop and isolator: see its own page") for one in own] == [1, 1]
    alike = [row[-1] for row in table(at().html(PAGES[0]))[1:]]
    assert alike == [
        "Turns at 1500 rpm too; quill travel 60 mm",
        "No other speed; quill travel 55 mm",
    ]


def test_one_machine_must_not_run_it_and_the_other_stays(at: Callable[..., Planned]) -> None:
    site = at("", "quill_travel: 55 mm", "quill_travel: 9 mm")
    first, second = (site.html(one) for one in PAGES)
    reason = "The quill must travel 12.4 mm; Bench drill 2 has 9 mm."
    assert second.count("Do not run on this machine</p>") == 3
    assert "Do not run on this machine" not in first
    assert 'id="follow"' in first
    assert 'id="follow"' not in second
    for html in (first, second):
        cells = {row[0].removesuffix(" this page"): row for row in table(html)[1:]}
        assert cells["Bench drill"][1:3] == ["Yes", "1000 rpm"]
        assert cells["Bench drill 2"][2:5] == ["–", "–", "–"]
        assert cells["Bench drill 2"][1] == f"Do not run. {reason}"


def test_a_kiosk_at_one_machine_shows_its_own_only(at: Callable[..., Planned]) -> None:
    site = at("bench-drill-2")
    assert "<table" not in site.html(PAGES[1])
    gone = site.html(PAGES[0])
    assert "This screen stands at <b>Bench drill 2</b>." in gone
    assert f'href="{SECOND}.html"' in gone
    for step in ("clamp", "drill", "gauge", "guide-hole"):
        assert f'id="{step}"' in gone, "the address of each step lasts"
    assert "1000 rpm" not in gone
    lists = ("machines/bench-drill-2.html", "jobs/index.html", "find.html", "parts/vg-r1.html",
             "jobs-by-part.html", "jobs-by-order.html", "jobs-by-hazard.html",
             "jobs-by-material.html")  # fmt: skip
    for one in lists:
        html = site.html(one)
        assert f"{SECOND}.html" in html, one
        assert f"{FIRST}.html" not in html, one
    assert f"{FIRST}.html" not in site.html("index.html"), "home shows stations only"
    assert site.pages[PAGES[0]].render().entries == ()


def test_a_job_of_one_machine_has_no_such_words(at: Callable[..., Planned]) -> None:
    site = at()
    html = site.html("jobs/vg-0020.html")
    assert "on this machine" not in html
    assert "bl-machines" not in html
    assert "2 operations" in site.html("parts/index.html")
