"""Point length, depth stop, quill travel and time of one hole, drilled or reamed."""

from __future__ import annotations

from dataclasses import replace

from benchleaf.diagnose import Code, Sample
from benchleaf.model import HoleKind, ReamingSetUp

from . import figures_cutting as cut
from . import figures_time as timed
from .amounts import amount, entered
from .declaration import Declaration
from .results import Side
from .shape import through_stop
from .sheet import Sheet, first_missing

QUILL_TOO_SHORT = Code(
    "S504",
    "The quill does not travel far enough",
    why="The hole would not be finished, or the work would be moved with the spindle turning.",
    instead="Use a shorter drill set lower, another machine, or drill from both sides.",
    bad=(
        Sample(
            """
            # A quill that is too short.
            - file: machines/bench-drill.yml
              find: "quill_travel: 60 mm"
              put: "quill_travel: 12 mm"
            """,
            """
            content/jobs/vg-0010.yml:48:16: stop S504 do not run VG-0010 (guide-hole): the
                    quill must travel 12.4 mm; Bench drill has 12 mm
                use a machine with more travel, or drill from both sides
            """,
        ),
        Sample(
            """
            # A blind hole deeper than the quill goes.
            - file: jobs/vg-0010.yml
              find: |2
                    hole: through
                    thickness: 6 mm
              put: |2
                    hole: blind
                    thickness: 90 mm
                    depth: 60 mm
            - file: jobs/vg-0010.yml
              find: |2
                    overtravel: 1 mm
              put: ""
            """,
            """
            content/jobs/vg-0010.yml:43:5: warning S509 guide-hole: The hole is 7.5
                    diameters deep. The published cut in speed and feed ends at 6: ask before you
                    drill.
                change the value, or write accept: [{code: S509, reason: ...}] in the job
            content/jobs/vg-0010.yml:49:12: stop S504 do not run VG-0010 (guide-hole): the
                    quill must travel 65.4 mm; Bench drill has 60 mm
                use a machine with more travel, or drill from both sides
            """,
        ),
    ),
    good="""
        # A quill that goes far enough.
        - file: machines/bench-drill.yml
          find: "quill_travel: 60 mm"
          put: "quill_travel: 13 mm"
    """,
)


def point_length(sheet: Sheet) -> None:
    """Height of the drill's cone."""
    tool = sheet.case.tool
    missing = first_missing((tool.size, "size"), (tool.point_angle, "point_angle"))
    if tool.size is None or tool.point_angle is None:
        sheet.lacks(cut.POINT_LENGTH, f"{missing} in tools/{tool.id}")
        return
    angle = tool.point_angle.value
    limits = f"for a point of {angle:g}° ({tool.geometry_source or 'source not given'})"
    point = sheet.work(cut.POINT_LENGTH, tool.size.value, angle, limits=limits)
    sheet.found = replace(sheet.drilled, point=point)


def depth_stop(sheet: Sheet) -> None:
    """Travel from the first touch of the point to the stop."""
    missing = _missing_depth(sheet)  # first: it is to be entered, whatever else is
    if missing:
        sheet.lacks(cut.DEPTH_STOP, missing)
        return
    drill, point = sheet.drilled.drill_mm, sheet.drilled.point
    if drill is None or point is None:
        sheet.lacks(cut.DEPTH_STOP, "the length of the point above")
        return
    one, sizes, depth = _depth(sheet, drill)
    operation = sheet.case.drilling
    is_through = operation.hole is HoleKind.THROUGH
    beyond = operation.overtravel.value if is_through and operation.overtravel else 0.0
    limits = "set with the machine stopped; clear of the table, vice and parallels"
    past = (beyond,) if is_through else ()
    stop = sheet.work(one, *sizes, point, *past, limits=limits)
    sheet.found = replace(sheet.drilled, stop=stop, depth=depth)
    _check_blind(sheet, stop)


def _depth(sheet: Sheet, drill: float) -> tuple[Declaration, tuple[float, ...], float]:
    """The figure of the stop, the sizes that it begins with, and the depth they come to."""
    operation = sheet.case.drilling
    if operation.hole is HoleKind.BLIND and operation.depth is not None:
        return cut.STOP_IN_BLIND, (operation.depth.value,), operation.depth.value
    return through_stop(operation, drill)


