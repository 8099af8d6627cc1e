"""What a change of one job asks for, the gravest first: from the content before and after."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf import pipeline
from benchleaf.compute import set_up_sheets
from benchleaf.meaning import moves, statements, verdict

MOST = 5
"""Lines that are told of one job."""


def told_of(before: pipeline.Loaded | None, now: pipeline.Loaded, job_id: str) -> Iterator[str]:
    """One line a statement that moved; nothing where the content before is not known."""
    if before is None or job_id not in before.shop.jobs:
        return
    meanings = [
        statements(one.shop, one.shop.jobs[job_id], set_up_sheets(one.shop, one.shop.jobs[job_id]))
        for one in (before, now)
    ]
    rule = now.shop.manual.retraining
    found = sorted((verdict(one, rule) for one in moves(*meanings)), key=lambda one: one.what.rank)
    yield from (f"{one.what.value}: {one.why}" for one in found[:MOST])
    if len(found) > MOST:
        yield f"and {len(found) - MOST} more"
