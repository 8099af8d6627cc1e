"""A job's page: its parts in order, hazards, pictures, and a set-up that nobody may run."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from planned import Planned, elements, hrefs, words

from benchleaf.link import GUIDE_PAGES
from benchleaf.model import ROUNDS, ROUNDS_IN_WORDS, WATCH_FIRST

Site = Callable[..., Planned]
Edited = Callable[..., dict[str, str]]
JOB, MACHINE, PAGE = "jobs/vg-0010.yml", "machines/bench-drill.yml", "jobs/vg-0010.html"
ORDER = (
    "wear", "machine-controls", "makes", "know-first", "hazards", "have-ready", "set-up", "steps",
    "if-wrong", "hand-on", "revision",
)  # fmt: skip
GRAVITY = {
    "danger": ("death or serious injury", "will", "will"),
    "warning": ("death or serious injury", "could", "could"),
    "caution": ("minor or moderate injury", "could", "could"),
    "notice": ("no injury", "could", "could"),
}
"""Severity and the two certainties that give each word."""


def hazard(word: str, number: int = 1) -> dict[str, str]:
    severity, accident, harm = GRAVITY[word]
    name = f"{word}-{number}"
    return {
        f"hazards/{name}.yml": f"id: {name}\ntitle: Title of {name}\nseverity: {severity}\n"
        f"accident_if_not_avoided: {accident}\nharm_if_accident: {harm}\nwhat: What of {name}.\n"
        f"consequence: Harm of {name}.\navoid:\n  - Avoid {name}.\ncontrols:\n"
        f"  procedure:\n    - Way round {name}.\n"
    }


def anchors(html: str) -> list[str]:
    """Of the parts of a page; what a script opens begins with `bl-`."""
    every = [one.attributes["id"] for one in elements(html, "h2")]
    return [one for one in every if not one.startswith("bl-")]


def test_the_parts_stand_in_the_order_of_the_contents_list(site: Site) -> None:
    one = site()
    html = one.html(PAGE)
    assert anchors(html) == list(ORDER)
    contents = html[html.index('<nav class="bl-contents') :].partition("</nav>")[0]
    listed = [href[1:] for href in hrefs(f"{contents}</nav>")]
    assert listed == list(ORDER)


def test_a_job_without_a_set_up_has_no_part_for_it(site: Site) -> None:
    html = site().html("jobs/vg-0020.html")
    assert anchors(html) == [anchor for anchor in ORDER if anchor != "set-up"]
    assert "No cutting fluid" not in html


def test_every_id_on_a_page_stands_once(site: Site) -> None:
    one = site()
    for address in one.pages:
        ids = [
            each.attributes["id"] for each in elements(one.html(address)) if "id" in each.attributes
        ]
        assert sorted(set(ids)) == sorted(ids), address


def test_number_part_and_revision_stand_at_the_top_and_at_the_end(site: Site) -> None:
    html = site().html(PAGE)
    top, end = words(html[: html.index("bl-contents")]), words(html[html.index('id="revision"') :])
    assert "VG-0010 Drill the guide hole in a rack plate" in top
    assert "Part VG-R1 Rack plate Revision 2 In force from 2 March 2026" in top
    assert "VG-0010, revision 2" in end
    assert "production engineer" in end


def panels(html: str) -> list[str]:
    return re.findall(r'<div class="bl-hazard bl-hazard--(\w+)"', html)


def test_messages_stand_gravest_first_each_word_once(site: Site, edited: Edited) -> None:
    files = {
        name: text
        for word in ("notice", "caution", "danger")
        for number in (1, 2)
        for name, text in hazard(word, number).items()
    }
    ids = ("notice-2", "caution-1", "danger-2", "work-turns", "notice-1", "danger-1", "caution-2")
    listed = "".join(f"      - {one}\n" for one in ids)
    files |= edited(
        JOB, "    hazards:\n      - work-turns\n    stand:", f"    hazards:\n{listed}    stand:",
        "hazards:\n  - work-turns\nhave_ready",
        f"hazards:\n{listed.replace('      ', '  ')}have_ready",
    )  # fmt: skip
    html = site(files).html(PAGE)
    of_job = html[html.index('id="hazards"') : html.index('id="have-ready"')]
    of_step = html[html.index('id="clamp"') : html.index('id="clamp--title"')]
    for block in (of_job, of_step):
        assert panels(block) == list(GRAVITY)
        assert re.findall(r"What of (danger-\d)", block) == ["danger-2", "danger-1"]
        # one symbol a word, and none on a notice, which is about no injury
        assert block.count('<svg class="bl-alert"') == 3
        notice = block[block.index("bl-hazard--notice") :]
        assert "bl-alert" not in notice


def test_before_a_step_a_hazard_says_what_it_is_what_it_does_and_what_stops_it(
    site: Site, edited: Edited
) -> None:
    files = hazard("danger") | edited(
        JOB, "      - work-turns\n    stand:", "      - danger-1\n    stand:"
    )
    html = site(files).html(PAGE)
    of_step = words(html[html.index('id="clamp"') : html.index('id="clamp--title"')])
    assert "What of danger-1. Harm of danger-1. Avoid danger-1." in of_step


def test_if_it_goes_wrong_begins_with_somebody_hurt_and_whom_to_call(site: Site) -> None:
    one = site()
    manual = one.loaded.shop.manual
    html = one.html(PAGE)
    text = words(html[html.index('id="if-wrong"') : html.index('id="hand-on"')])
    order = (
        "Somebody is hurt or caught", manual.emergency, "Call:", manual.call, "The drill squeals.",
    )  # fmt: skip
    assert [text.count(one) for one in order] == [1] * len(order)
    assert sorted(order, key=text.index) == list(order)


def test_hazards_of_the_machine_are_those_of_the_job_too_and_told_once(
    site: Site, edited: Edited
) -> None:
    files = hazard("danger") | edited(
        MACHINE, "hazards:\n  - work-turns", "hazards:\n  - danger-1\n  - work-turns"
    )
    html = site(files).html(PAGE)
    block = html[html.index('id="hazards"') : html.index('id="have-ready"')]
    assert panels(block) == ["danger", "warning"]
    assert block.count("A plate that is not held fast turns with the drill.") == 1


def test_a_step_without_a_hazard_has_nothing_before_it(site: Site) -> None:
    html = site().html(PAGE)
    gauge = html[html.index('<section class="bl-step" id="gauge"') :]
    assert panels(gauge) == []
    assert "Before step 3" not in words(gauge)


SET_VALUES = ("1000 rpm", "9.4 mm", "25.1 m/min", "2900 N", "150 mm/min")
"""Figures of the small shop's set-up, worked out in tests/compute/test_set_up_figures.py."""


