"""Cutting speed, the machine's spindle speeds, feed and time of one drilled hole."""

from __future__ import annotations

from dataclasses import replace

from benchleaf.diagnose import Code, Sample, nearest
from benchleaf.formulas import speeds
from benchleaf.formulas.speed_ratios import SPEED_RATIOS
from benchleaf.model import CuttingSpeed

from . import figures_cutting as cut
from .amounts import amount, entered, span
from .figures_holes import BY_RATIO
from .results import Side, SpeedStep, figure, side_of, told_in
from .sheet import Case, Sheet

TOO_FAST = Code(
    "S501",
    "No spindle speed of the machine is slow enough",
    why="Too fast a drill burns, grabs and can shatter.",
    instead="Use another machine, tool or drill size.",
    bad=(
        Sample(
            """
            # Every speed of the machine is too fast for the drill.
            - file: machines/bench-drill.yml
              find: |2
                  - 400 rpm
                  - 650 rpm
                  - 1000 rpm
              put: ""
            """,
            """
            content/jobs/vg-0010.yml:46:11: stop S501 do not run VG-0010 (guide-hole): the
                    slowest speed of Bench drill is 1500 rpm; this drill may turn at 1334 rpm at
                    most in this material
                use a slower machine, another tool material or a smaller drill
            """,
        ),
    ),
    good="""
        # A speed inside the range.
        - file: machines/bench-drill.yml
          find: |2
              - 1000 rpm
          put: |2
              - 1200 rpm
    """,
)


def cutting_speed_range(sheet: Sheet) -> None:
    """The published range for this tool material in this work material."""
    operation = sheet.case.operation.operation
    found = _published(sheet.case, operation)
    if isinstance(found, str) and operation in SPEED_RATIOS:
        _by_ratio(sheet, operation)
        return
    if isinstance(found, str):
        sheet.lacks(cut.PUBLISHED_SPEED, found)
        return
    sheet.found = replace(sheet.found, vc_low=found.speed.low, vc_high=found.speed.high)
    both, told = (found.speed.low, found.speed.high), f"as printed: {entered(found.speed)}"
    sheet.tell(cut.PUBLISHED_SPEED, both, told, also=found.source)


def _by_ratio(sheet: Sheet, operation: str) -> None:
    """The range for drilling, brought down by the published ratio of this operation."""
    one, found = BY_RATIO[operation], _published(sheet.case, "drilling")
    if isinstance(found, str):
        sheet.lacks(one, found)
        return
    ratio = SPEED_RATIOS[operation]
    limits = (
        "sources disagree on the ratio, so the range is wide; begin at its slow end"
        if ratio.speed_low < ratio.speed_high
        else "one source only: begin slower where it chatters"
    )
    low, high = sheet.work(
        one, found.speed.low, found.speed.high, limits=limits, first=found.source
    )
    sheet.found = replace(sheet.found, vc_low=low, vc_high=high)
    sheet.range_by_ratio = True


def _published(case: Case, operation: str) -> CuttingSpeed | str:
    """The range, or the name of what is missing."""
    if case.material is None:
        return f"part in jobs/{case.job.id}"
    if case.tool.tool_material is None:
        return f"tool_material in tools/{case.tool.id}"
    speeds = case.material.cutting_speeds
    for speed in speeds:
        if (speed.operation, speed.tool_material) == (operation, case.tool.tool_material):
            return speed
    known = [one.tool_material for one in speeds]
    near = nearest(case.tool.tool_material, known)
    if near is not None and near != case.tool.tool_material:
        return f"tool_material '{near}' (not '{case.tool.tool_material}') in tools/{case.tool.id}"
    same = [one.operation for one in speeds if one.tool_material == case.tool.tool_material]
    meant = nearest(operation, same)
    if meant is not None and meant != operation:
        where = f"cutting_speeds of materials/{case.material.id}"
        return f"operation '{operation}' (not '{meant}') in {where}"
    wanted = f"operation {operation}, tool_material {case.tool.tool_material}"
    return f"cutting_speeds ({wanted}) in materials/{case.material.id}"


def spindle_speed_range(sheet: Sheet) -> None:
    """The spindle speeds that give the range at this diameter."""
    diameter, slow, fast = sheet.found.cutting_mm, sheet.found.vc_low, sheet.found.vc_high
    if diameter is None:
        sheet.lacks(cut.SPEED_RANGE, f"size in tools/{sheet.case.tool.id}")
        return
    if slow is None or fast is None:
        sheet.lacks(cut.SPEED_RANGE, "the cutting speed above")
        return
    limits = f"for {amount(diameter, 'mm')} only"
    low, high = sheet.work(cut.SPEED_RANGE, slow, fast, diameter, limits=limits)
    sheet.found = replace(sheet.found, n_low=low, n_high=high)


