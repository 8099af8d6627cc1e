"""Sheets printed from a breakdown: each holds what it must, and never figures of a stopped job."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from planned import elements, hrefs, words

from benchleaf.link import SHEETS, sheet_address
from benchleaf.meaning import fingerprint

Site = Callable[..., Any]
Edited = Callable[..., dict[str, str]]
JOB = "vg-0010"
STOPPED = ("machines/bench-drill.yml", "quill_travel: 60 mm", "quill_travel: 5 mm")


FOR_TRAINERS = """\
    hand_contact: On the shoulder only.
    planted:
      what: The rack holds a blunt drill.
      put_right: Hang a sharp drill in its place.
    props:
      - A greased block
    right: A steady hiss"""
"""Everything of a step that is the trainer's, put into the second step of VG-0010."""


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
    assert text.count("Hand contact: never.") == text.count("Hand contact") == 1
    assert "never. You show and tell; you do not hold or guide the learner's hands." in text
    line = "    hand_contact: On the shoulder only, to stop somebody who cannot hear.\n"
    files = edited(f"jobs/{JOB}.yml", "    right: A steady hiss", f"{line}    right: A steady hiss")
    text = words(sheet("breakdown", files))
    assert "Hand contact: only where a step says so, and why." in text
    assert text.count("Hand contact. On the shoulder only") == 1
    assert text.count("Hand contact") == 2


def test_the_card_has_points_and_values_and_no_reasons(sheet: Callable[..., str]) -> None:
    text = words(sheet("card"))
    assert "Spindle speed to set 1000 rpm" in text
    assert "WARNING Plate swung round by the drill." in text
    assert "Ease the lever when it begins to go light." in text
    assert "It cools the drill" not in text


