"""Random single edits of the small shop, as records: for the properties of a comparison."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from hypothesis import strategies as st
from pydantic import ValidationError

from benchleaf import link, pipeline
from benchleaf.compute import set_up_sheets
from benchleaf.diff import ChangeKind, Side
from benchleaf.diff.differences import plain
from benchleaf.model import KINDS, Record, Shop

SHOP = pipeline.load(Path(__file__).parents[1] / "shop").shop

VALUES = ("9 mm", "0.2 mm/rev", "0.006 to 0.009 in/rev", "500 rpm", "2 kN", "110 deg", "1 kW",
          "25 to 33 m/min", "3 kg", "8 +0.2/-0 mm", "0.5", "blind", "clamps", "will", "no injury",
          "makes it easier", "tools/none", "4", "2026-05-04", "hss", "gauge")  # fmt: skip
"""What a value may be changed to; those that do not fit the field are passed over."""

OPTIONAL = (
    ("jobs", ("call",), "Call the setter."),
    ("jobs", ("must_know",), ["How to read a rule."]),
    ("jobs", ("authorised_only",), "Only a setter may do it."),
    ("jobs", ("steps", 0, "right"), "It sits still."),
    ("jobs", ("steps", 0, "stand"), "Stand aside."),
    ("machines", ("clean_down_air",), "150 kPa"),
    ("materials", ("also",), ["soft steel"]),
    ("tools", ("limits",), ["Not for hard steel."]),
    ("fluids", ("mixing",), "One part to twenty."),
    ("hazards", ("source",), "house rule"),
)  # fmt: skip


@dataclass(frozen=True)
class Edit:
    """One edit of one record, and what a comparison must say of it."""

    record: tuple[str, str]
    kind: ChangeKind
    path: tuple[str | int, ...]
    values: dict[str, Any]


def side(shop: Shop) -> Side:
    """A shop with everything that a comparison looks at."""
    uses = link.term_uses(shop, link.TermIndex(shop.terms.values()))
    return Side(
        shop,
        {job_id: set_up_sheets(shop, job) for job_id, job in shop.jobs.items()},
        {term: frozenset(one.id for one in used if one.kind == "jobs")
         for term, used in uses.items()},
    )  # fmt: skip


def with_record(shop: Shop, kind: str, record: Record) -> Shop:
    changed: dict[str, Any] = {kind: {**shop.of_kind(kind), record.id: record}}  # type: ignore[attr-defined]
    return replace(shop, **changed)


def applied(shop: Shop, edit: Edit) -> Shop | None:
    """The shop with an edit, or None where the record is then no valid one."""
    kind, _ = edit.record
    try:
        return with_record(shop, kind, KINDS[kind].model_validate(edit.values))
    except ValidationError:
        return None


def leaves(values: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    """Paths of every single value but ids."""
    pairs = values.items() if isinstance(values, dict) else enumerate(values)
    for key, value in pairs:
        if isinstance(value, dict | list):
            yield from leaves(value, (*path, key))
        elif key != "id":
            yield (*path, key)


def lists(values: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    """Paths of every list."""
    pairs = values.items() if isinstance(values, dict) else enumerate(values)
    for key, value in pairs:
        if isinstance(value, list):
            yield (*path, key)
        if isinstance(value, dict | list):
            yield from lists(value, (*path, key))


def at(values: Any, path: tuple[str | int, ...]) -> Any:
    for step in path:
        values = values[step]
    return values


def put(values: Any, path: tuple[str | int, ...], value: Any) -> dict[str, Any]:
    result: dict[str, Any] = copy.deepcopy(values)
    at(result, path[:-1])[path[-1]] = value
    return result


@st.composite
def any_record(draw: st.DrawFn, shop: Shop = SHOP) -> tuple[tuple[str, str], dict[str, Any]]:
    kind, record_id, record = draw(st.sampled_from(list(shop.every())))
    return (kind, record_id), plain(record)


@st.composite
def changed_value(draw: st.DrawFn, shop: Shop = SHOP) -> Edit:
    """Another value or other words in one place."""
    key, values = draw(any_record(shop))
    path = draw(st.sampled_from(list(leaves(values))))
    old = at(values, path)
    new = draw(st.sampled_from([*VALUES, f"{old} Mind this."]))
    return Edit(key, ChangeKind.CHANGED, path, put(values, path, new))


@st.composite
def taken_out(draw: st.DrawFn, shop: Shop = SHOP) -> Edit:
    """An optional value or an entry of a list is gone."""
    key, values = draw(any_record(shop))
    path = draw(st.sampled_from([*leaves(values), *((*one, 0) for one in lists(values))]))
    result = copy.deepcopy(values)
    del at(result, path[:-1])[path[-1]]
    return Edit(key, ChangeKind.REMOVED, path, result)


@st.composite
def put_in(draw: st.DrawFn, shop: Shop = SHOP) -> Edit:
    """An optional value is there now."""
    kind, path, value = draw(st.sampled_from(OPTIONAL))
    record_id = draw(st.sampled_from(list(shop.of_kind(kind))))
    values = plain(shop.of_kind(kind)[record_id])
    found = at(values, path[:-1]).get(path[-1])
    new = [*(found or []), *value] if isinstance(value, list) else value
    at_path = (*path, len(found or [])) if isinstance(value, list) else path
    kind_of = ChangeKind.CHANGED if found and not isinstance(value, list) else ChangeKind.ADDED
    return Edit((kind, record_id), kind_of, at_path, put(values, path, new))


@st.composite
def moved(draw: st.DrawFn, shop: Shop = SHOP) -> Edit:
    """A list in another order."""
    key, values = draw(any_record(shop))
    long = [one for one in lists(values) if len(at(values, one)) > 1]
    path = draw(st.sampled_from(long or [("id",)]))
    entries = at(values, path)
    order = draw(st.permutations(list(range(len(entries))))) if long else []
    new = [entries[n] for n in order] if long else entries
    return Edit(key, ChangeKind.MOVED, path, put(values, path, new))


def any_edit(shop: Shop = SHOP) -> st.SearchStrategy[Edit]:
    return st.one_of(changed_value(shop), taken_out(shop), put_in(shop), moved(shop))
