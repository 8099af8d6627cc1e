"""V526: a breakdown is read again at the machine as often as the shop's rule asks."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from benchleaf.diagnose import Finding

from ..case import JobCase


def check(case: JobCase) -> Iterator[Finding]:
    """A finding where the last review is too old, or is still to come."""
    job, months = case.job, case.shop.manual.review_months
    if job.reviewed is not None and job.reviewed > case.today:
        yield from case.practice(
            "V526",
            ("reviewed",),
            f"the review of {job.reviewed} has not taken place yet",
            "write the day on which it was read at the machine",
        )
    elif months is not None:
        key = "effective" if job.reviewed is None else "reviewed"
        last = job.reviewed or job.effective
        if later(last, months) < case.today:
            yield from case.practice(
                "V526",
                (key,),
                f"last looked at on {last}; the shop's rule is every {months} months",
                "read it at the machine, mend it, then write `reviewed: ` with the day",
            )


def later(day: date, months: int) -> date:
    """The day so many months on; the last of a month where it has fewer days.

    >>> later(date(2025, 8, 31), 6)
    datetime.date(2026, 2, 28)
    """
    year, month = divmod(day.month - 1 + months, 12)
    for last in range(day.day, 27, -1):
        try:
            return date(day.year + year, month + 1, last)
        except ValueError:
            continue
    return date(day.year + year, month + 1, day.day)
