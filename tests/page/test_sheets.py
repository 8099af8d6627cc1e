"""Sheets printed from a breakdown: each holds what it must, and never figures of a stopped job."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from planned import elements, hrefs, words

from benchleaf.diff import fingerprint
from benchleaf.link import SHEETS, sheet_address

Site = Callable[..., Any]
Edited = Callable[..., dict[str, str]]
JOB = "vg-0010"
STOPPED = ("machines/bench-drill.yml", "quill_travel: 60 mm", "quill_travel: 5 mm")


@pytest.fixture
def sheet(site: Site) -> Callable[..., str]:
    """`sheet("card", {...})` is the HTML of a sheet of VG-0010 with these files instead."""

    def page(name: str, files: dict[str, str] | None = None) -> str:
        html: str = site(files, edition="full").html(sheet_address(JOB, name))
        return html

    return page


@pytest.mark.parametrize("name", SHEETS)
def test_every_sheet_says_which_job_revision_and_fingerprint(
    site: Site, sheet: Callable[..., str], name: str
) -> None:
    loaded = site().loaded
    job = loaded.shop.jobs[JOB]
    digits = fingerprint(loaded.shop, job, loaded.sheets[JOB])[:8]
    text = words(sheet(name))
    for wanted in ("VG-0010", "Revision 2", "2 March 2026", digits, "still in force?"):
        assert wanted in text
    assert text.count("Lower Fen Vent Gear") == 1


@pytest.mark.parametrize("name", SHEETS)
def test_a_sheet_is_sound_html_with_head_and_foot_to_repeat(
    sheet: Callable[..., str], name: str
) -> None:
    found = elements(sheet(name))
    (paper,) = [one for one in found if "bl-paper" in one.attributes.get("class", "").split()]
    assert paper.attributes["role"] == "presentation"
    assert {"thead", "tfoot"} <= {one.tag for one in found if one.inside[-1:] == ("table",)}
    assert not any("style" in one.attributes for one in found)


def test_a_reason_stands_beneath_each_key_point(sheet: Callable[..., str]) -> None:
    text = words(sheet("breakdown"))
    for point, reason in (
        ("Push the plate down on both parallels.", "A plate that lies crooked gets a crooked"),
        ("Let fluid run on the drill.", "It keeps the lips cool, and carries the chips away."),
    ):
        after = text[text.index(point) :]
        assert after[: after.index(reason)].count("Reason:") == 1
    assert "(can injure) Reason: A loose plate" in text
    for note in ("In front of the table, feet apart.", "Let the learner push against the plate."):
        assert note in text


def test_hand_contact_is_never_but_where_the_step_says_so(
    sheet: Callable[..., str], edited: Edited
) -> None:
    text = words(sheet("breakdown"))
    assert text.count("Hand contact. Never.") == 3
    line = "    hand_contact: On the shoulder only, to stop somebody who cannot hear.\n"
    files = edited(f"jobs/{JOB}.yml", "    right: A steady hiss", f"{line}    right: A steady hiss")
    text = words(sheet("breakdown", files))
    assert text.count("Hand contact. On the shoulder only") == 1
    assert text.count("Hand contact. Never.") == 2


def test_the_card_has_points_and_values_and_no_reasons(sheet: Callable[..., str]) -> None:
    text = words(sheet("card"))
    assert "Spindle speed to set 1000 rpm" in text
    assert "WARNING Plate swung round by the drill." in text
    assert "Ease the lever when it begins to go light." in text
    assert "It cools the drill" not in text


def test_the_try_out_has_four_rounds_and_what_a_record_must_hold(
    sheet: Callable[..., str],
) -> None:
    text = words(sheet("try-out"))
    for one in (
        "1 Does it, silent", "2 Says what: the step", "3 Says how: key points",
        "4 Says why: reasons", "Errors, tries", "Learner (name or staff code)", "Trainer", "Date",
        "Language of teaching", "Judged by", "Next check on", "Told what changed",
        "Learner, signature and date", "Trainer, signature and date", "2. Drill the hole",
    ):  # fmt: skip
        assert one in text
    assert text.count("of 4") == 2  # four key points: how, and why


def test_the_get_ready_list_names_everything_to_fetch(sheet: Callable[..., str]) -> None:
    text = words(sheet("get-ready"))
    for one in ("8 mm drill", "8 mm plug gauge", "Soluble oil", "One tote of sawn plates.",
                "sawn flat bar, 40 x 6 mm", "Bench drill, Drilling bench", "Safety glasses",
                "explained the safety preface back"):  # fmt: skip
        assert one in text


def test_the_set_up_sheet_gives_the_sizes_that_go_and_do_not(sheet: Callable[..., str]) -> None:
    text = words(sheet("set-up"))
    assert "Spindle speed to set 1000 rpm" in text
    assert "8 to 8.1 mm 0.3150 to 0.3189 in" in text
    assert "GO 8 mm (0.3150 in) NOT GO 8.1 mm (0.3189 in)" in text


def test_a_gauge_of_no_known_kind_gets_limits_only(
    sheet: Callable[..., str], edited: Edited
) -> None:
    files = edited("tools/plug-gauge-8.yml", "8 mm plug gauge", "8 mm caliper")
    text = words(sheet("set-up", files))
    assert "8 to 8.1 mm" in text
    assert "NOT GO" not in text


def test_a_snap_gauge_goes_at_the_largest_size(sheet: Callable[..., str], edited: Edited) -> None:
    files = edited("tools/plug-gauge-8.yml", "8 mm plug gauge", "8 mm snap gauge")
    assert "GO 8.1 mm (0.3189 in) NOT GO 8 mm" in words(sheet("set-up", files))


@pytest.mark.parametrize("name", SHEETS)
def test_a_job_that_must_not_run_says_so_in_place_of_its_figures(
    sheet: Callable[..., str], edited: Edited, name: str
) -> None:
    text = words(sheet(name, edited(*STOPPED)))
    assert "Do not run" in text
    assert "The quill must travel 12.4 mm" in text
    assert "1000 rpm" not in text


def test_the_job_and_the_trainer_lead_to_every_sheet(site: Site) -> None:
    full = site(edition="full")
    wanted = {f"../{sheet_address(JOB, one)}" for one in SHEETS}
    assert wanted <= set(hrefs(full.html(f"jobs/{JOB}.html")))
    assert {sheet_address(JOB, one) for one in SHEETS} <= set(hrefs(full.html("trainer.html")))


def test_the_readers_edition_has_neither_sheets_nor_links_to_them(
    site: Site, edited: Edited
) -> None:
    line = "    hand_contact: On the shoulder only.\n    right: A steady hiss"
    kiosk = site(edited(f"jobs/{JOB}.yml", "    right: A steady hiss", line))
    assert not [page for page in kiosk.pages if page.startswith("trainer")]
    for page in kiosk.pages.values():
        made = page.render()
        assert "trainer/" not in made.html
        assert "On the shoulder only" not in made.html
        assert not any("On the shoulder only" in str(entry) for entry in made.entries)
