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


_PARAGRAPHS = {
    LockoutStage.PREPARE: "(d)(1)",
    LockoutStage.SHUT_DOWN: "(d)(2)",
    LockoutStage.ISOLATE: "(d)(3)",
    LockoutStage.APPLY_LOCK: "(d)(4)",
    LockoutStage.RELEASE_ENERGY: "(d)(5)",
    LockoutStage.VERIFY: "(d)(6)",
    LockoutStage.CLEAR_PEOPLE: "(e)(1) and (e)(2)(i)",
    LockoutStage.REMOVE_LOCK: "(e)(3)",
    LockoutStage.TELL_PEOPLE: "(e)(2)(ii)",
}
"""Where 29 CFR 1910.147 asks for each stage."""


def _lockout(job: Job, places: Places) -> Iterator[Finding]:
    """Each stage once or more, in order; steps without a stage may stand between."""
    marked = [(n, step.lockout) for n, step in enumerate(job.steps) if step.lockout is not None]
    runs = [one for n, one in enumerate(marked) if n == 0 or one[1] is not marked[n - 1][1]]
    stages = [stage for _, stage in runs]
    if not stages or stages == list(LockoutStage):
        return
    missing = [stage for stage in LockoutStage if stage not in stages]
    stray = _stray(stages)
    said = []
    if missing:
        said.append("no step is " + ", ".join(f"'{one}' {_PARAGRAPHS[one]}" for one in missing))
    said += [_misplaced(stages, at) for at in stray]
    path = ("steps", runs[stray[0]][0], "lockout") if stray else ("steps",)
    yield Finding(
        "V604",
        Severity.ERROR,
        places.of("jobs", job.id, path),
        "lockout: " + "; ".join(said),
        (f"in order: {', '.join(LockoutStage)}", "the paragraphs are those of 29 CFR 1910.147"),
    )


def _stray(stages: list[LockoutStage]) -> list[int]:
    """The places of those that are out of order: the fewest, without which the rest is in order."""
    order = [list(LockoutStage).index(stage) for stage in stages]
    best: list[list[int]] = []
    for at, rank in enumerate(order):
        before = [kept for kept in best if order[kept[-1]] < rank]
        best.append([*max(before, key=len, default=[]), at])
    kept = max(best, key=len)
    return [at for at in range(len(stages)) if at not in kept]


def _misplaced(stages: list[LockoutStage], at: int) -> str:
    """What is wrong with the stage at that place."""
    stage, order = stages[at], list(LockoutStage)
    if stage in stages[:at]:
        return f"'{stage}' comes once more after '{stages[at - 1]}'"
    if at > 0 and order.index(stages[at - 1]) > order.index(stage):
        first = next(one for one in stages[:at] if order.index(one) > order.index(stage))
        return f"'{stage}' belongs before '{first}'"
    last = next(one for one in reversed(stages) if order.index(one) < order.index(stage))
    return f"'{stage}' belongs after '{last}'"
