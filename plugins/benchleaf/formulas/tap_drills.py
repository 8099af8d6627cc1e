"""The hole before tapping: percentage of thread, a drill that exists, depth of a blind hole.

Two bases of "percentage of thread" are in use, and the same hole has a different percentage on
each; every call names its basis. Wrong formulas seen in public (half the depth, or the pitch
itself taken for the depth) are held off by tests. Independent printed figures: 70 holes of a
supplier's and a tap maker's tables, another's flow chart for M10, a machining tip's blind depth.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from types import MappingProxyType
from typing import Literal

from .domain import not_negative, positive, within
from .drill_sizes import SIZES
from .threads import Limits, Thread, minor_limits_mm

Kind = Literal["metric", "fraction", "number", "letter"]


class Basis(Enum):
    """What 100 per cent of thread means."""

    FULL_THREAD_HEIGHT = "1.299 P"
    """Double depth of the US chart's thread, 3/4 of the triangle's height each side."""
    ISO = "1.0825 P"
    """Major less basic minor diameter of the ISO profile, 5/8 each side."""


DOUBLE_DEPTH: Mapping[Basis, float] = MappingProxyType(
    {
        # Geometry: H = P sqrt(3) / 2, taken twice. Printed rounded, as 0.01299 per cent and turn.
        Basis.FULL_THREAD_HEIGHT: 3 * math.sqrt(3) / 4,
        Basis.ISO: 5 * math.sqrt(3) / 8,
    }
)
"""Double depth of 100 per cent of thread, over pitch, by basis."""

MAX_PERCENT = 100.0

ALL_KINDS: tuple[Kind, ...] = ("metric", "fraction", "number", "letter")

METRIC_RUNS = ((20, 20, 59), (10, 30, 139), (4, 56, 100))
"""Metric drills as steps a millimetre, first and last step: 1.0 to 2.95 by 0.05, 3.0 to 13.9 by
0.1, 14.0 to 25.0 by 0.25 (source bs-328, second-hand)."""

SAME_MM = 1e-6
"""Distances closer than this are one distance: far below any drill's tolerance, far above the
noise of doubles. Our own judgement."""


@dataclass(frozen=True)
class ChamferRange:
    """Length of a tap's chamfer, in pitches."""

    low_pitches: float
    high_pitches: float


TAP_CHAMFER: Mapping[str, ChamferRange] = MappingProxyType(
    {
        # Taper 8 to 10 and plug 3 to 5 (source mh26-taps, second-hand); a tap maker has 9 and 5.
        # Bottoming: 1.5 there and at the tap maker's; 1 to 2 in other lists.
        "taper": ChamferRange(8.0, 10.0),
        "plug": ChamferRange(3.0, 5.0),
        "bottoming": ChamferRange(1.0, 2.0),
    }
)
"""Chamfer by kind of hand tap. For a depth take the high end, which is the safe one."""

LEAST_CLEARANCE_PITCHES = 1.0
"""Depth past the tap's end, in pitches, at the least (source eisc-depth, read). A spindle that
runs on adds its overrun; chips of a straight-fluted tap may need a whole diameter."""


@dataclass(frozen=True)
class TapDrill:
    """A drill that exists, for a thread."""

    name: str
    """As written on the drill: 6.8 mm, #7, F, 5/16."""
    diameter_mm: float
    percent: float
    """Percentage of thread this drill gives, on the basis asked for."""
    inside_limits: bool | None
    """True where the drill's diameter is inside the thread's minor limits; None without limits."""


def hole_for_percent_mm(thread: Thread, percent: float, basis: Basis) -> float:
    """Find the hole that leaves a percentage of thread.

    Equation: d = D - k P percent / 100; k = 1.299 or 1.0825 by basis

    Args:
        thread: [any] the thread, giving D and P
        percent: [%] percentage of thread wanted
        basis: [any] what 100 per cent means

    Returns:
        [mm] diameter d of the hole

    Valid: percent above 0, up to 100; cut threads, not formed ones

    >>> from .threads import thread
    >>> hole_for_percent_mm(thread("M3"), 75.0, Basis.FULL_THREAD_HEIGHT)
    2.513

    Source: tap maker's formula sheet [tapmatic-formulas, second-hand]
    """
    share = within("percent", positive("percent", percent), 0.0, MAX_PERCENT) / MAX_PERCENT
    return thread.major_mm - DOUBLE_DEPTH[basis] * thread.pitch_mm * share


