"""One hole on its way through the jobs of a part: who made it, and what the next cut asks of it.

Numbers and records only; the rules on routes say what follows. A hole is known again by the drill
that a set-up names, else by its diameter.
"""

from __future__ import annotations

from dataclasses import dataclass

from benchleaf.formulas import reaming, sinking, tap_drills, threads
from benchleaf.model import (
    CounterboringSetUp,
    CountersinkingSetUp,
    DrillingSetUp,
    HoleKind,
    Job,
    ReamingSetUp,
    SetUp,
    Shop,
    TappingSetUp,
    Tool,
)

SAME_MM = 0.05
"""Holes closer in diameter than this are taken for one size. Our own judgement: metric drills step
by 0.1 mm."""
LOOSEST_PILOT_MM = 0.5
"""How much wider than its pilot a hole may be and still guide a counterbore. Our own judgement: it
is the step between two clearance series of ISO 273 up to M5; maker's fits are far closer."""


@dataclass(frozen=True, slots=True)
class Made:
    """A hole that a set-up makes."""

    job: Job
    index: int
    """Of the set-up in its job."""
    set_up: DrillingSetUp | ReamingSetUp
    tool: Tool
    mm: float
    """Diameter of drill or reamer."""

    @property
    def is_blind(self) -> bool:
        """True for a drilled hole that does not go through."""
        return isinstance(self.set_up, DrillingSetUp) and self.set_up.hole is HoleKind.BLIND

    @property
    def depth_mm(self) -> float | None:
        """How deep the full diameter goes; the thickness where it goes through flat work."""
        one = self.set_up
        if isinstance(one, ReamingSetUp):
            return one.depth.value
        size = one.depth if self.is_blind else one.thickness
        return None if size is None else size.value


def jobs_before(shop: Shop, job: Job) -> tuple[Job, ...]:
    """The jobs that come before one on the route of its part, the first one first."""
    found: list[Job] = []
    seen = {job.id}
    before = shop.jobs.get(job.operation_before or "")
    while before is not None and before.id not in seen:
        seen.add(before.id)
        found.append(before)
        before = shop.jobs.get(before.operation_before or "")
    return tuple(reversed(found))


def holes_before(shop: Shop, job: Job, index: int) -> tuple[Made, ...]:
    """Every hole that is there when a set-up of a job begins, in the order they are made."""
    made = [
        one
        for before in jobs_before(shop, job)
        for place in range(len(before.set_ups))
        if (one := _made(shop, before, place)) is not None
    ]
    made += [one for place in range(index) if (one := _made(shop, job, place)) is not None]
    return tuple(made)


def _made(shop: Shop, job: Job, index: int) -> Made | None:
    set_up = job.set_ups[index]
    tool = shop.tools.get(set_up.tool)
    if not isinstance(set_up, DrillingSetUp | ReamingSetUp) or tool is None or tool.size is None:
        return None
    return Made(job, index, set_up, tool, tool.size.value)


def named_drill(operation: SetUp) -> str | None:
    """The drill that made the hole, where a set-up names it."""
    return operation.hole_drill if isinstance(operation, TappingSetUp | ReamingSetUp) else None


def size_wanted_mm(operation: SetUp) -> tuple[float, float] | None:
    """Smallest and largest hole that a set-up is laid out for, where it says so by a size."""
    if isinstance(operation, DrillingSetUp) and operation.pilot is not None:
        return operation.pilot.value - SAME_MM, operation.pilot.value + SAME_MM
    if isinstance(operation, CountersinkingSetUp):
        size = operation.hole_diameter.value
        return size - SAME_MM, size + SAME_MM
    pilot = seat_pilot_mm(operation)
    return None if pilot is None else (pilot - SAME_MM, pilot + LOOSEST_PILOT_MM)


def seat_pilot_mm(operation: SetUp) -> float | None:
    """Hole that the pilot of a counterbore runs in; None for a screw that no table has."""
    if not isinstance(operation, CounterboringSetUp):
        return None
    try:
        return sinking.counterbore(operation.screw, 0.0).pilot_mm
    except ValueError:
        return None


def makers(made: tuple[Made, ...], operation: SetUp) -> tuple[Made, ...]:
    """Those holes that a set-up may mean, by the drill it names or the size it is laid out for."""
    drill, sizes = named_drill(operation), size_wanted_mm(operation)
    if drill is not None:
        return tuple(one for one in made if one.tool.id == drill)
    if sizes is None:
        return ()
    low, high = sizes
    return tuple(one for one in made if low <= round(one.mm, 4) <= high)


@dataclass(frozen=True, slots=True)
class ThreadDepth:
    """What a thread asks of the hole before it."""

    length_mm: float
    least_mm: float
    """With the shortest lead of such a tap and no room: below it the tap meets the bottom."""
    wanted_mm: float
    """With the longest lead and a pitch of room."""


def thread_depth(operation: TappingSetUp) -> ThreadDepth:
    """Depth of the full diameter that a blind thread needs."""
    length, lead = operation.thread_length.value, tap_drills.TAP_CHAMFER[operation.tap.value]
    wanted = tap_drills.blind_tap_depth_mm(
        operation.thread, length, lead.high_pitches, tap_drills.LEAST_CLEARANCE_PITCHES
    )
    return ThreadDepth(length, length + lead.low_pitches * operation.thread.pitch_mm, wanted)


def hole_limits_mm(shop: Shop, operation: SetUp) -> tuple[float, float] | None:
    """Smallest and largest hole, as it is measured, that the next cut can take on."""
    if isinstance(operation, TappingSetUp):
        limits = threads.minor_limits_mm(operation.thread)
        return None if limits is None else (limits.low_mm, limits.high_mm)
    if isinstance(operation, ReamingSetUp):
        tool = shop.tools.get(operation.tool)
        if tool is None or tool.size is None:
            return None
        if not reaming.REAMER_RANGE_MM[0] <= tool.size.value <= reaming.REAMER_RANGE_MM[1]:
            return None
        drill = reaming.hole_before_reaming_mm(tool.size.value, light_metal=operation.light_metal)
        # The hole is what is gauged, and a drill cuts so much over.
        over = reaming.DRILL_OVERSIZE_MM
        return drill.smallest_mm + over, drill.largest_mm + over
    return None


def chisel_mm(tool: Tool) -> float | None:
    """Length of a drill's chisel edge."""
    if tool.size is None or tool.chisel_ratio is None:
        return None
    return tool.size.value * tool.chisel_ratio


FLAT_HEAD_SHARE = (1.8, 2.5)
"""Flat heads over their screw's diameter. Our own judgement: lists of metric flat heads run from
2.0 to 2.3, so what lies outside is the head of another screw."""


def head_share(operation: SetUp, made: Made) -> float | None:
    """Head of a flat screw over the diameter of the screw that the hole lets through."""
    if not isinstance(operation, CountersinkingSetUp) or operation.head is None:
        return None
    screw = clearance_screw(made)
    return None if screw is None else operation.head.value / screw.major_mm


def clearance_screw(made: Made) -> threads.Thread | None:
    """The screw that a hole lets through, where its set-up says so."""
    return made.set_up.clearance_for if isinstance(made.set_up, DrillingSetUp) else None
