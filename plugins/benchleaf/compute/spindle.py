"""Cutting speed, the machine's spindle speeds, feed and time of one drilled hole."""

from __future__ import annotations

from benchleaf.diagnose import nearest
from benchleaf.formulas import speeds
from benchleaf.formulas.quantities import in_unit, inches
from benchleaf.formulas.speed_ratios import SPEED_RATIOS, operation_speed_m_min
from benchleaf.model import CuttingSpeed

from .results import SpeedStep, figure, inside, told_in
from .sheet import Case, Sheet, cited

RULE = (
    "the fastest speed of the machine inside the range; if none lies inside, "
    "the fastest one below it, because slower is the safe side"
)


SLOW_RULE = (
    "the slowest speed of the machine inside the range, because sources disagree on the range"
)


def cutting_speed_range(sheet: Sheet) -> None:
    """The published range for this tool material in this work material."""
    operation = sheet.case.operation.operation
    found = _published(sheet.case, operation)
    if isinstance(found, str) and operation in SPEED_RATIOS:
        _by_ratio(sheet, operation)
        return
    if isinstance(found, str):
        sheet.lacks("cutting_speed_range", "Cutting speed, published range", found)
        return
    sheet.values |= {"vc_low": found.speed.low, "vc_high": found.speed.high}
    shown = inside(found.speed.low, found.speed.high, "m/min", 1)
    sheet.write(
        "cutting_speed_range",
        "Cutting speed, published range",
        shown,
        other=inside(
            in_unit(found.speed.low, "cutting speed", "ft/min"),
            in_unit(found.speed.high, "cutting speed", "ft/min"),
            "ft/min",
            0,
        ),
        formula="from the table of the work material",
        working=f"as printed: {found.speed.text}",
        source=found.source,
        limits="for a sharp tool with plenty of fluid",
    )


def _by_ratio(sheet: Sheet, operation: str) -> None:
    """The range for drilling, brought down by the published ratio of this operation."""
    label, found = "Cutting speed, range by ratio", _published(sheet.case, "drilling")
    if isinstance(found, str):
        sheet.lacks("cutting_speed_range", label, found)
        return
    low = operation_speed_m_min(operation, found.speed.low).low_m_min
    high = operation_speed_m_min(operation, found.speed.high).high_m_min
    sheet.values |= {"vc_low": low, "vc_high": high, "by_ratio": 1.0}
    ratio = SPEED_RATIOS[operation]
    sheet.write(
        "cutting_speed_range",
        label,
        inside(low, high, "m/min", 1),
        other=inside(
            in_unit(low, "cutting speed", "ft/min"),
            in_unit(high, "cutting speed", "ft/min"),
            "ft/min",
            0,
        ),
        formula=f"cutting speed for drilling × ratio for {operation}",
        working=f"{found.speed.low:.1f} × {ratio.speed_low:g} to {found.speed.high:.1f} × "
        f"{ratio.speed_high:g}",
        source=f"{found.source}; {cited(*ratio.sources)}",
        limits="sources disagree on the ratio, so the range is wide; begin at its slow end"
        if ratio.speed_low < ratio.speed_high
        else "one source only: begin slower where it chatters",
    )


def _published(case: Case, operation: str) -> CuttingSpeed | str:
    """The range, or the name of what is missing."""
    if case.material is None:
        return f"part.material in jobs/{case.job.id}"
    if case.tool.tool_material is None:
        return f"tool_material in tools/{case.tool.id}"
    for speed in case.material.cutting_speeds:
        if (speed.operation, speed.tool_material) == (operation, case.tool.tool_material):
            return speed
    known = [one.tool_material for one in case.material.cutting_speeds]
    near = nearest(case.tool.tool_material, known)
    if near is not None and near != case.tool.tool_material:
        return f"tool_material '{near}' (not '{case.tool.tool_material}') in tools/{case.tool.id}"
    wanted = f"operation {operation}, tool_material {case.tool.tool_material}"
    return f"cutting_speeds ({wanted}) in materials/{case.material.id}"


def spindle_speed_range(sheet: Sheet) -> None:
    """The spindle speeds that give the range at this diameter."""
    case, label = sheet.case, "Spindle speed, range wanted"
    if not sheet.has("diameter"):
        sheet.lacks("spindle_speed_range", label, f"size in tools/{case.tool.id}")
        return
    diameter = sheet.values["diameter"]
    if not sheet.has("vc_low"):
        sheet.lacks("spindle_speed_range", label, "the cutting speed above")
        return
    low, high = (
        speeds.spindle_speed_rpm(sheet.values[end], diameter) for end in ("vc_low", "vc_high")
    )
    sheet.values |= {"n_low": low, "n_high": high}
    ends = [f"1000 × {sheet.values[end]:.1f} ÷ (π × {diameter:g})" for end in ("vc_low", "vc_high")]
    sheet.write(
        "spindle_speed_range",
        label,
        inside(low, high, "rpm", 0),
        formula="n = 1000 × cutting speed ÷ (π × diameter)",
        working=f"{ends[0]} = {low:.0f} rpm; {ends[1]} = {high:.0f} rpm",
        source=cited("groover5-ex-21.2"),
        limits=f"for {diameter:g} mm only",
    )


