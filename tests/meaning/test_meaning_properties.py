"""What a meaning must and must not depend on, whatever is edited."""

from __future__ import annotations

import copy
import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from pydantic import BaseModel, ValidationError

from benchleaf import pipeline
from benchleaf.compute import set_up_sheets
from benchleaf.formulas.quantities import KINDS as QUANTITIES
from benchleaf.formulas.quantities import Quantity
from benchleaf.meaning import fingerprint, is_taught
from benchleaf.meaning.prose import text_paths
from benchleaf.model import Shop, class_of, fields_along, order_is_free
from benchleaf.model.textlinks import TEXT_LINK
from running import examples

Path_ = tuple[str | int, ...]
LOADED = pipeline.load(Path(__file__).parents[1] / "shop")
SHOP = LOADED.shop
QUICK = settings(
    max_examples=examples(75),
    suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow],
)
OTHERS = ("9 mm", "0.2 mm/rev", "500 rpm", "2 kN", "110 deg", "1 kW", "3 kg", "8 +0.2/-0 mm",
          "0.5", "blind", "clamps", "can injure", "makes it easier", "hss")  # fmt: skip


def prints(shop: Shop) -> dict[str, str]:
    return {one: fingerprint(shop, job, set_up_sheets(shop, job)) for one, job in shop.jobs.items()}


PRINTS = prints(SHOP)


def plain(record: BaseModel) -> dict[str, Any]:
    return record.model_dump(mode="json", exclude_defaults=True)


def with_record(kind: str, record_id: str, values: dict[str, Any]) -> Shop:
    record: Any = class_of(kind).model_validate(values)
    changed: dict[str, Any] = {kind: {**SHOP.of_kind(kind), record_id: record}}
    return replace(SHOP, **changed)


def at(values: Any, path: Path_) -> Any:
    for step in path:
        values = values[step]
    return values


def put(values: Any, path: Path_, value: Any) -> dict[str, Any]:
    result: dict[str, Any] = copy.deepcopy(values)
    at(result, path[:-1])[path[-1]] = value
    return result


def leaves(values: Any, path: Path_ = ()) -> Iterator[Path_]:
    pairs = values.items() if isinstance(values, dict) else enumerate(values)
    for key, value in pairs:
        if isinstance(value, dict | list):
            yield from leaves(value, (*path, key))
        elif key != "id":
            yield (*path, key)


def lists(values: Any, path: Path_ = ()) -> Iterator[Path_]:
    pairs = values.items() if isinstance(values, dict) else enumerate(values)
    for key, value in pairs:
        if isinstance(value, list) and len(value) > 1:
            yield (*path, key)
        if isinstance(value, dict | list):
            yield from lists(value, (*path, key))


def quantities(record: BaseModel, path: Path_ = ()) -> Iterator[tuple[Path_, Quantity]]:
    pairs: Any = record.__dict__.items() if isinstance(record, BaseModel) else enumerate(record)
    for key, value in pairs:
        if isinstance(value, Quantity):
            yield (*path, key), value
        elif isinstance(value, BaseModel | tuple):
            yield from quantities(value, (*path, key))  # type: ignore[arg-type]


RECORDS = [one for one in SHOP.every() if one[0] not in ("terms", "onboarding")]
PLACES = [(kind, one, path) for kind, one, record in RECORDS for path in leaves(plain(record))]
NUMBERS = [(kind, one, found) for kind, one, record in RECORDS for found in quantities(record)]
FREE = [
    (kind, one, path)
    for kind, one, record in RECORDS
    for path in lists(plain(record))
    if order_is_free(class_of(kind), path)
]


@QUICK
@given(st.sampled_from(NUMBERS), st.data())
def test_a_quantity_in_another_unit_is_the_same_meaning(
    number: tuple[str, str, tuple[Path_, Quantity]], data: st.DataObject
) -> None:
    kind, record_id, (path, known) = number
    units = QUANTITIES[known.kind].units
    unit = data.draw(st.sampled_from([one for one in units if one not in known.text] or [*units]))
    ends = [f"{end / units[unit]:.12g}" for end in (known.low, known.high)]
    assume(not any("e" in end for end in ends))
    text = f"{ends[0]} {unit}" if not known.is_range else f"{ends[0]} to {ends[1]} {unit}"
    values = put(plain(SHOP.of_kind(kind)[record_id]), path, text)
    shop = with_record(kind, record_id, values)
    now = dict(quantities(shop.of_kind(kind)[record_id]))[path]
    assume((now.low, now.high) == (known.low, known.high))  # else it is another number
    assert prints(shop) == PRINTS


