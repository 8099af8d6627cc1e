"""Break-through carried to its end: the torque of a kept pull against what the holding resists."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from math import prod

from benchleaf.diagnose import Code, Sample
from benchleaf.formulas import break_through as exit_of
from benchleaf.formulas.round_work import saddle_mm
from benchleaf.formulas.spread import BARELY
from benchleaf.model import FeedStop, Holding, HoleKind

from . import figures_exit as figures
from .amounts import amount, entered
from .declaration import ends
from .feed_stop import feed_stop_of
from .feel import entered_factors, loads_of, open_ratio
from .figures_feel import CLAMPS, STOP
from .figures_worst import HELD_KEPT
from .holding import (
    BARELY_HELD,
    KNOW_IT,
    NOT_SHOWN,
    TOO_WEAK,
    barely_held,
    measuring_helps,
    ways_of,
)
from .results import Side
from .sheet import Sheet, are_missing, known
from .worst import Compared, clamp_offs, compare, cut_offs, no_less, no_more, told_times

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
              find: "    force: 20 kN"
              put: "    force: 3.5 kN"
            """,
            """
            content/jobs/vg-0010.yml:22:3: stop S512 do not run VG-0010 (guide-hole): if the
                    hand keeps its pull as the drill comes through, the torque can grow to 27 N m;
                    the holding resists 17 N m
                any one of these: a feed_stop at 0.15 mm/rev or finer; a finer feed, or a pilot
                    hole, with a pull of 30 % of this one or less; a clamp force of 12.7 kN; a
                    positive_stop that the work bears against
            """,
        ),
        Sample(
            """
            # Held to the end as entered, and not when all is at its worst.
            - file: jobs/vg-0010.yml
              find: "    force: 20 kN"
              put: "    force: 9 kN"
            """,
            """
            content/jobs/vg-0010.yml:22:3: stop S512 do not run VG-0010 (guide-hole): if the
                    hand keeps its pull as the drill comes through, the torque can grow to 27 N m;
                    the holding resists 45 N m, at worst 0.7 times that torque: most of the doubt is
                    the clamp force
                any one of these: a feed_stop at 0.78 mm/rev or finer; a finer feed, or a pilot
                    hole, with a pull of 78 % of this one or less; a clamp force of 12.7 kN; measure
                    the clamp force ten times, and enter the lowest; a positive_stop that the work
                    bears against
            """,
        ),
        Sample(
            """
            # A feed stop that lets too much through.
            - file: jobs/vg-0010.yml
              find: "    force: 20 kN"
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
                    hand keeps its pull as the drill comes through, the torque can grow to 21 N m
                    with a feed stop at 0.8 mm/rev; the holding resists 17 N m
                any one of these: a feed_stop at 0.15 mm/rev or finer; a finer feed, or a pilot
                    hole, with a pull of 30 % of this one or less; a clamp force of 10.0 kN; a
                    positive_stop that the work bears against
            """,
        ),
    ),
    good="""
        # A vice that holds the work to the end.
        - file: jobs/vg-0010.yml
          find: "    force: 20 kN"
          put: "    force: 19.5 kN"
    """,
)


FEED_STOP_ONLY = "feed-stop-only"


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
    judged = _rows(sheet, pull, (found.thrust, loads.lips_n))
    if judged is not None and not any(one.code == TOO_WEAK.id for one in sheet.stops):
        _judge(sheet, pull, judged)


def comes_through(sheet: Sheet) -> bool:
    """A hole called blind is one only where the point is known to stay in the metal."""
    operation, stop = sheet.case.drilling, sheet.drilled.stop
    if operation.hole is HoleKind.THROUGH or stop is None:
        return True
    under = operation.wall or operation.thickness or operation.work_diameter
    return under is None or stop >= under.value or _leaves_at_the_sides(sheet, stop)


def _leaves_at_the_sides(sheet: Sheet, stop: float) -> bool:
    """Whether the rim leaves a bar whose far side falls away, before the tip is through."""
    operation, drill, point = sheet.case.drilling, sheet.drilled.drill_mm, sheet.drilled.point
    bar = operation.work_diameter
    if bar is None or operation.wall is not None or drill is None or point is None:
        return False
    return drill < bar.value and stop - point >= bar.value - saddle_mm(bar.value, drill)


def _not_shown(sheet: Sheet) -> None:
    missing = next((one.missing for one in sheet.rows if one.key == "thrust"), "the thrust")
    sheet.stop(
        NOT_SHOWN,
        "the torque at break-through is not computed, so the holding is not shown to be enough: "
        f"{are_missing(missing)}",
        f"enter it: {missing}",
        sheet.case.holding_path,
    )


def _rows(sheet: Sheet, pull: _Pull, pressed: tuple[float, float]) -> Compared | None:
    """The rows; the holding is compared in the last that the feed may reach."""
    stop, end = feed_stop_of(sheet.case.drilling), exit_of.END_FEED_MM_REV
    found = _against(sheet, pull.limit)
    ratio, limits = figures.KEPT.sums(*pressed), figures.EXIT_TORQUE.limits
    if found is not None and stop is None:
        limits, ratio = f"{limits}; {found.words}", (*ratio, *found.sums)
    also = entered_factors(sheet)
    sizes = (pull.torque, pull.kept, pull.open_part)
    sheet.work(figures.EXIT_TORQUE, *sizes, beside=ratio, limits=limits, also=also)
    at_end = figures.exit_at_feed(pull.kept, pull.feed, end)
    sheet.work(
        at_end,
        *pull.up_to(end),
        also=also,
        limits=f"at {amount(end, 'mm/rev')}, where the handbook's factors end",
    )
    worst = pull.limit
    if stop is not None:
        worst, found = _with_stop(sheet, pull, stop)
    sheet.found = replace(sheet.drilled, exit_limit=pull.limit, exit_torque=worst)
    return found


