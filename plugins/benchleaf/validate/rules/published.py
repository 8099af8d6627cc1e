"""V601 to V604: published rules on grinders, clean-down air and lockout."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding, Severity
from benchleaf.model import Job, LockoutStage, Machine, Shop

from ..places import Places

WORK_REST_MOST_MM = 25.4 / 8
"""29 CFR 1910.215(a)(4), read: work rest 1/8 in from the wheel at most."""
TONGUE_MOST_MM = 25.4 / 4
"""29 CFR 1910.215(b)(9), read: upper tongue 1/4 in from the wheel at most."""
AIR_BELOW_KPA = 30 * 6.894757
"""29 CFR 1910.242(b), read: below 30 psi, static at the blocked nozzle (WAC 296-807-14020)."""


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """Findings about machines and servicing jobs."""
    for machine in shop.machines.values():
        yield from _grinder(machine, places)
        yield from _air(machine, places)
    for job in shop.jobs.values():
        yield from _lockout(job, places)


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
                "V601",
                Severity.ERROR,
                places.of("machines", machine.id, ("grinding", key)),
                f"{key} is {gap.text}; the rule allows {words} at most",
                ("set the gap within the rule, with the wheel stopped",),
            )
    yield from _wheel_speed(machine, grinding.wheel_rated_speed.value, places)


def _wheel_speed(machine: Machine, rated: float, places: Places) -> Iterator[Finding]:
    fastest = max((speed.value for speed in machine.spindle_speeds), default=0)
    if fastest > rated:
        yield Finding(
            "V602",
            Severity.ERROR,
            places.of("machines", machine.id, ("grinding", "wheel_rated_speed")),
            f"the wheel is marked for {rated:.0f} rpm; the spindle turns at {fastest:.0f} rpm",
            ("fit a wheel marked for the spindle's speed or more",),
        )


def _air(machine: Machine, places: Places) -> Iterator[Finding]:
    air = machine.clean_down_air
    if air is not None and air.value >= AIR_BELOW_KPA:
        yield Finding(
            "V603",
            Severity.ERROR,
            places.of("machines", machine.id, ("clean_down_air",)),
            f"air for clean-down is {air.text}; the rule asks for less than 30 psi (207 kPa)",
            ("use a nozzle or regulator below it, or a brush or vacuum",),
        )


def _lockout(job: Job, places: Places) -> Iterator[Finding]:
    """Each stage once or more, in order; steps without a stage may stand between."""
    stages = [step.lockout for step in job.steps if step.lockout is not None]
    if not stages:
        return
    in_order = [stage for n, stage in enumerate(stages) if n == 0 or stage is not stages[n - 1]]
    if in_order != list(LockoutStage):
        written = ", ".join(in_order)
        yield Finding(
            "V604",
            Severity.ERROR,
            places.of("jobs", job.id, ("steps",)),
            f"the stages of lockout are {written}",
            (f"in order: {', '.join(LockoutStage)}",),
        )
