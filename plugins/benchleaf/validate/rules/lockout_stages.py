"""V604: the stages of lockout are all there, in order."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.model import Job, LockoutStage, Shop

from ..places import Places
from ..rule import ShopRule


def _with_steps(*stages: str) -> str:
    """Edits of a sample: the job gets a step for each of these stages, and the steps addresses."""
    numbered = list(enumerate(stages, start=1))
    steps = "".join(
        f"""
      - id: lock-{number}
        title: Lock, part {number}
        lockout: {stage}
        key_points:
          - point: Do it yourself.
            reason: Nobody else knows your hands are inside.
            kind: makes or breaks the job"""
        for number, stage in numbered
    )
    addresses = "".join(f"\n      - jobs/vg-0020.html#lock-{number}" for number, _ in numbered)
    return f"""
- file: jobs/vg-0020.yml
  find: |2-
            kind: makes or breaks the job
    if_wrong:
  put: |2-
            kind: makes or breaks the job{steps}
    if_wrong:
- file: addresses.yml
  find: |2-
      - machines/index.html
  put: |2-
      - machines/index.html{addresses}
"""


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
    bad=(
        Sample(  # nobody verifies
            _with_steps(
                "prepare", "shut down", "isolate", "apply lock", "release stored energy",
                "clear people", "remove lock", "tell people",
            ),
            """
            content/jobs/vg-0020.yml:24:3: error V604 lockout: no step is 'verify' (d)(6)
                in order: prepare, shut down, isolate, apply lock, release stored energy,
                        verify, clear people, remove lock, tell people
                the paragraphs are those of 29 CFR 1910.147
            """,
        ),
        Sample(  # two stages change places
            _with_steps(
                "prepare", "isolate", "shut down", "apply lock", "release stored energy",
                "verify", "clear people", "remove lock", "tell people",
            ),
            """
            content/jobs/vg-0020.yml:46:14: error V604 lockout: 'shut down' belongs before
                    'isolate'
                in order: prepare, shut down, isolate, apply lock, release stored energy,
                        verify, clear people, remove lock, tell people
                the paragraphs are those of 29 CFR 1910.147
            """,
        ),
        Sample(  # the lock comes off before people are told, and nobody is told after it
            _with_steps(
                "prepare", "shut down", "isolate", "apply lock", "release stored energy",
                "verify", "remove lock", "clear people",
            ),
            """
            content/jobs/vg-0020.yml:81:14: error V604 lockout: no step is 'tell people'
                    (e)(2)(ii); 'clear people' belongs before 'remove lock'
                in order: prepare, shut down, isolate, apply lock, release stored energy,
                        verify, clear people, remove lock, tell people
                the paragraphs are those of 29 CFR 1910.147
            """,
        ),
    ),
    # one stage in two steps
    good=_with_steps(
        "prepare", "shut down", "isolate", "apply lock", "apply lock", "release stored energy",
        "verify", "clear people", "remove lock", "tell people",
    ),
)  # fmt: skip

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
