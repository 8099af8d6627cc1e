"""The record page, from disk: what is touched is kept, hidden, saved, read back and taken in."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import expect

from benchleaf.commands.book import book
from benchleaf.people.crews import load_crew
from build_demo import ROOT, demo_shop
from visitor import Visitor


def test_from_the_tablet_into_the_crew_folder(
    full_demo: Path, visit: Callable[..., Visitor], tmp_path: Path
) -> None:
    visitor = visit((1280, 800))
    page = visitor.page
    page.clock.install(time="2027-01-11T10:40:00")
    page.goto((full_demo.with_name("site-full") / "people/record-tr-0220.html").as_uri())
    said, veil = page.locator("[data-said]"), page.locator("[data-veil]")
    page.locator("[data-kind='lesson']").click()
    page.locator("[data-pick='person'][data-value='op-03']").click()
    page.locator("[data-pick='by'][data-value='tr-01']").click()
    for button in page.locator("[data-round='3']").all():
        points = int(str(button.locator("..").get_attribute("data-of")))
        for _ in range(points):
            button.click()
    expect(page.locator("[data-shown='rounds']")).to_have_text("Rounds that are whole: 3")
    page.locator("[data-hard]").nth(2).click()
    page.locator("[data-do='watch']").click()
    page.clock.fast_forward(200)
    page.locator("[data-do='watch']").click()
    expect(said).to_contain_text("double touch")
    page.clock.fast_forward(185_000)  # both hands are on the work, and nobody touches the screen
    expect(veil).to_be_visible()
    assert not re.search(r"\b(op|tr)-\d\d\b", page.locator("body").inner_text())
    page.reload()  # nothing is lost, and still no code is shown
    expect(veil).to_be_visible()
    assert not re.search(r"\b(op|tr)-\d\d\b", page.locator("body").inner_text())
    veil.locator("button").click()
    page.locator("[data-do='watch']").click()
    expect(page.locator("[data-shown='pieces']")).to_contain_text(re.compile(r"Piece 1, 18\d"))
    page.locator("[data-shown='pieces'] button").first.click()  # good
    page.locator("[data-toggle='set']").first.click()
    page.locator("[data-do='save']").click()
    expect(said).to_have_text("What was set wrong on purpose is not put right yet.")
    page.locator("[data-toggle='right']").first.click()
    with page.expect_download() as download:
        page.locator("[data-do='save']").click()
    file = tmp_path / download.value.suggested_filename
    assert file.name == "2027-01-11-op-03-tr-0220.yml"
    download.value.save_as(file)
    kept = "() => localStorage.getItem('record.tr-0220')"
    cut = tmp_path / "cut.yml"
    cut.write_bytes(file.read_bytes()[:-20])
    page.locator("[name='back']").set_input_files(cut)
    expect(said).to_contain_text("Nothing is forgotten")
    assert "op-03" in page.evaluate(kept)
    page.locator("[name='back']").set_input_files(file)
    expect(said).to_contain_text("Read back")
    assert page.evaluate(kept) is None
    assert visitor.strays == []

    # The shared site is made today, whenever that is; the crew's day is its own.
    text = re.sub("(?<=page_made: ).*", "2027-01-08", file.read_text(encoding="utf-8"))
    file.write_text(text, encoding="utf-8")
    crew = Path(shutil.copytree(ROOT / ".demo-crew", tmp_path / "crew"))
    answer = book([file], crew, ROOT / "content")
    assert answer.text.startswith("taken in: 2027-01-11-op-03-"), answer.text
    found = load_crew(crew, demo_shop(), ROOT / "content").crew
    assert found is not None
    lesson = found.people["op-03"].lesson("tr-0220")
    assert lesson is not None
    assert lesson.round == 3
    assert round(lesson.timed[-1].time.value) in range(180, 190)
