"""Findings of jobs of one text: what all have is told once, what some have with their names."""

from __future__ import annotations

import pytest

from benchleaf.diagnose import Finding, Place, Severity
from benchleaf.model import MadeFrom
from benchleaf.validate import told_once

ON_TWO = {
    job: MadeFrom("jobs/tr-1.yml", "tr-1", group="drills") for job in ("tr-1-drill", "tr-1-drill-2")
}
OF_THREE = {job: MadeFrom("families/plates.yml", job, family="plates") for job in ("a", "b", "c")}
ELSEWHERE = {"x": MadeFrom("jobs/x.yml", "x", group="drills")}


def finding(text: str, code: str = "V401", line: int = 3) -> Finding:
    return Finding(code, Severity.WARNING, Place("content/f.yml", line, 1), text)


@pytest.mark.parametrize(("found", "texts"), [
    ({"tr-1-drill": ["dull"], "tr-1-drill-2": ["dull"]}, ["dull"]),
    ({"tr-1-drill": ["TR-1-DRILL is dull"], "tr-1-drill-2": ["TR-1-DRILL-2 is dull"]},
     ["TR-1 is dull"]),
    ({"tr-1-drill": ["dull"], "tr-1-drill-2": []}, ["TR-1-DRILL: dull"]),
    ({"tr-1-drill": [], "tr-1-drill-2": ["TR-1-DRILL-2 is dull"]}, ["TR-1-DRILL-2 is dull"]),
    ({"tr-1-drill": ["12 mm"], "tr-1-drill-2": ["14 mm"]},
     ["TR-1-DRILL: 12 mm", "TR-1-DRILL-2: 14 mm"]),
    ({"a": ["dull"], "b": ["dull"], "c": []}, ["A, B: dull"]),
    ({"a": ["A is dull"], "b": ["B is dull"], "c": ["C is dull"]}, ["PLATES is dull"]),
    ({"a": ["dull", "dull"], "b": ["dull"], "c": ["dull"]}, ["dull"]),
    ({"a": ["dull"], "b": [], "c": [], "x": ["dull"]}, ["A: dull", "dull"]),
])  # fmt: skip
def test_each_finding_is_told_once(found: dict[str, list[str]], texts: list[str]) -> None:
    given = {job: [finding(one) for one in each] for job, each in found.items()}
    told = told_once(given, {**ON_TWO, **OF_THREE, **ELSEWHERE})
    assert [one.text for one in told] == texts


def test_at_another_place_it_is_another_finding() -> None:
    given = {"a": [finding("dull", line=3)], "b": [finding("dull", line=4)], "c": []}
    assert [one.text for one in told_once(given, OF_THREE)] == ["A: dull", "B: dull"]


def test_a_line_that_one_job_needs_is_needed() -> None:
    given = {"a": [finding("not needed by a", "V521")], "b": [finding("not by b", "V521")], "c": []}
    assert list(told_once(given, OF_THREE)) == []
    every = {**given, "c": [finding("not by c", "V521")]}
    assert [one.code for one in told_once(every, OF_THREE)] == ["V521"]
