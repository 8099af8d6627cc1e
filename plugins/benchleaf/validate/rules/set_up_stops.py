"""S501 to S511: limits that set-ups break. Each code is declared where it is reckoned."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.compute import SetUpSheet
from benchleaf.diagnose import Finding, Severity

from ..case import JobCase
from ..rule import JobRule


def check(case: JobCase) -> Iterator[Finding]:
    """The stops of every set-up."""
    for sheet in case.sheets:
        yield from _stops(case, sheet.as_read)


def _stops(case: JobCase, sheet: SetUpSheet) -> Iterator[Finding]:
    for stop in sheet.stops:
        yield Finding(
            stop.code,
            Severity.STOP,
            case.place(*stop.path),
            f"do not run {case.job.id.upper()} ({sheet.id}): {stop.reason}",
            (stop.cure,),
        )


RULE = JobRule(check, ())
