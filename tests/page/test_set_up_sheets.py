"""Set-up sheets: what is gauged, and where a sheet is offered at all."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from planned import hrefs, words

from benchleaf.link import sheet_address

Site = Callable[..., Any]
Edited = Callable[..., dict[str, str]]
JOB, BENCH_JOB = "vg-0010", "vg-0020"


@pytest.fixture
def sheet(site: Site) -> Callable[..., str]:
    """`sheet("card", {...})` is the HTML of a sheet of VG-0010 with these files instead."""

    def page(name: str, files: dict[str, str] | None = None, job: str = JOB) -> str:
        html: str = site(files, edition="full").html(sheet_address(job, name))
        return html

    return page


def test_the_set_up_sheet_gives_the_sizes_that_go_and_do_not(sheet: Callable[..., str]) -> None:
    text = words(sheet("set-up"))
    assert "Spindle speed to set 1000 rpm" in text
    assert "8 to 8.1 mm 0.3150 to 0.3189 in" in text
    assert "GO 8 mm (0.3150 in) NO-GO 8.1 mm (0.3189 in)" in text


def test_a_gauge_without_a_size_stands_on_the_set_up_sheet_with_what_it_shows(
    sheet: Callable[..., str], edited: Edited
) -> None:
    files = edited(f"jobs/{JOB}.yml", "        limits: 8 +0.1/-0 mm\n", "")
    row = "Diameter of the guide hole (step 3) The go end enters by its own weight"
    text = words(sheet("set-up", files))
    assert row in text
    assert text.index(row) < text.index("8 mm plug gauge", text.index(row))
    assert row not in words(sheet("set-up"))


def test_a_gauge_of_no_known_kind_gets_limits_only(
    sheet: Callable[..., str], edited: Edited
) -> None:
    files = edited("tools/plug-gauge-8.yml", "8 mm plug gauge", "8 mm caliper")
    text = words(sheet("set-up", files))
    assert "8 to 8.1 mm" in text
    assert "GO 8 mm" not in text
    assert "NO-GO" not in text


def test_a_snap_gauge_goes_at_the_largest_size(sheet: Callable[..., str], edited: Edited) -> None:
    files = edited("tools/plug-gauge-8.yml", "8 mm plug gauge", "8 mm snap gauge")
    assert "GO 8.1 mm (0.3189 in) NO-GO 8 mm" in words(sheet("set-up", files))


OFFERED_ON = (f"jobs/{BENCH_JOB}.html", "trainer.html", sheet_address(BENCH_JOB, "card"))


def test_no_set_up_sheet_is_offered_that_says_nothing_but_its_address_works(site: Site) -> None:
    """The address may be printed on a list or a card."""
    full = site(edition="full")
    for page in OFFERED_ON:
        names = [one.rpartition("/")[2] for one in hrefs(full.html(page))]
        assert f"{BENCH_JOB}-set-up.html" not in names, page
        assert f"{BENCH_JOB}-breakdown.html" in names, page
    assert "nothing to set or to gauge" in words(full.html(sheet_address(BENCH_JOB, "set-up")))


def test_a_grinding_wheel_and_the_guards_stand_on_the_sheet_of_a_job_without_set_up(
    site: Site, edited: Edited
) -> None:
    files = edited(f"jobs/{BENCH_JOB}.yml", "wear:", "tools:\n  - wheel\nwear:")
    files["tools/wheel.yml"] = (
        "id: wheel\nname: Round stone\nkind: grinding wheel\nwhat: It takes off burrs.\n"
        "limits:\n  - Never faster than its label says.\ncare:\n  - Store it dry.\n"
    )
    full = site(files, edition="full")
    for page in OFFERED_ON:
        names = [one.rpartition("/")[2] for one in hrefs(full.html(page))]
        assert f"{BENCH_JOB}-set-up.html" in names, page
    text = words(full.html(sheet_address(BENCH_JOB, "set-up")))
    guard = full.loaded.shop.machines["bench-drill"].guards[0]
    for one in ("Round stone Never faster", f"Guards and gaps {guard}", "Checked by"):
        assert one in text
