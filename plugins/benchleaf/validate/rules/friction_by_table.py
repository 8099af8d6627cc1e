"""V546: a friction at the jaws is no larger than a published table's, or has a source of its own.

The tables are jaw-table and jaw-wet in `formulas/sources.py`.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.compute import SetUpSheet, break_through, holding
from benchleaf.compute.grip import Grip, grip_of, with_table
from benchleaf.compute.holding import capacity_of
from benchleaf.compute.worst import no_less, no_more
from benchleaf.diagnose import Code, Finding, Sample
from benchleaf.formulas.spread import friction_times
from benchleaf.model import Holding, KeyPath, Material, WorkSurface

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V546",
    "The friction at the jaws is more than a published table gives",
    why=(
        "Friction is the figure that nobody sees. One that is guessed too high makes loose work "
        "look held: smooth jaws on machined steel have 0.10, and fluid takes a sixth of it."
    ),
    instead=(
        "Leave friction out and write work_surface, for the table's figure; or write "
        "friction_source, where it was tried out."
    ),
    bad=(
        Sample(
            """
            # Twice the table's friction, and nobody tried it out.
            - file: jobs/vg-0010.yml
              find: "friction: 0.15"
              put: "friction: 0.25"
            """,
            """
            content/jobs/vg-0010.yml:27:15: warning V546 friction 0.25 is more than the
                    table's 0.15 for unmachined steel in smooth jaws; 0.15 is reckoned with,
                    unmeasured
                write friction_source: where it was tried out; or take the table's
                where it does not fit this job: accept: [{code: V546, reason: ...}]
            """,
        ),
        Sample(
            """
            # Enough for rolled bar, and too little for bright bar, after a pilot hole.
            - file: jobs/vg-0010.yml
              find: "arm: 40 mm"
              put: "arm: 14 mm"
            - file: jobs/vg-0010.yml
              find: "    start_clearance: 3 mm"
              put: |2-
                    pilot: 2 mm
                    start_clearance: 3 mm
            """,
            """
            content/jobs/vg-0010.yml:26:5: warning V546 guide-hole is held if the work is
                    unmachined; machined work in smooth jaws is held with 23 N m, and 24 N m is
                    wanted
                write work_surface: unmachined, machined or ground
                where it does not fit this job: accept: [{code: V546, reason: ...}]
            """,
        ),
    ),
    good="""
        # A friction of one's own, with its source.
        - file: jobs/vg-0010.yml
          find: "friction: 0.15"
          put: |-
            friction: 0.2
                friction_source: pull trial with a wet plate, the lowest of ten, for the tests
    """,
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each clamping whose friction is above the table, or hangs on a surface."""
    material = case.shop.material_of(case.job)
    for path, held in case.holdings:
        if held.clamping is None:
            continue
        grip = grip_of(held.clamping, case.job, material)
        entered = held.clamping.friction
        if not grip.is_entered and entered is not None:
            yield from _above(case, path, entered, grip)
        elif held.clamping.work_surface is None and not grip.is_measured:
            yield from _by_surface(case, path, held, material)


def _above(case: JobCase, path: KeyPath, entered: float, grip: Grip) -> Iterator[Finding]:
    yield from case.practice(
        CODE,
        (*path, "clamping", "friction"),
        f"friction {entered:g} is more than the table's {grip.table:.2f} for {grip.work} "
        f"{grip.metal} in {grip.jaws} jaws; {grip.table:.2f} is reckoned with, unmeasured",
        "write friction_source: where it was tried out; or take the table's",
    )


_STOPPED = (holding.TOO_WEAK.id, break_through.GIVES_WAY.id)
"""Stops that already ask for more holding."""


def _by_surface(
    case: JobCase, path: KeyPath, held: Holding, material: Material | None
) -> Iterator[Finding]:
    """Held only if the work is unmachined, and nothing says that it is."""
    for sheet in _judged_by(case, path):
        wanted, capacity = _needed(sheet, held, case), sheet.found.capacity
        if wanted is None or capacity is None or any(one.code in _STOPPED for one in sheet.stops):
            continue
        worse = capacity_of(with_table(held, case.job, material, WorkSurface.MACHINED)) or 0.0
        if worse < wanted <= capacity:
            yield from case.practice(
                CODE,
                (*path, "clamping"),
                f"{sheet.id} is held if the work is unmachined; machined work in smooth jaws is "
                f"held with {no_more(worse, 'N m')}, and {no_less(wanted, 'N m')} is wanted",
                "write work_surface: unmachined, machined or ground",
            )
            return


def _needed(sheet: SetUpSheet, held: Holding, case: JobCase) -> float | None:
    """What machined work would have to resist: tables agree better about it, so it may be less."""
    found, clamping = sheet.found, held.clamping
    if found.wanted is None or found.needed is None or clamping is None:
        return None
    jaws, is_wet = clamping.jaw_surface.value, case.job.fluid is not None
    machined, taken = (
        friction_times(work.value, jaws, is_measured=False, is_wet=is_wet)
        for work in (WorkSurface.MACHINED, WorkSurface.UNMACHINED)
    )
    return max(found.wanted, found.needed * machined / taken)


def _judged_by(case: JobCase, path: KeyPath) -> Iterator[SetUpSheet]:
    """The sheets that this holding is compared in."""
    own = {one.id for one in case.job.set_ups if one.holding is not None}
    for index, set_up in enumerate(case.job.set_ups):
        where = ("set_ups", index, "holding") if set_up.id in own else ("holding",)
        if path == where:
            yield from (sheet for sheet in case.sheets if sheet.id == set_up.id)


RULE = JobRule(check, (CODE,))
