"""The former way to tell of a part: each job holds a copy. Read as records that jobs would name."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from benchleaf.diagnose import Finding
from benchleaf.model import Part, PartCopy
from benchleaf.read import Source

from .building import build

STATE = "as-it-arrives"
"""The state that a copy tells of; a second one of the same part has a number behind."""


def without_copy(source: Source) -> tuple[Source, PartCopy | None, tuple[Finding, ...]]:
    """The job with the id of its part in place of a copy, the copy, and what is wrong with it."""
    value = source.value
    if not isinstance(value, dict) or not isinstance(value.get("part"), dict):
        return source, None, ()
    inside = Source(source.document, (*source.path, "part"), value["part"])
    copy, findings = build(PartCopy, inside)
    named: dict[str, Any] = {**value, "part": copy.id if copy else None}
    return replace(source, value=named), copy, findings


def records_of(copied: Mapping[str, PartCopy]) -> tuple[dict[str, Part], dict[str, str]]:
    """The records that the copies of jobs make, and the state that each job takes."""
    by_part: dict[str, dict[str, PartCopy]] = {}
    for job_id, copy in sorted(copied.items()):
        by_part.setdefault(copy.id, {})[job_id] = copy
    takes: dict[str, str] = {}
    parts = {part: _record(part, found, takes) for part, found in by_part.items()}
    return parts, takes


def _record(part: str, found: Mapping[str, PartCopy], takes: dict[str, str]) -> Part:
    """One record; the mass stands in the states where the jobs do not all give the same."""
    first = next(iter(found.values()))
    is_one_mass = all(one.mass == first.mass for one in found.values())
    forms = list(dict.fromkeys(_form(one) for one in found.values()))
    for job_id, one in found.items():
        takes[job_id] = state_id(forms.index(_form(one)))
    states = [
        {"id": state_id(at), "name": "As it arrives", "looks_like": stock}
        | ({"mass": mass} if mass and not is_one_mass else {})
        for at, (stock, mass) in enumerate(forms)
    ]
    mass = {"mass": first.mass.text} if first.mass and is_one_mass else {}
    told = {key: getattr(first, key) for key in ("number", "name", "drawing", "material")}
    return Part.model_validate({"id": part, **told, **mass, "states": states})


def _form(copy: PartCopy) -> tuple[str, str | None]:
    return copy.stock, copy.mass.text if copy.mass else None


def state_id(at: int) -> str:
    """The id of one of the states, the first without a number.

    >>> state_id(0), state_id(1)
    ('as-it-arrives', 'as-it-arrives-2')
    """
    return STATE if at == 0 else f"{STATE}-{at + 1}"
