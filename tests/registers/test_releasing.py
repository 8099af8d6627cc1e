"""Releases: numbers, notes and days, from change notices; and drafts until then."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
import yaml
from repository import Repository

from benchleaf import pipeline
from benchleaf.cli import main
from benchleaf.commands.new import new_notice
from registering import take_over

JOB = "jobs/vg-0010.yml"
Shop = Callable[..., Path]


@pytest.fixture
def taken(shop: Shop) -> Path:
    content = shop()
    take_over(content)
    return content


def edit(content: Path, name: str, old: str, new: str) -> None:
    path = content / name
    text = path.read_text(encoding="utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), encoding="utf-8")


def change(content: Path, limits: str = "8 +0.2/-0 mm") -> None:
    path = content / JOB
    lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    at = next(n for n, line in enumerate(lines) if line.startswith("        limits: "))
    lines[at] = f"        limits: {limits}\n"
    path.write_text("".join(lines), encoding="utf-8")


def notice(content: Path, name: str = "larger", jobs: str = "[VG-0010]", more: str = "") -> None:
    path = content / "notices" / f"{name}.yml"
    path.parent.mkdir(exist_ok=True)
    text = f"jobs: {jobs}\nnote: The hole may be larger\napproved_by: {name} lead\n{more}"
    path.write_text(text, encoding="utf-8")


def history(content: Path) -> list[dict[str, object]]:
    listed = yaml.safe_load((content / "history.yml").read_text(encoding="utf-8"))["history"]
    return [{key: value for key, value in one.items() if key != "link"} for one in listed]


def release(content: Path, day: str = "2026-12-20") -> int:
    return main(["release", str(content), "--on", day])


def test_a_release_writes_number_day_approval_and_note(taken: Path) -> None:
    change(taken)
    notice(taken)
    assert release(taken) == 0
    assert history(taken)[-1] == {
        "job": "VG-0010",
        "revision": 3,
        "effective": date(2026, 12, 20),
        "approved_by": "larger lead",
        "note": "The hole may be larger.",
    }
    job = pipeline.load(taken).shop.jobs["vg-0010"]
    assert (job.revision, job.effective, job.approved_by) == (
        "3",
        date(2026, 12, 20),
        "larger lead",
    )
    assert [one.revision for one in job.history] == ["2"]
    assert job.change_note == "The hole may be larger."


def test_a_notice_may_say_the_day_and_none_is_before_the_former(taken: Path) -> None:
    change(taken)
    notice(taken, more="effective: 2027-01-04\n")
    assert release(taken) == 0
    assert history(taken)[-1]["effective"] == date(2027, 1, 4)
    change(taken, "8 +0.3/-0 mm")
    notice(taken)
    assert release(taken) == 0
    assert history(taken)[-1]["effective"] == date(2027, 1, 4)
    assert pipeline.check(taken) == ()


def test_two_notices_of_one_job_are_both_told_and_both_approved(taken: Path) -> None:
    change(taken)
    notice(taken, "first")
    notice(taken, "second")
    edit(taken, "notices/second.yml", "The hole may be larger", "And that is well.")
    assert release(taken) == 0
    last = history(taken)[-1]
    assert (last["approved_by"], last["note"]) == (
        "first lead, second lead",
        "The hole may be larger. And that is well.",
    )


def test_a_change_of_words_keeps_the_number_and_whoever_knew_it(taken: Path) -> None:
    before = pipeline.load(taken).fingerprints["vg-0010"]
    edit(taken, JOB, "A plate that lies crooked gets", "A plate that sits crooked gets")
    notice(taken, "words", more="wording_only: true\n")
    assert release(taken) == 0
    loaded = pipeline.load(taken)
    job = loaded.shop.jobs["vg-0010"]
    assert job.revision == "2"
    assert before in loaded.revisions.alike(job, loaded.fingerprints["vg-0010"])
    assert history(taken)[-1]["wording_only"] is True
    assert job.change_note == "The check now names the plug gauge."


def test_what_no_notice_covers_is_not_released(taken: Path) -> None:
    change(taken)
    before = {path: path.read_bytes() for path in taken.glob("*.yml")}
    assert release(taken) == 1
    assert {path: path.read_bytes() for path in taken.glob("*.yml")} == before


def test_new_addresses_are_written_by_the_release_alone(
    taken: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = (taken / "tools" / "drill-8.yml").read_text(encoding="utf-8")
    (taken / "tools" / "drill-8b.yml").write_text(text.replace("drill-8", "drill-8b", 1))
    assert pipeline.check(taken) == ()
    assert [one.code for one in pipeline.not_released(pipeline.load(taken))] == ["A602"]
    capsys.readouterr()
    assert release(taken) == 0
    assert f"1 added to {taken}/addresses.yml" in capsys.readouterr().out
    assert pipeline.not_released(pipeline.load(taken)) == ()
    assert pipeline.check(taken) == ()


def test_nothing_to_release_writes_nothing(taken: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = {path: path.read_bytes() for path in taken.glob("*.yml")}
    capsys.readouterr()
    assert release(taken) == 0
    assert "nothing to release" in capsys.readouterr().out
    assert {path: path.read_bytes() for path in taken.glob("*.yml")} == before


def test_a_release_says_what_moved_since_the_former_content(
    taken: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shutil.copytree(taken, tmp_path / "former")
    change(taken)
    notice(taken)
    capsys.readouterr()
    assert main(["release", str(taken), "--since", str(tmp_path / "former")]) == 0
    assert "teach again before next run: another number is worked to" in capsys.readouterr().out


def test_a_draft_is_refused_by_a_build_for_use_and_named(taken: Path) -> None:
    change(taken)
    notice(taken)
    assert pipeline.check(taken) == ()
    loaded = pipeline.load(taken)
    assert set(loaded.shop.drafts) == {"vg-0010"}
    (found,) = pipeline.not_released(loaded)
    assert (found.code, found.text) == ("A612", "VG-0010 is a draft: not released yet")
    assert release(taken) == 0
    assert pipeline.not_released(pipeline.load(taken)) == ()


def test_every_page_of_a_draft_says_so_and_bears_no_number(taken: Path) -> None:
    change(taken)
    notice(taken)
    plan = pipeline.plan_site(pipeline.load(taken), edition="full")
    seen = 0
    for page in plan.pages:
        is_job = page.address == "jobs/vg-0010.html"
        is_sheet = page.address.startswith("trainer/vg-0010-")
        if is_job or is_sheet:
            html = page.render().html
            seen += 1
            assert "raft of VG-0010" in html, page.address
            for number in ("evision 2", "Revision <b>", "n force from", "signature and date"):
                assert number not in html, page.address
    assert seen == 6
    other = next(page for page in plan.pages if page.address == "jobs/vg-0020.html")
    assert "raft of" not in other.render().html


def test_a_new_job_is_asked_for_a_notice_and_gets_the_first_number(
    taken: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = (taken / "jobs" / "vg-0020.yml").read_text(encoding="utf-8")
    text = text.replace("VG-0020", "VG-0030").replace("operation_before: VG-0010\n", "")
    (taken / "jobs" / "vg-0030.yml").write_text(text, encoding="utf-8")
    (found,) = pipeline.check(taken)
    assert (found.code, found.text) == ("A605", "VG-0030 is new, and no change notice covers it")
    assert "jobs: [VG-0030]" in found.help
    written = new_notice("More burrs", taken, date(2026, 12, 1))
    path = taken / "notices" / "2026-12-01-more-burrs.yml"
    assert written.text.startswith(str(path))
    assert "\njobs: [VG-0030]\n" in path.read_text(encoding="utf-8")
    edit(taken, "notices/2026-12-01-more-burrs.yml", "\nnote:", "\nnote: First issue.")
    edit(taken, "notices/2026-12-01-more-burrs.yml", "\napproved_by:", "\napproved_by: lead")
    assert pipeline.check(taken) == ()
    assert release(taken) == 0
    assert history(taken)[-1]["revision"] == 1
    capsys.readouterr()


def test_a_first_revision_tells_of_no_change_since_its_draft(
    repo: Repository, capsys: pytest.CaptureFixture[str]
) -> None:
    """A draft was taught to nobody, though an earlier commit holds it."""
    content = repo.content
    text = (content / "jobs" / "vg-0020.yml").read_text(encoding="utf-8")
    text = text.replace("VG-0020", "VG-0030").replace("operation_before: VG-0010\n", "")
    (content / "jobs" / "vg-0030.yml").write_text(text, encoding="utf-8")
    tally = content / "tally.yml"  # as git knows it, this commit released last
    tally.write_text(f"# Counted.\n{tally.read_text(encoding='utf-8')}", encoding="utf-8")
    repo.commit("Draft")
    repo.edit("jobs/vg-0030.yml", "\nmakes: ", "\nmakes: Another thing than ")
    change(content)
    repo.notice("both", "[VG-0010, VG-0030]", "The hole may be larger.")
    repo.commit()
    capsys.readouterr()
    assert repo.release() == 0
    told = capsys.readouterr().out
    assert "VG-0030 revision 1: The hole may be larger." in told
    assert "teach again" not in told.partition("VG-0030 revision 1")[2]
    assert "teach again" in told
    assert not (content / "changed" / "vg-0030.yml").exists()


def test_a_release_registers_the_pages_of_the_lesson_that_it_writes(
    repo: Repository, capsys: pytest.CaptureFixture[str]
) -> None:
    change(repo.content)
    repo.notice("larger", "[VG-0010]", "The hole may be larger.")
    repo.commit()
    assert repo.release() == 0
    assert f"2 added to {repo.content}/addresses.yml" in capsys.readouterr().out
    loaded = pipeline.load(repo.content)
    assert "lessons/vg-0010.html" in loaded.registered
    assert pipeline.not_released(loaded) == ()
    assert pipeline.check(repo.content) == ()


def test_a_release_says_which_job_nobody_may_run(
    taken: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    notice(taken, jobs="those affected")
    path = taken / "machines" / "bench-drill.yml"
    lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    weak = ["rated_thrust: 1 N\n" if one.startswith("rated_thrust:") else one for one in lines]
    assert weak != lines
    path.write_text("".join(weak), encoding="utf-8")
    capsys.readouterr()
    assert release(taken) == 0
    assert "VG-0010 says do not run: `benchleaf check` says why" in capsys.readouterr().out


def test_a_notice_with_a_slip_covers_its_job_and_only_the_slip_is_told(taken: Path) -> None:
    change(taken)
    for jobs in ("[VG-0010]", "those affected"):
        notice(taken, jobs=jobs)
        edit(taken, "notices/larger.yml", "note: The hole may be larger", "note:")
        assert [one.code for one in pipeline.check(taken)] == ["R112"], jobs
    notice(taken, jobs="[VG-0020]")
    edit(taken, "notices/larger.yml", "note: The hole may be larger", "note:")
    assert sorted(one.code for one in pipeline.check(taken)) == ["A604", "R112"]


def test_nothing_is_said_to_be_unmoved_while_a_job_cannot_be_read(taken: Path) -> None:
    notice(taken, jobs="those affected")
    assert [one.code for one in pipeline.check(taken)] == ["A608"]
    edit(taken, JOB, "\nmakes: ", "\nmakes: # ")
    assert "A608" not in [one.code for one in pipeline.check(taken)]


@pytest.mark.parametrize(
    ("old", "new", "code", "where"),
    [
        ("jobs: [VG-0010]", "jobs: [VG 0010]", "F207", ":1:8"),
        ("jobs: [VG-0010]", "jobs: all of them", "F208", ":1:7"),
        ("jobs: [VG-0010]", "jobs: []", "F208", ":1:7"),
        ("approved_by: larger lead\n", "", "F202", ":1:1"),
        ("note: The hole may be larger", 'note: ""', "F208", ":2:7"),
        ("note: ", "nota: ", "F201", ":2:1"),
        ("note: The hole", "note: As in [[VG-0099]]; the hole", "L301", ":2:7"),
    ],
)
def test_a_slip_in_a_notice_is_told_at_its_place(
    taken: Path, old: str, new: str, code: str, where: str
) -> None:
    change(taken)
    notice(taken)
    edit(taken, "notices/larger.yml", old, new)
    found = [one for one in pipeline.check(taken) if "notices" in one.place.file]
    assert [(one.code, str(one.place)) for one in found] == [
        (code, f"content/notices/larger.yml{where}")
    ]


def test_a_note_of_the_past_may_speak_of_what_is_gone(taken: Path) -> None:
    change(taken)
    notice(taken)
    edit(taken, "notices/larger.yml", "note: The hole", 'note: "[[VG-0020#deburr]]: the hole')
    edit(taken, "notices/larger.yml", "may be larger", 'may be larger; see [[tool:drill-8]]"')
    assert pipeline.check(taken) == ()
    assert release(taken) == 0
    told = pipeline.load(taken).shop.jobs["vg-0010"].change_note
    assert told == "[[VG-0020]]: the hole may be larger; see [[tool:drill-8]]."
    edit(taken, "jobs/vg-0020.yml", "id: VG-0020", "id: VG-0021")
    told = pipeline.load(taken).shop.jobs["vg-0010"].change_note
    assert told == "VG-0020: the hole may be larger; see [[tool:drill-8]]."


def test_a_comparison_calls_a_draft_a_draft(
    taken: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    former = tmp_path / "former" / "content"
    shutil.copytree(taken, former)
    change(taken)
    capsys.readouterr()
    assert main(["compare", str(former), str(taken)]) == 0
    printed = capsys.readouterr().out
    assert "revision 2 -> draft" in printed
    assert "must advance" not in printed
