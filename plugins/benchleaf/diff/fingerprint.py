"""The fingerprint of a job: one short proof of what the job means.

SHA-256 of canonical JSON of the job, every record it uses, and its set-up figures as shown. Order
of keys, quoting, comments and line breaks never count, nor do pictures, notes for the trainer
and the facts of the revision itself.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Sequence
from typing import Any

from benchleaf.compute import SetUpSheet
from benchleaf.model import Job, Shop, references

NOT_MEANING = frozenset(
    ("picture", "trainer", "revision", "effective", "approved_by", "change_note", "accept")
)
"""Keys that may change while what is taught stays the same."""


def fingerprint(shop: Shop, job: Job, sheets: Sequence[SetUpSheet]) -> str:
    """The fingerprint, 64 hexadecimal digits; `sheets` are the computed set-ups of the job."""
    canonical = json.dumps(
        meaning(shop, job, sheets), sort_keys=True, ensure_ascii=True, separators=(",", ":")
    )
    return hashlib.sha256(canonical.encode()).hexdigest()


def meaning(shop: Shop, job: Job, sheets: Iterable[SetUpSheet]) -> dict[str, Any]:
    """What the fingerprint is taken of, as plain values."""
    return {
        "job": _plain(job.model_dump(mode="json", exclude_defaults=True)),
        "uses": {
            f"{kind}:{record_id}": _plain(
                shop.of_kind(kind)[record_id].model_dump(mode="json", exclude_defaults=True)
            )
            for kind, record_id in sorted(used_records(shop, job))
        },
        "figures": {sheet.id: _figures(sheet) for sheet in sheets},
    }


def used_records(shop: Shop, job: Job) -> set[tuple[str, str]]:
    """Kind and id of every record that says how the job is done: all it names but other jobs.

    Records that those name count too, such as the hazards of the machine.
    """
    found: set[tuple[str, str]] = set()
    waiting: list[Any] = [job]
    while waiting:
        for _, kind, record_id in references(waiting.pop()):
            record = shop.of_kind(kind).get(record_id)
            if kind != "jobs" and record is not None and (kind, record_id) not in found:
                found.add((kind, record_id))
                waiting.append(record)
    return found


def _plain(value: Any) -> Any:
    """The value with its meaning only, and one space between words."""
    if isinstance(value, dict):
        return {key: _plain(one) for key, one in value.items() if key not in NOT_MEANING}
    if isinstance(value, list):
        return [_plain(one) for one in value]
    return " ".join(value.split()) if isinstance(value, str) else value


def _figures(sheet: SetUpSheet) -> dict[str, Any]:
    rows = {row.key: row.figure.text if row.figure else "not computed" for row in sheet.rows}
    return {"rows": rows, "stops": [stop.reason for stop in sheet.stops]}