@QUICK
@given(st.sampled_from(FREE), st.randoms())
def test_the_order_of_a_list_without_order_is_no_meaning(
    place: tuple[str, str, Path_], random: Any
) -> None:
    kind, record_id, path = place
    values = plain(SHOP.of_kind(kind)[record_id])
    entries = list(at(values, path))
    random.shuffle(entries)
    assert prints(with_record(kind, record_id, put(values, path, entries))) == PRINTS


@QUICK
@given(st.sampled_from(PLACES))
def test_how_a_text_is_set_is_no_meaning(place: tuple[str, str, Path_]) -> None:
    kind, record_id, path = place
    record = SHOP.of_kind(kind)[record_id]
    assume(path in text_paths(record))
    values = plain(record)
    spaced = re.sub(r" (?=[a-z])", "\n    ", at(values, path))
    assert prints(with_record(kind, record_id, put(values, path, spaced))) == PRINTS


def renamed(shop: Shop, old: str, new: str) -> Shop:
    """The shop with one id in other letters, wherever it stands."""
    link = re.compile(rf"(?<![\w-]){re.escape(old)}(?![\w-])")

    def inside(value: Any) -> Any:
        if isinstance(value, dict):
            return {key: one if key == "kind" else inside(one) for key, one in value.items()}
        if isinstance(value, list):
            return [inside(one) for one in value]
        if not isinstance(value, str) or value == old:
            return new if value == old else value
        return TEXT_LINK.sub(lambda found: link.sub(new, found[0]), value)

    records: dict[str, dict[str, Any]] = {}
    for kind, _, record in shop.every():
        made: Any = class_of(kind).model_validate(inside(plain(record)))
        records.setdefault(kind, {})[made.id] = made
    return Shop.of(shop.manual, records, pictures=shop.pictures, pages=shop.pages)


def test_another_id_is_no_meaning() -> None:
    ids = [one for kind, one, _ in SHOP.every() if kind not in ("jobs", "terms", "onboarding")]
    ids += [one.id for job in SHOP.jobs.values() for one in (*job.steps, *job.set_ups)]
    assert len(ids) > 8
    for one in ids:
        assert prints(renamed(SHOP, one, f"{one}-again")) == PRINTS, one


# What is shown: the page of a job as a learner reads it

_DETAILS = re.compile(r"<dl>\s*<div><dt>Formula.*?</dl>", re.S)
_REVISION = re.compile(r'<h2 id="revision">.*?(?=<aside class="bl-caution")', re.S)
_TAG = re.compile(r"<[^>]*>")


def page_text(shop: Shop) -> dict[str, str]:
    """The words on each job's page, without workings and without the facts of the revision."""
    sheets = {one: set_up_sheets(shop, job) for one, job in shop.jobs.items()}
    plan = pipeline.plan_site(replace(LOADED, shop=shop, sheets=sheets))
    found = {}
    for page in plan.pages:
        if page.address.startswith("jobs/") and page.address[5:-5] in shop.jobs:
            html = _REVISION.sub(" ", _DETAILS.sub(" ", page.render().html))
            found[page.address[5:-5]] = " ".join(_TAG.sub(" ", html).split())
    return found


@cache
def shown_now() -> dict[str, str]:
    return page_text(SHOP)


@QUICK
@given(st.sampled_from(PLACES), st.sampled_from([" Mind this.", *OTHERS]))
def test_what_a_learner_reads_otherwise_means_something_else(
    place: tuple[str, str, Path_], other: str
) -> None:
    kind, record_id, path = place
    fields = list(fields_along(class_of(kind), path))
    assume(all(is_taught(*field) for field in fields))
    values = plain(SHOP.of_kind(kind)[record_id])
    new = f"{at(values, path)}{other}" if other.startswith(" ") else other
    try:
        shop = with_record(kind, record_id, put(values, path, new))
        text = page_text(shop)
    except (ValidationError, KeyError, StopIteration):
        assume(False)
        return
    now = prints(shop)
    for job_id, words in text.items():
        # The title of another job, which a link shows, is that job's own.
        if words != shown_now()[job_id] and (kind != "jobs" or job_id == record_id):
            assert now[job_id] != PRINTS[job_id]


@QUICK
@given(st.sampled_from([one for one in PLACES if one[0] == "jobs"]))
def test_every_taught_word_of_a_job_counts(place: tuple[str, str, Path_]) -> None:
    kind, record_id, path = place
    assume(path in text_paths(SHOP.jobs[record_id]))
    assume(all(is_taught(*field) for field in fields_along(class_of(kind), path)))
    values = plain(SHOP.jobs[record_id])
    shop = with_record(kind, record_id, put(values, path, f"{at(values, path)} Mind this."))
    assert prints(shop)[record_id] != PRINTS[record_id]
