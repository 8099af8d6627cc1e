"""A job as a workbook and back is the same job, whatever its texts are."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from benchleaf import read
from benchleaf.commands.take_in import NAME, given_out, has_ledger, taken_in
from benchleaf.model import OPEN_MARK, Job
from benchleaf.workbooks.gathered import tree_of
from benchleaf.workbooks.job_file import job_text
from benchleaf.workbooks.spreadsheet import read_tables, workbook
from benchleaf.workbooks.tables import tables_of
from running import examples, sample

ROOT = Path(__file__).parents[2]
JOBS = sorted((ROOT / "content/jobs").glob("*.yml"))


def value_of(path: Path) -> dict[str, Any]:
    document, findings = read.read_document(path, "jobs", path.name)
    assert document is not None
    assert not findings
    assert isinstance(document.value, dict)
    return document.value


@pytest.mark.parametrize("path", sample(JOBS, 6, seed=8), ids=lambda path: path.stem)
def test_each_demo_job_comes_back_as_it_went(path: Path, tmp_path: Path) -> None:
    file = tmp_path / "job.xlsx"
    assert not given_out(path.stem, file, ROOT / "content").problem
    text, job_id, findings = taken_in(file, {}, is_issued=has_ledger(ROOT / "content"))
    assert not findings
    assert job_id == path.stem
    document, problems = read.document_of(text, "jobs", "job.yml")
    assert not problems
    assert document is not None
    assert document.value == value_of(path)
    assert "# open:" not in text


def texts_in(value: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    """The path of every text below a value."""
    if isinstance(value, str):
        yield path
        return
    entries = value.items() if isinstance(value, dict) else enumerate(value)
    for key, inside in entries:
        yield from texts_in(inside, (*path, key))


def without_open(value: Any) -> Any:
    """The same without keys that are still open: they stand empty, or ask to be written."""
    if isinstance(value, dict):
        kept = ((key, without_open(one)) for key, one in value.items())
        return {key: one for key, one in kept if one not in (None, [], {})}
    if isinstance(value, list):
        kept_in = (without_open(one) for one in value)
        return [one for one in kept_in if one not in (None, {})]
    return None if isinstance(value, str) and value.startswith(OPEN_MARK) else value


def put(value: Any, path: tuple[str | int, ...], text: str) -> None:
    *above, last = path
    for key in above:
        value = value[key]
    value[last] = text


ODD = ("=1+1", "'8", "# no comment", "a: b", "- dash", "yes", "~", "null", "012", "1e3", "@x", "%",
       "{a}", "[b]", '"q"', "it's", "\\n", "a\\b", "x" * 150, "two words " * 30 + "end", "ø £ °",
       "& <b>", "|", ">", "!", "?", "_x0041_", "3", "8.50 mm", "2026-11-30", "a #b",
       "*a*")  # fmt: skip
"""Texts that a spreadsheet or YAML might take for something else."""
LETTERS = st.characters(min_codepoint=0x20, max_codepoint=0x2FF,
                        exclude_categories=("Cc", "Cf", "Zs", "Zl", "Zp"))  # fmt: skip
WORDS = st.lists(st.text(LETTERS, min_size=1, max_size=12), min_size=1, max_size=25).map(" ".join)
TEXTS = st.one_of(st.sampled_from([one.strip() for one in ODD]), WORDS)


@st.composite
def changed_jobs(draw: st.DrawFn) -> dict[str, Any]:
    """A demo job with other texts in some places, and without some of its keys."""
    value = copy.deepcopy(value_of(draw(st.sampled_from(JOBS))))
    for key in draw(st.lists(st.sampled_from(sorted(value)), max_size=4)):
        if key not in ("id", "steps"):
            value.pop(key, None)
    for entry in draw(st.lists(st.sampled_from(value["steps"]), max_size=3)):
        for key in draw(st.lists(st.sampled_from(sorted(entry)), max_size=2)):
            if key not in ("id", "key_points"):
                entry.pop(key, None)
    places = [one for one in texts_in(value) if one[-1] not in ("id", "operation")]
    for path in draw(st.lists(st.sampled_from(places), max_size=8, unique=True)):
        put(value, path, draw(TEXTS))
    return value


@settings(max_examples=examples(30), deadline=None)
@given(changed_jobs())
def test_any_texts_come_back_through_tables_and_file(value: dict[str, Any]) -> None:
    tree, findings = tree_of(Job, tables_of(Job, value, NAME), NAME)
    assert not findings
    assert read.plain(tree) == value
    text = job_text(Job, tree)
    document, problems = read.document_of(text, "jobs", "job.yml")
    assert {one.code for one in problems} <= {"R112"}, text  # a key that was taken out is open
    assert document is not None
    assert without_open(document.value) == value


@settings(max_examples=examples(5), deadline=None,
          suppress_health_check=[HealthCheck.function_scoped_fixture])  # fmt: skip
@given(changed_jobs())
def test_any_texts_come_back_through_a_workbook(tmp_path: Path, value: dict[str, Any]) -> None:
    file = tmp_path / "job.xlsx"
    file.write_bytes(workbook(tables_of(Job, value, NAME), {}))
    tables, problems = read_tables(file)
    assert not problems
    tree, findings = tree_of(Job, tables, NAME)
    assert not findings
    assert read.plain(tree) == value


def test_a_line_break_inside_an_entry_of_a_list_is_kept() -> None:
    value = {"id": "X", "wear": ["one\ntwo", "a\\nb", "c\\\\nd"]}
    tree, findings = tree_of(Job, tables_of(Job, value, NAME), NAME)
    assert not findings
    assert read.plain(tree) == value
