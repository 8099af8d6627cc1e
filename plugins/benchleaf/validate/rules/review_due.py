"""V526: a breakdown is read again at the machine as often as the shop's rule asks."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from benchleaf.diagnose import Code, Finding, Sample

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V526",
    "A breakdown was not reviewed for longer than the shop allows",
    why=(
        "Machines, tools and habits change, and the page does not by itself (ISO 9001 7.5.3: no "
        "unintended use of what is out of date)."
    ),
    instead="Read it at the machine, mend it, and write the day under `reviewed`.",
    bad=(
        Sample(
            """
            # Two jobs last looked at long ago; the rule is six months.
            - file: manual.yml
              find: 'preface: safety.md'
              put: |-
                preface: safety.md
                review_months: 6
            - file: jobs/vg-0010.yml
              find: 'effective: 2026-03-02'
              put: 'effective: 2021-03-02'
            - file: jobs/vg-0020.yml
              find: 'effective: 2026-02-16'
              put: |-
                effective: 2021-02-16
                reviewed: 2022-02-16
            """,
            """
            content/jobs/vg-0010.yml:4:12: warning V526 last looked at on 2021-03-02; the
                    shop's rule is every 6 months
                read it at the machine, mend it, then write `reviewed: ` with the day
                where it does not fit this job: accept: [{code: V526, reason: ...}]
            content/jobs/vg-0020.yml:5:11: warning V526 last looked at on 2022-02-16; the
                    shop's rule is every 6 months
                read it at the machine, mend it, then write `reviewed: ` with the day
                where it does not fit this job: accept: [{code: V526, reason: ...}]
            """,
        ),
    ),
    good="""
        # Late, and each says why.
        - file: manual.yml
          find: 'preface: safety.md'
          put: |-
            preface: safety.md
            review_months: 6
        - file: jobs/vg-0010.yml
          find: 'effective: 2026-03-02'
          put: 'effective: 2021-03-02'
        - file: jobs/vg-0020.yml
          find: 'effective: 2026-02-16'
          put: 'effective: 2021-02-16'
        - file: jobs/vg-0010.yml
          find: 'hand_on: Lay'
          put: |-
            accept: [{code: V526, reason: The drill stands still}]
            hand_on: Lay
        - file: jobs/vg-0020.yml
          find: 'hand_on: Stack'
          put: |-
            accept: [{code: V526, reason: The drill stands still}]
            hand_on: Stack
    """,
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding where the last review is too old, or is still to come."""
    job, months = case.job, case.shop.manual.review_months
    if job.reviewed is not None and job.reviewed > case.today:
        yield from case.practice(
            CODE,
            ("reviewed",),
            f"the review of {job.reviewed} has not taken place yet",
            "write the day on which it was read at the machine",
        )
    elif months is not None:
        key = "effective" if job.reviewed is None else "reviewed"
        last = job.reviewed or job.effective
        if later(last, months) < case.today:
            yield from case.practice(
                CODE,
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


RULE = JobRule(check, (CODE,))
