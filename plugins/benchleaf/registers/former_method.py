"""The former method of a fingerprint, for entries that were registered by it. Nothing else uses it.

A job that still has the fingerprint of its entry by this method has not changed since: nobody is
called back because a fingerprint is made otherwise now. It is SHA-256 of canonical JSON of the
job, every record it uses, and its set-up figures as shown. Order
of keys, quoting, comments and line breaks never count, nor do pictures, notes for the trainer,
other names, the order of lists without order, and the facts of the revision itself. Each record
goes in as its own hash, so that a shared one is reckoned once for the whole shop. A figure that a
sentence shows goes in as its words.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cache
from json.encoder import encode_basestring_ascii
from typing import Any, NamedTuple

from benchleaf.compute import SetUpSheet, set_up_sheets, shown_job
from benchleaf.diff.differences import dumped, plain
from benchleaf.meaning.folding import fixed_words, folded_text
from benchleaf.meaning.prose import wording_paths
from benchleaf.meaning.statement import Path, RecordKey
from benchleaf.model import (
    Area,
    Job,
    Order,
    PartCopy,
    Record,
    Shop,
    Trait,
    classes_below,
    has,
    mark,
    references,
    texts,
)
from benchleaf.model.textlinks import shows_figures

Values = Callable[[Record], Any]


def former_fingerprint(shop: Shop, job: Job, sheets: Sequence[SetUpSheet]) -> str:
    """The fingerprint by the former method; `sheets` are the computed set-ups of the job."""
    return _Prints(shop, dumped).of(job, sheets)


CORE_DIGITS = 16
"""Enough to tell that two states of one job differ; the proof is the fingerprint."""


def former_core(shop: Shop, job: Job) -> str:
    """The same of what a change of wording leaves alone: numbers, negations, hazard texts, ids."""
    prints = _Prints(shop, lambda record: _core_of(record, plain(record)))
    has_figures = any(shows_figures(text) for _, text in texts(job))
    sheets = set_up_sheets(shop, job) if has_figures else ()
    return prints.of(shown_job(job, sheets), ())[:CORE_DIGITS]


class _Prints:
    """Fingerprints of many jobs of one shop; what they share is hashed once."""

    def __init__(self, shop: Shop, values: Values) -> None:
        self._shop = shop
        self._values = values
        self._hashes: dict[RecordKey, str] = {}
        self._named: dict[RecordKey, frozenset[RecordKey]] = {}

    def of(self, job: Job, sheets: Iterable[SetUpSheet]) -> str:
        """The fingerprint of a job."""
        used, sheets = sorted(self.used_by(job)), tuple(sheets)
        return _hash(
            {
                "job": _meaning(self._values(shown_job(job, sheets)), (Job,)) | self._part(job),
                "uses": {f"{kind}:{name}": self._hash_of((kind, name)) for kind, name in used},
                "figures": {sheet.id: _figures(sheet) for sheet in sheets},
            }
        )

    def _hash_of(self, key: RecordKey) -> str:
        if key not in self._hashes:
            record = self._shop.of_kind(key[0])[key[1]]
            self._hashes[key] = _hash(_meaning(self._values(record), (type(record),)))
        return self._hashes[key]

    def _part(self, job: Job) -> dict[str, Any]:
        """The part as each job held a copy of it then."""
        piece = self._shop.piece(job)
        if piece is None:
            return {}
        part = piece.part
        told = PartCopy.model_construct(
            number=part.number, name=part.name, drawing=part.drawing, material=part.material,
            stock=piece.arrives_as, mass=piece.mass,
        )  # fmt: skip
        return {"part": _meaning(self._values(told), (PartCopy,))}

    def used_by(self, job: Job) -> set[RecordKey]:
        """Kind and id of every record that says how the job is done: all it names but jobs.

        Records that those name count too, such as the hazards of the machine.
        """
        found: set[RecordKey] = set()
        waiting = list(_named_by(job))
        while waiting:
            key = waiting.pop()
            if key not in found and key[1] in self._shop.of_kind(key[0]):
                found.add(key)
                waiting += self._named_from(key)
        return {key for key in found if key[0] != "parts"}  # there was no record of a part

    def _named_from(self, key: RecordKey) -> frozenset[RecordKey]:
        if key not in self._named:
            self._named[key] = _named_by(self._shop.of_kind(key[0])[key[1]])
        return self._named[key]


def _named_by(record: Record) -> frozenset[RecordKey]:
    return frozenset((kind, name) for _, kind, name in references(record) if kind != "jobs")


def _hash(value: Any) -> str:
    canonical = json.dumps(value, sort_keys=True, ensure_ascii=True, separators=(",", ":"))
    return hashlib.sha256(canonical.encode()).hexdigest()


Classes = tuple[type[Record], ...]


def _meaning(value: Any, classes: Classes, *, is_free: bool = False) -> Any:
    """The value with its meaning only, texts folded; `classes` are those that it may be one of."""
    if isinstance(value, str):
        return folded_text(value)
    if isinstance(value, dict):
        kept = _kept(classes)
        return {
            key: _meaning(one, kept[key].inside, is_free=kept[key].is_free)
            for key, one in value.items()
            if key in kept
        }
    if isinstance(value, list):
        entries = [_meaning(one, classes) for one in value]
        return sorted(entries, key=_sort_key) if is_free else entries
    return value


class _Kept(NamedTuple):
    """A field that is part of the meaning: what may stand there, and whether its order is free."""

    inside: Classes
    is_free: bool


@cache
def _kept(classes: Classes) -> dict[str, _Kept]:
    """The fields that are part of what is taught, by key."""
    return {
        key: _Kept(classes_below(classes, key), mark(cls, key, Order) is Order.FREE)
        for cls in classes
        for key in cls.model_fields
        if _is_taught(cls, key)
    }


def _is_taught(cls: type[Record], key: str) -> bool:
    """A field without an area of its own goes with the field that its record stands in."""
    area = mark(cls, key, Area)
    return not has(cls, key, Trait.NOT_TAUGHT) and (area is None or area not in _LEFT_OUT)


def _sort_key(value: Any) -> str:
    """The value as JSON."""
    if isinstance(value, str):
        return encode_basestring_ascii(value)
    return json.dumps(value, sort_keys=True)


def _figures(sheet: SetUpSheet) -> Mapping[str, Any]:
    rows = {row.key: row.figure.text if row.figure else "not computed" for row in sheet.rows}
    return {"rows": rows, "stops": [stop.reason for stop in sheet.stops]}


_LEFT_OUT = frozenset(
    (
        Area.REVISION, Area.TRAINER, Area.CHECKS_ONLY, Area.RULE, Area.RATE, Area.SCREEN,
        Area.PICTURE, Area.NAMES, Area.TERM, Area.PAGE, Area.SHOP, Area.LIST,
    )
)  # fmt: skip


def _core_of(record: Record, values: dict[str, Any]) -> dict[str, Any]:
    """A record's plain values with each wording text cut down to what must stay."""
    for path in wording_paths(record):
        if _holds(values, path):
            _cut(values, path)
    return values


def _holds(values: Any, path: Path) -> bool:
    try:
        for step in path:
            values = values[step]
    except (KeyError, IndexError):
        return False
    return isinstance(values, str)


def _cut(values: Any, path: Path) -> None:
    for step in path[:-1]:
        values = values[step]
    values[path[-1]] = list(fixed_words(values[path[-1]]))
