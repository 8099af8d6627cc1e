"""Countersinks and counterbores: depths and diameters for screw heads.

Two published tables of flat heads, metric at 90 and inch at 82 degrees, are the independent
checks of the countersink's depth. Counterbore diameters are a tool maker's; that each clears the
head of its screw is checked against a supplier's list. Speeds are in speed_ratios.py.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from .domain import not_negative, positive, within
from .threads import Thread

SINK_ANGLE_RANGE_DEG = (60.0, 140.0)
"""Included angles accepted: countersinks are made with 60, 82, 90, 100 and 120. Our own judgement;
it refuses a half angle (45 for 90) entered by mistake."""


@dataclass(frozen=True)
class FlatHeadSink:
    """A countersink for a flat-head screw."""

    mouth_mm: float
    """Diameter at the surface."""
    depth_mm: float
    """From the surface to where the cone meets the hole: travel after the edge is touched."""


@dataclass(frozen=True)
class Counterbore:
    """A counterbore for a socket head cap screw."""

    diameter_mm: float
    depth_mm: float
    pilot_mm: float
    """Hole the tool maker's pilot runs in."""


@dataclass(frozen=True)
class CounterboreSize:
    """One row of the tool maker's table."""

    pilot_mm: float
    diameter_mm: float


COUNTERBORE_MM: Mapping[float, CounterboreSize] = MappingProxyType(
    {
        # By thread diameter (source somta-33, read). The pilot of M12 is half a millimetre more
        # than the medium hole of ISO 273; see clearance_holes.py.
        3.0: CounterboreSize(3.4, 6.0),
        3.5: CounterboreSize(3.9, 6.5),
        4.0: CounterboreSize(4.5, 8.0),
        5.0: CounterboreSize(5.5, 10.0),
        6.0: CounterboreSize(6.6, 11.0),
        8.0: CounterboreSize(9.0, 15.0),
        10.0: CounterboreSize(11.0, 18.0),
        12.0: CounterboreSize(14.0, 20.0),
    }
)
"""Counterbores for cap screws by thread diameter."""

SOCKET_HEAD_HEIGHT_MM: Mapping[float, float] = MappingProxyType(
    # The head is as high as the thread's diameter (source iso-4762, second-hand); there is no
    # M3.5 in that standard.
    {size: size for size in COUNTERBORE_MM if size != 3.5}
)
"""Largest height of a socket head by thread diameter."""


def countersink_depth_mm(mouth_mm: float, hole_mm: float, angle_deg: float) -> float:
    """Find the depth of a countersink from its diameter at the surface.

    Args:
        mouth_mm: [mm] diameter Dm at the surface
        hole_mm: [mm] diameter d of the hole; 0 for a cone down to its point
        angle_deg: [deg] whole (included) angle theta of the countersink

    Returns:
        [mm] depth t from the surface to where the cone meets the hole

    Valid: mouth above the hole; hole 0 or more; angle from 60 to 140

    >>> countersink_depth_mm(13.44, 6.0, 90.0)
    3.72

    Source: plane geometry [geometry, geometry]
    """
    positive("mouth_mm", mouth_mm)
    if not_negative("hole_mm", hole_mm) >= mouth_mm:
        raise ValueError(f"hole_mm is {hole_mm!r}; it must be below mouth_mm, {mouth_mm!r}")
    return (mouth_mm - hole_mm) / (2 * _spread(angle_deg))


def flat_head_sink(
    head_mm: float, hole_mm: float, angle_deg: float, below_flush_mm: float
) -> FlatHeadSink:
    """Find the countersink that takes a flat head down to the surface, or below it.

    Equation: Dm = Dh + 2 b tan(theta / 2); t = (Dm - d) / (2 tan(theta / 2))

    Args:
        head_mm: [mm] head diameter Dh, to the sharp edge where the standard gives one
        hole_mm: [mm] diameter d of the clearance hole
        angle_deg: [deg] whole (included) angle theta, the same for screw and countersink
        below_flush_mm: [mm] how far b the head's top lies below the surface; 0 is flush

    Returns:
        mouth_mm: [mm] diameter Dm at the surface
        depth_mm: [mm] depth t from the surface to where the cone meets the hole

    Valid: head above the hole; angle from 60 to 140, 90 for metric and 82 for inch screws; b 0 or
        more

    >>> flat_head_sink(12.0, 6.6, 90.0, 0.2)
    FlatHeadSink(mouth_mm=12.4, depth_mm=2.9)

    Source: plane geometry [geometry, geometry]
    """
    positive("head_mm", head_mm)
    mouth_mm = head_mm + 2 * not_negative("below_flush_mm", below_flush_mm) * _spread(angle_deg)
    if not_negative("hole_mm", hole_mm) >= head_mm:
        raise ValueError(f"hole_mm is {hole_mm!r}; it must be below head_mm, {head_mm!r}")
    return FlatHeadSink(mouth_mm, countersink_depth_mm(mouth_mm, hole_mm, angle_deg))


def counterbore(thread: Thread, below_flush_mm: float) -> Counterbore:
    """Find the counterbore for a socket head cap screw.

    Equation: depth = head height + b; diameter and pilot by table

    Args:
        thread: [any] the screw's thread
        below_flush_mm: [mm] how far b the head's top lies below the surface; 0 is flush

    Returns:
        diameter_mm: [mm] diameter of the counterbore
        depth_mm: [mm] its depth, to the flat
        pilot_mm: [mm] hole the pilot runs in

    Valid: M3 to M12, without M3.5 and M7; b 0 or more

    >>> from .threads import thread
    >>> counterbore(thread("M8"), 0.5)
    Counterbore(diameter_mm=15.0, depth_mm=8.5, pilot_mm=9.0)

    Source: Somta user guide, p. 33 [somta-33, read]; head height [iso-4762, second-hand]
    """
    height_mm = SOCKET_HEAD_HEIGHT_MM.get(thread.major_mm)
    if thread.system != "metric" or height_mm is None:
        allowed = ", ".join(f"M{size:g}" for size in SOCKET_HEAD_HEIGHT_MM)
        raise ValueError(f"thread is {thread.name}; it must be one of {allowed}")
    size = COUNTERBORE_MM[thread.major_mm]
    depth_mm = height_mm + not_negative("below_flush_mm", below_flush_mm)
    return Counterbore(size.diameter_mm, depth_mm, size.pilot_mm)


def _spread(angle_deg: float) -> float:
    """Radius a cone gains for each millimetre of depth."""
    # Tangents are taken in radians; the angle is ground and written in degrees.
    return math.tan(math.radians(within("angle_deg", angle_deg, *SINK_ANGLE_RANGE_DEG) / 2))
