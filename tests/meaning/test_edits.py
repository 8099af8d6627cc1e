"""Each edit of the table: which jobs it touches, whether figures move, and what follows."""

from __future__ import annotations

import copy
import json
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml

from benchleaf import link, pipeline
from benchleaf.commands import sides
from benchleaf.compute import set_up_sheets
from benchleaf.diff import Comparison, EffectKind, Report, Side, compare, comparison_schema
from benchleaf.meaning import (
    Consequence,
    gravest_of,
    moved_since,
    said,
    statements,
    verdict,
)
from benchleaf.model import Shop, class_of
from kept import Kept
from running import sample

CHECKER = jsonschema.Draft202012Validator(
    comparison_schema(), format_checker=jsonschema.Draft202012Validator.FORMAT_CHECKER
)
ROOT = Path(__file__).parents[2]
FOLDERS = {"small": ROOT / "tests" / "shop", "demo": ROOT / "content"}
TABLE = yaml.safe_load((Path(__file__).parent / "edits.yml").read_text(encoding="utf-8"))
WORDS = dict(zip(("run", "teach", "tell", "nothing"), Consequence, strict=True))
OPERATIONS = ("set", "take", "add", "order")


@cache
def side(name: str) -> Side:
    return with_sheets(pipeline.load(FOLDERS[name]).shop)


def with_sheets(shop: Shop) -> Side:
    uses = link.term_uses(shop, link.TermIndex(shop.terms.values()))
    jobs = {one: frozenset(use.id for use in used if use.kind == "jobs")
            for one, used in uses.items()}  # fmt: skip
    return Side(shop, {one: set_up_sheets(shop, job) for one, job in shop.jobs.items()}, jobs)


def position(values: Any, step: str) -> Any:
    """A key, or the place of an entry by its id or its number from 1."""
    if not isinstance(values, list):
        return step
    ids = [one.get("id") if isinstance(one, dict) else None for one in values]
    return ids.index(step) if step in ids else int(step) - 1


def owner(values: Any, path: str) -> tuple[Any, Any]:
    *above, last = path.split("/")
    for step in above:
        at = position(values, step)
        values = values[at] if isinstance(values, list) else values.setdefault(at, {})
    return values, position(values, last)


def put(values: Any, path: str, value: Any) -> None:
    inside, at = owner(values, path)
    inside[at] = value


def take(values: Any, path: str) -> None:
    inside, at = owner(values, path)
    del inside[at]


def add(values: Any, path: str, value: Any) -> None:
    inside, at = owner(values, path)
    inside.setdefault(at, []).append(value)


def order(values: Any, path: str, places: list[int]) -> None:
    inside, at = owner(values, path)
    inside[at] = [inside[at][place - 1] for place in places]


def edited(shop: Shop, edit: dict[str, Any]) -> Shop:
    kind, record_id = edit["record"].split("/")
    record = shop.manual if kind == "manual" else shop.of_kind(kind)[record_id]
    values = copy.deepcopy(record.model_dump(mode="json", exclude_defaults=True))
    before = copy.deepcopy(values)
    for path, value in edit.get("set", {}).items():
        put(values, path, str(value) if isinstance(value, int | float) else value)
    if "take" in edit:
        take(values, edit["take"])
    for path, value in edit.get("add", {}).items():
        add(values, path, value)
    for path, places in edit.get("order", {}).items():
        order(values, path, places)
    assert values != before, "the edit changes something"
    new: Any = class_of(kind).model_validate(values)
    if kind == "manual":
        return replace(shop, manual=new)
    changed: dict[str, Any] = {kind: {**shop.of_kind(kind), record_id: new}}
    return replace(shop, **changed)


@dataclass(frozen=True)
class Outcome:
    """What an edit led to."""

    verdicts: tuple[str, ...]
    jobs: dict[str, Consequence]
    figures: bool


def outcome(comparison: Comparison) -> Outcome:
    words = {what: word for word, what in WORDS.items()}
    changes = comparison.changes
    jobs: dict[str, Consequence] = {one.id: one.consequence for one in comparison.jobs
            if one.consequence is not Consequence.NOTHING}  # fmt: skip
    moved = any(e.kind is EffectKind.FIGURE for one in changes for e in one.effects)
    found = sorted({one.consequence for one in changes}, key=lambda one: -one.rank)
    return Outcome(tuple(words[one] for one in found), jobs, moved)


@cache
def lines(of: str) -> dict[str, str]:
    """The line that a register keeps of each job before an edit."""
    old = side(of)
    return {one: said(statements(old.shop, job, old.sheets[one]))
            for one, job in old.shop.jobs.items()}  # fmt: skip


def since(kept: dict[str, str], new: Side) -> dict[str, Consequence]:
    """The same as a timetable tells it, from the line that the register keeps of each job."""
    found = {}
    for job_id, line in kept.items():
        now = statements(new.shop, new.shop.jobs[job_id], new.sheets[job_id])
        rule = new.shop.manual.retraining
        found[job_id] = gravest_of([verdict(one, rule) for one in moved_since(line, now)]).what
    return {one: what for one, what in found.items() if what is not Consequence.NOTHING}


def named(edit: dict[str, Any]) -> str:
    return f"{edit['in']}: {edit['record']}: {edit['say']}"


@pytest.mark.parametrize("edit", sample(TABLE, 64, seed=9), ids=named)
def test_an_edit_has_the_verdict_that_the_trade_gives_it(edit: dict[str, Any], kept: Kept) -> None:
    """And what is printed of it fits the schema, and is what it was."""
    old = side(edit["in"])
    new = with_sheets(edited(old.shop, edit))
    comparison = compare(old, new)
    found = outcome(comparison)
    report = Report(comparison, "old", "new", None)
    printed = {name: print_(report) for name, print_ in sorted(sides.FORMATS.items())}
    as_json = json.loads(printed["json"])
    CHECKER.validate(as_json)
    assert as_json["changes"]
    kept("edits", {named(edit): "\n".join(printed.values())})
    verdicts = edit["verdict"] if isinstance(edit["verdict"], list) else [edit["verdict"]]
    jobs = list(old.shop.jobs) if edit["jobs"] == "all" else edit["jobs"]
    gravest = WORDS[verdicts[-1]]
    assert (found.verdicts, found.jobs) == (tuple(verdicts), dict.fromkeys(jobs, gravest))
    assert found.figures is (edit["figures"] == "some")
    assert since(lines(edit["in"]), new) == found.jobs, "timetable and comparison say the same"


def test_the_table_is_as_long_as_promised_and_no_edit_stands_twice() -> None:
    assert len(TABLE) >= 80
    assert len({named(one) for one in TABLE}) == len(TABLE)
    assert all(any(key in one for key in OPERATIONS) for one in TABLE)
