"""The short lesson of what changed: its page, its sheet, and the file for a pull request."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from html import unescape
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.cli import main
from benchleaf.link import is_full_only
from benchleaf.people import crews
from registering import append_changed

TESTS = Path(__file__).parents[1]
JOB = "jobs/vg-0010.yml"
PAGE, SHEET = "lessons/vg-0010.html", "trainer/vg-0010-changed.html"
PROVED = "can_do:\n  - {job: VG-0010, revision: 2, judged: 2026-03-09, judged_by: tr-01}\n"


@dataclass(frozen=True)
class Built:
    """The words of every page of one edition, and their HTML."""

    html: dict[str, str]

    def words(self, address: str) -> str:
        return " ".join(unescape(re.sub(r"<[^>]+>", " ", self.html[address])).split())


@pytest.fixture
def changed(shop: Callable[..., Path], edited: Callable[..., dict[str, str]]) -> Path:
    """The small shop at a third revision of one job, released."""
    folder = shop(
        edited(
            JOB,
            "revision: 2", "revision: 3",
            "feet apart", "feet together",
            "A plate that lies crooked gets a crooked hole.",
            "It bends the drill until that breaks.",
        )
        | edited("machines/bench-drill.yml", "spindle_speeds:", "spindle_speeds:\n  - 1100 rpm")
    )  # fmt: skip
    was, now = (pipeline.load(one).shop for one in (TESTS / "shop", folder))
    append_changed(folder, was, now, {"vg-0010": "3"})
    return folder


def people_at(folder: Path, tmp_path: Path, files: dict[str, str]) -> Path:
    crew = tmp_path / "a-crew"
    (crew / "people").mkdir(parents=True)
    facts = (TESTS / "crew" / "crew.yml").read_text(encoding="utf-8")
    (crew / "crew.yml").write_text(facts, encoding="utf-8")
    for code, text in files.items():
        whole = f"id: {code}\nshift: early\n{text}"
        (crew / "people" / f"{code}.yml").write_text(whole, encoding="utf-8")
    return crew


def built(folder: Path, crew: Path | None = None, edition: str = "full") -> Built:
    loaded = pipeline.load(folder)
    found = crews.crew_for(crew, loaded.shop, folder)
    assert crew is None or found.crew is not None, found.findings
    people = crews.plan_people(found.crew, loaded)
    site = pipeline.plan_site(loaded, edition=edition, people=people)
    return Built({one.address: one.render().html for one in site.pages})


def test_a_trainer_finds_what_changed_and_nothing_else(changed: Path) -> None:
    site = built(changed)
    words = site.words(PAGE)
    assert "From revision 2 to 3" in words
    assert "Was: In front of the table, feet apart." in words
    assert "Now: In front of the table, feet together." in words
    assert "Why must it be so?" in words
    assert "Let fluid run on the drill" not in words
    assert PAGE.rpartition("/")[2] in site.html["jobs/vg-0010.html"]
    assert SHEET.rpartition("/")[2] in site.html["jobs/vg-0010.html"]


def test_what_can_hurt_comes_first(changed: Path) -> None:
    words = built(changed).words(PAGE)
    heads = ["Hazards at the steps", "What can hurt", "Show what is done otherwise"]
    places = [words.index(one) for one in heads if one in words]
    assert places == sorted(places)
    assert len(places) >= 2


def test_without_a_crew_the_sheet_has_blank_lines(changed: Path) -> None:
    assert built(changed).html[SHEET].count('class="bl-blank"') == 6


def test_one_talk_serves_all_for_whom_it_is(changed: Path, tmp_path: Path) -> None:
    half = "learning:\n  - {job: VG-0010, round: 2, revision: 2}\n"
    old = PROVED.replace("revision: 2", "revision: 1")
    files = {"op-01": PROVED, "op-02": half, "op-03": old,
             "op-04": PROVED.replace("revision: 2", "revision: 3"), "op-05": PROVED}  # fmt: skip
    site = built(changed, people_at(changed, tmp_path, files))
    sheet = site.words(SHEET)
    assert site.html[SHEET].count('class="bl-blank"') == 3
    assert "op-01 revision 2" in sheet
    assert "op-02 revision 2" in sheet
    assert "Not enough for op-03: show them the whole job." in sheet
    assert "op-04" not in sheet
    assert re.search(r"Booked\. \w+ \d+ \w+, with tr-01: op-01, op-05\.", sheet)
    assert "with tr-01: op-01, op-05. Trainer's time: " in site.words(PAGE)
    assert "one talk for 2 people" in site.words("timetable.html")
    assert "One talk for op-01, op-05." in site.words("people/op-05-vg-0010.html")
    learner = site.words("people/op-02-vg-0010.html")
    assert "They were taught revision 2; the job is at revision 3." in learner
    assert "feet together" in learner
    assert "short lesson: " in site.words("timetable.html")


def test_the_kiosk_has_none_of_it(changed: Path) -> None:
    site = built(changed, edition="kiosk")
    assert PAGE not in site.html
    assert SHEET not in site.html
    assert is_full_only(PAGE)
    assert is_full_only(SHEET)
    assert "lessons/" not in "".join(site.html.values())


def test_a_pull_request_gets_its_lessons_as_files(
    changed: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    crew = people_at(changed, tmp_path, {"op-01": PROVED})
    asked = ["compare", str(TESTS / "shop"), "--content", str(changed), "--crew", str(crew),
             "--on", "2026-04-06", "--lessons", str(tmp_path / "out")]  # fmt: skip
    assert main(asked) == 0
    capsys.readouterr()
    assert [one.name for one in (tmp_path / "out").iterdir()] == ["vg-0010.html"]
    html = (tmp_path / "out" / "vg-0010.html").read_text(encoding="utf-8")
    assert "feet together" in html
    assert '<th scope="row">op-01</th><td>revision 2</td>' in html
    assert "http" not in html.replace("http-equiv", "")
