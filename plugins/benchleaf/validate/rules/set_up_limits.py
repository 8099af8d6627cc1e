"""S501 to S509: what the computed set-ups found against limits, and what could not be computed."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.compute import OUT_OF_RANGE, SetUpSheet, set_up_sheets
from benchleaf.diagnose import Finding, Severity
from benchleaf.model import Job, Shop

from ..places import Places


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """Stops, missing factors and cautions of every set-up."""
    for job in shop.jobs.values():
        index_of = {set_up.id: index for index, set_up in enumerate(job.set_ups)}
        for sheet in set_up_sheets(shop, job):
            yield from _stops(job, sheet, places)
            yield from _others(job, sheet, index_of[sheet.id], places)


def _stops(job: Job, sheet: SetUpSheet, places: Places) -> Iterator[Finding]:
    for stop in sheet.stops:
        yield Finding(
            stop.code,
            Severity.STOP,
            places.of("jobs", job.id, stop.path),
            f"do not run {job.id.upper()} ({sheet.id}): {stop.reason}",
            (stop.cure,),
        )


_STOPPED_ROW = {"S501": "spindle_speed", "S506": "holding"}
"""Rows whose being not computed is the stop itself, told once."""


def _others(job: Job, sheet: SetUpSheet, index: int, places: Places) -> Iterator[Finding]:
    place = places.of("jobs", job.id, ("set_ups", index))
    stopped = {_STOPPED_ROW.get(stop.code) for stop in sheet.stops}
    for row in sheet.rows:
        if sheet.stops and row.missing.startswith(OUT_OF_RANGE):
            continue  # the stop says what is out of range
        if row.figure is None and not row.missing.endswith(" above") and row.key not in stopped:
            yield Finding(
                "S507",
                Severity.WARNING,
                place,
                f"{sheet.id}: '{row.label}' is not computed: {row.missing} is missing",
                (f"enter it: {row.missing}", "until then the page says 'not computed'"),
            )
    for doubt in () if job.accepts("S509") else sheet.doubts:
        yield Finding(
            "S509",
            Severity.WARNING,
            place,
            f"{sheet.id}: {doubt}",
            ("change the value, or write accept: [{code: S509, reason: ...}] in the job",),
        )
