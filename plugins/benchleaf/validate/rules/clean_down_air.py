"""V603: air for clean-down is below the published pressure."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.model import Machine, Shop

from ..places import Places
from ..rule import ShopRule

CODE = Code(
    "V603",
    "Air for clean-down is at or above the allowed pressure",
    why=(
        "29 CFR 1910.242(b): below 30 psi (207 kPa) at the blocked nozzle, with chip guards and "
        "eye protection."
    ),
    instead="Use a nozzle or regulator below 207 kPa, or better a brush or vacuum.",
    bad=(
        Sample(
            """
            # Air at the allowed pressure, which is to be below it.
            - file: machines/bench-drill.yml
              find: "limits_source:"
              put: |-
                clean_down_air: 30 psi
                limits_source:
            """,
            """
            content/machines/bench-drill.yml:27:17: error V603 air for clean-down is 30 psi;
                    the rule asks for less than 30 psi (207 kPa)
                use a nozzle or regulator below it, or a brush or vacuum
            """,
        ),
    ),
    good="""
        # Air below the allowed pressure.
        - file: machines/bench-drill.yml
          find: "limits_source:"
          put: |-
            clean_down_air: 2 bar
            limits_source:
    """,
)

AIR_BELOW_KPA = 30 * 6.894757
"""29 CFR 1910.242(b), read: below 30 psi, static at the blocked nozzle (WAC 296-807-14020)."""


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """A finding for each machine with too much."""
    for machine in shop.machines.values():
        yield from _air(machine, places)


def _air(machine: Machine, places: Places) -> Iterator[Finding]:
    air = machine.clean_down_air
    if air is not None and air.value >= AIR_BELOW_KPA:
        yield Finding(
            CODE.id,
            Severity.ERROR,
            places.of("machines", machine.id, ("clean_down_air",)),
            f"air for clean-down is {air.text}; the rule asks for less than 30 psi (207 kPa)",
            ("use a nozzle or regulator below it, or a brush or vacuum",),
        )


RULE = ShopRule(check, (CODE,))
