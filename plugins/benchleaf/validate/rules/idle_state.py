"""V410: each state between the first and the last is left by one job and taken by another."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.model import Job, Part, Shop

from ..places import Places
from ..rule import ShopRule
from .route_by_states import contradict

CODE = Code(
    "V410",
    "A state that no job leaves, or none takes",
    why="The route has a gap there: a breakdown is still to be written, or a state is left over.",
    instead="Write the job that leaves or takes it, or take the state out.",
    bad=(
        Sample(
            """
            # Nobody washes the plate.
            - file: parts/vg-r1.yml
              find: "  - id: deburred"
              put: |2
                  - id: washed
                    name: Washed plate
                    looks_like: plate without oil
                  - id: deburred
            """,
            """
            content/parts/vg-r1.yml:14:9: note V410 no job leaves or takes the state
                    'washed' of part VG-R1
                write that job, or take the state out
            """,
        ),
    ),
    good="""
        # The first state comes from outside, the last goes to the store.
        - file: parts/vg-r1.yml
          find: "name: Sawn blank"
          put: "name: Blank"
    """,
)


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """A note for each such state of a part that jobs work on."""
    if any(kind == "jobs" for kind, _ in places.unbuilt):  # one of them may leave or take it
        return
    on_part: dict[str | None, list[Job]] = {}
    for job in shop.jobs.values():
        on_part.setdefault(job.part, []).append(job)
    for part in shop.parts.values():
        jobs = on_part.get(part.id, [])
        if not jobs or any(_is_wrong(shop, part, one) for one in jobs):
            continue
        taken, left = {one.takes for one in jobs}, {one.leaves for one in jobs}
        for at, state in enumerate(part.states):
            lacks = _lacks(part, at, is_taken=state.id in taken, is_left=state.id in left)
            if lacks:
                yield Finding(
                    CODE.id,
                    Severity.NOTE,
                    places.of("parts", part.id, ("states", at, "id")),
                    f"no job {lacks} the state '{state.id}' of part {part.number}",
                    ("write that job, or take the state out",),
                )


def _is_wrong(shop: Shop, part: Part, job: Job) -> bool:
    """True where an error about the states of a job is told already, or none is known."""
    after = shop.jobs.get(job.operation_after or "")
    return (
        job.id in shop.copied
        or part.state(job.takes) is None
        or (job.leaves is not None and part.state(job.leaves) is None)
        or job.takes == job.leaves
        or (after is not None and contradict(shop, job, after))
    )


def _lacks(part: Part, at: int, *, is_taken: bool, is_left: bool) -> str:
    """What no job does with a state; the first is left by nobody, the last taken by nobody."""
    is_first, is_last = at == 0, at == len(part.states) - 1
    no_leaver, no_taker = not is_left and not is_first, not is_taken and not is_last
    if no_leaver and no_taker:
        return "leaves or takes"
    return "leaves" if no_leaver else "takes" if no_taker else ""


RULE = ShopRule(check, (CODE,))
