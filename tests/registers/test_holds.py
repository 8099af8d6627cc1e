"""`benchleaf hold`: what it writes and refuses, and that nothing of it is ever lost unseen."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from repository import Repository

from benchleaf import pipeline, registers
from benchleaf.cli import main
from benchleaf.commands.hold import Asked, hold_jobs, lift_jobs, listed
from benchleaf.commands.layouts import _STEPPED as STEPPED
from benchleaf.commands.layouts import table_text, unmeasured

Captured = pytest.CaptureFixture[str]
Shop = Callable[..., Path]
DAY, LATER = date(2026, 12, 1), date(2026, 12, 2)
WHY = 'The stop: "loose" # and [bent]'
"""Signs that mean something in YAML."""


def held(content: Path, *jobs: str, why: str = WHY) -> None:
    answer = hold_jobs(content, Asked(jobs, why, "trainer"), DAY)
    assert answer.problem == "", answer


def test_what_is_held_is_read_back_as_it_was_said_and_lifted_by_its_role_alone(shop: Shop) -> None:
    content = shop()
    held(content, "VG-0010", "vg-0020")
    file = content / "holds" / "vg-0010-2026-12-01.yml"
    before = file.read_text(encoding="utf-8")
    (hold,) = pipeline.load(content).shop.holds["vg-0010"]
    assert (hold.why, hold.day, hold.held_by) == (WHY, DAY, "trainer")
    assert hold.lift_by == "production engineer"  # who approved the job

    refused = lift_jobs(content, Asked(("VG-0010",), by="trainer"), LATER)
    assert "the trainer may not lift" in refused.problem
    assert file.read_text(encoding="utf-8") == before

    lifted = lift_jobs(content, Asked(("VG-0010",), "Mended.", "Production Engineer"), LATER)
    assert lifted.problem == ""
    assert file.read_text(encoding="utf-8").startswith(before)  # what was held is kept
    assert set(pipeline.load(content).shop.holds) == {"vg-0020"}
    history = listed(content).text
    assert history.index("VG-0020") < history.index("VG-0010")  # what stands comes first
    assert "lifted on 2026-12-02 by Production Engineer: Mended." in history
    again = lift_jobs(content, Asked(("VG-0010",), by="production engineer"), LATER)
    assert again.problem == "no such hold stands for VG-0010"


def test_of_several_holds_one_is_named_and_the_others_go_on(shop: Shop) -> None:
    content = shop()
    held(content, "VG-0020")
    held(content, "VG-0020", why="The tool slips.")
    engineer = Asked(("VG-0020",), by="production engineer")
    which = lift_jobs(content, engineer, LATER)
    assert which.help == (
        f"--file vg-0020-2026-12-01: {WHY}", "--file vg-0020-2026-12-01-2: The tool slips."
    )  # fmt: skip
    one = Asked(engineer.jobs, by=engineer.by, file="vg-0020-2026-12-01")
    assert "is still on hold" in lift_jobs(content, one, LATER).text
    assert [each.why for each in pipeline.load(content).shop.holds["vg-0020"]] == [
        "The tool slips."
    ]


@pytest.mark.parametrize(
    ("asked", "problem", "cure"),
    [
        (Asked(("VG-0010",)), "a hold needs its reason", "--why"),
        (Asked(("VG-0010",), "  "), "a hold needs its reason", "--why"),
        (Asked(("VG-0020", "VG-0011"), WHY), "there is no job 'VG-0011'", "'VG-0010'"),
        (Asked(("VG 10",), WHY), "there is no job 'VG 10'", "VG-0010"),
        (Asked(("VG-0010",), WHY, "trainor"), "'trainor' is no role that may hold", "'trainer'"),
        (Asked(("VG-0010",), WHY, None, "learner"), "'learner' is no role that may lift", "roles:"),
        (Asked(("VG-0010",), "x" * 201), "nothing was written", "at most 200 letters"),
    ],
)
def test_it_writes_nothing_where_something_is_amiss(
    shop: Shop, asked: Asked, problem: str, cure: str
) -> None:
    content = shop()
    answer = hold_jobs(content, asked, DAY)
    assert answer.problem.startswith(problem)
    assert cure in "\n".join(answer.help)
    assert not (content / "holds").exists()


def test_a_job_whose_file_has_an_error_can_be_held_all_the_same(
    shop: Shop, edited: Callable[..., dict[str, str]]
) -> None:
    content = shop(edited("jobs/vg-0020.yml", "machine: bench-drill", "machin: bench-drill"))
    asked = Asked(("VG-0020",), WHY, None, "production engineer")
    answer = hold_jobs(content, asked, DAY)
    assert answer.problem == ""
    assert "no build will tell it yet" in answer.text
    assert not {one.code for one in pipeline.load(content).findings} & {"A621", "A622"}


def test_the_command_says_what_no_screen_can_know(shop: Shop, capsys: Captured) -> None:
    content = str(shop())
    assert main(["hold", "VG-0020", "--why", "The tool slips", "--content", content]) == 0
    assert "no screen, card or copy knows of it" in capsys.readouterr().out
    assert main(["reckon", "VG-0020", "--json", "--content", content]) == 1
    assert json.loads(capsys.readouterr().out)["may_run"] is False
    assert main(["hold", "VG-0020", "--lift", "--content", content]) == 2
    assert main(["new", "hold", "VG-0020", "--content", content]) == 2


def test_a_hold_goes_on_under_a_new_number(repo: Repository) -> None:
    held(repo.content, "VG-0020")
    old, new = (repo.content / "jobs" / f"vg-{one}.yml" for one in ("0020", "0021"))
    text = old.read_text(encoding="utf-8").replace("id: VG-0020", "id: VG-0021")
    new.write_text(text, encoding="utf-8")
    old.unlink()
    for path in repo.content.rglob("*.yml"):
        if path.parent.name in ("jobs", "onboarding"):
            said = path.read_text(encoding="utf-8").replace("VG-0020", "VG-0021")
            path.write_text(said.replace("vg-0020", "vg-0021"), encoding="utf-8")
    assert {one.code for one in pipeline.load(repo.content).findings} >= {"A621"}
    forward = "forwards:\n  - old: jobs/vg-0020.html\n    new: jobs/vg-0021.html\n"
    (repo.content / "forwards.yml").write_text(forward, encoding="utf-8")
    loaded = pipeline.load(repo.content)
    assert set(loaded.shop.holds) == {"vg-0021"}
    asked = Asked(("VG-0021",), by="production engineer")
    assert lift_jobs(repo.content, asked, LATER).problem == ""
    assert pipeline.load(repo.content).shop.holds == {}


def test_a_branch_on_which_a_hold_is_gone_or_altered_is_told(repo: Repository) -> None:
    held(repo.content, "VG-0010", "VG-0020")
    repo.commit("Hold")
    repo.branch("work")
    first, second = sorted((repo.content / "holds").iterdir())
    asked = Asked(("VG-0010",), by="production engineer")
    assert lift_jobs(repo.content, asked, LATER).problem == ""
    assert registers.against(repo.content, "main") == ()
    first.write_text(first.read_text("utf-8").replace("loose", "tight"), encoding="utf-8")
    second.unlink()
    told = registers.against(repo.content, "main")
    assert [(one.code, Path(one.place.file).name) for one in told] == [
        ("A614", first.name), ("A614", second.name)
    ]  # fmt: skip


def test_what_looks_like_a_hold_and_is_not_read_stops_the_build(shop: Shop) -> None:
    """A warning would be published over, and the job would look free."""
    for name in ("holds/vg-0010.yaml", "holds/old/vg-0010.yml", "hold/vg-0010.yml", "Holds.yml"):
        loaded = pipeline.load(shop({name: "job: VG-0010\n"}))
        assert not loaded.may_publish, name
    (told,) = pipeline.load(shop({"holds/a.yml": UNSAID})).findings
    assert (told.code, told.text) == ("F202", "the hold has no 'why'")


UNSAID = "job: VG-0010\nday: 2026-12-01\nlift_by: production engineer\n"


def test_layouts_of_a_job_on_hold_are_kept_while_others_are_measured(tmp_path: Path) -> None:
    for name, text in (("vg-0010", "bl-stop"), ("vg-0020", STEPPED)):
        path = tmp_path / "jobs" / f"{name}.html"
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    layout = {"1080x1920": {"fit": 0, "columns": 1, "picture": 0, "parts": ["h"]}}
    table = {f"{job}/step/0123456789": layout for job in ("vg-0010", "vg-0020", "vg-0099")}
    (tmp_path / "layouts.json").write_text(table_text(table), encoding="utf-8")
    assert list(unmeasured(tmp_path, tmp_path)) == ["vg-0010/step/0123456789"]