def _missing_depth(sheet: Sheet) -> str | None:
    operation, job = sheet.case.drilling, sheet.case.job
    wanted = "overtravel" if operation.hole is HoleKind.THROUGH else "depth"
    missing = first_missing((getattr(operation, wanted), wanted))
    return f"{missing} of set-up {operation.id} in jobs/{job.id}" if missing else None


def _check_blind(sheet: Sheet, stop: float) -> None:
    """A blind hole whose point comes out is no blind hole."""
    operation = sheet.case.drilling
    under = operation.thickness or operation.work_diameter
    is_blind = operation.hole is HoleKind.BLIND
    if is_blind and under is not None and stop >= under.value:
        text = "The point of the drill comes through the far side of this blind hole."
        sheet.doubt("blind-hole-point", Side.ABOVE, text)


def quill_travel(sheet: Sheet) -> None:
    """All the way the quill moves, against what the machine has."""
    case, stop = sheet.case, sheet.drilled.stop
    if stop is None:
        sheet.lacks(cut.QUILL_TRAVEL, "the depth stop above")
        return
    start = case.drilling.start_clearance.value
    total = sheet.work(cut.QUILL_TRAVEL, start, stop, limits=_travel_limits(sheet))
    sheet.found = replace(sheet.drilled, travel=total)
    is_through = case.drilling.hole is HoleKind.THROUGH
    _check_quill(sheet, total, "thickness" if is_through else "depth")


def reamed_travel(sheet: Sheet) -> None:
    """Depth stop, travel and time of a reamer that a spindle feeds, where its way is entered."""
    operation = sheet.case.operation
    if not isinstance(operation, ReamingSetUp) or operation.feed is None:
        return
    start, beyond = operation.start_clearance, operation.overtravel
    if start is None and beyond is None:
        return
    past = beyond.value if beyond is not None else 0.0
    stop = sheet.work(timed.REAMED_STOP, operation.depth.value, past)
    if start is None:
        where = f"start_clearance of set-up {operation.id} in jobs/{sheet.case.job.id}"
        sheet.lacks(cut.QUILL_TRAVEL, where)
        return
    total = sheet.work(cut.QUILL_TRAVEL, start.value, stop, limits=_travel_limits(sheet))
    _check_quill(sheet, total, "depth")
    if sheet.found.feed_rate is None:
        sheet.lacks(cut.TIME, "the feed a minute above")
        return
    sheet.work(cut.TIME, total, sheet.found.feed_rate, limits="without handling")


def _check_quill(sheet: Sheet, total: float, key: str) -> None:
    """The way of the quill against what the machine has."""
    case, available = sheet.case, sheet.case.machine.quill_travel
    sheet.reach(most=available.value if available else None)
    if available is not None and total > available.value:
        sheet.stop(
            QUILL_TOO_SHORT,
            f"the quill must travel {amount(total, 'mm', 1, 'up')}; {case.machine.name} has "
            f"{amount(available.value, 'mm', toward='down')}",
            "use a machine with more travel, or drill from both sides",
            case.path(key),
        )


def _travel_limits(sheet: Sheet) -> str:
    machine = sheet.case.machine
    if machine.quill_travel is None:
        return f"not checked: quill_travel is missing in machines/{machine.id}"
    source = machine.limits_source or "source not given"
    return f"the machine has {entered(machine.quill_travel, 'down')} ({source})"


def time_per_hole(sheet: Sheet) -> None:
    """Seconds for one hole: under feed, and out and in again where it is pecked."""
    total, rate = sheet.drilled.travel, sheet.drilled.feed_rate
    if total is None or rate is None:
        sheet.lacks(cut.TIME, "the quill travel and the feed a minute above")
        return
    pecks = sheet.drilled.pecks
    if pecks is None:
        limits = "without handling, and without easing off"
        in_cut = seconds = sheet.work(cut.TIME, total, rate, limits=limits)
    else:
        limits = f"without easing off; {timed.TIME_PECKED.limits}"
        seconds = sheet.work(timed.TIME_PECKED, total, rate, pecks, limits=limits)
        in_cut = cut.TIME.run(total, rate)
    sheet.found = replace(sheet.drilled, time=seconds, time_in_cut=in_cut)
