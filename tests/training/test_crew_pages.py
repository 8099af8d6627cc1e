"""Pages about people: in the full edition only, whole, and true to the plan behind them."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from html import unescape
from html.parser import HTMLParser
from pathlib import Path

import icalendar
import pytest

import read_once
from benchleaf import pipeline
from benchleaf.html.values import PlannedPage
from benchleaf.people import crews
from benchleaf.plan import Timetable
from running import some

ROOT = Path(__file__).parents[2]


@dataclass(frozen=True)
class Planned:
    """The demo's full edition, as planned."""

    people: Timetable
    pages: dict[str, PlannedPage]
    texts: dict[str, str]
    free: frozenset[str]
    """Addresses of the free pages."""


@pytest.fixture(scope="module")
def demo() -> Planned:
    loaded = read_once.demo()
    crew = crews.load_crew(ROOT / ".demo-crew", loaded.shop, ROOT / "content")
    people = crews.plan_people(crew.crew, loaded)
    assert people is not None
    site = pipeline.plan_site(loaded, edition="full", people=people)
    calendars = {name: text for name, text in site.texts if name.endswith(".ics")}
    free = frozenset(one.address for one in site.free_pages)
    return Planned(people, {one.address: one for one in site.pages}, calendars, free)


def html_of(demo: Planned, address: str) -> str:
    return demo.pages[address].render().html


def words_of(html: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())


def about_people(demo: Planned) -> list[str]:
    return [one for one in demo.pages if one.startswith("people/") or one == "timetable.html"]


def test_a_kiosk_has_no_page_about_people_even_when_it_is_given_a_plan(demo: Planned) -> None:
    loaded = read_once.demo()
    kiosk = pipeline.plan_site(loaded, edition="kiosk", people=demo.people)
    addresses = {one.address for one in kiosk.pages}
    assert not {one for one in addresses if "people" in one or "timetable" in one}
    codes = re.compile(r"\b(op|tr)-\d\d\b")
    assert not [name for name, text in kiosk.texts if name.endswith(".ics") or codes.search(text)]
    for one in kiosk.pages:
        rendered = one.render()
        assert not codes.search(rendered.html), one.address
        assert not any(codes.search(repr(each)) for each in rendered.entries)


def test_pages_about_people_are_not_in_the_search(demo: Planned) -> None:
    assert len(about_people(demo)) > 20
    assert all(not demo.pages[one].render().entries for one in about_people(demo))


def test_without_a_crew_the_timetable_says_how_to_name_one() -> None:
    loaded = read_once.demo()
    site = pipeline.plan_site(loaded, edition="full")
    page = next(one for one in site.pages if one.address == "timetable.html")
    assert "BENCHLEAF_CREW_DIR" in page.render().html
    people = [one for one in site.pages if one.address.startswith("people/")]
    assert all(one.address.startswith("people/record-") for one in some(people))
    assert "data-pick" not in people[0].render().html  # no code of anybody


class Reader(HTMLParser):
    """Ids, links, tags left open, and attributes that the policy of the page forbids."""

    VOID = frozenset(("br", "img", "hr", "input", "meta", "link"))

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.ids: list[str] = []
        self.links: list[str] = []
        self.forbidden: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in self.VOID:
            self.open.append(tag)
        for name, value in attrs:
            if name == "id":
                self.ids.append(value or "")
            if name == "href":
                self.links.append(value or "")
            if name == "style" or name.startswith("on"):
                self.forbidden.append(name)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in self.VOID:
            self.open.pop()

    def handle_endtag(self, tag: str) -> None:
        assert self.open, tag
        assert self.open.pop() == tag


def test_every_page_is_whole_and_its_links_lead_somewhere(demo: Planned) -> None:
    known = {*demo.pages, *demo.texts, *demo.free}
    for address in about_people(demo):
        reader = Reader()
        reader.feed(html_of(demo, address))
        assert reader.open == []
        assert reader.forbidden == []
        assert len(set(reader.ids)) == len(reader.ids), address
        here = Path(address).parent
        for link in reader.links:
            target = link.partition("#")[0]
            if target:
                parts = (here / target).as_posix().split("/")
                flat: list[str] = []
                for part in parts:
                    flat = flat[:-1] if part == ".." else [*flat, part]
                assert "/".join(one for one in flat if one != ".") in known, (address, link)


