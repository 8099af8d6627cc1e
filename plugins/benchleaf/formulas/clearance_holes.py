"""Clearance holes for metric bolts and screws, by thread and series.

Rows M2 to M10 and M18 to M24 agree in every list read. For M12, M14 and M16, medium and coarse,
the lists part: ISO 273 has 13.5, 15.5 and 17.5 for medium; lists that follow older practice have
half a millimetre more. The standard's value is given, with the other beside it. Two public lists
are compared row by row in the tests.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from .sources import SourceStatus
from .threads import Thread

HoleSeries = Literal["fine", "medium", "coarse"]

HOLE_SERIES: Mapping[HoleSeries, str] = MappingProxyType(
    {"fine": "H12", "medium": "H13", "coarse": "H14"}
)
"""Tolerance class of each series (source iso-273, second-hand)."""

_HOLES_MM: Mapping[float, tuple[float, float, float]] = MappingProxyType(
    {
        # Thread diameter: fine, medium, coarse (source iso-273, second-hand).
        2.0: (2.2, 2.4, 2.6),
        2.5: (2.7, 2.9, 3.1),
        3.0: (3.2, 3.4, 3.6),
        3.5: (3.7, 3.9, 4.2),
        4.0: (4.3, 4.5, 4.8),
        5.0: (5.3, 5.5, 5.8),
        6.0: (6.4, 6.6, 7.0),
        7.0: (7.4, 7.6, 8.0),
        8.0: (8.4, 9.0, 10.0),
        10.0: (10.5, 11.0, 12.0),
        12.0: (13.0, 13.5, 14.5),
        14.0: (15.0, 15.5, 16.5),
        16.0: (17.0, 17.5, 18.5),
        18.0: (19.0, 20.0, 21.0),
        20.0: (21.0, 22.0, 24.0),
        22.0: (23.0, 24.0, 26.0),
        24.0: (25.0, 26.0, 28.0),
    }
)

_OTHER_MM: Mapping[tuple[float, HoleSeries], float] = MappingProxyType(
    {
        # What lists that are no ISO 273 have where they part from it.
        (12.0, "medium"): 14.0,
        (12.0, "coarse"): 15.0,
        (14.0, "medium"): 16.0,
        (14.0, "coarse"): 17.0,
        (16.0, "medium"): 18.0,
        (16.0, "coarse"): 19.0,
    }
)


@dataclass(frozen=True)
class ClearanceHole:
    """One clearance hole."""

    diameter_mm: float
    tolerance_class: str
    """H12, H13 or H14, by series."""
    other_mm: float | None
    """What lists that are no ISO 273 print in its place; None where all agree."""
    status: SourceStatus


def clearance_hole_mm(thread: Thread, series: HoleSeries) -> ClearanceHole:
    """Find the clearance hole for a metric thread.

    Equation: none, a look-up by major diameter; the pitch does not matter

    Args:
        thread: [any] a metric thread
        series: [text] fine, medium or coarse

    Returns:
        diameter_mm: [mm] diameter of the hole
        tolerance_class: [text] class of its tolerance
        other_mm: [mm] diameter in lists that part from the standard, or None
        status: [text] how the figure was obtained

    Valid: M2 to M24. M12, M14 and M16, medium and coarse: other lists have 0.5 mm more

    >>> from .threads import thread
    >>> clearance_hole_mm(thread("M8"), "medium").diameter_mm
    9.0
    >>> clearance_hole_mm(thread("M12"), "medium").diameter_mm
    13.5

    Source: ISO 273 in public lists [iso-273, second-hand]
    """
    if series not in HOLE_SERIES:
        raise ValueError(f"series is {series!r}; it must be one of {', '.join(HOLE_SERIES)}")
    if thread.system != "metric":
        raise ValueError(f"thread is {thread.name}; it must be a metric thread, M2 to M24")
    row = _HOLES_MM[thread.major_mm]
    diameter_mm = row[list(HOLE_SERIES).index(series)]
    other_mm = _OTHER_MM.get((thread.major_mm, series))
    return ClearanceHole(diameter_mm, HOLE_SERIES[series], other_mm, SourceStatus.SECOND_HAND)
