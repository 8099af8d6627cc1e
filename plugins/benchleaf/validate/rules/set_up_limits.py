"""S501 to S513: what the computed set-ups found against limits, and what could not be computed."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.compute import OUT_OF_RANGE, SetUpSheet
from benchleaf.diagnose import Finding, Severity

from ..case import JobCase


def check(case: JobCase) -> Iterator[Finding]:
    """Stops, missing factors and cautions of every set-up."""
    index_of = {set_up.id: index for index, set_up in enumerate(case.job.set_ups)}
    for sheet in case.sheets:
        yield from _stops(case, sheet)
        yield from _others(case, sheet, index_of[sheet.id])


def _stops(case: JobCase, sheet: SetUpSheet) -> Iterator[Finding]:
    for stop in sheet.stops:
        yield Finding(
            stop.code,
            Severity.STOP,
            case.place(*stop.path),
            f"do not run {case.job.id.upper()} ({sheet.id}): {stop.reason}",
            (stop.cure,),
        )


_STOPPED_ROW = {"S501": "spindle_speed", "S506": "holding"}
"""Rows whose being not computed is the stop itself, told once."""


def _others(case: JobCase, sheet: SetUpSheet, index: int) -> Iterator[Finding]:
    stopped = {_STOPPED_ROW.get(stop.code) for stop in sheet.stops}
    for row in sheet.rows:
        if row.is_optional or (sheet.stops and row.missing.startswith(OUT_OF_RANGE)):
            continue  # few have it; or the stop says what is out of range
        if row.figure is None and not row.missing.endswith(" above") and row.key not in stopped:
            yield Finding(
                "S507",
                Severity.WARNING,
                case.place("set_ups", index),
                f"{sheet.id}: '{row.label}' is not computed: {row.missing} is missing",
                (f"enter it: {row.missing}", "until then the page says 'not computed'"),
            )
    is_accepted = bool(sheet.doubts) and case.accepts("S509")
    for doubt in () if is_accepted else sheet.doubts:
        yield Finding(
            "S509",
            Severity.WARNING,
            case.place("set_ups", index),
            f"{sheet.id}: {doubt}",
            ("change the value, or write accept: [{code: S509, reason: ...}] in the job",),
        )