def _with_stop(sheet: Sheet, pull: _Pull, stop: FeedStop) -> tuple[float, Compared | None]:
    """The row of what a feed stop lets through."""
    sizes = pull.up_to(stop.feed.value)
    one = figures.with_feed_stop(pull.kept, pull.feed, stop.feed.value)
    found = _against(sheet, float(ends(one.run(*sizes))[0]))
    limits = f"at {entered(stop.feed)}, the coarsest feed that it lets through"
    if found is not None:
        limits = f"{limits}; {found.words}"
    beside = found.sums if found else ()
    also = f"feed stop: {stop.source}; {entered_factors(sheet)}"
    return sheet.work(one, *sizes, beside=beside, limits=limits, also=also), found


def _against(sheet: Sheet, torque: float) -> Compared | None:
    """The holding against a torque of a kept pull; None where no holding is known."""
    ways = ways_of(sheet.case)
    return compare(HELD_KEPT, ways, torque, cut_offs(sheet, "torque")) if ways else None


def _judge(sheet: Sheet, pull: _Pull, found: Compared) -> None:
    # What is said of break-through covers the steady cut, which asks for less: say it once.
    sheet.doubts = [one for one in sheet.doubts if one.code != BARELY_HELD]
    worst = known(sheet.drilled.exit_torque)
    needed = max(worst, worst * found.load * found.hold, sheet.drilled.needed or 0.0)
    sheet.found = replace(sheet.drilled, needed=needed)
    bare = _against(sheet, pull.limit)
    if found.times < 1 or found.worst < 1:
        _too_weak(sheet, pull, found, worst)
    elif bare is not None and bare.worst < 1:
        sheet.doubt(
            FEED_STOP_ONLY,
            Side.BELOW,
            "Only the feed stop keeps the work held at break-through: without it the torque can "
            f"grow to {no_less(pull.limit, 'N m')}, and the holding resists "
            f"{no_more(known(sheet.found.capacity), 'N m')}, at worst "
            f"{told_times(bare.worst)} that torque. Prove the feed stop before the first hole.",
        )
    else:
        barely_held(sheet, found, "the torque of a drill that comes through with no easing")


def _too_weak(sheet: Sheet, pull: _Pull, found: Compared, worst: float) -> None:
    stop, capacity = feed_stop_of(sheet.case.drilling), known(sheet.found.capacity)
    by = f" with a feed stop at {entered(stop.feed)}" if stop else ""
    at_worst = ""
    if found.times >= 1:
        at_worst = f", at worst {told_times(found.worst)} that torque: {found.told_most}"
    sheet.stop(
        GIVES_WAY,
        "if the hand keeps its pull as the drill comes through, the torque can grow to "
        f"{no_less(worst, 'N m')}{by}; the holding resists {no_more(capacity, 'N m')}{at_worst}",
        f"any one of these: {'; '.join(_ways_out(sheet, pull, found, worst))}",
        sheet.case.holding_path,
    )


def _ways_out(sheet: Sheet, pull: _Pull, found: Compared, worst: float) -> list[str]:
    """What a stop on the feed, a smaller pull and a tighter holding each ask, to the safe side."""
    held = sheet.case.holding
    assert held is not None  # it has a capacity
    limit = _against(sheet, pull.limit)
    assert limit is not None
    share = min(limit.times, limit.worst)
    ways = []
    # At worst what is held must still reach the torque in full cut, or no feed is fine enough.
    if share * pull.limit >= pull.torque:
        most = exit_of.most_feed_mm_rev(
            pull.torque, pull.kept, pull.open_part, pull.feed, share * pull.limit
        )
        ways.append(
            f"a feed_stop at {amount(math.floor(100 * most) / 100, 'mm/rev', 2, 'down')} or finer"
        )
    # The limit is in proportion to the pull; what a feed stop lets through falls more slowly.
    by = "a finer feed" if sheet.case.drilling.pilot else "a finer feed, or a pilot hole,"
    ways.append(f"{by} with a pull of {math.floor(100 * share)} % of this one or less")
    load = prod(off.times for off in cut_offs(sheet, "torque"))
    # Held only just is doubted: what is named here leaves nothing to say.
    return ways + _tighter(sheet, held, found, worst * load * BARELY)


def _tighter(sheet: Sheet, held: Holding, found: Compared, worst: float) -> list[str]:
    """The clamp force and the stop that would resist the torque at worst."""
    ways = []
    if held.clamping is not None:
        one, falls = held.clamping, prod(off.times for off in clamp_offs(sheet.case) or ())
        resisted = CLAMPS.run(one.force.value, one.friction, one.arm.value, one.faces)
        wanted = one.force.value * worst * falls / ends(resisted)[0]
        ways.append(f"a clamp force of {_kilonewtons(wanted)}")
        if measuring_helps(sheet, found):
            ways.append(KNOW_IT)
    if held.positive_stop is None:
        return [*ways, "a positive_stop that the work bears against"]
    wanted = worst / ends(STOP.run(1.0, held.positive_stop.arm.value))[0]
    return [*ways, f"a stop for the work that is rated for {_kilonewtons(wanted)}"]


def _kilonewtons(force: float) -> str:
    return amount(math.ceil(force / 100 - 1e-9) / 10, "kN", 1, "up")
