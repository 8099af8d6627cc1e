"""Spindle speed, feed rate, time and metal removed, and the choice of a spindle step."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from .domain import positive

MM_PER_M = 1000.0
"""Millimetres in a metre, by definition."""
SECONDS_PER_MINUTE = 60.0
"""Seconds in a minute, by definition."""


@dataclass(frozen=True)
class StepChoice:
    """A machine's spindle steps set against a range of speeds."""

    inside: tuple[float, ...]
    """Steps inside the range, slowest first, in rpm."""
    chosen: float | None
    """The step to run, in rpm; None where even the slowest step is too fast."""
    below_range: bool
    """True where the chosen step is slower than the range."""


def spindle_speed_rpm(cutting_speed_m_min: float, diameter_mm: float) -> float:
    """Find the spindle speed that gives a cutting speed at a tool's rim.

    Args:
        cutting_speed_m_min: [m/min] speed v of the rim past the work
        diameter_mm: [mm] diameter D of the tool

    Returns:
        [rpm] spindle speed n

    Valid: both above 0

    >>> spindle_speed_rpm(25.0, 12.7)
    626.6

    Source: Groover 5th ed., Example 21.2 [groover5-ex-21.2, read]; the worked call is problem
        22.10 of the 4th ed. [groover4-22.10, read]
    """
    circumference_mm = math.pi * positive("diameter_mm", diameter_mm)
    # The cutting speed comes in metres and the circumference in millimetres.
    speed_mm_min = positive("cutting_speed_m_min", cutting_speed_m_min) * MM_PER_M
    return speed_mm_min / circumference_mm


def cutting_speed_m_min(spindle_speed_rpm: float, diameter_mm: float) -> float:
    """Find the cutting speed at a tool's rim from the spindle speed.

    Args:
        spindle_speed_rpm: [rpm] spindle speed n
        diameter_mm: [mm] diameter D of the tool

    Returns:
        [m/min] cutting speed v

    Valid: both above 0

    >>> cutting_speed_m_min(626.6, 12.7)
    25.00

    Source: the inverse of Groover 5th ed., Example 21.2 [groover5-ex-21.2, read]
    """
    circumference_mm = math.pi * positive("diameter_mm", diameter_mm)
    speed_mm_min = circumference_mm * positive("spindle_speed_rpm", spindle_speed_rpm)
    # Cutting speeds are given in metres a minute, diameters in millimetres.
    return speed_mm_min / MM_PER_M


def feed_rate_mm_min(feed_mm_rev: float, spindle_speed_rpm: float) -> float:
    """Find how fast the tool advances.

    Args:
        feed_mm_rev: [mm/rev] advance f a turn
        spindle_speed_rpm: [rpm] spindle speed n

    Returns:
        [mm/min] feed rate vf

    Valid: both above 0

    >>> feed_rate_mm_min(0.3, 626.6)
    187.98

    Source: Groover 4th ed., solution 22.10 [groover4-22.10, read]
    """
    return positive("feed_mm_rev", feed_mm_rev) * positive("spindle_speed_rpm", spindle_speed_rpm)


def seconds_for_travel(travel_mm: float, feed_rate_mm_min: float) -> float:
    """Find the time the tool takes over a travel at a steady feed rate.

    Args:
        travel_mm: [mm] distance L travelled under feed
        feed_rate_mm_min: [mm/min] feed rate vf

    Returns:
        [s] time t

    Valid: both above 0; a hand feed is not steady, so there it is only a guide

    >>> seconds_for_travel(21.01, 105.0)
    12.0

    Source: Groover 5th ed., Example 21.2 [groover5-ex-21.2, read]
    """
    minutes = positive("travel_mm", travel_mm) / positive("feed_rate_mm_min", feed_rate_mm_min)
    # Feed rates are per minute; a drilling time is counted in seconds.
    return minutes * SECONDS_PER_MINUTE


def removal_rate_mm3_min(diameter_mm: float, feed_rate_mm_min: float) -> float:
    """Find the volume a drill turns to chips each minute, in solid metal.

    Args:
        diameter_mm: [mm] diameter D of the drill
        feed_rate_mm_min: [mm/min] feed rate vf

    Returns:
        [mm3/min] removal rate Q

    Valid: both above 0; no pilot hole

    >>> removal_rate_mm3_min(20.0, 105.0) / 60
    549.8

    Source: Groover 5th ed., Example 21.2 [groover5-ex-21.2, read]
    """
    area_mm2 = math.pi * positive("diameter_mm", diameter_mm) ** 2 / 4
    return area_mm2 * positive("feed_rate_mm_min", feed_rate_mm_min)


def choose_step(steps_rpm: Sequence[float], low_rpm: float, high_rpm: float) -> StepChoice:
    """Choose a spindle step for a range of speeds, never one above it.

    Equation: the fastest step with low <= n <= high; failing that the fastest with n < low, as
        slower is the safe side; failing that none

    Args:
        steps_rpm: [rpm] the machine's spindle speeds, in any order
        low_rpm: [rpm] slow end of the range
        high_rpm: [rpm] fast end of the range

    Returns:
        inside: [rpm] steps inside the range, slowest first
        chosen: [rpm] step to run, or None where every step is too fast
        below_range: [-] True where the chosen step is slower than the range

    Valid: at least one step; all above 0; low_rpm not above high_rpm

    >>> choose_step([500, 750, 1100, 1600], 900, 1200)
    StepChoice(inside=(1100,), chosen=1100, below_range=False)
    >>> choose_step([500, 750, 1600], 900, 1200)
    StepChoice(inside=(), chosen=750, below_range=True)
    >>> choose_step([1600], 900, 1200).chosen is None
    True

    Source: rule of this manual [step-rule, our own judgement]
    """
    steps = _checked_steps(steps_rpm)
    positive("low_rpm", low_rpm)
    positive("high_rpm", high_rpm)
    if low_rpm > high_rpm:
        raise ValueError(f"low_rpm is {low_rpm!r}; it must not be above high_rpm, {high_rpm!r}")
    inside = tuple(step for step in steps if low_rpm <= step <= high_rpm)
    slower = [step for step in steps if step < low_rpm]
    chosen = inside[-1] if inside else slower[-1] if slower else None
    return StepChoice(inside, chosen, below_range=not inside and chosen is not None)


def _checked_steps(steps_rpm: Sequence[float]) -> list[float]:
    """Sort the steps slowest first, each once."""
    if not steps_rpm:
        raise ValueError("steps_rpm is empty; it must hold at least one spindle speed")
    return sorted({positive("steps_rpm", step) for step in steps_rpm})