def test_a_set_up_that_may_run_shows_its_figures_and_what_to_set(site: Site) -> None:
    html = site().html(PAGE)
    assert [value for value in SET_VALUES if value not in words(html)] == []
    step = html[html.index('<section class="bl-step" id="drill"') : html.index('id="gauge"')]
    assert "Spindle speed to set 1000 rpm" in words(step)
    assert "Do not run" not in words(html)


@pytest.mark.parametrize(
    ("name", "old", "new", "reason"),
    [
        (MACHINE, "quill_travel: 60 mm", "quill_travel: 5 mm", "The quill must travel"),
        (JOB, "force: 20 kN", "force: 1 kN", "The holding resists 5.0 N m"),
        (MACHINE, "drill_capacity: 13 mm", "drill_capacity: 6 mm", "The drill is 8 mm"),
    ],
)
def test_a_set_up_that_must_not_run_hides_every_figure(
    site: Site, edited: Edited, name: str, old: str, new: str, reason: str
) -> None:
    one = site(edited(name, old, new))
    html = one.html(PAGE)
    text = words(html)
    assert [value for value in SET_VALUES if value in text] == []
    for part in ("bl-set", "bl-figure", "bl-drawing", "bl-figures", "Held."):
        assert not re.search(rf'class="{part}["\s]', html), part
    places = [html.index('id="makes"'), html.index('id="set-up"'), html.index('id="steps"')]
    stops = [match.start() for match in re.finditer(r'class="bl-stop"', html)]
    assert len(stops) == 3
    # at the top, in place of the figures, and again before the steps
    assert stops[0] < places[0] < places[1] < stops[1] < places[2] < stops[2]
    assert reason in text
    assert "Do not start the machine. Call the shift lead" in text


