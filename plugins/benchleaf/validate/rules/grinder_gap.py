"""V601: the gaps of a grinder are within the published rule."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.model import Machine, Shop

from ..places import Places
from ..rule import ShopRule

CODE = Code(
    "V601",
    "A grinder's gap is wider than the rule allows",
    why=(
        "29 CFR 1910.215(a)(4) and (b)(9): work rest 1/8 in at most, tongue 1/4 in at most. A "
        "wider gap lets work or fingers be drawn in."
    ),
    instead="Set and state a gap within the rule: 3.2 mm and 6.4 mm at most.",
    bad=(
        Sample(
            """
            # A work rest too far from the wheel.
            - file: machines/bench-drill.yml
              find: "limits_source:"
              put: |-
                grinding:
                  work_rest_gap: 4 mm
                  tongue_gap: 6 mm
                  wheel_rated_speed: 3600 rpm
                  source: entered for the tests
                limits_source:
            """,
            """
            content/machines/bench-drill.yml:28:18: error V601 work_rest_gap is 4 mm; the
                    rule allows 1/8 in (3.2 mm) at most
                set the gap within the rule, with the wheel stopped
            """,
        ),
        Sample(
            """
            # A tongue too far from the wheel.
            - file: machines/bench-drill.yml
              find: "limits_source:"
              put: |-
                grinding:
                  work_rest_gap: 3 mm
                  tongue_gap: 7 mm
                  wheel_rated_speed: 3600 rpm
                  source: entered for the tests
                limits_source:
            """,
            """
            content/machines/bench-drill.yml:29:15: error V601 tongue_gap is 7 mm; the rule
                    allows 1/4 in (6.4 mm) at most
                set the gap within the rule, with the wheel stopped
            """,
        ),
    ),
    good="""
        # Gaps at the rule's limit.
        - file: machines/bench-drill.yml
          find: "limits_source:"
          put: |-
            grinding:
              work_rest_gap: 1/8 in
              tongue_gap: 1/4 in
              wheel_rated_speed: 3600 rpm
              source: entered for the tests
            limits_source:
    """,
)

WORK_REST_MOST_MM = 25.4 / 8
"""29 CFR 1910.215(a)(4), read: work rest 1/8 in from the wheel at most."""
TONGUE_MOST_MM = 25.4 / 4
"""29 CFR 1910.215(b)(9), read: upper tongue 1/4 in from the wheel at most."""


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """A finding for each gap that is too wide."""
    for machine in shop.machines.values():
        yield from _grinder(machine, places)


def _grinder(machine: Machine, places: Places) -> Iterator[Finding]:
    grinding = machine.grinding
    if grinding is None:
        return
    for key, most, words in (
        ("work_rest_gap", WORK_REST_MOST_MM, "1/8 in (3.2 mm)"),
        ("tongue_gap", TONGUE_MOST_MM, "1/4 in (6.4 mm)"),
    ):
        gap = getattr(grinding, key)
        if gap.value > most:
            yield Finding(
                CODE.id,
                Severity.ERROR,
                places.of("machines", machine.id, ("grinding", key)),
                f"{key} is {gap.text}; the rule allows {words} at most",
                ("set the gap within the rule, with the wheel stopped",),
            )


RULE = ShopRule(check, (CODE,))
