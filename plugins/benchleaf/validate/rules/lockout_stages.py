"""V604: the stages of lockout are all there, in order."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Severity
from benchleaf.model import Job, LockoutStage, Shop

from ..places import Places
from ..rule import ShopRule

CODE = Code(
    "V604",
    "The stages of lockout are not all there in order",
    why=(
        "29 CFR 1910.147(d)(1) to (d)(6): prepare, shut down, isolate, apply the lock, release "
        "stored energy, verify. (e)(1) and (e)(2)(i): all whole, people told and clear, before "
        "the lock comes off; (e)(3): only who put it on takes it off; (e)(2)(ii): told again "
        "before the start. One left out can start the machine on somebody."
    ),
    instead="Mark one step for each stage, in that order.",
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


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """A finding for each job with stages that are not all there in order."""
    for job in shop.jobs.values():
        yield from _lockout(job, places)


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
        CODE.id,
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


RULE = ShopRule(check, (CODE,))