def test_the_timetable_tells_what_cannot_be_met_before_all_else(demo: Planned) -> None:
    words = words_of(html_of(demo, "timetable.html"))
    told = words.index("What cannot be met")
    assert told < words.index("People and jobs")
    for one in demo.people.schedule.late:
        days = "day" if one.late_days == 1 else "days"
        assert f"{one.late_days} {days} late" in words
    for lost in demo.people.schedule.unplanned:
        assert f"{lost.lesson.person.id} at {lost.lesson.job.id.upper()}: {lost.why}" in words
    assert "no training record system" in words


def test_every_lesson_of_the_plan_is_on_the_page_and_in_the_chart(demo: Planned) -> None:
    html = html_of(demo, "timetable.html")
    svg = html[html.index("<svg") : html.index("</svg>")]
    for one in demo.people.schedule.planned:
        code, job = one.lesson.key
        assert f"people/{code}-{job}.html" in html
        assert f"{code}  {job.upper()}" in svg


TEXT = re.compile(
    r'<text x="([\d.-]+)" y="([\d.-]+)" text-anchor="(\w+)" font-size="([\d.]+)"[^>]*>([^<]*)<'
)


@pytest.mark.parametrize("address", ["timetable.html", "people/op-03-tr-0220.html",
                                     "people/op-11-tr-0220.html"])  # fmt: skip
def test_words_of_a_drawing_stay_inside_and_do_not_cover_one_another(
    demo: Planned, address: str
) -> None:
    html = html_of(demo, address)
    svg = html[html.index("<svg") : html.index("</svg>")]
    found = re.search(r'viewBox="0 0 (\d+) ([\d.]+)"', svg)
    assert found
    wide, high = float(found[1]), float(found[2])
    boxes = []
    for x_, y_, anchor, size_, words in TEXT.findall(svg):
        x, y, size = float(x_), float(y_), float(size_)
        width = len(words) * size * 0.55
        left = {"start": x, "middle": x - width / 2, "end": x - width}[anchor]
        boxes.append((left, y - size * 0.75, left + width, y, words))
    assert len(boxes) > 6
    for left, top, right, bottom, words in boxes:
        assert left >= -2, words
        assert right <= wide + 2, words
        assert 0 <= top < bottom <= high, words
    for number, one in enumerate(boxes):
        for other in boxes[number + 1 :]:
            apart = (
                one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]
            )
            assert apart, (one[4], other[4])


def test_a_learners_page_names_what_a_record_holds(demo: Planned) -> None:
    words = words_of(html_of(demo, "people/op-03-tr-0220.html"))
    prints = demo.people.situation.fingerprints["tr-0220"][:8]
    for wanted in ("op-03", "TR-0220", prints, "Revision", "Date", "Trainer", "Result", "Language"):
        assert wanted in words
    assert "Start from TR-0120" in words
    assert "round bar" in words
    assert "Unit model" in words
    assert "the published method fixes no days" in words.lower()


def test_a_learner_without_times_is_told_what_is_missing(demo: Planned) -> None:
    words = words_of(html_of(demo, "people/op-14-tr-0130.html"))
    assert "Not computed. Missing: the job's piece_rate; times of this learner's pieces" in words


def test_a_person_whose_sign_off_lapsed_is_told_so_at_the_top(demo: Planned) -> None:
    words = words_of(html_of(demo, "people/op-11.html"))
    assert "Not alone, until that is put right: TR-0110" in words


def test_every_calendar_file_is_read_by_a_library_and_agrees_with_its_page(demo: Planned) -> None:
    assert len(demo.texts) > 10
    uids: list[str] = []
    for address, text in demo.texts.items():
        calendar = icalendar.Calendar.from_ical(text)
        events = list(calendar.walk("VEVENT"))
        assert calendar.errors == []
        assert all(one.errors == [] for one in events)
        words = words_of(html_of(demo, address.replace(".ics", ".html")))
        many = "" if len(events) == 1 else "s"
        assert f"{len(events)} check{many} to come by this cadence" in words
        for one in events:
            assert f"{one.decoded('DTSTART'):%H:%M}" in words
        uids += [str(one["UID"]) for one in events]
    assert len(set(uids)) == len(uids)


def test_the_day_of_the_plan_can_be_given(demo: Planned) -> None:
    loaded = read_once.demo()
    later = crews.plan_people(demo.people.situation.crew, loaded, date(2027, 6, 1))
    assert later is not None
    states = {one.state.value for one in later.standings.values() if one.sign_off}
    assert "check again" in states
    assert "can do" not in states


