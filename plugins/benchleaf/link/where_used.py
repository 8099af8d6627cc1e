"""References both ways: what each record is used by."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from benchleaf.model import Job, KeyPath, Record, Shop, references, texts
from benchleaf.model.textlinks import FIGURE, text_links


@dataclass(frozen=True, slots=True, order=True)
class Use:
    """One record that uses another, and the step in which it does, where there is one."""

    kind: str
    id: str
    step: str | None = None


Uses = Mapping[tuple[str, str], tuple[Use, ...]]
"""Kind and id of a record -> the records that use it, each once."""


def where_used(shop: Shop) -> Uses:
    """Every use of every record, by fields and by links in text."""
    found: dict[tuple[str, str], dict[Use, None]] = {}
    for kind, record_id, record in shop.every():
        for path, wanted in _wanted(record):
            if wanted != (kind, record_id):
                use = Use(kind, record_id, step_of(record, path))
                found.setdefault(wanted, {})[use] = None
    for job in shop.jobs.values():
        piece = shop.piece(job)
        if piece is not None:  # the material is that of the part, and the job is done in it
            found.setdefault(("materials", piece.part.material), {})[Use("jobs", job.id)] = None
    return MappingProxyType({key: tuple(uses) for key, uses in found.items()})


def _wanted(record: Record) -> list[tuple[KeyPath, tuple[str, str]]]:
    by_field = [
        (path, (kind, record_id))
        for path, kind, record_id in references(record)
        if path[0] != "not_met"  # a hazard that is named because nobody meets it
    ]
    by_text = [
        (path, (str(link.kind), link.id))
        for path, text in texts(record)
        if "[[" in text
        for link in text_links(text)
        if link.kind not in (None, FIGURE)
    ]
    return by_field + by_text


def step_of(record: Record, path: KeyPath) -> str | None:
    """The id of the step that a path in a job lies in."""
    if isinstance(record, Job) and len(path) > 1 and path[0] == "steps":
        return record.steps[int(path[1])].id
    return None
