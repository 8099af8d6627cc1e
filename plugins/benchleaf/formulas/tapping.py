"""Tapping: spindle speed, feed, turns, hand tapping, and torque by two published models.

The two torque models take the chip's area differently, so each has a table of its own: never put
a constant of one into the other. Neither source prints a worked result, so there is no
independent printed torque; the models are compared with each other, and with the order of torques
one maker measured. What torque breaks a tap is left out: it hangs on the tap's core, flutes and
steel, and no source read here gives a figure.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from .domain import not_negative, positive, within
from .speeds import feed_rate_mm_min, spindle_speed_rpm
from .tap_drills import Basis, percent_of_thread
from .threads import Thread

YAMAWA_DIVISOR = 24000.0
LUBERO_DIVISOR = 8000.0
"""As printed in the two torque equations, giving N.m from N/mm2 and mm (source yamawa-640, read)
(source lubero, read)."""

HALF_ANGLE_DEG = 30.0
"""Half of the 60 degree thread angle."""

KC_RANGE_N_MM2 = (500.0, 8000.0)
"""Cutting constants believed: the two tables run from 680 to 5500. Our own judgement."""
K_RANGE = (0.5, 3.0)
"""Tap factors believed: the table runs from 0.75 to 1.68. Our own judgement."""

TAPPING_TORQUE_SPREAD: Mapping[str, float] = MappingProxyType(
    {"carbon steel": 0.19, "stainless steel": 0.36, "cast iron": 0.60, "brass": 0.84}
)
"""Largest difference found between the two models, as a share of the smaller: plug tap, M2 to
M24, usual drill, nearest rows of both tables. The first model is the higher for iron and brass.
A dull tap or packed chips come on top of either."""

DULL_FACTOR = 2.0
"""A dull tap, or one packed with chips, against a sharp one. Our own judgement: makers name both as
causes of breaking, and no published figure was found (source tap-dull)."""
LIMIT_SHARE = 0.5
"""Share of a tap's breaking torque, or of its clutch's, above which to warn. Our own judgement."""

FORWARD_RANGE_TURNS = (0.25, 2.0)
"""Strokes accepted; the practice is HAND_TAPPING. Our own judgement: half to twice of it."""
TURN_DECIMALS = 6
"""Noise dropped before counting, so that 16.000000001 turns are 16. Our own judgement."""

KC_YAMAWA_N_MM2: Mapping[str, float] = MappingProxyType(
    {
        # Table 1 (source yamawa-640, read); steels by their DIN names with the hardness printed.
        "St44-2, 133 HB": 3700.0,
        "Ck15, 141 HB": 3600.0,
        "Ck35, 162 HB": 3700.0,
        "Ck45, 188 HB": 3900.0,
        "Ck60, 188 HB": 4000.0,
        "42CrMo4, 193 HB": 3600.0,
        "42CrMo4, 30 HRC": 4900.0,
        "42CrMo4, 40 HRC": 5500.0,
        "X6CrNi18-10, 209 HB": 4200.0,
        "C105W2, 175 HB": 5300.0,
        "CuZn40": 2300.0,
        "G-AlSi8Cu3": 1300.0,
        "GG-25, 193 HB": 2900.0,
    }
)
"""Specific cutting resistance for tapping_torque_nm only."""

KC_LUBERO_N_MM2: Mapping[str, float] = MappingProxyType(
    {
        # Table of the page (source lubero, read).
        "unalloyed steel, to 700 N/mm2": 2300.0,
        "free-cutting steel, to 700 N/mm2": 2300.0,
        "structural steel, 500 to 950 N/mm2": 2500.0,
        "tempered steel, 500 to 950 N/mm2": 2600.0,
        "tempered steel, 950 to 1400 N/mm2": 3600.0,
        "tool steel, 950 to 1400 N/mm2": 3600.0,
        "austenitic stainless steel, 500 to 950 N/mm2": 3200.0,
        "aluminium, long chips, to 550 N/mm2": 800.0,
        "copper alloys, long chips, 300 to 700 N/mm2": 1100.0,
        "grey cast iron, 100 to 400 N/mm2": 1250.0,
        "alloy grey cast iron, 150 to 250 N/mm2": 1600.0,
        "malleable cast iron, 350 to 700 N/mm2": 1100.0,
        "aluminium, short chips, to 400 N/mm2": 680.0,
        "copper alloys, short chips, to 500 N/mm2": 720.0,
    }
)
"""Cutting constant for tapping_torque_second_nm only."""

K_YAMAWA: Mapping[tuple[str, str, str], float] = MappingProxyType(
    {
        # Table 2 (source yamawa-640, read): tap, work, series. The page leaves brass fine blank
        # for bottoming and spiral-fluted taps.
        ("plug", "steel", "coarse"): 1.35,
        ("plug", "steel", "fine"): 1.15,
        ("plug", "cast iron or aluminium", "coarse"): 1.25,
        ("plug", "cast iron or aluminium", "fine"): 1.08,
        ("plug", "brass", "coarse"): 1.60,
        ("plug", "brass", "fine"): 1.12,
        ("bottoming", "steel", "coarse"): 1.43,
        ("bottoming", "steel", "fine"): 1.50,
        ("bottoming", "cast iron or aluminium", "coarse"): 1.30,
        ("bottoming", "cast iron or aluminium", "fine"): 1.25,
        ("bottoming", "brass", "coarse"): 1.68,
        ("spiral-fluted", "steel", "coarse"): 1.15,
        ("spiral-fluted", "steel", "fine"): 1.25,
        ("spiral-fluted", "cast iron or aluminium", "coarse"): 1.05,
        ("spiral-fluted", "cast iron or aluminium", "fine"): 1.10,
        ("spiral-fluted", "brass", "coarse"): 0.85,
        ("spiral-pointed", "steel", "coarse"): 0.95,
        ("spiral-pointed", "steel", "fine"): 1.00,
        ("spiral-pointed", "cast iron or aluminium", "coarse"): 0.80,
        ("spiral-pointed", "cast iron or aluminium", "fine"): 1.00,
        ("spiral-pointed", "brass", "coarse"): 0.75,
        ("spiral-pointed", "brass", "fine"): 1.00,
    }
)
"""Tap factor K for tapping_torque_nm only, by tap, work and series."""


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


def back_offs(turns: float, forward_turns: float) -> int:
    """Count how often a hand tap is turned back on its way in.

    Equation: whole number of forward strokes, less the last: ceil(N / f) - 1

    Args:
        turns: [-] turns N to the end, without those turned back
        forward_turns: [-] turns f forward before each backing off

    Returns:
        [-] times turned back

    Valid: turns above 0; forward a quarter of a turn to 2, the practice being a half to 1

    >>> back_offs(16.0, 1.0)
    15

    Source: common practice [hand-tapping, common practice]
    """
    stroke = within("forward_turns", forward_turns, *FORWARD_RANGE_TURNS)
    return math.ceil(round(positive("turns", turns) / stroke, TURN_DECIMALS)) - 1


def tapping_torque_nm(thread: Thread, hole_mm: float, kc_n_mm2: float, tap_factor: float) -> float:
    """Find the torque of a sharp cutting tap, by the model that knows the hole.

    Args:
        thread: [any] the thread, giving D
        hole_mm: [mm] diameter d of the hole
        kc_n_mm2: [N/mm2] cutting resistance kc of KC_YAMAWA_N_MM2, and of no other table
        tap_factor: [-] factor K of K_YAMAWA for tap, work and series

    Returns:
        [N.m] torque M; see TAPPING_TORQUE_SPREAD for how far to trust it

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


def tapping_torque_second_nm(thread: Thread, kc_n_mm2: float) -> float:
    """Find the torque of a cutting tap by a second published model, as a check.

    Equation: M = kc P^2 D / 8000

    Args:
        thread: [any] the thread, giving D and P
        kc_n_mm2: [N/mm2] cutting constant kc of KC_LUBERO_N_MM2, and of no other table

    Returns:
        [N.m] torque M; it knows neither the hole nor the kind of tap

    Valid: kc 500 to 8000

    >>> from .threads import thread
    >>> tapping_torque_second_nm(thread("M10"), 2500.0)
    7.03

    Source: Lubero, technical pages [lubero, read]; the worked call is our own arithmetic
    """
    kc = within("kc_n_mm2", kc_n_mm2, *KC_RANGE_N_MM2)
    return kc * thread.pitch_mm**2 * thread.major_mm / LUBERO_DIVISOR


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
