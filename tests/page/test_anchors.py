"""Anchors: the lists of those that a page has by itself are what stands on the rendered pages."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from planned import Planned, elements

import read_once
from benchleaf import pipeline
from benchleaf.html import THEME
from benchleaf.link import EVERY_ANCHORS, JOB_ANCHORS, LIST_ANCHORS, is_kept

Site = Callable[..., Planned]
DEMO = Path(__file__).parents[2] / "content"


@pytest.fixture(scope="module")
def demo() -> Planned:
    loaded = read_once.demo()
    return Planned(loaded, pipeline.plan_site(loaded, edition="full"))


def own_ids(html: str, records: set[str]) -> set[str]:
    """The ids of a page that no record brought, and that are not derived from one by `--`."""
    found = {one.attributes["id"] for one in elements(html) if "id" in one.attributes}
    return {one for one in found - records if "--" not in one}


def around() -> set[str]:
    """The ids in the document around every page."""
    texts = [path.read_text(encoding="utf-8") for path in sorted(THEME.rglob("*.html"))]
    return {one for text in texts for one in re.findall(r'\sid="([^"]+)"', text)}


def test_the_job_pages_hold_every_anchor_that_is_kept_and_no_other(demo: Planned) -> None:
    found = around()
    for job in demo.loaded.shop.jobs.values():
        records = {one.id for one in (*job.steps, *job.set_ups)}
        found |= own_ids(demo.html(f"jobs/{job.id}.html"), records)
    assert {one for one in found if not one.startswith("bl-")} == set(JOB_ANCHORS)
    assert {one for one in found if one.startswith("bl-")} > {"bl-rounds", "bl-values"}


def test_pages_on_which_records_are_anchors_hold_only_what_is_kept(demo: Planned) -> None:
    jobs = set(demo.loaded.shop.jobs)
    lists = own_ids(demo.html("trainer.html"), jobs) | own_ids(demo.html("engineer.html"), jobs)
    assert {*lists, *EVERY_ANCHORS} == set(LIST_ANCHORS)
    terms = own_ids(demo.html("terms.html"), set(demo.loaded.shop.terms))
    assert terms
    assert {one for one in terms if not is_kept(one)} == set()


@pytest.mark.parametrize("anchor", sorted({*JOB_ANCHORS, "bl-values"}))
def test_no_step_takes_an_anchor_of_the_page(
    anchor: str, shop: Callable[..., Path], base_shop: dict[str, str]
) -> None:
    text = base_shop["jobs/vg-0010.yml"]
    assert text.count("- id: gauge") == 1
    line = text[: text.index("- id: gauge")].count("\n") + 1
    found = pipeline.check(
        shop({"jobs/vg-0010.yml": text.replace("- id: gauge", f"- id: {anchor}")})
    )
    kept = [(one.place.line, one.blocks_publishing) for one in found if one.code == "L306"]
    assert kept == [(line, True)]
