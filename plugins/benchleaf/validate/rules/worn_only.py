"""V519: equipment worn is the last resort, never the only control of a hazard."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding, Severity
from benchleaf.model import Hazard, Record, Shop

from ..places import Places


def check(
    shop: Shop, places: Places, kind: str, record_id: str, record: Record
) -> Iterator[Finding]:
    """A finding for a hazard whose controls are only worn, or none at all."""
    if not isinstance(record, Hazard) or any(one.code.upper() == "V519" for one in record.accept):
        return
    controls = record.controls
    if controls.design_out or controls.guard or controls.warn or controls.procedure:
        return
    found = "equipment worn is the only control" if controls.wear else "no control is named"
    yield Finding(
        "V519",
        Severity.WARNING,
        places.of(kind, record_id, ("controls",)),
        f"{found} of the hazard '{record.id}'",
        (
            "name what stands before it: design_out, guard, warn or procedure",
            "where there is no other: accept: [{code: V519, reason: ...}] in the hazard",
        ),
    )