def percent_of_thread(thread: Thread, hole_mm: float, basis: Basis) -> float:
    """Find the percentage of thread a hole leaves.

    Equation: percent = 100 (D - d) / (k P); k = 1.299 or 1.0825 by basis

    Args:
        thread: [any] the thread, giving D and P
        hole_mm: [mm] diameter d of the hole
        basis: [any] what 100 per cent means

    Returns:
        [%] percentage of thread

    Valid: hole below the major diameter and not below D - 1.299 P. Above 100 on the ISO basis the
        hole is too small for the thread

    >>> from .threads import thread
    >>> percent_of_thread(thread("M10"), 8.5, Basis.ISO)
    92.4

    Source: the inverse of the formula sheet [tapmatic-formulas, second-hand]; the worked call is
        a tap maker's flow chart [yamawa-flow, read]
    """
    _checked_hole(thread, hole_mm)
    return MAX_PERCENT * (thread.major_mm - hole_mm) / (DOUBLE_DEPTH[basis] * thread.pitch_mm)


def tap_drill(
    thread: Thread, percent: float, basis: Basis, kinds: Sequence[Kind] = ALL_KINDS
) -> TapDrill:
    """Choose a drill that exists: inside the minor limits where there is one, then the nearest.

    Equation: least |diameter - hole for percent| among the drills inside the limits; failing
        those among all; of two equally near the larger, which is easier on the tap

    Args:
        thread: [any] the thread
        percent: [%] percentage of thread wanted
        basis: [any] what 100 per cent means
        kinds: [text] kinds of drill there are: metric, fraction, number, letter

    Returns:
        name: [text] as written on the drill
        diameter_mm: [mm] its diameter
        percent: [%] percentage it gives, which may differ from the one asked for
        inside_limits: [-] True inside the minor limits, None where the thread has no limits

    Valid: percent above 0, up to 100; at least one kind. A drill cuts larger than itself, so one
        near the upper limit needs a trial hole

    >>> from .threads import thread
    >>> tap_drill(thread("M8"), 77.0, Basis.FULL_THREAD_HEIGHT, ("metric",)).name
    '6.8 mm'
    >>> tap_drill(thread("1/4-20"), 75.0, Basis.FULL_THREAD_HEIGHT, ("number",)).name
    '#7'

    Source: rule of this manual [drill-choice, our own judgement]; sizes by BS 328 [bs-328,
        second-hand] and ASME B94.11M [asme-b94.11m, second-hand]
    """
    wanted_mm = hole_for_percent_mm(thread, percent, basis)
    limits = minor_limits_mm(thread)
    drills = [each for each in _drills(kinds) if _can_be_tapped(thread, each[1])]
    if not drills:
        raise ValueError(f"kinds is {kinds!r}; it holds no drill for {thread.name}")
    inside = [each for each in drills if limits and _inside(limits, each[1])]
    name, diameter_mm = min(inside or drills, key=lambda each: _rank(each[1], wanted_mm))
    got = percent_of_thread(thread, diameter_mm, basis)
    return TapDrill(name, diameter_mm, got, bool(inside) if limits else None)


def blind_tap_depth_mm(
    thread: Thread, thread_length_mm: float, chamfer_pitches: float, clearance_pitches: float
) -> float:
    """Find how deep to drill a blind hole for a length of full thread.

    Equation: L = l + (c + k) P

    Args:
        thread: [any] the thread, giving P
        thread_length_mm: [mm] length l of full thread wanted
        chamfer_pitches: [-] chamfer c of the last tap used, in pitches: TAP_CHAMFER
        clearance_pitches: [-] clearance k past the tap's end, in pitches

    Returns:
        [mm] depth L of the full diameter; the drill's point goes deeper

    Valid: length above 0; chamfer 0 or more; clearance 1 or more (LEAST_CLEARANCE_PITCHES)

    >>> from .threads import thread
    >>> blind_tap_depth_mm(thread("1/4-20"), 9.525, 2.0, 1.0) / 25.4
    0.525

    Source: machining tip, whose example is the worked call [eisc-depth, read]; a tap maker says the
        same [osg-9535, read]
    """
    length_mm = positive("thread_length_mm", thread_length_mm)
    positive("clearance_pitches", clearance_pitches)
    within("clearance_pitches", clearance_pitches, LEAST_CLEARANCE_PITCHES, math.inf)
    pitches = not_negative("chamfer_pitches", chamfer_pitches) + clearance_pitches
    return length_mm + pitches * thread.pitch_mm


