"""Find a thread by the name written on a drawing, and the limits of its minor diameter.

The tables are in thread_tables.py. A name that is no thread of the tables is refused with the
nearest ones: nothing is guessed. Independent printed limits: 18 metric pairs of a public copy of
ASME B1.13M and two catalogues, and the UNC and small UNF rows of public lists; M5 and the upper
limits of UNF 1/4 to 1 in (5/8 apart) have none.
"""

import difflib
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from .sources import SourceStatus
from .thread_tables import METRIC, MINOR_TOLERANCE_6H, MM_PER_IN, UNIFIED, UnifiedSize

System = Literal["metric", "unified"]
Series = Literal["coarse", "fine"]

THREAD_HEIGHT_ISO = 5 * math.sqrt(3) / 8
"""Major less basic minor diameter, over pitch: 1.0825, twice 5/8 of the triangle's height H
(geometry of the 60 degree profile)."""

UM_PER_MM = 1000.0
"""Micrometres in a millimetre, by definition."""
LIMIT_DECIMALS_MM = 3
"""Places to which the standard gives metric limits, in mm."""
NEAREST_SHOWN = 3
"""Names offered in place of one that does not exist."""

_SUFFIX_OF: Mapping[str, str] = MappingProxyType({"coarse": "UNC", "fine": "UNF"})
_METRIC_NAME = re.compile(r"M(\d+(?:\.\d+)?)(?:X(\d+(?:\.\d+)?))?")
_UNIFIED_NAME = re.compile(r"(#\d+|\d+/\d+|1)(?:-(\d+)(UNC|UNF)?)?")


@dataclass(frozen=True)
class Thread:
    """One screw thread."""

    name: str
    """The full designation: M8x1.25, 1/4-20 UNC."""
    system: System
    series: Series
    major_mm: float
    pitch_mm: float
    tpi: int | None
    """Threads an inch; None for a metric thread."""
    status: SourceStatus
    """How it was learnt that this thread is in the standard."""


@dataclass(frozen=True)
class Limits:
    """Limits of the minor diameter of an internal thread, so of the hole before tapping."""

    low_mm: float
    high_mm: float
    tolerance_class: str
    """6H for metric threads, 2B for Unified."""
    status: SourceStatus
    """The weaker of the two limits' statuses."""


def thread(name: str) -> Thread:
    """Find a thread by its name; spaces and case do not count.

    Equation: none, a look-up; P = 25.4 / threads an inch

    Args:
        name: [text] M8, M8x1.25, M8 x 1, 1/4-20 UNC, 1/4-20 or #10-32 UNF

    Returns:
        name: [text] full designation
        system: [text] metric or unified
        series: [text] coarse or fine
        major_mm: [mm] nominal major diameter D
        pitch_mm: [mm] pitch P
        tpi: [-] threads an inch, None for a metric thread
        status: [text] how the row was obtained

    Valid: M2 to M24, #4 to 1 in; M with no pitch is the coarse thread

    >>> thread("M8").name, thread("M8 x 1").pitch_mm, thread("1/4-20").name
    ('M8x1.25', 1.0, '1/4-20 UNC')

    Source: ISO 261 [iso-261, second-hand] and ASME B1.1 [asme-b1.1, second-hand]; fine pitches
        that were recalled say so in their status
    """
    written = re.sub(r"\s+", "", name).upper().replace("×", "X")
    metric, unified = _METRIC_NAME.fullmatch(written), _UNIFIED_NAME.fullmatch(written)
    if metric:
        return _metric(name, float(metric[1]), metric[2] and float(metric[2]))
    if unified:
        return _unified(name, unified[1], int(unified[2] or 0), unified[3])
    close = difflib.get_close_matches(written, _BY_KEY, n=NEAREST_SHOWN, cutoff=0.0)
    raise _unknown(name, [_BY_KEY[key] for key in close])


def basic_minor_mm(thread: Thread) -> float:
    """Find the basic minor diameter of an internal thread, its smallest hole.

    Equation: D1 = D - 1.0825 P

    Args:
        thread: [any] the thread

    Returns:
        [mm] basic minor diameter D1

    Valid: threads of 60 degree ISO or Unified form

    >>> basic_minor_mm(thread("M8"))
    6.647

    Source: geometry of the profile [geometry, geometry]; the figure agrees with catalogues
    """
    return thread.major_mm - THREAD_HEIGHT_ISO * thread.pitch_mm


