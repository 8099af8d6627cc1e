"""What must hold for every comparison, whatever was edited."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml
from edits import SHOP, Edit, any_edit, applied, side, with_record
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from benchleaf.commands import sides
from benchleaf.diff import Change, ChangeKind, Comparison, EffectKind, Side, compare
from benchleaf.diff.differences import plain
from benchleaf.model import KINDS, Job, Shop, Term, Tool
from running import examples

SMALL = Path(__file__).parents[1] / "shop"
OLD = side(SHOP)
QUICK = settings(
    max_examples=examples(30),
    suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow],
)


def figures(one: Side) -> dict[tuple[str, str, str], str]:
    """Every computed figure, by job, set-up and key; asked of the sheets, not of the comparison."""
    return {
        (job_id, sheet.id, row.key): row.figure.text if row.figure else f"no: {row.missing}"
        for job_id, sheets in one.sheets.items()
        for sheet in sheets
        for row in sheet.rows
    }


def test_applying_nothing_reports_nothing() -> None:
    assert compare(OLD, OLD) == Comparison((), ())
    again = side(Shop.of(SHOP.manual, {kind: SHOP.of_kind(kind) for kind in KINDS}))
    assert compare(OLD, again).changes == ()


@QUICK
@given(any_edit())
def test_a_single_edit_is_one_cause_at_its_record(edit: Edit) -> None:
    shop = applied(SHOP, edit)
    assume(shop is not None)
    assert shop is not None
    kind, record_id = edit.record
    assume(plain(shop.of_kind(kind)[record_id]) != plain(SHOP.of_kind(kind)[record_id]))
    (change,) = compare(OLD, side(shop)).changes
    assert change.record == edit.record
    as_told = ChangeKind.CHANGED if change.kind is ChangeKind.REWORDED else change.kind
    if edit.path[0] != "spindle_speeds":  # of equal neighbours either may be the one that is gone
        assert (as_told, change.difference.path) == (edit.kind, edit.path)


@QUICK
@given(any_edit())
def test_its_effects_are_listed_under_it_and_no_others(edit: Edit) -> None:
    shop = applied(SHOP, edit)
    assume(shop is not None)
    assert shop is not None
    new = side(shop)
    changes = compare(OLD, new).changes
    was, now = figures(OLD), figures(new)
    same_set_ups = {key[:2] for key in was} & {key[:2] for key in now}
    expected = {
        key for key in {*was, *now} if was.get(key) != now.get(key) and key[:2] in same_set_ups
    }
    told = [
        (effect.record[1], effect.place.split(",")[0].removeprefix("set-up "), effect.code)
        for change in changes
        for effect in change.effects
        if effect.kind is EffectKind.FIGURE
    ]
    assert len(told) == len(set(told))
    assert set(told) == expected


@st.composite
def some_edits(draw: st.DrawFn) -> Shop:
    """The small shop with up to four edits, one upon another."""
    shop = SHOP
    for _ in range(draw(st.integers(1, 4))):
        edited = applied(shop, draw(any_edit(shop)))
        shop = edited or shop
    return shop


@QUICK
@given(some_edits())
def test_of_several_edits_each_moved_figure_has_a_cause(shop: Shop) -> None:
    new = side(shop)
    was, now = figures(OLD), figures(new)
    same_set_ups = {key[:2] for key in was} & {key[:2] for key in now}
    expected = {
        key for key in {*was, *now} if was.get(key) != now.get(key) and key[:2] in same_set_ups
    }
    told = {
        (effect.record[1], effect.place.split(",")[0].removeprefix("set-up "), effect.code)
        for change in compare(OLD, new).changes
        for effect in change.effects
        if effect.kind is EffectKind.FIGURE
    }
    assert told == expected


def mirrored(change: Change) -> tuple[Any, ...]:
    """A change as it reads from the other side."""
    one = change.difference
    kind = {ChangeKind.ADDED: ChangeKind.REMOVED, ChangeKind.REMOVED: ChangeKind.ADDED}.get(
        change.kind, change.kind
    )
    return change.record, kind, one.new_path, one.old_path, repr(one.after), repr(one.before)


def straight(change: Change) -> tuple[Any, ...]:
    one = change.difference
    return (
        change.record, change.kind, one.old_path, one.new_path, repr(one.before), repr(one.after),
    )  # fmt: skip


@QUICK
@given(some_edits())
def test_a_comparison_read_backwards_is_the_same(shop: Shop) -> None:
    new = side(shop)
    there, back = compare(OLD, new), compare(new, OLD)
    assert Counter(map(mirrored, there.changes)) == Counter(map(straight, back.changes))
    assert moved_figures(there, turned=False) == moved_figures(back, turned=True)


def moved_figures(comparison: Comparison, *, turned: bool) -> set[tuple[Any, ...]]:
    found = set()
    for change in comparison.changes:
        for one in change.effects:
            sides = (one.after, one.before) if turned else (one.before, one.after)
            found.add((one.record, one.place, one.code, *sides))
    return found


def test_a_renamed_step_is_a_rename_and_its_links_follow() -> None:
    job = plain(SHOP.jobs["vg-0020"])
    job["steps"][0]["id"] = "remove-burr"
    other = plain(SHOP.jobs["vg-0010"])
    other["hand_on"] = other["hand_on"].replace("#deburr", "#remove-burr")
    shop = with_record(SHOP, "jobs", Job.model_validate(job))
    shop = with_record(shop, "jobs", Job.model_validate(other))
    (change,) = compare(OLD, side(shop)).changes
    assert (change.kind, change.record) == (ChangeKind.RENAMED, ("jobs", "vg-0020"))
    assert (change.before, change.after) == ("deburr", "remove-burr")


def test_a_renamed_and_moved_step_is_no_removal() -> None:
    job = plain(SHOP.jobs["vg-0010"])
    job["steps"][0]["id"] = "grip"
    job["steps"].append(job["steps"].pop(0))
    changes = compare(OLD, side(with_record(SHOP, "jobs", Job.model_validate(job)))).changes
    assert sorted(one.kind for one in changes) == [ChangeKind.MOVED, ChangeKind.RENAMED]


def test_a_renamed_record_is_a_rename_and_jobs_follow(base_shop: dict[str, str]) -> None:
    tools = dict(SHOP.tools)
    gone = plain(tools.pop("drill-8"))
    tools["drill-8-short"] = type(SHOP.tools["drill-8"]).model_validate(
        {**gone, "id": "drill-8-short"}
    )
    job = plain(SHOP.jobs["vg-0010"])
    job["tools"] = ["drill-8-short", *job["tools"][1:]]
    job["set_ups"][0]["tool"] = "drill-8-short"
    records = {kind: SHOP.of_kind(kind) for kind in KINDS}
    jobs = {**SHOP.jobs, "vg-0010": Job.model_validate(job)}
    shop = Shop.of(SHOP.manual, {**records, "jobs": jobs, "tools": tools})
    (change,) = compare(OLD, side(shop)).changes
    assert (change.kind, change.before, change.after) == (
        ChangeKind.RENAMED, "drill-8", "drill-8-short",
    )  # fmt: skip
    assert [(one.kind, one.record) for one in change.effects] == [
        (EffectKind.NAMED_BY, ("jobs", "vg-0010"))
    ]


def test_two_records_that_differ_in_a_size_are_two() -> None:
    small, large = (
        Tool.model_validate({"id": f"gauge-{size}", "name": f"{size} mm plug gauge",
                             "kind": "gauge", "size": f"{size} mm", "what": "It proves a hole."})
        for size in (5, 6)
    )  # fmt: skip
    old = side(with_record(SHOP, "tools", small))
    changes = compare(old, side(with_record(SHOP, "tools", large))).changes
    assert sorted(one.kind for one in changes) == [ChangeKind.ADDED, ChangeKind.REMOVED]


def test_a_new_and_a_lost_record_are_told_once() -> None:
    term = Term(id="swarf", word="swarf", meaning="Chips of metal.")
    new = side(with_record(SHOP, "terms", term))
    (added,) = compare(OLD, new).changes
    (removed,) = compare(new, OLD).changes
    assert (added.kind, added.record, added.after) == (
        ChangeKind.ADDED, ("terms", "swarf"), "swarf",
    )  # fmt: skip
    assert (removed.kind, removed.record, removed.before) == (
        ChangeKind.REMOVED, ("terms", "swarf"), "swarf",
    )  # fmt: skip


def relaid(text: str, style: str | None, width: int, keys: Callable[[str], Any]) -> str:
    """The same YAML in another layout: quotes, line lengths, order of keys, comments."""
    data = yaml.load(text, Loader=yaml.BaseLoader)
    ordered = reordered(data, keys)
    out = yaml.dump(ordered, default_style=style, width=width, sort_keys=False, allow_unicode=True)
    return "# Another layout.\n" + re.sub(r"^([a-z_]+:)$", r"\1  # so", out, flags=re.MULTILINE)


def reordered(value: Any, keys: Callable[[str], Any]) -> Any:
    if isinstance(value, dict):
        return {key: reordered(value[key], keys) for key in sorted(value, key=keys)}
    return [reordered(one, keys) for one in value] if isinstance(value, list) else value


@pytest.mark.parametrize("style", [None, '"', "'"])
@pytest.mark.parametrize("width", [30, 4000])
@pytest.mark.parametrize("turn", [False, True])
def test_another_layout_reports_nothing(
    style: str | None, width: int, turn: bool, shop: Callable[..., Path], base_shop: dict[str, str]
) -> None:
    def keys(key: str) -> str:
        return key[::-1] if turn else key

    files = {
        name: relaid(text, style, width, keys)
        for name, text in base_shop.items()
        if name.endswith(".yml") and name != "addresses.yml"
    }
    page = base_shop["pages/safety.md"].replace(" ", "\n", 3)
    reviewed = sides.compare(sides.Asked(shop({**files, "pages/safety.md": page}), old=str(SMALL)))
    assert reviewed.report is not None, reviewed
    assert reviewed.report.comparison == Comparison((), ())
