"""Symbols: what is encoded, how large it is for its distance, and the foot that carries it."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from planned import elements, words

from benchleaf.drawings.symbol import LEAST_MODULE_MM, QUIET_ZONE, symbol
from benchleaf.pages.foot import READ_FROM_MM
from running import examples

Site = Callable[..., Any]
Edited = Callable[..., dict[str, str]]
SIZE = re.compile(r'width="([\d.]+)mm" height="([\d.]+)mm".*viewBox="0 0 (\d+) (\d+)"')


@settings(max_examples=examples(40))
@given(st.text(st.characters(codec="ascii", min_codepoint=33), min_size=1, max_size=80),
       st.integers(100, 2000))  # fmt: skip
def test_width_is_a_tenth_of_the_distance_unless_modules_would_be_too_small(
    text: str, distance: int
) -> None:
    drawn = symbol(text, distance, "x")
    found = SIZE.search(drawn.svg)
    assert found
    width, height, modules, _ = (float(one) for one in found.groups())
    assert width == height == drawn.width_mm
    inside = drawn.module_mm * (modules - 2 * QUIET_ZONE)
    assert drawn.module_mm >= LEAST_MODULE_MM
    assert inside == pytest.approx(max(distance / 10, LEAST_MODULE_MM * (modules - 8)))
    assert width == pytest.approx(drawn.module_mm * modules, abs=0.051)


def test_a_job_number_is_the_smallest_symbol() -> None:
    drawn = symbol("TR-0110", 300, "x")
    assert 'viewBox="0 0 29 29"' in drawn.svg  # 21 modules and two quiet zones
    assert drawn.module_mm == pytest.approx(30 / 21)


def test_the_quiet_zone_is_white_and_empty() -> None:
    svg = symbol("TR-0110", 300, "x").svg
    assert '<path fill="#fff" d="M0 0h29v29h-29z"/>' in svg
    assert 'd="M4 4.5h7' in svg  # the first dark module stands after four empty ones


@pytest.mark.parametrize(
    ("page", "text"),
    [
        ("jobs/vg-0010.html", "VG-0010"),
        ("hazards/work-turns.html", "WORK-TURNS"),
        ("parts/vg-r1.html", "VG-R1"),
        ("onboarding/first-days.html", "FIRST-DAYS"),
    ],
)
def test_a_page_with_an_id_ends_with_its_symbol_and_address(
    site: Site, page: str, text: str
) -> None:
    html = site(edition="full").html(page)
    foot = html[html.rindex('<aside class="bl-foot"') :]
    assert f"A scanner reads {text}" in words(foot)
    assert str(symbol(text, READ_FROM_MM, f"Symbol for a scanner: {text}").svg) in foot
    assert f"<code>{page}</code>" in foot
    assert 'data-copy=""' in foot


def test_a_learner_meets_the_symbol_on_paper_alone(site: Site) -> None:
    """On the screen a page's address and file are no use to who learns the job."""
    html = site().html("jobs/vg-0010.html")
    foot = html[html.rindex('<aside class="bl-foot bl-only-printed"') :]
    assert "A scanner reads VG-0010" in words(foot)
    assert "Made from" not in foot
    assert "data-copy" not in foot


def test_a_page_without_an_id_has_no_symbol_but_its_address(site: Site) -> None:
    html = site().html("jobs-by-part.html")
    assert "<svg" not in html[html.rindex("bl-foot") :]
    assert "<code>jobs-by-part.html</code>" in html


def test_a_scanned_id_is_found_by_the_search(site: Site) -> None:
    one = site()
    for page in ("tools/drill-8.html", "machines/bench-drill.html", "hazards/work-turns.html"):
        record_id = page.removesuffix(".html").rpartition("/")[2]
        (entry,) = one.pages[page].render().entries
        assert record_id in entry.names


def test_where_the_shop_has_a_server_symbols_hold_its_addresses(site: Site, edited: Edited) -> None:
    server = edited("manual.yml", "preface:", "server: https://manual.example/shop\npreface:")
    one = site(server, edition="full")
    for page in ("jobs/vg-0010.html", "index.html"):
        html = one.html(page)
        assert f"A scanner reads https://manual.example/shop/{page}" in words(html)
        assert f'data-copy="https://manual.example/shop/{page}"' in html
    card = one.html("trainer/vg-0010-card.html")
    assert "<title>Symbol for a scanner: https://manual.example/shop/jobs/vg-0010.html" in card


def test_the_foot_is_small(site: Site) -> None:
    html = site(edition="full").html("jobs/vg-0010.html")
    assert len(html[html.rindex('<aside class="bl-foot"') :]) < 1700


def test_the_button_to_copy_is_hidden_without_its_script(site: Site) -> None:
    html = site(edition="full").html("index.html")
    (button,) = [one for one in elements(html, "button") if "data-copy" in one.attributes]
    assert button.inside[-1] == "p"
    assert '<p class="bl-needs-script"><button' in html