def minor_limits_mm(thread: Thread) -> Limits | None:
    """Find the limits of the minor diameter, class 6H or 2B: where the tapped hole must lie.

    Equation: metric: low = D - 1.0825 P, high = low + TD1(P), both to 0.001 mm; Unified: table

    Args:
        thread: [any] the thread

    Returns:
        low_mm: [mm] smallest minor diameter
        high_mm: [mm] largest minor diameter
        tolerance_class: [text] 6H or 2B
        status: [text] second-hand, or from memory

    Valid: None where the tables hold no limits; normal length of engagement

    >>> limits = minor_limits_mm(thread("M10"))
    >>> limits.low_mm, limits.high_mm
    (8.376, 8.676)

    Source: ISO 965-1 [iso-965-1, second-hand], ASME B1.1 [asme-b1.1, second-hand]; pitch 0.8 mm
        and the upper limits of most UNF from 1/4 in are from memory, as the status says
    """
    if thread.system == "unified":
        return _UNIFIED_LIMITS.get(thread.name)
    tolerance = MINOR_TOLERANCE_6H.get(thread.pitch_mm)
    if tolerance is None:
        return None
    low_mm = round(basic_minor_mm(thread), LIMIT_DECIMALS_MM)
    # Tolerances are tabled in micrometres, diameters in millimetres.
    high_mm = round(low_mm + tolerance.width_um / UM_PER_MM, LIMIT_DECIMALS_MM)
    return Limits(low_mm, high_mm, "6H", tolerance.status)


def _unified_thread(row: UnifiedSize) -> Thread:
    series: Series = "coarse" if row.series == "coarse" else "fine"
    name = f"{row.size}-{row.tpi} {_SUFFIX_OF[row.series]}"
    # Unified threads are tabled in inches and threads an inch.
    major_mm, pitch_mm = row.major_in * MM_PER_IN, MM_PER_IN / row.tpi
    return Thread(name, "unified", series, major_mm, pitch_mm, row.tpi, SourceStatus.SECOND_HAND)


def _all_threads() -> list[Thread]:
    metric = [
        Thread(
            f"M{row.major_mm:g}x{row.pitch_mm:g}",
            "metric",
            "coarse" if row.series == "coarse" else "fine",
            row.major_mm,
            row.pitch_mm,
            None,
            row.status,
        )
        for row in METRIC
    ]
    return metric + [_unified_thread(row) for row in UNIFIED]


THREADS: Mapping[str, Thread] = MappingProxyType({each.name: each for each in _all_threads()})
"""Every thread by its full designation."""

_BY_KEY = {name.replace(" ", "").upper(): each for name, each in THREADS.items()}
_UNIFIED_LIMITS = {
    _unified_thread(row).name: Limits(
        row.minor_low_in * MM_PER_IN, row.minor_high_in * MM_PER_IN, "2B", row.limits_status
    )
    for row in UNIFIED
}


def _metric(name: str, major_mm: float, pitch_mm: float | str | None) -> Thread:
    metric = [each for each in THREADS.values() if each.system == "metric"]
    same = [each for each in metric if each.major_mm == major_mm]
    for each in same:
        if each.pitch_mm == pitch_mm or (not pitch_mm and each.series == "coarse"):
            return each
    wanted = pitch_mm if isinstance(pitch_mm, float) else math.inf

    def away(each: Thread) -> tuple[float, float]:
        # With no pitch written, the coarsest comes first.
        pitch_off = -each.pitch_mm if wanted == math.inf else abs(each.pitch_mm - wanted)
        return abs(each.major_mm - major_mm), pitch_off

    raise _unknown(name, sorted(same or metric, key=away))


def _unified(name: str, size: str, tpi: int, suffix: str | None) -> Thread:
    unified = [each for each in THREADS.values() if each.system == "unified"]
    same = [each for each in unified if each.name.startswith(f"{size}-")]
    for each in same:
        if each.tpi == tpi and suffix in (None, _SUFFIX_OF[each.series]):
            return each
    sizes = {row.size: row.major_in for row in UNIFIED}
    wanted = sizes.get(size, _inches(size))
    ranked = sorted(
        same or unified,
        key=lambda each: (abs(each.major_mm - wanted * MM_PER_IN), abs((each.tpi or 0) - tpi)),
    )
    raise _unknown(name, ranked)


NUMBER_SIZE_ZERO_IN = 0.060
NUMBER_SIZE_STEP_IN = 0.013
"""A number size is 0.060 in plus 0.013 in a number (source asme-b1.1, second-hand)."""


def _inches(size: str) -> float:
    """Major diameter a size name speaks of, whether or not such a thread exists."""
    if size.startswith("#"):
        return NUMBER_SIZE_ZERO_IN + NUMBER_SIZE_STEP_IN * int(size[1:])
    top, _, below = size.partition("/")
    return int(top) / max(int(below or 1), 1)


def _unknown(name: str, nearest: list[Thread]) -> ValueError:
    names = ", ".join(each.name for each in nearest[:NEAREST_SHOWN])
    return ValueError(
        f"name is {name!r}; it must be a thread of the tables, M2 to M24 or #4 to 1 in; "
        f"the nearest are {names}"
    )
