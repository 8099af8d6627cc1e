"""V408: what a job says of its neighbours agrees with the states, and no state leads back."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Related, Sample, Severity
from benchleaf.model import Job, Shop

from ..places import Places
from ..rule import ShopRule

CODE = Code(
    "V408",
    "The states of a part contradict its route",
    why="Somebody waits for a part in a state in which it never comes.",
    instead=(
        "Take `operation_before` and `operation_after` out where the states tell the route, or "
        "correct what a job takes or leaves."
    ),
    bad=(
        Sample(
            """
            # The second job takes a plate that nobody has drilled.
            - file: jobs/vg-0020.yml
              find: "takes: drilled"
              put: "takes: sawn"
            """,
            """
            content/jobs/vg-0010.yml:33:18: error V408 VG-0010 hands on to VG-0020, but
                    leaves 'drilled', and VG-0020 takes 'sawn'
                take 'operation_after' out, or correct a state
                see also content/jobs/vg-0020.yml:11:8: the other side
            """,
        ),
        Sample(
            """
            # The plate goes round for ever.
            - file: jobs/vg-0020.yml
              find: "leaves: deburred"
              put: "leaves: sawn"
            """,
            """
            content/jobs/vg-0020.yml:12:9: error V408 the route goes round for ever: VG-0010
                    → VG-0020 → VG-0010
                give what a later job leaves a state of its own
                see also content/jobs/vg-0010.yml:12:9: leaves 'drilled'
            content/jobs/vg-0020.yml:35:15: warning V524 the route ends here, and goes on to
                    VG-0010
                take one of the two out
                where it does not fit this job: accept: [{code: V524, reason: ...}]
            content/parts/vg-r1.yml:14:9: note V410 no job leaves the state 'deburred' of
                    part VG-R1
                write that job, or take the state out
            """,
        ),
    ),
    good="""
        # The states alone tell the route.
        - file: jobs/vg-0010.yml
          find: |
            operation_after: VG-0020
          put: ""
        - file: jobs/vg-0020.yml
          find: |
            operation_before: VG-0010
          put: ""
    """,
)


_Taking = dict[tuple[str | None, str | None], list[Job]]
"""The jobs that take each state of each part."""


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """A finding for each pair of jobs that do not fit, and for each way round."""
    for job in shop.jobs.values():
        for key, other in _named(shop, job):
            first, then = (job, other) if key == "operation_after" else (other, job)
            is_told = key == "operation_before" and other.operation_after == job.id
            if contradict(shop, first, then) and not is_told:
                yield _contradiction(places, job, key, first, then)
    seen: set[str] = set()
    taking: _Taking = {}
    for job in shop.jobs.values():
        taking.setdefault((job.part, job.takes), []).append(job)
    for job in shop.jobs.values():
        ring = _ring(taking, job)
        if ring and not seen & set(ring):
            seen |= set(ring)
            yield _loop(places, [shop.jobs[one] for one in ring])


def contradict(shop: Shop, first: Job, then: Job) -> bool:
    """True where one job leaves another state of a part than the next one takes."""
    part = shop.parts.get(first.part or "")
    if part is None or then.part != part.id:
        return False
    left, taken = part.state(first.leaves), part.state(then.takes)
    return left is not None and taken is not None and left is not taken


def _named(shop: Shop, job: Job) -> Iterator[tuple[str, Job]]:
    for key in ("operation_before", "operation_after"):
        other = shop.jobs.get(getattr(job, key) or "")
        if other is not None and other is not job:
            yield key, other


def _contradiction(places: Places, job: Job, key: str, first: Job, then: Job) -> Finding:
    other, its = (then, "takes") if job is first else (first, "leaves")
    return Finding(
        CODE.id,
        Severity.ERROR,
        places.of("jobs", job.id, (key,)),
        f"{first.id.upper()} hands on to {then.id.upper()}, but leaves '{first.leaves}', and "
        f"{then.id.upper()} takes '{then.takes}'",
        (f"take '{key}' out, or correct a state",),
        (Related(places.of("jobs", other.id, (its,)), "the other side"),),
    )


def _ring(taking: _Taking, start: Job) -> list[str]:
    """The jobs that lead from one back to itself by what they take and leave; none where none."""
    ways, seen = [[start]], {start.id}
    while ways:
        way = ways.pop(0)
        left = way[-1].leaves
        if left is None or way[-1].takes == left:  # the second is told by itself
            continue
        for job in taking.get((start.part, left), ()):
            if job is start:
                return [one.id for one in way]
            if job.id not in seen:
                seen.add(job.id)
                ways.append([*way, job])
    return []


def _loop(places: Places, ring: list[Job]) -> Finding:
    names = " → ".join(one.id.upper() for one in (*ring, ring[0]))
    last = ring[-1]
    return Finding(
        CODE.id,
        Severity.ERROR,
        places.of("jobs", last.id, ("leaves",)),
        f"the route goes round for ever: {names}",
        ("give what a later job leaves a state of its own",),
        tuple(
            Related(places.of("jobs", one.id, ("leaves",)), f"leaves '{one.leaves}'")
            for one in ring[:-1]
        ),
    )


RULE = ShopRule(check, (CODE,))
