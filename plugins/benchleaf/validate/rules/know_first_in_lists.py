"""V422: lists for new people forget no job that must be known first."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.model import DoneWhen, Onboarding, Shop

from ..places import Places
from ..rule import ShopRule

CODE = Code(
    "V422",
    "A list forgets a job that must be known first",
    why="The learner would do a job without what it builds on.",
    instead="Put that job before it, done alone, or name it under `already`.",
    bad=(
        Sample(
            """
            # The job before is only shown.
            - file: onboarding/first-days.yml
              find: |2
                      - job: VG-0010
                        done_when: done alone
              put: |2
                      - job: VG-0010
                        done_when: shown
            """,
            """
            content/onboarding/first-days.yml:35:14: warning V422 VG-0020 is done before the
                    learner can do VG-0010
                put it before with done_when: done alone
                or under already: where these people can do it before they begin
            """,
        ),
    ),
    good="""
        # These people can do the first job already.
        - file: onboarding/first-days.yml
          find: |2
                  - job: VG-0010
                    done_when: done alone
          put: |2
                  - job: VG-0010
                    done_when: shown
        - file: onboarding/first-days.yml
          find: |
            stages:
          put: |
            already:
              - VG-0010
            stages:
    """,
)

_BY_HAND = (DoneWhen.TRIED, DoneWhen.DONE_ALONE)
"""Items in which the learner does the job."""


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """Findings about every list."""
    for one in shop.onboarding.values():
        yield from _what_is_forgotten(shop, places, one)


def _what_is_forgotten(shop: Shop, places: Places, one: Onboarding) -> Iterator[Finding]:
    """Jobs to know first that the list neither has before, done alone, nor counts as known."""
    able = set(one.already)
    for stage, line, item in one.items():
        job_id = item.job
        if job_id is None or item.done_when not in _BY_HAND:
            continue
        wanted_first = (one for one in _know_first(shop, job_id) if one in shop.jobs)  # else L301
        forgotten = [wanted for wanted in wanted_first if wanted not in able]
        if forgotten:
            names = ", ".join(wanted.upper() for wanted in forgotten)
            yield Finding(
                CODE.id,
                Severity.WARNING,
                places.of("onboarding", one.id, ("stages", stage, "items", line, "job")),
                f"{job_id.upper()} is done before the learner can do {names}",
                (
                    f"put it before with done_when: {DoneWhen.DONE_ALONE}",
                    "or under already: where these people can do it before they begin",
                ),
            )
        if item.done_when is DoneWhen.DONE_ALONE and item.step is None:
            able.add(job_id)


def _know_first(shop: Shop, job_id: str) -> tuple[str, ...]:
    """Every job to know first, those of those too, the first to learn first."""
    found: dict[str, None] = {}

    def visit(one: str) -> None:
        job = shop.jobs.get(one)
        for wanted in job.know_first if job else ():
            if wanted not in found:
                found[wanted] = None
                visit(wanted)

    visit(job_id)
    return () if job_id in found else tuple(reversed(found))  # a ring is told by L302


RULE = ShopRule(check, (CODE,))
