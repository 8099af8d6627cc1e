"""Point length, depth stop, quill travel and time of one drilled hole in flat work."""

from __future__ import annotations

from benchleaf.formulas import speeds, travel
from benchleaf.model import HoleKind

from .results import figure, told_in
from .shape import depth_to_clear, round_depth
from .sheet import Sheet, cited, first_missing


def point_length(sheet: Sheet) -> None:
    """Height of the drill's cone."""
    tool, label = sheet.case.tool, "Length of the drill's point"
    missing = first_missing((tool.size, "size"), (tool.point_angle, "point_angle"))
    if tool.size is None or tool.point_angle is None:
        sheet.lacks("point_length", label, f"{missing} in tools/{tool.id}")
        return
    diameter, angle = tool.size.value, tool.point_angle.value
    length = travel.point_length_mm(diameter, angle)
    sheet.values["point"] = length
    shown = figure(length, "mm", 1)
    sheet.write(
        "point_length",
        label,
        shown,
        other=told_in(shown, "length", "in", 3),
        formula="point = (diameter ÷ 2) ÷ tan(point angle ÷ 2)",
        working=f"({diameter:g} ÷ 2) ÷ tan({angle:g}° ÷ 2) = {length:.2f} mm",
        source=cited("groover5-eq-21.10"),
        limits=f"for a point of {angle:g}° ({tool.geometry_source or 'source not given'})",
    )


def depth_stop(sheet: Sheet) -> None:
    """Travel from the first touch of the point to the stop."""
    operation, label = sheet.case.drilling, "Depth stop, from first touch"
    missing = _missing_depth(sheet)
    if missing:
        sheet.lacks("depth_stop", label, missing)
        return
    depth, words, working = _depth(sheet)
    is_through = operation.hole is HoleKind.THROUGH
    beyond = operation.overtravel.value if is_through and operation.overtravel else 0.0
    point = sheet.values["point"]
    total = travel.stop_travel_mm(depth, point, beyond)
    sheet.values |= {"stop": total, "depth": depth}
    _check_blind(sheet)
    shown = figure(total, "mm", 1)
    past = (" + overtravel", f" + {beyond:g}") if is_through else ("", "")
    sheet.write(
        "depth_stop",
        label,
        shown,
        other=told_in(shown, "length", "in", 3),
        formula=f"stop = {words} + point{past[0]}",
        working=f"{working} + {point:.2f}{past[1]} = {total:.1f} mm",
        source=cited("geometry"),
        limits="set with the machine stopped; clear of the table, vice and parallels",
    )


def _depth(sheet: Sheet) -> tuple[float, str, str]:
    """How deep the full diameter goes, what that is called, and its number as written."""
    operation = sheet.case.drilling
    if operation.hole is HoleKind.BLIND and operation.depth is not None:
        return operation.depth.value, "depth", f"{operation.depth.value:g}"
    return depth_to_clear(operation) or round_depth(sheet)


def _missing_depth(sheet: Sheet) -> str | None:
    operation, job = sheet.case.drilling, sheet.case.job
    if not sheet.has("point"):
        return "the length of the point above"
    wanted = "overtravel" if operation.hole is HoleKind.THROUGH else "depth"
    missing = first_missing((getattr(operation, wanted), wanted))
    return f"{missing} of set-up {operation.id} in jobs/{job.id}" if missing else None


def _check_blind(sheet: Sheet) -> None:
    """A blind hole whose point comes out is no blind hole."""
    operation = sheet.case.drilling
    under = operation.thickness or operation.work_diameter
    is_blind = operation.hole is HoleKind.BLIND
    if is_blind and under is not None and sheet.values["stop"] >= under.value:
        sheet.doubts.append("The point of the drill comes through the far side of this blind hole.")


def quill_travel(sheet: Sheet) -> None:
    """All the way the quill moves, against what the machine has."""
    case, label = sheet.case, "Quill travel"
    if not sheet.has("stop"):
        sheet.lacks("quill_travel", label, "the depth stop above")
        return
    start = case.drilling.start_clearance.value
    total = start + sheet.values["stop"]
    sheet.values["travel"] = total
    shown = figure(total, "mm", 1)
    available = case.machine.quill_travel
    sheet.write(
        "quill_travel",
        label,
        shown,
        other=told_in(shown, "length", "in", 3),
        formula="quill travel = start clearance + depth stop",
        working=f"{start:g} + {sheet.values['stop']:.1f} = {total:.1f} mm",
        source=cited("geometry"),
        limits=_travel_limits(sheet),
    )
    if available is not None and total > available.value:
        sheet.stop(
            "S504",
            f"the quill must travel {total:.1f} mm; {case.machine.name} has {available.value:g} mm",
            "use a machine with more travel, or drill from both sides",
            case.path("thickness" if case.drilling.hole is HoleKind.THROUGH else "depth"),
        )


def _travel_limits(sheet: Sheet) -> str:
    machine = sheet.case.machine
    if machine.quill_travel is None:
        return f"not checked: quill_travel is missing in machines/{machine.id}"
    source = machine.limits_source or "source not given"
    return f"the machine has {machine.quill_travel.text} ({source})"


def time_per_hole(sheet: Sheet) -> None:
    """Seconds under feed for one hole."""
    label = "Time under feed, each hole"
    if not sheet.has("travel", "feed_rate"):
        sheet.lacks("time", label, "the quill travel and the feed a minute above")
        return
    total, rate = sheet.values["travel"], sheet.values["feed_rate"]
    seconds = speeds.seconds_for_travel(total, rate)
    sheet.values["time"] = seconds
    sheet.write(
        "time",
        label,
        figure(seconds, "s", 0),
        formula="time = 60 × quill travel ÷ feed a minute",
        working=f"60 × {total:.1f} ÷ {rate:.0f} = {seconds:.1f} s",
        source=cited("groover5-ex-21.2"),
        limits="without handling, and without easing off",
    )
