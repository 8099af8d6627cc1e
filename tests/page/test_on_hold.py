"""A job on hold: every page, sheet and plan says so, and nothing that is taught has moved."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from planned import Planned, elements, words

from benchleaf import pipeline
from benchleaf.people import crews
from benchleaf.people.people_text import timetable_json, timetable_text
from benchleaf.plan import Timetable
from like_machines import FIRST, SECOND, with_group

CREW = Path(__file__).parents[1] / "crew"
REASON = (
    "On hold since 1 December 2026 by the trainer: The <stop> has come loose. "
    "Only the production engineer may lift it."
)
LISTS = (
    "index.html", "jobs/index.html", "machines/bench-drill.html", "find.html", "parts/vg-r1.html",
    "jobs-by-part.html", "jobs-by-order.html", "onboarding/first-days.html", "people/op-01.html",
)  # fmt: skip
"""Pages that name a job among others: each says that it must not be run."""
TOLD = (
    "jobs/{}.html", "trainer/{}-breakdown.html", "trainer/{}-card.html", "trainer/{}-set-up.html",
    "trainer/{}-try-out.html", "trainer/{}-get-ready.html", "trainer.html", "engineer.html",
    "timetable.html",
)  # fmt: skip
"""Pages of the job itself, and those on which somebody plans with it: each gives the reason."""


def hold(job: str, **more: str) -> dict[str, str]:
    """The file of a hold; its reason has a sign that a page must not take for its own."""
    said = {
        "job": job, "why": '"The <stop> has come loose."', "day": "2026-12-01",
        "held_by": "trainer", "lift_by": "production engineer", **more,
    }  # fmt: skip
    return {f"holds/{job}.yml": "".join(f"{key}: {one}\n" for key, one in said.items())}


class Made(Planned):
    """A shop with the crew of the tests, all of its pages, and the plan."""

    people: Timetable

    def said(self, address: str) -> str:
        """The words of a page, in one line."""
        text = words(self.html(address))
        return text.replace("&lt;", "<").replace("&gt;", ">")


def made(content: Path) -> Made:
    loaded = pipeline.load(content)
    people = crews.plan_people(crews.load_crew(CREW, loaded.shop, content).crew, loaded)
    assert people is not None
    site = Made(loaded, pipeline.plan_site(loaded, edition="full", people=people))
    object.__setattr__(site, "people", people)
    return site


@pytest.fixture(scope="module")
def sites(base_shop: dict[str, str], tmp_path_factory: pytest.TempPathFactory) -> dict[str, Made]:
    """The small shop free, and with both of its jobs on hold: one has no set-up at all."""
    found = {}
    for name, files in (("free", {}), ("held", hold("vg-0010") | hold("vg-0020"))):
        content = tmp_path_factory.mktemp(name) / "content"
        for file, text in {**base_shop, **files}.items():
            path = content / file
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        found[name] = made(content)
    return found


def test_every_list_says_so_and_did_not_before(sites: dict[str, Made]) -> None:
    for address in LISTS:
        free, held = (sites[name].said(address).lower() for name in ("free", "held"))
        assert (free.count("do not run"), held.count("do not run") > 0) == (0, True), address


@pytest.mark.parametrize("job", ["vg-0010", "vg-0020"])
def test_every_page_sheet_and_plan_gives_the_reason(sites: dict[str, Made], job: str) -> None:
    for address in (one.format(job) for one in TOLD):
        held = sites["held"].said(address)
        assert REASON.casefold().rstrip(".") in held.casefold(), address
        assert "on hold since" not in sites["free"].said(address), address
    assert REASON in sites["held"].said("people/op-01-vg-0020.html")


def test_no_figure_to_set_stands_anywhere_and_no_step_view_opens(sites: dict[str, Made]) -> None:
    sheet = sites["free"].loaded.sheets["vg-0010"][0]
    speed = sheet.row("spindle_speed")
    assert speed is not None
    assert speed.figure is not None
    for address in ("jobs/vg-0010.html", "trainer/vg-0010-card.html",
                    "trainer/vg-0010-set-up.html", "engineer.html"):  # fmt: skip
        assert speed.figure.text in sites["free"].said(address), address
        assert speed.figure.text not in sites["held"].said(address), address
    for job in ("vg-0010", "vg-0020"):
        ids = {name: {one.attributes.get("id") for one in elements(site.html(f"jobs/{job}.html"))}
               for name, site in sites.items()}  # fmt: skip
        assert ids["free"] - ids["held"] >= {"follow", "bl-at-work"}


def test_a_sheet_that_must_not_be_filled_in_has_no_line_to_sign(sites: dict[str, Made]) -> None:
    assert "Set up by" in sites["free"].said("trainer/vg-0010-set-up.html")
    assert "Set up by" not in sites["held"].said("trainer/vg-0010-set-up.html")
    assert "Not set up" in sites["held"].said("trainer/vg-0020-get-ready.html")


def test_every_printed_sheet_sends_to_the_kiosk_for_a_hold(sites: dict[str, Made]) -> None:
    """A card cannot know of a hold that was made after it was printed."""
    sheets = [one for one in sites["free"].pages if one.startswith("trainer/vg-")]
    assert len(sheets) >= 10
    for address in sheets:
        assert (
            sites["free"].said(address).count("Check at the kiosk first: not on hold, and revision")
            == 1
        ), address


def test_search_says_it_before_the_page_is_opened(sites: dict[str, Made]) -> None:
    entries = sites["held"].pages["jobs/vg-0020.html"].render().entries
    assert any("Do not run" in one.under for one in entries)


def test_no_meaning_moves_and_no_register_asks_for_anything(sites: dict[str, Made]) -> None:
    free, held = sites["free"].loaded, sites["held"].loaded
    assert free.fingerprints == held.fingerprints
    assert {one.code for one in held.findings} == {"A623"}
    assert not any(one.fails_check for one in held.findings)
    stamps = [pipeline.site_facts(one).fingerprint for one in (free, held)]
    assert stamps[0] != stamps[1]  # two copies that say different things are told apart


def test_no_lesson_and_no_check_is_planned_and_the_plan_says_so(sites: dict[str, Made]) -> None:
    free, held = sites["free"].people.schedule, sites["held"].people.schedule
    assert {one.lesson.job.id for one in free.planned} == {"vg-0010", "vg-0020"}
    assert (held.planned, held.checks) == ((), ())
    assert len(held.unplanned) == len(free.planned)
    assert all("must not run: on hold since" in one.why for one in held.unplanned)
    text, told = (make(sites["held"].people) for make in (timetable_text, timetable_json))
    assert "DO NOT RUN:\n  VG-0010: on hold" in text
    assert "can do (proved on revision 2); DO NOT RUN" in text
    assert '"do_not_run": {\n    "vg-0010"' in told


def test_a_lift_by_the_named_role_alone_lets_it_go(shop: Callable[..., Path]) -> None:
    for role, stands in (("trainer", True), ("Production  Engineer", False)):
        files = hold("vg-0010", lifted=f"\n  by: {role}\n  day: 2026-12-02")
        loaded = pipeline.load(shop(files))
        assert ("vg-0010" in loaded.shop.holds) is stands
        assert loaded.may_publish is not stands  # a lift by another is told as an error


def test_a_hold_of_a_job_of_several_machines_holds_it_on_each(
    shop: Callable[..., Path], base_shop: dict[str, str]
) -> None:
    files = with_group(base_shop)
    whole = pipeline.load(shop({**files, **hold("vg-0010")}))
    assert set(whole.shop.holds) == {FIRST, SECOND}
    one = pipeline.load(shop({**files, **hold(SECOND)}))
    page = Planned(one, pipeline.plan_site(one)).html(f"jobs/{FIRST}.html")
    assert set(one.shop.holds) == {SECOND}
    assert 'class="bl-stop"' not in page  # its own machine is free
    assert "Do not run." in words(page)  # beside the other one, in the table of machines
