"""A job under another number: with its forward it stays the same job."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.cli import main
from benchleaf.commands import sides
from benchleaf.meaning import Consequence
from benchleaf.people.crews import load_crew, plan_people
from benchleaf.plan.situation import State
from registering import take_over

TESTS = Path(__file__).parents[1]
OLD, NEW = "vg-0010", "vg-0410"
JOB, OTHER = f"jobs/{OLD}.yml", "jobs/vg-0020.yml"
REVISIONS = {"revisions.yml": (TESTS / "shop" / "revisions.yml").read_text(encoding="utf-8")}
FORWARD = f"forwards:\n  - {{old: jobs/{OLD}.html, new: jobs/{NEW}.html}}\n"
Shop = Callable[..., Path]
Files = dict[str, str | None]


@pytest.fixture
def renumbered(base_shop: dict[str, str]) -> Files:
    """The small shop with a job under another number, wherever it is named."""
    files: Files = dict(REVISIONS)
    for name, text in base_shop.items():
        if name not in ("addresses.yml", "revisions.yml") and OLD.upper() in text:
            files[name] = text.replace(OLD.upper(), NEW.upper())
    files[f"jobs/{NEW}.yml"] = files.pop(JOB)
    return {**files, JOB: None, "forwards.yml": FORWARD}


def errors(content: Path) -> list[str]:
    return [one.code for one in pipeline.check(content) if one.blocks_publishing]


def test_it_moves_no_fingerprint_and_asks_for_no_revision(shop: Shop, renumbered: Files) -> None:
    assert NEW.upper() in str(renumbered[OTHER]), "the other job names it"
    before, after = pipeline.load(shop(REVISIONS)), pipeline.load(shop(renumbered))
    assert errors(after.content) == []
    assert after.fingerprints["vg-0020"] == before.fingerprints["vg-0020"]
    assert after.fingerprints[NEW] == before.fingerprints[OLD]


def test_it_recalls_nobody(shop: Shop, renumbered: Files) -> None:
    asked = sides.Asked(
        shop(renumbered), old=str(shop(REVISIONS)), crew=TESTS / "crew", on=date(2026, 4, 6)
    )
    report = sides.compare(asked).report
    assert report is not None
    assert {one.consequence for one in report.comparison.changes} <= {
        Consequence.TELL, Consequence.NOTHING,
    }  # fmt: skip
    assert not report.must_advance()
    assert not [
        one for one in report.due or () if one.consequence.stops_a_run and not one.was_stale
    ]


def standings(content: Path) -> dict[tuple[str, str], State]:
    loaded = pipeline.load(content)
    crew = load_crew(TESTS / "crew", loaded.shop, content)
    assert not [one for one in crew.findings if one.blocks_publishing]
    plan = plan_people(crew.crew, loaded, date(2026, 4, 6))
    assert plan is not None
    return {
        (one.person.id, OLD if one.job.id == NEW else one.job.id): one.state
        for one in plan.situation.standings()
    }


def test_what_people_proved_goes_on(shop: Shop, renumbered: Files) -> None:
    before = standings(shop(REVISIONS))
    assert State.CAN_DO in {state for (_, job), state in before.items() if job == OLD}
    assert standings(shop(renumbered)) == before


def test_it_stays_the_same_job_when_it_is_registered_and_changes_later(
    shop: Shop, renumbered: Files
) -> None:
    content = shop(renumbered)
    assert main(["register", str(content)]) == 0
    assert errors(content) == []
    job = content / f"jobs/{NEW}.yml"
    text = job.read_text(encoding="utf-8")
    job.write_text(text.replace("feet apart", "feet together"), encoding="utf-8")
    assert errors(content) == ["A604"]
    job.write_text(
        text.replace("feet apart", "feet together").replace("revision: 2", "revision: 3"),
        encoding="utf-8",
    )
    assert main(["register", str(content)]) == 0
    assert errors(content) == []
    loaded = pipeline.load(content)
    assert loaded.shop.renamed == {OLD: NEW}
    assert {"2", "3"} <= set(loaded.revisions.said_at(NEW))


def test_a_number_goes_on_under_the_new_name(shop: Shop, renumbered: Files) -> None:
    text = str(renumbered[f"jobs/{NEW}.yml"]).replace("revision: 2", "revision: 1")
    assert "A604" in errors(shop({**renumbered, f"jobs/{NEW}.yml": text}))


def test_a_job_that_takes_the_place_of_another_is_another_job(
    shop: Shop, renumbered: Files
) -> None:
    """Nobody who could do the old one is taken to be able to do the new one."""
    text = str(renumbered[f"jobs/{NEW}.yml"]).replace("thickness: 6 mm", "thickness: 12 mm")
    loaded = pipeline.load(shop({**renumbered, f"jobs/{NEW}.yml": text}))
    assert loaded.shop.renamed == {}
    codes = [one.code for one in load_crew(TESTS / "crew", loaded.shop, loaded.content).findings]
    assert "L301" in codes


def test_a_job_that_is_merged_into_one_that_is_there_is_another_job(shop: Shop) -> None:
    forward = f"forwards:\n  - {{old: jobs/{OLD}.html, new: jobs/vg-0020.html}}\n"
    loaded = pipeline.load(shop({**REVISIONS, JOB: None, "forwards.yml": forward}))
    assert loaded.shop.renamed == {}


def test_two_jobs_renumbered_at_once_that_name_each_other(
    shop: Shop, renumbered: Files, base_shop: dict[str, str]
) -> None:
    files = {
        name: text.replace("VG-0020", "VG-0420") if text else None
        for name, text in renumbered.items()
        if name != "revisions.yml"
    }
    other = files.pop(OTHER, None) or base_shop[OTHER].replace("VG-0020", "VG-0420")
    files |= {
        **REVISIONS, OTHER: None, "jobs/vg-0420.yml": other,
        "forwards.yml": f"{FORWARD}  - {{old: jobs/vg-0020.html, new: jobs/vg-0420.html}}\n",
    }  # fmt: skip
    files["onboarding/first-days.yml"] = str(files["onboarding/first-days.yml"])
    content = shop(files)
    assert errors(content) == []
    assert pipeline.load(content).shop.renamed == {OLD: NEW, "vg-0020": "vg-0420"}


def test_where_a_release_gives_revisions_the_number_goes_on(
    shop: Shop, base_shop: dict[str, str]
) -> None:
    content = shop(REVISIONS)
    take_over(content)
    before, people = pipeline.load(content).shop.jobs[OLD], standings(content)
    for path in sorted(content.rglob("*.yml")):
        text = path.read_text(encoding="utf-8")
        if path.name not in ("addresses.yml", "revisions.yml", "history.yml"):
            path.write_text(text.replace(OLD.upper(), NEW.upper()), encoding="utf-8")
    (content / JOB).rename(content / f"jobs/{NEW}.yml")
    (content / "forwards.yml").write_text(FORWARD, encoding="utf-8")
    after = pipeline.load(content)
    assert errors(content) == []
    assert not after.shop.drafts
    job = after.shop.jobs[NEW]
    assert (job.revision, job.effective, job.change_note, job.history) == (
        before.revision, before.effective, before.change_note, before.history)  # fmt: skip
    assert standings(content) == people
    assert main(["release", str(content)]) == 0  # its number is entered under the new id
    assert pipeline.load(content).shop.jobs[NEW].history == before.history
    path = content / f"jobs/{NEW}.yml"
    text = path.read_text(encoding="utf-8")
    assert "Hang the chuck key" in text
    path.write_text(text.replace("Hang the chuck key", "Put the chuck key"), encoding="utf-8")
    (content / "notices").mkdir()
    notice = f"jobs: [{NEW.upper()}]\nnote: The key is put.\napproved_by: lead\n"
    (content / "notices/key.yml").write_text(notice, encoding="utf-8")
    assert main(["release", str(content)]) == 0
    assert pipeline.load(content).shop.jobs[NEW].revision == str(int(before.revision) + 1)
