"""Break-through carried to its end: the torque of a kept pull against what the holding resists."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from benchleaf.diagnose import Code, Sample
from benchleaf.formulas import break_through as exit_of
from benchleaf.model import FeedStop, Holding, HoleKind

from . import figures_exit as figures
from .declaration import ends
from .feel import loads_of, open_ratio
from .figures_feel import CLAMPS, HOLDING, STOP
from .holding import NOT_SHOWN, TOO_WEAK
from .results import Side
from .sheet import Sheet, are_missing, known

GIVES_WAY = Code(
    "S512",
    "The holding gives way at break-through",
    why="A drill whose pull is kept screws itself into the last of the metal, and spins the work.",
    instead="Put a stop on the feed, use a pilot hole or a finer feed, or hold the work harder.",
    bad=(
        Sample(
            """
            # Held for the cut, and not for the grab at the end of it.
            - file: jobs/vg-0010.yml
              find: "    force: 6 kN"
              put: "    force: 3.5 kN"
            """,
            """
            content/jobs/vg-0010.yml:22:3: stop S512 do not run VG-0010 (guide-hole): if the
                    hand keeps its pull as the drill comes through, the torque can grow to 26.5 N m;
                    the holding resists 17.6 N m
                any one of these: a feed_stop at 0.45 mm/rev or finer; a finer feed, or a pilot
                    hole, with a pull of 66 % of this one or less; a clamp force of 5.3 kN; a
                    positive_stop that the work bears against
            """,
        ),
        Sample(
            """
            # A feed stop that lets too much through.
            - file: jobs/vg-0010.yml
              find: "    force: 6 kN"
              put: "    force: 3.5 kN"
            - file: jobs/vg-0010.yml
              find: "    start_clearance: 3 mm"
              put: |2
                    start_clearance: 3 mm
                    feed_stop:
                      how: The feed runs by power.
                      feed: 0.8 mm/rev
                      source: entered for the tests
            """,
            """
            content/jobs/vg-0010.yml:22:3: stop S512 do not run VG-0010 (guide-hole): if the
                    hand keeps its pull as the drill comes through, the torque can grow to 20.8 N m
                    with a feed stop at 0.8 mm/rev; the holding resists 17.6 N m
                any one of these: a feed_stop at 0.45 mm/rev or finer; a finer feed, or a pilot
                    hole, with a pull of 66 % of this one or less; a clamp force of 4.2 kN; a
                    positive_stop that the work bears against
            """,
        ),
    ),
    good="""
        # A vice that holds the work to the end.
        - file: jobs/vg-0010.yml
          find: "    force: 6 kN"
          put: "    force: 5.5 kN"
    """,
)


@dataclass(frozen=True, slots=True)
class _Pull:
    """What the hand presses with, and what it turns."""

    torque: float
    kept: float
    open_part: float
    feed: float

    @property
    def limit(self) -> float:
        return exit_of.exit_torque_limit_nm(self.torque, self.kept, self.open_part)

    def up_to(self, feed: float) -> tuple[float, float, float, float, float]:
        """What the figures at a feed are worked out from."""
        return self.torque, self.kept, self.open_part, self.feed, feed


def kept_to_the_end(sheet: Sheet) -> None:
    """How far the torque grows if nobody eases, and whether the work is still held."""
    if not comes_through(sheet):
        return
    found, chisel = sheet.drilled, sheet.case.tool.chisel_ratio
    if found.thrust is None or found.torque is None or chisel is None:
        for one in (figures.EXIT_TORQUE, figures.EXIT_AT_FEED):
            sheet.lacks(one, "thrust and torque above")
        if found.torque is not None and found.capacity is not None:
            _not_shown(sheet)
        return
    loads = loads_of(sheet)
    kept = exit_of.kept_ratio(found.thrust, loads.lips_n)
    pull = _Pull(found.torque, kept, open_ratio(sheet, chisel), known(found.feed))
    _rows(sheet, pull, (found.thrust, loads.lips_n))
    _judge(sheet, pull)


def comes_through(sheet: Sheet) -> bool:
    """A hole called blind is one only where the point is known to stay in the metal."""
    operation, stop = sheet.case.drilling, sheet.drilled.stop
    if operation.hole is HoleKind.THROUGH or stop is None:
        return True
    under = operation.wall or operation.thickness or operation.work_diameter
    return under is None or stop >= under.value


def _not_shown(sheet: Sheet) -> None:
    missing = next((one.missing for one in sheet.rows if one.key == "thrust"), "the thrust")
    sheet.stop(
        NOT_SHOWN,
        "the torque at break-through is not computed, so the holding is not shown to be enough: "
        f"{are_missing(missing)}",
        f"enter it: {missing}",
        sheet.case.holding_path,
    )


def _rows(sheet: Sheet, pull: _Pull, pressed: tuple[float, float]) -> None:
    ratio = figures.KEPT.sums(*pressed)
    limits, capacity = figures.EXIT_TORQUE.limits, sheet.found.capacity
    if capacity is not None:
        limits = f"{limits}; the holding resists {HOLDING.figure(capacity).text}"
    sheet.work(
        figures.EXIT_TORQUE, pull.torque, pull.kept, pull.open_part, beside=ratio, limits=limits
    )
    end = exit_of.END_FEED_MM_REV
    at_end = figures.exit_at_feed(pull.kept, pull.feed, end)
    limits = f"at {end:g} mm/rev, where the handbook's factors end"
    sheet.work(at_end, *pull.up_to(end), limits=limits)
    worst, stop = pull.limit, sheet.case.drilling.feed_stop
    if stop is not None:
        most = stop.feed.value
        held_back = figures.with_feed_stop(pull.kept, pull.feed, most)
        limits = f"at {stop.feed.text}, the coarsest feed that it lets through"
        also = f"feed stop: {stop.source}"
        worst = sheet.work(held_back, *pull.up_to(most), limits=limits, also=also)
    sheet.found = replace(sheet.drilled, exit_limit=pull.limit, exit_torque=worst)


def _judge(sheet: Sheet, pull: _Pull) -> None:
    capacity, worst = sheet.found.capacity, known(sheet.drilled.exit_torque)
    stop = sheet.case.drilling.feed_stop
    if capacity is None or any(one.code == TOO_WEAK.id for one in sheet.stops):
        return  # nobody may run it in any case
    if capacity < worst:
        _too_weak(sheet, pull, capacity, worst, stop)
    elif capacity < pull.limit:
        sheet.doubt(
            "feed-stop-only",
            Side.BELOW,
            "Only the feed stop keeps the work held at break-through: without it the torque can "
            f"grow to {figures.EXIT_TORQUE.figure(pull.limit).text}, and the holding resists "
            f"{HOLDING.figure(capacity).text}. Prove the feed stop before the first hole.",
        )


def _too_weak(
    sheet: Sheet, pull: _Pull, capacity: float, worst: float, stop: FeedStop | None
) -> None:
    by = f" with a feed stop at {stop.feed.text}" if stop else ""
    sheet.stop(
        GIVES_WAY,
        "if the hand keeps its pull as the drill comes through, the torque can grow to "
        f"{worst:.1f} N m{by}; the holding resists {capacity:.1f} N m",
        f"any one of these: {'; '.join(_ways_out(sheet, pull, capacity, worst))}",
        sheet.case.holding_path,
    )


def _ways_out(sheet: Sheet, pull: _Pull, capacity: float, worst: float) -> list[str]:
    """What a stop on the feed, a smaller pull and a tighter holding each ask, to the safe side."""
    held = sheet.case.holding
    assert held is not None  # it has a capacity
    most = exit_of.most_feed_mm_rev(
        pull.torque, pull.kept, pull.open_part, pull.feed, max(capacity, pull.torque)
    )
    ways = [f"a feed_stop at {math.floor(100 * most) / 100:.2f} mm/rev or finer"]
    # The limit is in proportion to the pull; what a feed stop lets through falls more slowly.
    less = math.floor(100 * capacity / pull.limit)
    by = "a finer feed" if sheet.case.drilling.pilot else "a finer feed, or a pilot hole,"
    ways.append(f"{by} with a pull of {less} % of this one or less")
    return ways + _tighter(held, worst)


def _tighter(held: Holding, worst: float) -> list[str]:
    """The clamp force and the stop that would resist the torque."""
    ways = []
    if held.clamping is not None:
        one = held.clamping
        resisted = CLAMPS.run(one.force.value, one.friction, one.arm.value, one.faces)
        wanted = one.force.value * worst / ends(resisted)[0]
        ways.append(f"a clamp force of {_kilonewtons(wanted)}")
    if held.positive_stop is None:
        return [*ways, "a positive_stop that the work bears against"]
    wanted = worst / ends(STOP.run(1.0, held.positive_stop.arm.value))[0]
    return [*ways, f"a stop for the work that is rated for {_kilonewtons(wanted)}"]


def _kilonewtons(force: float) -> str:
    return f"{math.ceil(force / 100 - 1e-9) / 10:.1f} kN"