def own_kinds(thread: Thread) -> tuple[Kind, ...]:
    """Choose the sets of drills a thread is usually drilled from: metric for a metric thread.

    Equation: metric sizes for a metric thread; all sets for a Unified one

    Args:
        thread: [-] thread

    Returns:
        [-] kinds for tap_drill

    Valid: a matter of what stands in the drill stand, no rule of the thread

    >>> from benchleaf.formulas.threads import thread
    >>> own_kinds(thread("M8"))
    ('metric',)

    Source: rule of this manual [drill-choice, our own judgement]
    """
    return ("metric",) if thread.system == "metric" else ALL_KINDS


def _smallest_hole_mm(thread: Thread) -> float:
    return thread.major_mm - DOUBLE_DEPTH[Basis.FULL_THREAD_HEIGHT] * thread.pitch_mm


def _can_be_tapped(thread: Thread, hole_mm: float) -> bool:
    return _smallest_hole_mm(thread) <= hole_mm < thread.major_mm


def _checked_hole(thread: Thread, hole_mm: float) -> None:
    positive("hole_mm", hole_mm)
    # Noise may put the 100 per cent hole a hair below itself.
    if not _smallest_hole_mm(thread) - SAME_MM <= hole_mm < thread.major_mm:
        raise ValueError(
            f"hole_mm is {hole_mm!r}; for {thread.name} it must be from "
            f"{_smallest_hole_mm(thread):.3f} to below {thread.major_mm:g}"
        )


def is_inside_limits(thread: Thread, hole_mm: float) -> bool | None:
    """Say whether a hole lies inside the minor limits of a thread.

    Equation: low <= d <= high

    Args:
        thread: [any] the thread
        hole_mm: [mm] diameter d of the hole

    Returns:
        [-] True inside, None where the thread has no limits here

    Valid: any hole

    >>> from .threads import thread
    >>> is_inside_limits(thread("M8"), 6.8), is_inside_limits(thread("M8"), 7.0)
    (True, False)

    Source: ISO 965-1 [iso-965-1, second-hand]; ASME B1.1 [asme-b1.1, second-hand]
    """
    limits = minor_limits_mm(thread)
    return None if limits is None else _inside(limits, positive("hole_mm", hole_mm))


def _inside(limits: Limits, diameter_mm: float) -> bool:
    # A drill that is exactly the limit in inches must not fail on the last bit in mm.
    return limits.low_mm - SAME_MM <= diameter_mm <= limits.high_mm + SAME_MM


def _rank(diameter_mm: float, wanted_mm: float) -> tuple[float, float]:
    """Sort key: nearer first, then larger."""
    steps_away = round(abs(diameter_mm - wanted_mm) / SAME_MM)
    return steps_away, -diameter_mm


def _kind_of(name: str) -> Kind:
    if name.startswith("#"):
        return "number"
    return "letter" if name.isalpha() else "fraction"


METRIC_DRILLS: tuple[tuple[str, float], ...] = tuple(
    (f"{step / per_mm:.{1 if step * 10 % per_mm == 0 else 2}f} mm", step / per_mm)
    for per_mm, first, last in METRIC_RUNS
    for step in range(first, last + 1)
)
"""Names and diameters of the metric drills, smallest first."""


_INCH_DRILLS = tuple((_kind_of(one.name), (one.name, one.diameter_mm)) for one in SIZES.values())
"""Kind, name and diameter of each drill in inches."""


def _drills(kinds: Sequence[Kind]) -> list[tuple[str, float]]:
    unknown = [each for each in kinds if each not in ALL_KINDS]
    if unknown or not kinds:
        raise ValueError(f"kinds is {kinds!r}; it must name some of {', '.join(ALL_KINDS)}")
    inch = [drill for kind, drill in _INCH_DRILLS if kind in kinds]
    return [*(METRIC_DRILLS if "metric" in kinds else ()), *inch]
