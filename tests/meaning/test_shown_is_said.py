"""What a job's pages show is said in its meaning, and what its meaning says is shown.

Each value of the small shop is put otherwise, and each key that it lacks is put in, one at a time;
then a job's page and its printed sheets are rendered. Where their words differ, the meaning must
differ too, or the field is declared as not taught; where the meaning differs, so must the words.
"""

from __future__ import annotations

import copy
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from typing import Any

import pytest
from pydantic import BaseModel, ValidationError
from test_meaning_properties import (
    LOADED,
    OTHERS,
    PLACES,
    SHOP,
    Path_,
    at,
    plain,
    prints,
    put,
)  # fmt: skip

from benchleaf import pipeline, validate
from benchleaf.compute import set_up_sheets
from benchleaf.meaning import is_taught
from benchleaf.model import (
    Area,
    Job,
    Manual,
    Shop,
    class_of,
    fields_along,
    files,
    kind_named,
    mark,
)  # fmt: skip
from benchleaf.model.declared import records_in
from benchleaf.model.schema import example_of
from running import sample

JOBS = tuple(SHOP.jobs)
_OWN = re.compile(rf"(?:jobs/|trainer/)({'|'.join(JOBS)})(?:-[a-z-]+)?\.html")
_BESIDE = ("machines/", "tools/", "materials/", "fluids/", "hazards/")
_TAG = re.compile(r"<[^>]*>")
_SHOWN = re.compile(r'(?:alt|title|aria-label|placeholder)="([^"]*)"')
_NUMBER = re.compile(r"\d+(?:\.\d+)?")


@dataclass(frozen=True)
class Case:
    """One value put otherwise, or one key put in."""

    kind: str
    record: str
    path: Path_
    is_new: bool = False

    def __str__(self) -> str:
        sign = "+" if self.is_new else ""
        return f"{self.kind}/{self.record}/{sign}{'/'.join(map(str, self.path))}"


def lacking(record: BaseModel, path: Path_ = ()) -> Iterator[Path_]:
    """The path of each key that a record, or one inside it, has not."""
    for key, info in type(record).model_fields.items():
        value = getattr(record, key)
        if value == info.default and not info.is_required():
            yield (*path, key)
        elif isinstance(value, BaseModel):
            yield from lacking(value, (*path, key))
        elif isinstance(value, tuple):
            for number, one in enumerate(value):
                if isinstance(one, BaseModel):
                    yield from lacking(one, (*path, key, number))


RECORDS = [one for one in SHOP.every() if one[0] not in ("terms", "onboarding")]
EVERY = [
    *(Case("manual", "manual", (key,)) for key in plain(SHOP.manual) if key != "preface"),
    *(Case(*place) for place in PLACES),
    *(Case(kind, one, path, is_new=True) for kind, one, record in RECORDS
      for path in lacking(record)),
]  # fmt: skip