def test_a_job_that_must_not_run_says_so_wherever_it_is_listed(site: Site, edited: Edited) -> None:
    one = site(edited(MACHINE, "quill_travel: 60 mm", "quill_travel: 5 mm"))
    lists = (
        "jobs/index.html", "jobs-by-part.html", "jobs-by-material.html",
        "jobs-by-hazard.html", "jobs-by-order.html", "machines/bench-drill.html",
        "parts/vg-r1.html", "operations/drilling.html",
    )  # fmt: skip
    for address in lists:
        assert "Do not run" in words(one.html(address)), address
        assert "Do not run" not in words(site().html(address)), address


def test_a_picture_carries_its_size_its_words_and_loads_late(site: Site) -> None:
    (image,) = elements(site().html(PAGE), "img")
    assert image.attributes == {
        "src": "../pictures/clamped-plate.svg",
        "alt": "A plate lies flat on two parallels, its long edges in the jaws of the vice.",
        "width": "240", "height": "120", "loading": "lazy", "decoding": "async",
    }  # fmt: skip
    assert image.inside[-1] == "figure"


def test_the_words_of_a_picture_cannot_break_out(site: Site, edited: Edited) -> None:
    text = "text: A plate lies flat on two parallels, its long edges in the jaws of the vice."
    files = edited(
        JOB, text, "text: 'A \"plate\" > <b>flat</b> & <img src=x>'\n      caption: <i>x</i>"
    )
    (image,) = elements(site(files).html(PAGE), "img")
    assert image.attributes["alt"] == 'A "plate" > <b>flat</b> & <img src=x>'


def test_titles_and_names_are_shown_as_they_are_written(site: Site, edited: Edited) -> None:
    title = "title: Drill the guide hole in a rack plate"
    one = site(edited(JOB, title, "title: '<b>Drill</b> & \"ream\"'"))
    for address in (PAGE, "jobs/index.html", "machines/bench-drill.html"):
        html = one.html(address)
        assert "<b>Drill</b>" not in html
        assert "&lt;b&gt;Drill&lt;/b&gt; &amp;" in html


def test_who_alone_may_do_it_stands_before_everything(site: Site, edited: Edited) -> None:
    files = edited("jobs/vg-0020.yml", "wear:", "authorised_only: Only the setter.\nwear:")
    one = site(files)
    html = one.html("jobs/vg-0020.html")
    assert html.index("Only the setter.") < html.index('id="makes"')
    for address in ("jobs/index.html", "machines/bench-drill.html"):
        assert "Authorised people only" in words(one.html(address)), address
        assert "Authorised people only" not in words(site().html(address)), address


def test_the_route_and_what_is_learned_next(site: Site) -> None:
    one = site()
    first, second = words(one.html(PAGE)), words(one.html("jobs/vg-0020.html"))
    later, earlier = "VG-0020 Deburr the guide hole of a rack plate", "VG-0010 Drill the guide hole"
    assert f"Goes to {later}" in first
    assert f"Next operation: {later}" in first
    assert f"you can learn: {later}" in first
    assert f"Comes from {earlier}" in second
    assert f"You can do {earlier}" in second
    assert "you can learn" not in second


def test_the_trainers_note_is_on_no_page_of_the_kiosk(site: Site) -> None:
    note = "Let the learner push against the plate."
    kiosk, full = site(), site(edition="full")
    for address, page in kiosk.pages.items():
        rendered = page.render()
        assert note not in rendered.html, address
        assert all(note not in repr(entry) for entry in rendered.entries), address
    assert note in words(full.html("trainer.html"))
    assert note not in words(full.html(PAGE))


