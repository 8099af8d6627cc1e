"""The fingerprint of a job: one short proof of what the job means.

SHA-256 of canonical JSON of the job, every record it uses, and its set-up figures as shown. Order
of keys, quoting, comments and line breaks never count, nor do pictures, notes for the trainer,
other names, the order of lists without order, and the facts of the revision itself. Each record
goes in as its own hash, so that a shared one is reckoned once for the whole shop.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from json.encoder import encode_basestring_ascii
from typing import Any

from benchleaf.compute import SetUpSheet
from benchleaf.model import Job, Record, Shop, references

from .area import NAME_KEYS, NOT_MEANING, UNORDERED
from .change import RecordKey
from .differences import dumped, folded_text, plain
from .same_meaning import core_of

SHOWN = 8
"""Digits of a fingerprint that are shown to people."""

Values = Callable[[Record], Any]


def fingerprint(shop: Shop, job: Job, sheets: Sequence[SetUpSheet]) -> str:
    """The fingerprint, 64 hexadecimal digits; `sheets` are the computed set-ups of the job."""
    return Fingerprints(shop).of(job, sheets)


CORE_DIGITS = 16
"""Enough to tell that two states of one job differ; the proof is the fingerprint."""


def core_fingerprint(shop: Shop, job: Job) -> str:
    """The same of what a change of wording leaves alone: numbers, negations, hazard texts, ids.

    Computed figures are left out: they follow from what is written, and from how this version of
    Benchleaf reckons.
    """
    prints = Fingerprints(shop, lambda record: core_of(record, plain(record)))
    return prints.of(job, ())[:CORE_DIGITS]


class Fingerprints:
    """Fingerprints of many jobs of one shop; what they share is hashed once."""

    def __init__(self, shop: Shop, values: Values = dumped) -> None:
        self._shop = shop
        self._values = values
        self._hashes: dict[RecordKey, str] = {}
        self._named: dict[RecordKey, frozenset[RecordKey]] = {}

    def of(self, job: Job, sheets: Iterable[SetUpSheet]) -> str:
        """The fingerprint of a job."""
        used = sorted(self.used_by(job))
        return _hash(
            {
                "job": _meaning(self._values(job)),
                "uses": {f"{kind}:{name}": self._hash_of((kind, name)) for kind, name in used},
                "figures": {sheet.id: _figures(sheet) for sheet in sheets},
            }
        )

    def _hash_of(self, key: RecordKey) -> str:
        if key not in self._hashes:
            record = self._shop.of_kind(key[0])[key[1]]
            self._hashes[key] = _hash(_meaning(self._values(record)))
        return self._hashes[key]

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
        return found

    def _named_from(self, key: RecordKey) -> frozenset[RecordKey]:
        if key not in self._named:
            self._named[key] = _named_by(self._shop.of_kind(key[0])[key[1]])
        return self._named[key]


def _named_by(record: Record) -> frozenset[RecordKey]:
    return frozenset((kind, name) for _, kind, name in references(record) if kind != "jobs")


def _hash(value: Any) -> str:
    canonical = json.dumps(value, sort_keys=True, ensure_ascii=True, separators=(",", ":"))
    return hashlib.sha256(canonical.encode()).hexdigest()


def _meaning(value: Any, key: str = "") -> Any:
    """The value with its meaning only, texts folded."""
    if isinstance(value, str):
        return folded_text(value)
    if isinstance(value, dict):
        return {name: _meaning(one, name) for name, one in value.items() if name not in _LEFT_OUT}
    if isinstance(value, list):
        entries = [_meaning(one) for one in value]
        return sorted(entries, key=_sort_key) if key in UNORDERED else entries
    return value


_LEFT_OUT = NOT_MEANING | frozenset(NAME_KEYS)


def _sort_key(value: Any) -> str:
    """The value as JSON."""
    if isinstance(value, str):
        return encode_basestring_ascii(value)
    return json.dumps(value, sort_keys=True)


def _figures(sheet: SetUpSheet) -> Mapping[str, Any]:
    rows = {row.key: row.figure.text if row.figure else "not computed" for row in sheet.rows}
    return {"rows": rows, "stops": [stop.reason for stop in sheet.stops]}
