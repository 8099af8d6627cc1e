"""Lists for new people as a page: links, signatures, and nothing that is kept of anybody."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from planned import elements, hrefs, words

Site = Callable[..., Any]
Edited = Callable[..., dict[str, str]]
PAGE = "onboarding/first-days.html"


def test_each_item_leads_to_its_page_or_place(site: Site) -> None:
    html = site().html(PAGE)
    assert {
        "../safety.html", "../machines/bench-drill.html", "../hazards/work-turns.html",
        "../jobs/vg-0010.html", "../jobs/vg-0010.html#clamp", "../jobs/vg-0020.html",
    } <= set(hrefs(html))  # fmt: skip
    text = words(html)
    assert "VG-0010 step 1: Clamp the plate" in text
    assert "Done when: explained back" in text
    assert "Fetch safety glasses from the store." in text


def test_a_signed_item_has_a_line_for_each_who_signs(site: Site) -> None:
    html = site().html(PAGE)
    assert words(html).count("Learner, date") == 2 + 1
    assert words(html).count("Trainer, date") == 3 + 1


def test_ticks_belong_to_one_revision_of_one_list(site: Site) -> None:
    html = site().html(PAGE)
    lists = [one for one in elements(html, "ul") if "data-ticks" in one.attributes]
    assert {one.attributes["data-ticks"] for one in lists} == {"first-days.1"}
    keys = [one.attributes["data-tick"] for one in elements(html, "li")
            if "data-tick" in one.attributes]  # fmt: skip
    assert keys == ["1.1", "1.2", "1.3", "2.1", "2.2", "2.3", "2.4"]
    assert "<input" not in html  # its script makes the boxes, so that none is dead


def test_a_job_that_must_not_run_is_told_in_the_list(site: Site, edited: Edited) -> None:
    files = edited("machines/bench-drill.yml", "quill_travel: 60 mm", "quill_travel: 5 mm")
    assert words(site(files).html(PAGE)).count("Do not run") == 2
    assert "Do not run" not in words(site().html(PAGE))


def test_the_list_is_found_from_its_index_and_the_home_page(site: Site) -> None:
    one = site()
    assert "first-days.html" in hrefs(one.html("onboarding/index.html"))
    assert "onboarding/index.html" in hrefs(one.html("index.html"))