def test_the_full_edition_has_four_pages_sheets_records_and_the_guide_more_and_asks_who_reads(
    site: Site,
) -> None:
    kiosk, full = site(), site(edition="full")
    sheets = {
        f"trainer/{job}-{sheet}.html"
        for job in ("vg-0010", "vg-0020")
        for sheet in ("breakdown", "card", "try-out", "get-ready", "set-up")
    }
    assert set(full.pages) - set(kiosk.pages) == {
        "trainer.html", "engineer.html", "timetable.html", "watching.html", *sheets,
        *(f"guide/{name}.html" for name in GUIDE_PAGES),
        "people/record-vg-0010.html", "people/record-vg-0020.html",
    }  # fmt: skip
    assert {"trainer.html", "engineer.html"} <= set(hrefs(full.html("index.html")))
    assert not {"trainer.html", "engineer.html"} & set(hrefs(kiosk.html("index.html")))
    engineer = words(full.html("engineer.html"))
    assert "content/jobs/vg-0010.yml" in engineer
    assert "Spindle speed to set: 1000 rpm" in engineer


def test_the_engineer_sees_why_a_set_up_must_not_run(site: Site, edited: Edited) -> None:
    full = site(edited(MACHINE, "quill_travel: 60 mm", "quill_travel: 5 mm"), edition="full")
    engineer = words(full.html("engineer.html"))
    assert "Do not run : the quill must travel 12.4 mm" in engineer
    assert "1000 rpm" not in engineer


def test_only_pictures_and_sheets_that_a_record_names_are_published(
    shop: Callable[..., Path], site: Site, base_shop: dict[str, str], edited: Edited
) -> None:
    extra = base_shop["pictures/clamped-plate.svg"]
    files = {
        "pictures/not-named.svg": extra,
        "sheets/oil.txt": "A sheet.",
        "sheets/old.txt": "Old.",
    }
    files |= edited("fluids/soluble-oil.yml", "safety_data_sheet:",
                    "safety_data_sheet_file: oil.txt\nsafety_data_sheet:")  # fmt: skip
    one = site(files)
    assert one.loaded.findings == ()
    assert [address for address, _ in one.plan.files] == [
        "pictures/clamped-plate.svg",
        "sheets/oil.txt",
    ]
    assert "../sheets/oil.txt" in hrefs(one.html("fluids/soluble-oil.html"))


def test_the_strongest_line_is_the_jobs_own(site: Site, edited: Edited) -> None:
    """Within a word: what bites at most steps, then the job's, then the machine's alone."""
    files = {name: text for n in range(1, 6) for name, text in hazard("warning", n).items()}
    files |= edited(
        MACHINE, "hazards:\n  - work-turns", "hazards:\n  - warning-1\n  - work-turns"
    ) | edited(
        JOB, "hazards:\n  - work-turns\nhave_ready", "hazards:\n  - warning-2\nhave_ready",
        "    hazards:\n      - work-turns\n    stand:",
        "    hazards:\n      - warning-3\n      - warning-4\n    stand:",
        "    hazards:\n      - work-turns\n    right:",
        "    hazards:\n      - warning-5\n      - warning-4\n    right:",
    )  # fmt: skip
    html = site(files).html(PAGE)
    block = html[html.index('id="hazards"') : html.index('id="have-ready"')]
    found = re.findall(r"What of (warning-\d)", block)
    assert found == ["warning-4", "warning-3", "warning-5", "warning-2", "warning-1"]
    assert "At steps 1, 2" in words(block)
    # told in full where it bites; the job's and the machine's in full here
    assert "Avoid warning-4" not in block
    assert "Avoid warning-2" in block
    card = words(site(files, edition="full").html("trainer/vg-0010-card.html"))
    assert card.index("Title of warning-4") < card.index("Title of warning-1")


NEVER = (
    "hazards:\n  - work-turns\nnot_met:\n  - hazard: danger-1\n    reason: The bed is bolted.\nhave"
)


