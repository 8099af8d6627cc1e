"""The sheet for watching a job: a tablet's file is taken in as a breakdown."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import expect

from benchleaf.commands.take_in import taken_in
from visitor import Visitor


def test_from_the_tablet_to_a_breakdown(
    full_demo: Path, visit: Callable[..., Visitor], tmp_path: Path
) -> None:
    page = visit((1080, 1920)).page
    site = full_demo.with_name("site-full")
    page.goto((site / "watching.html").as_uri())
    part = page.locator("[data-row]").first
    part.locator("[name='element']").fill('Clamp the "long" plate')
    part.locator("[name='key point']").fill("Push it to the stop; then tighten.")
    part.locator("[name='reason']").fill("The stop sets the place.")
    part.locator("[name='test']").select_option("makes or breaks the job")
    part.locator("[data-do='lap']").click()
    expect(page.locator(".bl-watching__bar [role='status']")).to_have_text("Start the watch first.")
    page.locator("[data-do='start']").click()
    clock = page.locator(".bl-watching__clock")
    expect(clock).to_have_text(re.compile(r"^0\.[4-9] s$"))
    part.locator("[data-do='lap']").click()
    part.locator("[data-do='lap']").click()  # at once: a double touch, which writes nothing
    expect(page.locator(".bl-watching__bar [role='status']")).to_contain_text("double touch")
    expect(clock).to_have_text(re.compile(r"^0\.[4-9] s$"))
    part.locator("[data-do='lap']").click()
    part.locator("[data-do='more']").click()
    page.keyboard.type("Keep both hands away.")
    page.locator("[data-row]").nth(1).locator("[name='test']").select_option("can injure")
    page.locator("[name='job']").fill("TR-0600")
    page.reload()  # nothing is lost
    expect(page.locator("[name='element']").first).to_have_value('Clamp the "long" plate')
    with page.expect_download() as download:
        page.locator("[data-do='save']").click()
    file = tmp_path / download.value.suggested_filename
    assert file.name == "tr-0600-watching.csv"
    download.value.save_as(file)
    text, job_id, findings = taken_in(file, {"id": "TR-0600", "title": "Drill"})
    assert not findings
    assert job_id == "tr-0600"
    assert 'title: Clamp the "long" plate' in text
    assert text.count("- point:") == 2
    assert "operator a 2 times" in text
    page.locator("[data-do='clear']").click()
    expect(page.locator("[name='element']").first).to_have_value('Clamp the "long" plate')
    page.locator("[data-do='clear']").click()  # a second touch: one alone clears nothing
    expect(page.locator("[name='element']").first).to_have_value("")
