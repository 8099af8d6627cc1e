"""V519: equipment worn is the last resort, never the only control of a hazard."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.model import Hazard, Record, Shop

from ..places import Places
from ..rule import RecordRule

CODE = Code(
    "V519",
    "Equipment worn is the only control of a hazard",
    why=(
        "In the published order of controls (MIL-STD-882E 4.3.4, ISO 45001 8.1.2) equipment worn "
        "comes last: it is what is left when the rest has failed."
    ),
    instead="Name what is designed out, guarded, warned of or done another way.",
    bad=(
        Sample(
            """
            # Glasses alone.
            - file: hazards/work-turns.yml
              find: |2
                  guard:
                    - The vice is bolted to the table and holds the plate.
                  procedure:
                    - Push against the clamped plate before each start.
              put: ''
            """,
            """
            content/hazards/work-turns.yml:12:3: warning V519 equipment worn is the only
                    control of the hazard 'work-turns'
                name what stands before it: design_out, guard, warn or procedure
                where there is no other: accept: [{code: V519, reason: ...}] in the hazard
            """,
        ),
    ),
    good="""
        # Accepted with a reason.
        - file: hazards/work-turns.yml
          find: |2
              guard:
                - The vice is bolted to the table and holds the plate.
              procedure:
                - Push against the clamped plate before each start.
          put: ''
        - file: hazards/work-turns.yml
          find: 'source: US OSHA'
          put: |-
            accept: [{code: V519, reason: The plate is too small for a guard}]
            source: US OSHA
    """,
)


def check(
    shop: Shop, places: Places, kind: str, record_id: str, record: Record
) -> Iterator[Finding]:
    """A finding for a hazard whose controls are only worn, or none at all."""
    if not isinstance(record, Hazard) or any(one.code.upper() == CODE.id for one in record.accept):
        return
    controls = record.controls
    if controls.design_out or controls.guard or controls.warn or controls.procedure:
        return
    found = "equipment worn is the only control" if controls.wear else "no control is named"
    yield Finding(
        CODE.id,
        Severity.WARNING,
        places.of(kind, record_id, ("controls",)),
        f"{found} of the hazard '{record.id}'",
        (
            "name what stands before it: design_out, guard, warn or procedure",
            "where there is no other: accept: [{code: V519, reason: ...}] in the hazard",
        ),
    )


RULE = RecordRule(check, (CODE,))