@pytest.fixture
def run(
    capsys: pytest.CaptureFixture[str], demo_read_once: None
) -> Callable[..., tuple[int, str, str]]:
    from benchleaf.cli import main

    def command(*arguments: str) -> tuple[int, str, str]:
        code = main([*arguments, "--content", str(ROOT / "content")])
        out = capsys.readouterr()
        return code, out.out, out.err

    return command


def test_the_commands_tell_the_same_plan(run: Callable[..., tuple[int, str, str]]) -> None:
    crew = ("--crew", str(ROOT / ".demo-crew"))
    code, text, _ = run("timetable", *crew)
    assert code == 1
    assert "op-14 TR-0180 with tr-02" in text
    assert " d LATE" in text
    assert "Mon 11 Jan 06:00 to" in text
    code, text, _ = run("timetable", *crew, "--format", "json")
    found = json.loads(text)
    assert found["from"] == "2027-01-11"
    assert {one["person"] for one in found["people"]} >= {"op-03", "op-22"}
    code, text, _ = run("follow-up", "op-03", "TR-0220", *crew)
    assert code == 0
    assert "start from TR-0120" in text
    code, text, _ = run("follow-up", "op-03", "TR-0220", *crew, "--format", "json")
    first = json.loads(text)["follow_up"][0]
    assert first["checks"] == ["06:40", "08:40", "10:40"]  # the trainer's time is used up then
    assert first["checks_without_trainer"] == 1


def test_page_and_command_say_who_may_and_why_not_the_others(
    demo: Planned, run: Callable[..., tuple[int, str, str]], tmp_path: Path
) -> None:
    crew = ("--crew", str(ROOT / ".demo-crew"))
    code, text, _ = run("may", "TR-0190", *crew)
    ended = "authority to lock off ended on 4 Jan 2027"
    assert code == 0
    assert "  may: tr-01 (until 8 Apr 2027)" in text
    assert ended in text
    html = html_of(demo, "people/who-may.html")
    part = words_of(html[html.index('<h2 id="tr-0190">') : html.index('<h2 id="tr-0210">')])
    assert "Run: tr-01 (until 8 Apr 2027)." in part
    assert ended in part
    assert "everybody else (no authority to judge is recorded)" in part
    assert "Ended : Lock off, at pillar-drill" in words_of(html_of(demo, "people/op-22.html"))
    code, text, _ = run("may", "tr-0190", *crew, "--format", "json", "--on", "2027-01-04")
    found = json.loads(text)
    (lock,) = [one for one in found["lock_off"] if one["person"] == "op-22"]
    assert (lock["says"], lock["until"]) == ("may", "2027-01-04")
    assert found["needs_lock_off"]
    shutil.copytree(ROOT / ".demo-crew", tmp_path / "crew")
    record = tmp_path / "crew/people/tr-02.yml"
    ends = record.read_text(encoding="utf-8").replace(
        "may: teach, given: 2026", "may: teach, given: 2028"
    )
    record.write_text(ends.replace("until: 2028-03-01", "until: 2029-03-01"), encoding="utf-8")
    code, text, _ = run("timetable", "--crew", str(tmp_path / "crew"))
    assert text.count("authority to teach begins on 2 Mar 2028") == 1
    assert text.index("tr-02 at TR-0110, ") < text.index("cover:")
    code, text, _ = run("may", "TR-0390", *crew)
    assert (code, "run:\n  may: nobody\n" in text) == (1, True)
    code, _, said = run("may", "TR-0191", *crew)
    assert (code, "did you mean 'TR-0190'?" in said) == (2, True)


def test_misuse_of_the_commands_is_told(
    run: Callable[..., tuple[int, str, str]], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.delenv("BENCHLEAF_CREW_DIR", raising=False)
    crew = ("--crew", str(ROOT / ".demo-crew"))
    assert run("timetable")[0] == 2
    code, _, said = run("follow-up", "op-99", "TR-0220", *crew)
    assert (code, "there is nobody 'op-99'" in said) == (2, True)
    code, _, said = run("follow-up", "op-03", "TR-0221", *crew)
    assert (code, "did you mean 'TR-0220'?" in said) == (2, True)
    code, _, said = run("timetable", "--crew", str(tmp_path / "none"))
    assert (code, "R101" in said) == (1, True)
    code, _, said = run("follow-up", "op-03", "TR-0550", *crew, "--format", "ics")
    assert (code, "nothing to look in on" in said) == (2, True)
