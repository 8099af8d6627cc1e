"""V421: in lists for new people the safety preface stands before the first job."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.model import DoneWhen, Onboarding, Shop

from ..places import Places
from ..rule import ShopRule

CODE = Code(
    "V421",
    "A list comes to a job before the safety preface is signed",
    why="Nobody starts a machine before they have explained the shop's safety rules back.",
    instead="Put the preface before the first job, explained back and signed.",
    bad=(
        Sample(
            """
            # The preface is only read.
            - file: onboarding/first-days.yml
              find: |2
                      - page: safety.md
                        done_when: explained back
              put: |2
                      - page: safety.md
                        done_when: read
            """,
            """
            content/onboarding/first-days.yml:27:14: error V421 VG-0010 comes before the
                    safety preface is explained back and signed
                put before it: page: safety.md, done_when: explained back, signed_by: [trainer]
            """,
        ),
        Sample(
            """
            # The preface is explained back, and nobody signs for it.
            - file: onboarding/first-days.yml
              find: |2
                        done_when: explained back
                        signed_by:
                          - learner
                          - trainer
              put: |2
                        done_when: explained back
            """,
            """
            content/onboarding/first-days.yml:24:14: error V421 VG-0010 comes before the
                    safety preface is explained back and signed
                put before it: page: safety.md, done_when: explained back, signed_by: [trainer]
            """,
        ),
    ),
    good="""
        # The trainer alone signs.
        - file: onboarding/first-days.yml
          find: |2
                    done_when: explained back
                    signed_by:
                      - learner
                      - trainer
          put: |2
                    done_when: explained back
                    signed_by:
                      - trainer
    """,
)


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """A finding for each list that comes to a job too early."""
    for one in shop.onboarding.values():
        yield from _preface_first(shop, places, one)


def _preface_first(shop: Shop, places: Places, one: Onboarding) -> Iterator[Finding]:
    """The safety preface, explained back and signed, stands before the first job."""
    preface = shop.manual.preface
    if preface not in shop.pages:  # V404 says so already
        return
    for stage, line, item in one.items():
        if item.page == preface and item.done_when is DoneWhen.EXPLAINED_BACK and item.signed_by:
            return
        if item.job is not None:
            yield Finding(
                CODE.id,
                Severity.ERROR,
                places.of("onboarding", one.id, ("stages", stage, "items", line, "job")),
                f"{item.job.upper()} comes before the safety preface is explained back and signed",
                (
                    f"put before it: page: {preface}, done_when: {DoneWhen.EXPLAINED_BACK}, "
                    "signed_by: [trainer]",
                ),
            )
            return


RULE = ShopRule(check, (CODE,))
