"""The ways in: touches to a step, two screens of a job, at work, something is wrong, slips."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from doors import first_two_are_seen, screens_high, seen, touches_to_first_step

from access import SIZES
from benchleaf.html.site_facts import SCRIPTS
from benchleaf.workbooks.slips import WORDS, Slip, slips_of
from build_demo import KIOSK, MKDOCS_YML, demo_shop, forked_build, write_files
from forty_jobs import STATIONS, forty_jobs
from running import once, sample

Visit = Callable[..., Any]
JOB = "jobs/tr-0120.html"


@pytest.fixture(scope="module")
def forty(tmp_path_factory: pytest.TempPathFactory, base_shop: dict[str, str]) -> Path:
    """The shop of 40 jobs on 8 stations, built once a run."""

    def make(folder: Path) -> None:
        write_files(folder / "content", forty_jobs(base_shop))
        (folder / "mkdocs.yml").write_text(MKDOCS_YML, encoding="utf-8")
        done = forked_build(folder)
        assert done.returncode == 0, done.stderr

    return once(tmp_path_factory, "forty", make) / "site"


def test_four_touches_lead_to_the_first_step_in_a_shop_of_forty_jobs(
    forty: Path, visit: Visit
) -> None:
    assert len(STATIONS) == 8
    assert sum(count for _, count in STATIONS) == 40
    visitor = visit(KIOSK)
    page = visitor.open(forty, "index.html")
    assert screens_high(page) <= 2
    pages = sorted((forty / "jobs").glob("vg-*.html"))
    assert len(pages) == 40
    for path in [pages[13], *sample(pages, 1, seed=3)]:  # the last of the longest list, any other
        station = re.search(r'bl-crumbs"><a href="\.\./machines/([\w-]+)', path.read_text("utf-8"))
        assert station
        visitor.open(forty, "index.html")
        assert touches_to_first_step(page, station[1], path.stem) == "4 touches"
        assert page.locator(".bl-step.bl-now .bl-hazard").count()  # as from any door
    assert visitor.strays == []


def test_a_job_is_two_screens_and_what_is_wrong_is_seen_at_once(demo: Path, visit: Visit) -> None:
    jobs = [f"jobs/{name}.html" for name in demo_shop().jobs]
    visitor = visit(KIOSK)
    for name in sample(jobs, 4, seed=5):
        page = visitor.open(demo, name)
        assert 1 < screens_high(page) <= 2, name
        for way in ("#follow", "#bl-at-work", "#bl-steps", "#if-wrong"):
            assert seen(page, f".bl-ways-on [href='{way}']"), f"{name}{way}"
    for number, (size, screen) in enumerate(SIZES.items()):
        page.set_viewport_size({"width": screen[0], "height": screen[1]})
        visitor.open(demo, jobs[number])
        page.locator(".bl-ways-on__wrong").tap()
        assert first_two_are_seen(page), f"{jobs[number]} {size}"
        visitor.open(demo, "wrong.html")
        assert first_two_are_seen(page), size
    visitor.open(demo, "index.html")
    assert seen(page, ".bl-home-wrong")
    assert visitor.strays == []


def test_a_row_opens_alone_and_a_link_into_it_opens_it(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, JOB)
    assert not page.locator("#know-first:visible, .bl-setup:visible, .bl-step:visible").count()
    page.locator(".bl-rest[data-part='set-up'] summary").tap()
    assert page.locator(".bl-setup").first.is_visible()
    assert not page.locator("#know-first:visible, .bl-step:visible").count()
    page.locator(".bl-gravest__all a").tap()
    assert page.locator("#hazards").is_visible()
    visitor.open(demo, "index.html")
    for anchor in ("gauge-hole", "hand-on"):
        visitor.open(demo, f"{JOB}#{anchor}")
        place = page.locator(f"#{anchor}")
        place.wait_for()
        assert place.evaluate("one => one.getBoundingClientRect().top") < KIOSK[1] / 2
    assert visitor.strays == []


def test_at_work_the_next_check_is_counted_and_the_count_is_of_this_sitting(
    demo: Path, visit: Visit
) -> None:
    visitor = visit(KIOSK)
    page = visitor.open(demo, JOB)
    job = demo_shop().jobs["tr-0120"]
    page.locator(".bl-ways-on [href='#bl-at-work']").tap()
    page.locator("html.bl-working").wait_for()
    told = page.locator(".bl-gravest").inner_text()
    met = {one for step in job.steps for one in step.hazards} | set(job.hazards)
    for one in met:
        assert demo_shop().hazards[one].title in told
    assert page.locator("[data-stop]:visible").count() == page.locator("[data-stop]").count() > 0
    assert page.locator(".bl-figures-first .bl-set:visible").count() == len(job.set_ups)
    assert page.locator(".bl-steps-short li:visible").count() == len(job.steps)
    assert page.locator(".bl-work__check:visible").count() == sum(len(s.checks) for s in job.steps)
    assert not page.locator("#wear:visible, #makes:visible, .bl-rest:visible").count()

    said, button = page.locator(".bl-work__due"), page.locator(".bl-work__done")
    pause = "new Promise(over => setTimeout(over, 420))"  # two quick touches are one
    button.tap()
    assert "Gauge now" in said.inner_text()
    assert said.inner_text().count("good from") == 3  # the first-off is measured whole
    page.evaluate(pause)
    button.tap()
    assert "Gauge after 9 pieces more" in said.inner_text()
    button.dispatch_event("click", {"detail": 1})
    assert "1 piece done" in said.inner_text()
    page.evaluate("sessionStorage.setItem('benchleaf.work.tr-0120', '{\"pieces\":9,\"gauged\":9}')")
    page.reload()
    button.tap()
    assert "8.5 +0.2/-0.05 mm good from 8.45 to 8.7 mm" in said.inner_text()
    assert said.inner_text().count("good from") == 1
    page.evaluate(pause)
    page.evaluate("document.dispatchEvent(new CustomEvent('benchleaf:reset'))")
    assert not page.locator(".bl-work:visible").count()
    page.locator(".bl-ways-on [href='#bl-at-work']").tap()
    page.locator("html.bl-working").wait_for()
    assert "0 pieces done" in said.inner_text()
    assert visitor.strays == []


def test_a_slip_of_a_step_outlasts_going_home_and_is_read_back(demo: Path, visit: Visit) -> None:
    visitor = visit(KIOSK)
    page = visitor.page
    now = datetime(2026, 11, 30, 12, tzinfo=UTC)
    page.clock.install(time=now)
    page.clock.pause_at(now + timedelta(hours=1))
    visitor.open(demo, JOB)
    page.locator("[data-step-of='clamp-plate']").tap()
    page.locator("[data-do='wrong']").tap()
    page.locator("[data-slip='make']").tap()
    assert "Step 2 Clamp the plate in the vice" in page.locator(".bl-slip__where").inner_text()
    assert page.locator(".bl-slip__word").count() == len(WORDS)
    assert not page.locator(".bl-slip input, .bl-slip textarea").count()  # no room for a name
    page.locator(".bl-slip__word").first.tap()
    assert "Stop, and tell your trainer" in page.locator(".bl-slip").inner_text()
    page.locator(".bl-slip button").tap()
    page.clock.run_for(31 * 60_000)
    page.clock.run_for(62_000)
    page.wait_for_url("**/index.html")

    visitor.open(demo, "wrong.html")
    shown = page.locator(".bl-slips__text").inner_text()
    with page.expect_download() as saving:
        page.get_by_role("button", name="Save as a file").tap()
    assert saving.value.suggested_filename == "slips.txt"
    saved = Path(saving.value.path()).read_text(encoding="utf-8")
    revision = demo_shop().jobs["tr-0120"].revision
    slip = Slip("tr-0120", "clamp-plate", f"revision {revision}", WORDS[0])
    for text in (shown, saved):
        assert slips_of(text, "slips.txt") == ((slip,), ())
    page.get_by_role("button", name="Take them off").tap()
    page.locator(".bl-slip").get_by_role("button", name="Take them off").tap()
    assert page.evaluate("localStorage.getItem('slips.kept')") is None
    assert not page.locator(".bl-slips__text").count()
    assert "slips.js" not in SCRIPTS  # a page that makes no slip loads nothing for it
    assert visitor.strays == []