def spindle_speed(sheet: Sheet) -> None:
    """The machine's own speed, chosen by the stated rule."""
    machine = sheet.case.machine
    if not machine.spindle_speeds:
        sheet.lacks(cut.SPEED_TO_SET, f"spindle_speeds in machines/{machine.id}")
        return
    low, high = sheet.found.n_low, sheet.found.n_high
    if low is None or high is None:
        sheet.lacks(cut.SPEED_TO_SET, "the range above")
        return
    rpm = [speed.value for speed in machine.spindle_speeds]
    choice = speeds.choose_step(rpm, low, high)
    by_ratio = sheet.range_by_ratio and bool(choice.inside)
    chosen = min(choice.inside) if by_ratio else choice.chosen
    sheet.steps = tuple(
        SpeedStep(step, step in choice.inside, step == chosen) for step in sorted(set(rpm))
    )
    if chosen is None:
        _too_fast(sheet, min(rpm), high)
        return
    sheet.found = replace(sheet.found, n=chosen)
    if choice.below_range:
        sheet.doubt(
            "speed-range",
            Side.BELOW,
            f"{_none_fits(low, high)}: the next slower one, {chosen:.0f} rpm, is used. Slower is "
            "the safe side.",
        )
    one = cut.SLOW_SPEED_TO_SET if by_ratio else cut.SPEED_TO_SET
    inside = ", ".join(f"{step:.0f}" for step in choice.inside) or "none"
    told = f"speeds of {machine.name} inside the range: {inside}"
    sheet.tell(one, chosen, told, limits=_speed_limits(sheet, rpm))
    sheet.reach(most=None if by_ratio else high, advised=(low, high))


def _none_fits(low: float, high: float) -> str:
    """A single speed that is recommended is no range."""
    least, most = f"{low:.0f}", f"{high:.0f}"
    if least == most:
        return f"No speed of the machine is the recommended {most} rpm"
    return f"No speed of the machine lies inside the range of {least} to {most} rpm"


def _speed_limits(sheet: Sheet, rpm: list[float]) -> str:
    plate = sheet.case.machine.limits_source or "source not given"
    return f"the machine runs {min(rpm):.0f} to {max(rpm):.0f} rpm ({plate})"


def _too_fast(sheet: Sheet, slowest: float, high: float) -> None:
    sheet.lacks(cut.SPEED_TO_SET, "a speed slow enough")
    sheet.stop(
        TOO_FAST,
        f"the slowest speed of {sheet.case.machine.name} is {slowest:.0f} rpm; "
        f"this drill may turn at {high:.0f} rpm at most in this material",
        "use a slower machine, another tool material or a smaller drill",
        sheet.case.path("tool"),
    )


def true_cutting_speed(sheet: Sheet) -> None:
    """The cutting speed at the speed set."""
    n, diameter = sheet.found.n, sheet.found.cutting_mm
    if n is None or diameter is None:
        sheet.lacks(cut.CUTTING_SPEED, "the spindle speed above")
        return
    limits = "at the rim of the drill; none at its centre"
    speed = sheet.work(cut.CUTTING_SPEED, n, diameter, limits=limits)
    sheet.found = replace(sheet.found, cutting_speed=speed)


def feed(sheet: Sheet) -> None:
    """The feed entered, against the tool's recommended range."""
    case = sheet.case
    fed, wanted = getattr(case.operation, "feed", None), case.tool.feed
    if fed is None:  # a hand feels its own feed
        return
    sheet.found = replace(sheet.found, feed=fed.value)
    decimals = 2 if round(fed.value, 2) == round(fed.value, 6) else 3
    shown = figure(fed.value, cut.FEED.unit, decimals)
    limits = "no recommended range is given for this tool"
    if wanted is not None:
        limits = f"recommended for this tool: {span(wanted.low, wanted.high, 'mm/rev', 2)}"
        limits += f" ({case.tool.feed_source or 'source not given'})"
        if not wanted.low - 0.005 <= fed.value <= wanted.high + 0.005:
            at = amount(fed.value, "mm/rev", decimals)
            sheet.doubt(
                "feed-range",
                side_of(fed.value, wanted.low),
                f"The feed {at} is outside the range recommended for this tool.",
            )
    told = f"as entered: {entered(fed)}"
    other = told_in(shown, "feed", "in/rev", 4)
    by = "this breakdown"
    sheet.tell(cut.FEED, fed.value, told, shown=shown, other=other, limits=limits, also=by)
    sheet.reach(advised=(wanted.low, wanted.high) if wanted else None)


def feed_rate(sheet: Sheet) -> None:
    """Feed a minute, and the seconds for 10 mm that a hand on a lever can count."""
    fed, n = sheet.found.feed, sheet.found.n
    if fed is None:
        return
    if n is None:
        sheet.lacks(cut.FEED_RATE, "the spindle speed above")
        sheet.lacks(cut.SECONDS_FOR_10_MM, "the feed a minute above")
        return
    rate = sheet.work(cut.FEED_RATE, fed, n)
    sheet.found = replace(sheet.found, feed_rate=rate)
    limits = "count it on the depth scale: faster is too hard a pull"
    sheet.work(cut.SECONDS_FOR_10_MM, rate, limits=limits)
