"""A shop taken over, once: what its job files say of their revision goes into the history.

From then on `benchleaf release` gives numbers. What a register says stays as it is; each entry only
gets its link.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchleaf.model import Job, Shop

from .history_entry import Released
from .ledger import STATE

_STATE_KEY = re.compile(rf"(?:{'|'.join(STATE)})\s*:")
_TOP = re.compile(r"[^\s#-]")
_BREAKDOWN = re.compile(r"^job:.*\n(?:[ \t]*(?:#.*)?\n)*( +)", re.MULTILINE)


def first_history(shop: Shop) -> tuple[Released, ...]:
    """Every revision that job files tell of, job by job, the oldest first."""
    return tuple(one for job in shop.jobs.values() for one in _of(job))


def _of(job: Job) -> Iterator[Released]:
    for one in reversed(job.history):
        yield Released(
            job=job.id, revision=one.revision, effective=one.effective, note=_folded(one.note)
        )
    yield Released(
        job=job.id,
        revision=job.revision,
        effective=job.effective,
        approved_by=job.approved_by,
        note=_folded(job.change_note),
    )


def _folded(note: str) -> str:
    return " ".join(note.split())


def without_state(text: str, *, is_family: bool = False) -> str:
    """The text of a job's file without the keys that `benchleaf release` gives.

    In a family they stand in its breakdown, as far in as that is.
    """
    inside = _BREAKDOWN.search(text) if is_family else None
    indent = len(inside[1]) if inside else 0
    kept, is_state = [], False
    for line in text.splitlines(keepends=True):
        is_outside = bool(line.strip()) and bool(line[:indent].strip())
        if is_outside or _TOP.match(line, indent) or line.startswith("#", indent):
            is_state = not is_outside and bool(_STATE_KEY.match(line, indent))
        if not is_state:
            kept.append(line)
    return "".join(kept)
