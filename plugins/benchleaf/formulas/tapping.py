"""Tapping: spindle speed, feed, turns, hand tapping, and torque by a published model.

Its source prints no worked result, so there is no independent printed torque: tests compare it
with a second model, which differs by 19 to 84 %, and with the order of torques one maker
measured. A dull tap or packed chips come on top. What torque breaks a tap is left out: it hangs
on the tap's core, flutes and steel, and no source read here gives a figure.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from .domain import not_negative, positive, within
from .drilling_limits import FAR_BELOW
from .speeds import feed_rate_mm_min, spindle_speed_rpm
from .tap_drills import Basis, percent_of_thread
from .threads import Thread

YAMAWA_DIVISOR = 24000.0
"""As printed in the torque equation, giving N.m from N/mm2 and mm (source yamawa-640, read)."""

HALF_ANGLE_DEG = 30.0
"""Half of the 60 degree thread angle."""

KC_RANGE_N_MM2 = (500.0, 8000.0)
"""Cutting constants believed: the two tables run from 680 to 5500. Our own judgement."""
K_RANGE = (0.5, 3.0)
"""Tap factors believed: the table runs from 0.75 to 1.68. Our own judgement."""

LOWEST_KC: Mapping[str, float] = MappingProxyType(
    {"steel": 3600.0, "grey cast iron": 2900.0, "aluminium alloy": 1300.0, "brass": 2300.0}
)
"""Lowest cutting constant of the table by the metal, in N/mm2 (source yamawa-640, read)."""

DULL_FACTOR = 2.0
"""A dull tap, or one packed with chips, against a sharp one. Our own judgement: makers name both as
causes of breaking, and no published figure was found (source tap-dull)."""
LIMIT_SHARE = 0.5
"""Share of a tap's breaking torque, or of its clutch's, above which to warn. Our own judgement."""


@dataclass(frozen=True)
class HandTapping:
    """Turns forward before backing off, and turns back, in hand tapping."""

    forward_low_turns: float
    forward_high_turns: float
    back_low_turns: float
    back_high_turns: float


HAND_TAPPING = HandTapping(0.5, 1.0, 0.25, 0.5)
"""Forward half a turn to a whole one, then back a quarter to a half, to break the chip (source
hand-tapping, common practice): one lesson has a half back for each turn, one reverses after each
half turn, one goes back about a quarter."""


def tapping_speed_rpm(cutting_speed_m_min: float, thread: Thread) -> float:
    """Find the spindle speed for tapping from the cutting speed.

    Args:
        cutting_speed_m_min: [m/min] cutting speed v for tapping, not for drilling
        thread: [any] the thread, giving its major diameter D

    Returns:
        [rpm] spindle speed n

    Valid: speed above 0

    >>> from .threads import thread
    >>> tapping_speed_rpm(10.0, thread("M10"))
    318.3

    Source: as for any turning tool, Groover 5th ed., Example 21.2 [groover5-ex-21.2, read]
    """
    return spindle_speed_rpm(cutting_speed_m_min, thread.major_mm)


def tapping_feed_rate_mm_min(thread: Thread, spindle_speed_rpm: float) -> float:
    """Find how fast a tap goes in: one pitch a turn, neither more nor less.

    Args:
        thread: [any] the thread, giving its pitch P
        spindle_speed_rpm: [rpm] spindle speed n

    Returns:
        [mm/min] feed rate vf

    Valid: speed above 0

    >>> from .threads import thread
    >>> tapping_feed_rate_mm_min(thread("M8"), 600.0)
    750.0

    Source: geometry of a screw, single start [geometry, geometry]
    """
    return feed_rate_mm_min(thread.pitch_mm, spindle_speed_rpm)


def is_far_below(kc_n_mm2: float, metal: str) -> bool:
    """Find whether a cutting constant is one of another metal, or of another unit.

    Equation: by table

    Args:
        kc_n_mm2: [N/mm2] cutting constant kc
        metal: [text] metal of the work, a key of LOWEST_KC

    Returns:
        [any] True below nine tenths of the lowest of that metal

    Valid: the metals of LOWEST_KC

    >>> is_far_below(500, "steel"), is_far_below(3600, "steel")
    (True, False)

    Source: a tap maker's catalogue, Table 1 [yamawa-640, read]; the share is our own judgement
    """
    if metal not in LOWEST_KC:
        raise ValueError(f"metal is {metal!r}; it must be one of {', '.join(LOWEST_KC)}")
    return positive("kc_n_mm2", kc_n_mm2) < FAR_BELOW * LOWEST_KC[metal]


def turns_to_depth(thread: Thread, thread_length_mm: float, chamfer_pitches: float) -> float:
    """Find how many turns a tap makes from its first bite to a length of full thread.

    Args:
        thread: [any] the thread, giving its pitch P
        thread_length_mm: [mm] length l of full thread
        chamfer_pitches: [-] chamfer c of the tap, in pitches

    Returns:
        [-] turns N

    Valid: length above 0; chamfer 0 or more

    >>> from .threads import thread
    >>> turns_to_depth(thread("M8"), 15.0, 4.0)
    16.0

    Source: geometry of a screw, single start [geometry, geometry]
    """
    full_turns = positive("thread_length_mm", thread_length_mm) / thread.pitch_mm
    return full_turns + not_negative("chamfer_pitches", chamfer_pitches)


def tapping_torque_nm(thread: Thread, hole_mm: float, kc_n_mm2: float, tap_factor: float) -> float:
    """Find the torque of a sharp cutting tap, by the model that knows the hole.

    Args:
        thread: [any] the thread, giving D
        hole_mm: [mm] diameter d of the hole
        kc_n_mm2: [N/mm2] cutting resistance kc of table 1 of the source, and of no other
        tap_factor: [-] factor K of its table 2 for tap, work and series

    Returns:
        [N.m] torque M; a second model differs by up to 84 %

    Valid: hole below D and not below D - 1.299 P; kc 500 to 8000; K 0.5 to 3. Formed threads take
        two to three times as much, by the maker's experience

    >>> from .threads import thread
    >>> tapping_torque_nm(thread("M8"), 6.8, 3900.0, 1.35)
    3.94

    Source: Yamawa catalogue 2021, p. 640 [yamawa-640, read]; the worked call is our own
        arithmetic
    """
    # For the check of the hole; the percentage itself is not needed.
    percent_of_thread(thread, hole_mm, Basis.ISO)
    load = within("kc_n_mm2", kc_n_mm2, *KC_RANGE_N_MM2) * within(
        "tap_factor", tap_factor, *K_RANGE
    )
    depth_mm, arm_mm = thread.major_mm - hole_mm, thread.major_mm + 2 * hole_mm
    slope = math.tan(math.radians(HALF_ANGLE_DEG))
    return slope * load * depth_mm**2 * arm_mm / YAMAWA_DIVISOR


def dull_tap_torque_nm(torque_nm: float) -> float:
    """Find the torque of a tap that is dull or packed with chips.

    Args:
        torque_nm: [N.m] torque M0 of a sharp tap

    Returns:
        [N.m] torque M to hold the work against

    Valid: above 0; a tap that jams asks for more still, up to where it breaks

    >>> dull_tap_torque_nm(3.94)
    7.88

    Source: our own judgement [tap-dull, our own judgement]
    """
    return DULL_FACTOR * positive("torque_nm", torque_nm)