def in_place(case: Case, values: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """The record with the value put otherwise, in the ways that may fit."""
    if case.is_new:
        yield from (put(values, case.path, one) for one in examples_of(case))
        return
    old = at(values, case.path)
    if not isinstance(old, str):
        return
    kind = kind_named(class_of(case.kind), case.path)
    if kind is not None:
        ids = (one for one in SHOP.of_kind(kind) if one != old)
        yield from (put(values, case.path, one) for one in ids)
        return
    number = _NUMBER.search(old)
    for factor in (1.5, 0.9) if number is not None else ():
        assert number is not None
        other = f"{float(number[0]) * factor:g}"
        yield put(values, case.path, f"{old[: number.start()]}{other}{old[number.end() :]}")
    yield from (put(values, case.path, one) for one in (f"{old} Mind this.", *OTHERS))


def examples_of(case: Case) -> Iterator[Any]:
    cls, last = list(fields_along(class_of(case.kind), case.path))[-1]
    kind = kind_named(class_of(case.kind), case.path)
    if kind is not None:
        yield from (one for each in SHOP.of_kind(kind) for one in (each, [each]))
        return
    if last == "set_up":
        yield from (one.id for job in SHOP.jobs.values() for one in job.set_ups)
        return
    text = example_of(cls, last)
    if text is not None:
        yield from (text, [text])
    for inner in records_in(cls.model_fields[last].annotation):
        wanted = (key for key, info in inner.model_fields.items() if info.is_required())
        found = {key: _known(key, example_of(inner, key)) for key in wanted}
        yield from (found, [found])
    yield "true"


def _known(key: str, example: str | None) -> str | None:
    """A file or record that the small shop has, where the key names one."""
    if key == "file":
        return next(iter(SHOP.pictures))
    return next(iter(SHOP.hazards)) if key == "hazard" else example


def edited(case: Case) -> Shop | None:
    record = SHOP.manual if case.kind == "manual" else SHOP.of_kind(case.kind)[case.record]
    for values in in_place(case, plain(record)):
        try:
            new: Any = class_of(case.kind).model_validate(copy.deepcopy(values))
        except (ValidationError, ValueError):
            continue
        if plain(new) == plain(record) or _names_a_stranger(new):
            continue
        if case.kind == "manual":
            return replace(SHOP, manual=new)
        changed: dict[str, Any] = {case.kind: {**SHOP.of_kind(case.kind), case.record: new}}
        return replace(SHOP, **changed)
    return None


@dataclass(frozen=True)
class Met:
    """The words that a learner meets."""

    own: dict[str, str]
    """Of each job: on its page and on what is printed of it."""
    beside: str
    """On the pages of what jobs use, to which theirs lead."""


def _names_a_stranger(record: Any) -> bool:
    """True where a file is named that is not there."""
    return any(name not in SHOP.pictures for _, folder, name in files(record) if folder != "sheets")


def words_of(shop: Shop) -> Met:
    sheets = {one: set_up_sheets(shop, job) for one, job in shop.jobs.items()}
    plan = pipeline.plan_site(replace(LOADED, shop=shop, sheets=sheets), edition="full")
    found, beside = dict.fromkeys(JOBS, ""), ""
    for page in plan.pages:
        own = _OWN.fullmatch(page.address)
        if own is None and not page.address.startswith(_BESIDE):
            continue
        html = page.render().html
        text = f"{_TAG.sub(' ', html)} {' '.join(_SHOWN.findall(html))} "
        if own is not None:
            found[own[1]] += text
        else:
            beside += text
    return Met({job_id: " ".join(text.split()) for job_id, text in found.items()}, beside)


@cache
def now() -> tuple[Met, dict[str, str]]:
    return words_of(SHOP), prints(SHOP)


def is_declared(case: Case) -> bool:
    """True for a field that is declared as not taught, or as taught by what is reckoned from it."""
    if case.kind == "manual":  # facts of the shop are no job's, but for its calls and cautions
        return mark(Manual, str(case.path[0]), Area) is not Area.EMERGENCY
    return not all(is_taught(*field) for field in fields_along(class_of(case.kind), case.path))


@dataclass(frozen=True)
class Outcome:
    """The jobs of which something moved."""

    shown: set[str]
    """Their own words."""
    said: set[str]
    """Their meaning."""
    beside: bool
    """True where words moved on the page of something that jobs use."""


def judged(case: Case) -> Outcome | None:
    """What moved, or None where nothing else fits."""
    shop = edited(case)
    if shop is None:
        return None
    words, said = now()
    new_words, new_said = words_of(shop), prints(shop)
    # The title of another job, which a link shows, is that job's own.
    own = JOBS if case.kind != "jobs" else (case.record,)
    return Outcome(
        {one for one in own if new_words.own[one] != words.own[one]},
        {one for one in own if new_said[one] != said[one]},
        new_words.beside != words.beside,
    )


@pytest.mark.parametrize("case", sample(EVERY, 10, seed=13), ids=str)
def test_what_is_shown_is_said_and_what_is_said_is_shown(case: Case) -> None:
    found = judged(case)
    if found is None:
        return
    if not is_declared(case):
        assert found.shown <= found.said, "shown to a learner, and in no statement"
    is_shown = found.beside or found.said <= found.shown
    assert is_shown or is_refused(case), "a statement that no page shows"


def is_refused(case: Case) -> bool:
    """True for an edit with which the check lets nothing be published."""
    shop = edited(case)
    if shop is None or case.kind == "manual":
        return False
    record = shop.of_kind(case.kind)[case.record]
    sheets = set_up_sheets(shop, record) if isinstance(record, Job) else ()
    found = validate.check_record(
        shop, LOADED.places, case.kind, case.record, record, sheets, date(2026, 4, 6)
    )
    return any(one.blocks_publishing for one in found)


def test_enough_of_the_fields_can_be_put_otherwise() -> None:
    """Else the test above would go through cases that change nothing."""
    fit = [case for case in EVERY if edited(case) is not None]
    assert len(fit) > 0.8 * len(EVERY)