def test_the_try_out_has_the_four_rounds_and_what_a_record_must_hold(
    sheet: Callable[..., str],
) -> None:
    text = words(sheet("try-out"))
    for one in (
        "1 Hands only does it, silent", "2 Name it does it, and names each step",
        "3 Key points does it, and says", "4 Reasons does it, and gives", "Errors, tries",
        "Pieces (made before:", "Checks seen: step 3", "still hard at step",
        "Saved on the tablet as",
        "Watch first: the trainer shows the job, and that is not counted", "in four rounds",
        "Learner (name or staff code)", "Trainer", "Date",
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
    kiosk = site(edited(f"jobs/{JOB}.yml", "    right: A steady hiss", FOR_TRAINERS))
    assert not [page for page in kiosk.pages if page.startswith("trainer")]
    for page in kiosk.pages.values():
        made = page.render()
        assert "trainer/" not in made.html
        for secret in ("On the shoulder", "greased block", "blunt drill", "Hang a sharp drill",
                       "one thing will be wrong", "spring balance"):  # fmt: skip
            assert secret not in made.html
            assert not any(secret in str(entry) for entry in made.entries)


@pytest.fixture
def for_trainers(edited: Edited) -> dict[str, str]:
    return edited(f"jobs/{JOB}.yml", "    right: A steady hiss", FOR_TRAINERS)


def test_a_planted_fault_is_told_beforehand_and_put_right(
    site: Site, for_trainers: dict[str, str]
) -> None:
    full = site(for_trainers, edition="full")
    told = (
        "Stand in reach of the stop. Say beforehand that one thing will be wrong. The rack holds "
        "a blunt drill. Put right: Hang a sharp drill in its place."
    )
    for address in (sheet_address(JOB, "breakdown"), "trainer.html"):
        assert words(full.html(address)).count(told) == 1, address
    under = "Put right at once, before the machine starts"
    for name in ("get-ready", "try-out"):
        html = full.html(sheet_address(JOB, name))
        text = words(html)
        assert text.index(under) < text.index("Hang a sharp drill in its place."), name
        (line,) = [one for one in html.split("<li>") if "Hang a sharp drill" in one]
        assert 'class="bl-box"' in line, name


def test_the_try_out_record_has_two_ticks_for_each_planted_fault(
    sheet: Callable[..., str], for_trainers: dict[str, str]
) -> None:
    html = sheet("try-out", for_trainers)
    table = html[html.index("bl-grid--planted") :].partition("</table>")[0]
    assert "Found it (learner) Put right (trainer)" in words(table)
    (row,) = [one for one in table.split("<tr>") if "blunt drill" in one]
    found, put_right = row.split("<td>")[1:]
    assert "The rack holds a blunt drill. (step 2)" in words(row)
    assert found.count("bl-box") == put_right.count("bl-box") == 1
    assert "Hang a sharp drill in its place." in words(put_right)


def test_without_a_planted_fault_nothing_is_to_be_put_right(sheet: Callable[..., str]) -> None:
    for name in SHEETS:
        text = words(sheet(name))
        assert "Put right" not in text
        assert "Found it" not in text
        assert "will be wrong" not in text


def test_props_stand_in_the_list_in_place_of_a_vague_line(
    sheet: Callable[..., str], for_trainers: dict[str, str]
) -> None:
    vague = words(sheet("get-ready"))
    assert "Parts to practise on" in vague
    assert "bad part" not in vague
    text = words(sheet("get-ready", for_trainers))
    assert "A greased block (step 2)" in text
    assert "Parts to practise on" not in text
    assert "Props. A greased block" in words(sheet("breakdown", for_trainers))


def test_the_get_ready_list_of_a_bench_job_has_no_words_of_the_drill(site: Site) -> None:
    text = words(site(edition="full").html(sheet_address("vg-0020", "get-ready")))
    assert "Room for two to stand and see" in text
    for word in ("chips", "chuck", "cutting fluid", "Set up by"):
        assert word not in text


def test_the_pull_is_taught_by_the_numbers_of_the_rows(site: Site) -> None:
    full = site(edition="full")
    (of_job,) = full.loaded.sheets[JOB]
    pull, share = of_job.row("lever_force"), of_job.row("ease_to")
    number = f"Full pull {pull.figure.text} ({pull.other.text})"
    trainer = full.html("trainer.html")
    assert words(trainer).count("Turn the isolator off.") == 1
    for address in (sheet_address(JOB, "get-ready"), "trainer.html"):
        text = words(full.html(address))
        assert number in text
        assert f"{share.figure.text}" in text
        half = float(text.split("Half pull ")[1].split(" N")[0])
        assert half == pytest.approx(pull.figure.high * share.figure.high / 100, rel=0.06)
        assert f"about half ( {share.figure.text} )" in text.replace("(", "( ").replace(")", " )")
        assert pull.limits in text
        assert pull.note in text
        how = text[text.index("Turn the isolator off.") :]
        order = ("plain bar in the chuck", "spring balance on the knob", "right angles",
                 "Take the balance, the bar and the block out", "isolator turned on", "Then drill",
                 "says “now” at break-through")  # fmt: skip
        assert sorted(order, key=how.index) == list(order)
    assert pull.source in words(full.html("trainer.html"))
    props = words(full.html(sheet_address(JOB, "get-ready")))
    for prop in ("A spring balance, up to 200 N (20 kg)", "A plain bar", "A scrap block"):
        assert prop in props
    assert f"full pull {pull.figure.text}" in words(full.html(sheet_address(JOB, "breakdown")))


def test_a_pull_that_is_not_computed_says_why(sheet: Callable[..., str], edited: Edited) -> None:
    lever = (
        "lever:\n  radius: 350 mm\n  pinion_radius: 10 mm\n  efficiency: 0.9\n"
        "  source: entered for the tests, not measured\n"
    )
    text = words(sheet("get-ready", edited("machines/bench-drill.yml", lever, "")))
    assert "Full pull not computed : missing lever in machines/bench-drill" in text
    assert "spring balance" not in text
    assert "Turn the isolator off" not in text


def test_a_blind_hole_has_no_break_through_to_say_now_at(
    sheet: Callable[..., str], edited: Edited
) -> None:
    files = edited(
        f"jobs/{JOB}.yml", "hole: through\n    thickness: 6 mm",
        "hole: blind\n    depth: 10 mm\n    thickness: 20 mm", "    overtravel: 1 mm\n", "",
    )  # fmt: skip
    text = words(sheet("get-ready", files))
    assert "Half pull not computed : a blind hole has no break-through" in text
    assert "“now”" not in text
    assert "Full pull" in text


def test_a_job_that_must_not_run_teaches_no_pull(site: Site, edited: Edited) -> None:
    full = site(edited(*STOPPED), edition="full")
    for address in (*(sheet_address(JOB, one) for one in SHEETS), "trainer.html"):
        text = words(full.html(address))
        assert "pull by number" not in text
        assert "spring balance" not in text


def test_every_sheet_for_the_lesson_ends_with_handing_on(sheet: Callable[..., str]) -> None:
    for name in ("breakdown", "get-ready"):
        text = words(sheet(name))
        assert text.count("Handing on Lay the plates in the tote") == 1, name


HANDS = (
    "    hands_inside:\n      doing: loading\n      protected_by: guard with interlock\n"
    "      how: Raise the guard first.\n    right: A steady hiss"
)


def test_what_protects_hands_inside_is_on_the_breakdown(
    sheet: Callable[..., str], edited: Edited
) -> None:
    files = edited(f"jobs/{JOB}.yml", "    right: A steady hiss", HANDS)
    told = "Before your hands go in. Raise the guard first."
    assert words(sheet("breakdown", files)).count(told) == 1
