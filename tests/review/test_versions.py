"""Another version of the tool on the same content: what it reckons otherwise has a verdict."""

from __future__ import annotations

import json
import shutil
import sys
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from benchleaf import pipeline
from benchleaf.cli import main
from benchleaf.commands import other_version, sides
from benchleaf.diff import as_written, compare_written, read_written, written_of
from benchleaf.meaning import Consequence
from running import sample

ROOT = Path(__file__).parents[2]
TESTS = ROOT / "tests"
PACKAGE = ROOT / "plugins" / "benchleaf"
SHOP = TESTS / "shop"
Captured = pytest.CaptureFixture[str]
Shop = Callable[..., Path]
Edited = Callable[..., dict[str, str]]


@dataclass(frozen=True)
class Other:
    """A copy of the package with something changed, and a Python that finds it first."""

    folder: Path

    def edit(self, name: str, old: str, new: str) -> None:
        path = self.folder / "benchleaf" / name
        text = path.read_text(encoding="utf-8")
        assert text.count(old) == 1, f"{name} holds it once"
        path.write_text(text.replace(old, new), encoding="utf-8")

    @property
    def python(self) -> Path:
        return self.folder / "bin" / "python"


@pytest.fixture
def other(tmp_path: Path) -> Other:
    folder = tmp_path / "other"
    ignored = shutil.ignore_patterns("guide", "assets")  # what is compiled comes along: it is quick
    shutil.copytree(PACKAGE, folder / "benchleaf", ignore=ignored)
    made = Other(folder)
    made.python.parent.mkdir()
    made.python.write_text(
        f'#!/bin/sh\nPYTHONPATH="{folder}" exec "{sys.executable}" "$@"\n', encoding="utf-8"
    )
    made.python.chmod(0o755)
    made.edit("__init__.py", '__version__ = "0.1.0"', '__version__ = "0.0.9"')
    return made


def compared(other: Other, content: Path = SHOP) -> dict[str, Any]:
    asked = other_version.Versions(content, "0.1.0", tool=other.folder, crew=TESTS / "crew",
                              on=date(2026, 4, 6))  # fmt: skip
    reviewed = other_version.compare_versions(asked)
    assert reviewed.report is not None, (reviewed.problem, reviewed.findings)
    found: dict[str, Any] = json.loads(sides.FORMATS["json"](reviewed.report))
    return found


DIVISOR = "TORQUE_DIVISOR = 40000.0"
FORMULA = "formulas/drilling.py"
NEEDS_TORQUE = {
    "torque", "cutter_power", "motor_power", "exit_torque", "exit_at_feed", "kept_feed",
    "ease_to", "seconds_for_10_mm",
}  # fmt: skip


def test_a_factor_that_is_another_is_judged_like_any_change(other: Other) -> None:
    other.edit(FORMULA, DIVISOR, "TORQUE_DIVISOR = 41000.0")
    found = compared(other)
    assert found["old"].endswith("by version 0.0.9")
    assert {one["id"]: one["consequence"] for one in found["jobs"]} == {
        "vg-0010": Consequence.TELL.value
    }
    moved = {one["key"]: one["percent"] for each in found["changes"] for one in each["effects"]}
    assert {"torque", "cutter_power", "motor_power"} <= set(moved) <= NEEDS_TORQUE
    assert moved["torque"] == pytest.approx(2.5, abs=0.01)
    assert found["jobs"][0]["revision_must_advance"]


def test_a_larger_step_is_taught_again_and_names_who(other: Other) -> None:
    other.edit(FORMULA, DIVISOR, "TORQUE_DIVISOR = 46000.0")
    found = compared(other)
    assert [one["consequence"] for one in found["jobs"]] == [Consequence.TEACH.value]
    assert {one["job"] for one in found["people"]} == {"vg-0010"}


def test_a_limit_that_breaks_lets_nobody_run_and_is_no_wording(
    other: Other, shop: Shop, edited: Edited, capsys: Captured
) -> None:
    other.edit(FORMULA, DIVISOR, "TORQUE_DIVISOR = 60000.0")
    content = shop(edited("materials/mild-steel.yml", "kd_torque: 24000", "kd_torque: 46000"))
    assert main(["register", str(content)]) == 0
    register = content / "revisions.yml"
    lines = register.read_text(encoding="utf-8").splitlines()
    (entry,) = (one for one in lines if "VG-0010" in one)
    assert entry.count(", said:") == 1
    lines.append(entry.replace(", said:", ", wording_only: true, said:"))
    register.write_text("\n".join(lines) + "\n", encoding="utf-8")
    assert not [one for one in pipeline.check(content) if one.code == "A606"]
    capsys.readouterr()
    assert main(["compare", "--content", str(content), "--tool", str(other.python)]) == 0
    out = capsys.readouterr().out
    assert "LIMIT NEWLY BROKEN: VG-0010, set-up guide-hole" in out
    assert "VG-0010    revision 2, MUST ADVANCE" in out
    assert "nobody runs it" in out
    assert "wording" not in out


def test_the_same_reckoning_is_no_change(other: Other, capsys: Captured) -> None:
    assert main(["compare", "--content", str(SHOP), "--tool", str(other.folder)]) == 0
    out = capsys.readouterr().out
    assert "by version 0.0.9" in out
    assert "No change of meaning." in out


