"""Records, steps and set-ups under another id: found by likeness, so that a rename is a rename.

Hands on the old shop with the new ids put in everywhere, so that what follows compares like with
like; references that only follow the new id are no change of their own.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from benchleaf.meaning.folding import written_link
from benchleaf.model import KINDS, Job, Record, Shop, references, texts
from benchleaf.model.textlinks import FIGURE, TEXT_LINK, TextLink, read_link

from .change import Path, RecordKey
from .differences import plain
from .pairing import RECORD_LIKE, like_pairs

Nested = tuple[str, str, str]
"""Job id (the new one), `steps` or `set_ups`, and the id of the entry."""


@dataclass(frozen=True, slots=True)
class Renames:
    """What has another id now: old to new."""

    records: Mapping[RecordKey, str] = field(default_factory=dict)
    nested: Mapping[Nested, str] = field(default_factory=dict)

    def __bool__(self) -> bool:
        return bool(self.records or self.nested)

    def new_id(self, kind: str, record_id: str) -> str:
        """The id under which a record of the old shop is known in the new one."""
        return self.records.get((kind, record_id), record_id)


def find_renames(old: Shop, new: Shop) -> Renames:
    """Every record, step and set-up of the old shop that the new one has under another id."""
    records: dict[RecordKey, str] = {}
    for kind in KINDS:
        gone = [one for one in old.of_kind(kind) if one not in new.of_kind(kind)]
        come = [one for one in new.of_kind(kind) if one not in old.of_kind(kind)]
        olds = [plain(old.of_kind(kind)[one]) for one in gone] if come else []
        news = [plain(new.of_kind(kind)[one]) for one in come] if gone else []
        for i, j in like_pairs(olds, news, RECORD_LIKE, records=True):
            records[kind, gone[i]] = come[j]
    nested: dict[Nested, str] = {}
    for job_id, job in old.jobs.items():
        known = records.get(("jobs", job_id), job_id)
        if known in new.jobs and job is not new.jobs[known]:
            nested.update(_nested(known, job, new.jobs[known]))
    return Renames(records, nested)


NESTED_LIKE = 0.6
"""Share of words in common for a step or set-up under another id. A house rule."""


def _nested(job_id: str, old: Job, new: Job) -> Iterator[tuple[Nested, str]]:
    for key in ("steps", "set_ups"):
        olds = {one.id: plain(one) for one in getattr(old, key)}
        news = {one.id: plain(one) for one in getattr(new, key)}
        gone = [one for one in olds if one not in news]
        come = [one for one in news if one not in olds]
        found = like_pairs([olds[one] for one in gone], [news[one] for one in come], NESTED_LIKE)
        for i, j in found:
            yield (job_id, key, gone[i]), come[j]


def aligned(shop: Shop, renames: Renames) -> Shop:
    """The old shop with every id as the new shop has it."""
    if not renames:
        return shop
    records: dict[str, dict[str, Record]] = {}
    for kind, record_id, record in shop.every():
        new_id = renames.new_id(kind, record_id)
        records.setdefault(kind, {})[new_id] = _renamed(record, kind, new_id, renames)
    return Shop.of(shop.manual, records, pictures=shop.pictures, sheets=shop.sheets)


def _renamed(record: Record, kind: str, new_id: str, renames: Renames) -> Record:
    """The record with new ids in its own id, references, links, steps and set-ups."""
    values = record.model_dump(mode="json", exclude_defaults=True)
    before = repr(values)
    values["id"] = new_id
    for path, wanted, target in references(record):
        _put(values, path, renames.new_id(wanted, target))
    for path, text in texts(record):
        if "[[" in text:
            _put(values, path, TEXT_LINK.sub(lambda found: _link(found, renames, new_id), text))
    if kind == "jobs":
        _rename_nested(values, new_id, renames)
    return record if repr(values) == before else type(record).model_validate(values)


def _put(values: Any, path: Path, value: Any) -> None:
    for step in path[:-1]:
        values = values[step]
    values[path[-1]] = value


def _link(found: re.Match[str], renames: Renames, job_id: str) -> str:
    link = read_link(found[1])
    if link.kind is None:
        return found[0]
    if link.kind == FIGURE:
        set_up = renames.nested.get((job_id, "set_ups", link.id), link.id)
        return written_link(TextLink(link.written, FIGURE, set_up, link.anchor))
    new_id = renames.new_id(link.kind, link.id)
    anchor = link.anchor
    for key in ("steps", "set_ups") if anchor else ():
        anchor = renames.nested.get((new_id, key, str(anchor)), anchor)
    return written_link(TextLink(link.written, link.kind, new_id, anchor))


def _rename_nested(values: Any, job_id: str, renames: Renames) -> None:
    for key in ("steps", "set_ups"):
        for entry in values.get(key, ()):
            entry["id"] = renames.nested.get((job_id, key, entry["id"]), entry["id"])
    for step in values["steps"]:
        set_up = step.get("set_up")
        if set_up is not None:
            step["set_up"] = renames.nested.get((job_id, "set_ups", set_up), set_up)