def spindle_speed(sheet: Sheet) -> None:
    """The machine's own speed, chosen by the stated rule."""
    machine, label = sheet.case.machine, "Spindle speed to set"
    if not machine.spindle_speeds:
        sheet.lacks("spindle_speed", label, f"spindle_speeds in machines/{machine.id}")
        return
    if not sheet.has("n_low"):
        sheet.lacks("spindle_speed", label, "the range above")
        return
    rpm = [speed.value for speed in machine.spindle_speeds]
    choice = speeds.choose_step(rpm, sheet.values["n_low"], sheet.values["n_high"])
    by_ratio = sheet.has("by_ratio") and bool(choice.inside)
    chosen = min(choice.inside) if by_ratio else choice.chosen
    sheet.steps = tuple(
        SpeedStep(step, step in choice.inside, step == chosen) for step in sorted(set(rpm))
    )
    if chosen is None:
        _too_fast(sheet, min(rpm))
        return
    sheet.values["n"] = chosen
    if choice.below_range:
        low, high = sheet.values["n_low"], sheet.values["n_high"]
        sheet.doubts.append(
            f"No speed of the machine lies inside the range of {low:.0f} to {high:.0f} rpm: the "
            f"next slower one, {chosen:.0f} rpm, is used. Slower is the safe side."
        )
    inside = ", ".join(f"{step:.0f}" for step in choice.inside) or "none"
    sheet.write(
        "spindle_speed",
        label,
        figure(chosen, "rpm", 0),
        formula=SLOW_RULE if by_ratio else RULE,
        working=f"speeds of {machine.name} inside the range: {inside}",
        source=cited("step-rule"),
        limits=_speed_limits(sheet, rpm),
    )


def _speed_limits(sheet: Sheet, rpm: list[float]) -> str:
    plate = sheet.case.machine.limits_source or "source not given"
    return f"the machine runs {min(rpm):.0f} to {max(rpm):.0f} rpm ({plate})"


def _too_fast(sheet: Sheet, slowest: float) -> None:
    high = sheet.values["n_high"]
    sheet.lacks("spindle_speed", "Spindle speed to set", "a speed slow enough")
    sheet.stop(
        "S501",
        f"the slowest speed of {sheet.case.machine.name} is {slowest:.0f} rpm; "
        f"this drill may turn at {high:.0f} rpm at most in this material",
        "use a slower machine, another tool material or a smaller drill",
        sheet.case.path("tool"),
    )


def true_cutting_speed(sheet: Sheet) -> None:
    """The cutting speed at the speed set."""
    label = "Cutting speed at that setting"
    if not sheet.has("n", "diameter"):
        sheet.lacks("cutting_speed", label, "the spindle speed above")
        return
    n, diameter = sheet.values["n"], sheet.values["diameter"]
    speed = speeds.cutting_speed_m_min(n, diameter)
    sheet.values["cutting_speed"] = speed
    shown = figure(speed, "m/min", 1)
    sheet.write(
        "cutting_speed",
        label,
        shown,
        other=told_in(shown, "cutting speed", "ft/min", 0),
        formula="cutting speed = π × diameter × n ÷ 1000",
        working=f"π × {diameter:g} × {n:.0f} ÷ 1000 = {speed:.1f} m/min",
        source=cited("groover5-ex-21.2"),
        limits="at the rim of the drill; none at its centre",
    )


def feed(sheet: Sheet) -> None:
    """The feed entered, against the tool's recommended range."""
    case = sheet.case
    entered, wanted = getattr(case.operation, "feed", None), case.tool.feed
    if entered is None:  # a hand feels its own feed
        return
    sheet.values["feed"] = entered.value
    decimals = 2 if round(entered.value, 2) == round(entered.value, 6) else 3
    shown = figure(entered.value, "mm/rev", decimals)
    limits = "no recommended range is given for this tool"
    if wanted is not None:
        limits = f"recommended for this tool: {wanted.low:.2f} to {wanted.high:.2f} mm/rev"
        limits += f" ({case.tool.feed_source or 'source not given'})"
        if not wanted.low - 0.005 <= entered.value <= wanted.high + 0.005:
            sheet.doubts.append(
                f"The feed {shown.text} is outside the range recommended for this tool."
            )
    sheet.write(
        "feed",
        "Feed per turn",
        shown,
        other=told_in(shown, "feed", "in/rev", 4),
        formula="entered by the engineer",
        working=f"as entered: {entered.text}",
        source="this breakdown",
        limits=limits,
    )


def feed_rate(sheet: Sheet) -> None:
    """Feed a minute, and the seconds for 10 mm that a hand on a lever can count."""
    if not sheet.has("feed"):
        return
    if not sheet.has("n"):
        sheet.lacks("feed_rate", "Feed a minute", "the spindle speed above")
        sheet.lacks("seconds_for_10_mm", "Time for 10 mm of travel", "the feed a minute above")
        return
    feed_per_turn, n = sheet.values["feed"], sheet.values["n"]
    rate = speeds.feed_rate_mm_min(feed_per_turn, n)
    seconds = speeds.seconds_for_travel(10, rate)
    sheet.values["feed_rate"] = rate
    shown = figure(rate, "mm/min", 0)
    sheet.write(
        "feed_rate",
        "Feed a minute",
        shown,
        other=figure(inches(rate), "in/min", 1),
        formula="feed a minute = feed per turn × n",
        working=f"{feed_per_turn:g} × {n:.0f} = {rate:.0f} mm/min",
        source=cited("groover5-ex-21.2"),
        limits="with the whole point in the metal",
    )
    sheet.write(
        "seconds_for_10_mm",
        "Time for 10 mm of travel",
        figure(seconds, "s", 1),
        formula="time = 60 × travel ÷ feed a minute",
        working=f"60 × 10 ÷ {rate:.0f} = {seconds:.1f} s",
        source=cited("groover5-ex-21.2"),
        limits="count it on the depth scale: faster is too hard a pull",
    )