def test_figures_shown_in_other_digits_or_steps_are_no_change() -> None:
    loaded = pipeline.load(SHOP)
    now = written_of(sides.side_of(loaded), "0.1.0")
    values = json.loads(as_written(now))
    figures = [one for job in values["jobs"].values() for one in job["statements"]
               if one["numbers"] and one["about"] == "FIGURE"]  # fmt: skip
    assert len(figures) > 10
    for one in figures:
        one["value"] = ["1"]
        one["words"] = "about so much"
    rule = loaded.shop.manual.retraining
    old = read_written(json.dumps(values))
    found = compare_written(old, now, rule, {}, is_same_content=True)
    assert found.changes == ()


def test_a_version_that_makes_the_proof_otherwise_is_noted(other: Other) -> None:
    other.edit("meaning/fingerprint.py", 'canonical = sorted("', 'canonical = sorted("x')
    found = compared(other)
    assert found["changes"] == []
    assert "nothing that is taught moved, for 2 of the jobs (VG-0010, VG-0020)" in found["notes"][0]


@pytest.mark.parametrize(
    ("name", "old", "new", "said"),
    sample([
        ("commands/compare.py", '"--write-meaning"', '"--write-it"',
         "version 0.0.9 cannot write down what it reckons: it is older than this command"),
        ("commands/other_version.py", "    loaded = pipeline.load(content)\n    unfit",
         "    raise OSError(5, 'no')\n    unfit", "version 0.0.9 cannot read the content"),
        ("diff/written.py", "FORM = 1", "FORM = 2", "it is of form 2; this version reads form 1"),
        ("__init__.py", '__version__ = "0.0.9"', "raise ImportError",
         "has no benchleaf"),
    ], 1, seed=6),
)  # fmt: skip
def test_a_version_that_cannot_answer_is_told_in_a_sentence(
    other: Other, name: str, old: str, new: str, said: str, capsys: Captured
) -> None:
    other.edit(name, old, new)
    assert main(["compare", "--content", str(SHOP), "--tool", str(other.python)]) == 2
    err = capsys.readouterr().err
    assert said in err
    assert "Traceback" not in err


def test_a_tool_that_is_not_there(tmp_path: Path, capsys: Captured) -> None:
    assert main(["compare", "--content", str(SHOP), "--tool", str(tmp_path / "none")]) == 2
    assert "there is no Python at" in capsys.readouterr().err
    assert main(["compare", "--content", str(SHOP), "--tool", str(tmp_path)]) == 2
    assert "there is no Python at" in capsys.readouterr().err


def test_what_was_written_down_is_read_back_as_it_was() -> None:
    now = written_of(sides.side_of(pipeline.load(SHOP)), "0.1.0")
    back = read_written(as_written(now))
    assert back.version == now.version
    for job_id, one in now.jobs.items():
        bare = tuple(replace(each, facts=(), proof=None, is_wording=False) for each in one.meaning)
        assert back.jobs[job_id] == replace(one, meaning=bare)


def test_two_files_are_compared_like_two_versions(
    shop: Callable[..., Path],
    edited: Callable[..., dict[str, str]],
    tmp_path: Path,
    capsys: Captured,
) -> None:
    files = [str(tmp_path / name) for name in ("old.json", "new.json")]
    thick = shop(edited("jobs/vg-0010.yml", "thickness: 6 mm", "thickness: 9 mm"))
    for file, content in zip(files, (shop(), thick), strict=True):
        assert main(["compare", "--content", str(content), "--write-meaning", file]) == 0
    assert main(["compare", *files, "--content", str(thick)]) == 0
    by_files = capsys.readouterr().out
    assert "Ease off from: 6.0 mm -> 9.0 mm" in by_files
    assert main(["compare", files[0], "--content", str(thick)]) == 0
    assert capsys.readouterr().out.splitlines()[2:] == by_files.splitlines()[2:]


@pytest.mark.parametrize(
    "text", ["", "{}", "[]", "{", '{"form": 1, "tool": "1", "jobs": {"a": 1}}', '{"form": 9}']
)
def test_a_file_that_holds_no_meaning_is_told(text: str, tmp_path: Path, capsys: Captured) -> None:
    file = tmp_path / "old.json"
    file.write_text(text, encoding="utf-8")
    assert main(["compare", str(file), "--content", str(SHOP)]) == 2
    err = capsys.readouterr().err
    assert err.startswith(f"benchleaf: {file}: it ")


def test_options_that_do_not_go_together(tmp_path: Path, capsys: Captured) -> None:
    assert main(["compare", "old.json", "--tool", "x", "--content", str(SHOP)]) == 2
    assert main(["compare", "HEAD", "new.json", "--content", str(SHOP)]) == 2
    assert capsys.readouterr().err.count("these do not go together") == 2


def test_a_content_with_errors_is_not_written_down(
    shop: Callable[..., Path],
    edited: Callable[..., dict[str, str]],
    tmp_path: Path,
    capsys: Captured,
) -> None:
    bad = shop(edited("terms.yml", "word: burr", "wrod: burr"))
    file = tmp_path / "meaning.json"
    assert main(["compare", "--content", str(bad), "--write-meaning", str(file)]) == 1
    assert "F201" in capsys.readouterr().err
    assert not file.exists()
