"""V602: a grinding wheel turns no faster than it is marked for."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.model import Machine, Shop

from ..places import Places
from ..rule import ShopRule

CODE = Code(
    "V602",
    "A grinding wheel turns faster than it is marked for",
    why=(
        "29 CFR 1910.215(d)(1): the wheel's rating is at least the spindle's speed. A wheel run "
        "too fast bursts."
    ),
    instead="Fit a wheel that is marked for the spindle's speed or more.",
    bad=(
        Sample(
            """
            # A wheel marked for less than the spindle's speed.
            - file: machines/bench-drill.yml
              find: "limits_source:"
              put: |-
                grinding:
                  work_rest_gap: 3 mm
                  tongue_gap: 6 mm
                  wheel_rated_speed: 1400 rpm
                  source: entered for the tests
                limits_source:
            """,
            """
            content/machines/bench-drill.yml:30:22: error V602 the wheel is marked for 1400
                    rpm; the spindle turns at 1500 rpm
                fit a wheel marked for the spindle's speed or more
            """,
        ),
    ),
    good="""
        # A wheel marked for the spindle's speed.
        - file: machines/bench-drill.yml
          find: "limits_source:"
          put: |-
            grinding:
              work_rest_gap: 3 mm
              tongue_gap: 6 mm
              wheel_rated_speed: 1500 rpm
              source: entered for the tests
            limits_source:
    """,
)


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """A finding for each wheel that would be run too fast."""
    for machine in shop.machines.values():
        yield from _wheel(machine, places)


def _wheel(machine: Machine, places: Places) -> Iterator[Finding]:
    if machine.grinding is None:
        return
    rated = machine.grinding.wheel_rated_speed.value
    fastest = max((speed.value for speed in machine.spindle_speeds), default=0)
    if fastest > rated:
        yield Finding(
            CODE.id,
            Severity.ERROR,
            places.of("machines", machine.id, ("grinding", "wheel_rated_speed")),
            f"the wheel is marked for {rated:.0f} rpm; the spindle turns at {fastest:.0f} rpm",
            ("fit a wheel marked for the spindle's speed or more",),
        )


RULE = ShopRule(check, (CODE,))