def test_a_hazard_that_is_never_met_is_named_small_with_the_reason(
    site: Site, edited: Edited
) -> None:
    files = hazard("danger") | edited(
        MACHINE, "hazards:\n  - work-turns", "hazards:\n  - danger-1\n  - work-turns"
    ) | edited(JOB, "hazards:\n  - work-turns\nhave", NEVER)  # fmt: skip
    one = site(files)
    html = one.html(PAGE)
    block = html[html.index('id="hazards"') : html.index('id="have-ready"')]
    assert panels(block) == ["warning"]
    told = "Not met in this job: Title of danger-1 , because the bed is bolted."
    assert told in words(block)
    other = one.html("jobs/vg-0020.html")
    assert "danger" in panels(other)
    by_hazard = words(one.html("jobs-by-hazard.html"))
    under = by_hazard[by_hazard.index("Title of danger-1") : by_hazard.index("Plate swung")]
    assert "VG-0020" in under
    assert "VG-0010" not in under
    assert PAGE not in " ".join(hrefs(one.html("hazards/danger-1.html")))


def test_what_a_step_names_is_met_whatever_the_job_says(site: Site, edited: Edited) -> None:
    never = NEVER.replace("danger-1", "work-turns")
    html = site(edited(JOB, "hazards:\n  - work-turns\nhave", never)).html(PAGE)
    block = html[html.index('id="hazards"') : html.index('id="have-ready"')]
    assert panels(block) == ["warning"]
    assert "Not met" not in block


def test_what_protects_hands_inside_stands_before_the_key_points(
    site: Site, edited: Edited
) -> None:
    files = edited(
        JOB, "    stand: In front of the table, feet apart.\n",
        "    stand: In front of the table, feet apart.\n    hands_inside:\n      doing: loading\n"
        "      protected_by: guard with interlock\n      how: Raise the guard first.\n"
        "      minor_servicing: Done each shift.\n",
    )  # fmt: skip
    page = site(files).pages[PAGE].render()
    step = page.html[page.html.index('id="clamp"') : page.html.index('id="drill"')]
    told = words(step)
    order = ("Where to stand.", "Before your hands go in. Raise the guard first.",
             "Push the plate down")  # fmt: skip
    assert sorted(order, key=told.index) == list(order)
    assert "Before your hands" not in page.html[page.html.index('id="drill"') :]
    assert any("Raise the guard first." in str(entry) for entry in page.entries)
    assert not any("Done each shift" in str(entry) for entry in page.entries)


def test_the_last_section_is_called_handing_on_everywhere(site: Site) -> None:
    one = site()
    page = one.pages[PAGE].render()
    assert '<h2 id="hand-on">Handing on</h2>' in page.html
    assert '<a href="#hand-on">Handing on</a>' in page.html
    assert 'data-screen="end" data-label="Handing on"' in page.html
    assert any("Handing on. Lay the plates" in line for line in page.entries[0].lines)
    assert "Handing on. Lay the plates" in words(one.html("parts/vg-r1.html"))
    assert not [each for each in one.pages.values() if "ready for the next" in each.render().html]


def test_the_rounds_of_the_step_view_are_the_one_list_of_them(site: Site) -> None:
    html = site().html(PAGE)
    rounds = [one for one in elements(html, "p") if "data-hides" in one.attributes]
    assert [one.attributes["data-name"] for one in rounds] == [
        WATCH_FIRST.name, *(one.name for one in ROUNDS)
    ]  # fmt: skip
    assert [one.attributes["data-hides"] for one in rounds] == [
        "nothing", "step", "step", "points", "reasons"
    ]  # fmt: skip
    told = "Watch first, then four rounds: hands only, name it, key points, reasons."
    assert told in words(html)
    assert [one.number for one in ROUNDS] == [1, 2, 3, 4]
    assert ROUNDS_IN_WORDS == "four rounds"
    assert len(ROUNDS) == 4


def test_the_reason_of_a_signal_word_is_shown(site: Site, edited: Edited) -> None:
    files = edited("hazards/work-turns.yml", "what: ", "answers_because: Vices do slip.\nwhat: ")
    one = site(files)
    assert "Because Vices do slip." in words(one.html("hazards/work-turns.html"))
    assert "WARNING Plate swung round by the drill Vices do slip." in words(
        one.html("signal-words.html")
    )
