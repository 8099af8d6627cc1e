"""One hole from job to job, in the demo's bearing block: pilot, seat, reamer, tap hole, thread."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from benchleaf import pipeline
from running import sample

DEMO = Path(__file__).parents[2] / "content"
PILOT, SEAT, REAM, HOLE, TAP = (f"jobs/tr-05{number}0.yml" for number in range(1, 6))
OF_A_ROUTE = {"V541", "V542", "V543", "V544", "V545"}
Edit = tuple[str, str, str]


def said(tmp_path: Path, *edits: Edit) -> list[tuple[str, str]]:
    """Codes and texts about a hole's way, after changes of the demo."""
    content = tmp_path / "content"
    shutil.copytree(DEMO, content)
    for name, old, new in edits:
        path = content / name
        text = path.read_text(encoding="utf-8")
        assert text.count(old) == 1, (name, old)
        path.write_text(text.replace(old, new), encoding="utf-8")
    return [(one.code, one.text) for one in pipeline.check(content) if one.code in OF_A_ROUTE]


def test_the_demo_raises_no_false_alarm(tmp_path: Path) -> None:
    assert said(tmp_path) == []


@pytest.mark.parametrize(
    ("edits", "code", "words"),
    sample([
        # plug tap: 5 pitches of lead and 1 of room, 7.5 mm
        ([(TAP, "thread_length: 12 mm", "thread_length: 22 mm")], "V542", "29.5 mm"),
        ([(HOLE, "depth: 20 mm", "depth: 13 mm")], "V542", "13 mm deep"),
        ([(HOLE, "depth: 20 mm", "depth: 19.4 mm")], "V542", "19.5 mm"),
        ([(HOLE, "limits: 20 +0.5/-0.4 mm", "limits: 20 +0.5/-0.8 mm")], "V545", "19.5 mm"),
        ([(HOLE, "limits: 6.65 +0.26/-0 mm", "limits: 6.65 +0.4/-0 mm")], "V545", "6.91 mm"),
        ([(HOLE, "limits: 6.65 +0.26/-0 mm", "limits: 6.5 +0.4/-0 mm")], "V545", "6.65"),
        ([(SEAT, "limits: 14.75 +0.05/-0.05 mm", "limits: 14.75 +0.1/-0.05 mm")], "V545", "14.80"),
        ([(SEAT, "pilot: 5 mm", "pilot: 6 mm")], "V541", "pilot hole of 6 mm"),
        ([("tools/drill-5.yml", "size: 5 mm", "size: 2.5 mm"),
          (SEAT, "pilot: 5 mm", "pilot: 2.5 mm")], "V543", "chisel edge"),
        ([(TAP, "hole_drill: drill-6-8", "hole_drill: drill-6-5")], "V541", "6.5 mm"),
        # S509 says it in the job already, so nothing says it twice.
        ([("tools/drill-14-75.yml", "size: 14.75 mm", "size: 14.9 mm")], "", ""),
    ], 4, seed=7),
)  # fmt: skip
def test_each_fault_is_found_once_and_names_both_jobs(
    tmp_path: Path, edits: list[Edit], code: str, words: str
) -> None:
    found = said(tmp_path, *edits)
    assert [one for one, _ in found] == ([code] if code else [])
    assert all(words in text for _, text in found)
    assert all(text.count("TR-05") >= 2 or code == "V541" for _, text in found)
