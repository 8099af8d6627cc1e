"""The threads that exist, as data: ISO metric coarse and fine, UNC and UNF, with their limits.

Origin: metric diameters and pitches of ISO 261 (source iso-261, second-hand); rows marked MEMORY
were recalled. Unified sizes and class 2B limits of ASME B1.1 (source asme-b1.1, second-hand); a
number size is 0.060 in plus 0.013 in a number. Metric 6H limits are not stored thread by thread:
as the standard has it, the lower limit is the basic minor diameter and the width depends on the
pitch alone (source iso-965-1, second-hand).
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from .sources import SourceStatus

MM_PER_IN = 25.4
"""Millimetres in an inch, by definition."""

_HEARD, _MEMORY = SourceStatus.SECOND_HAND, SourceStatus.MEMORY


@dataclass(frozen=True)
class MetricPitch:
    """One metric thread of the list."""

    major_mm: float
    pitch_mm: float
    series: str
    """coarse or fine."""
    status: SourceStatus


@dataclass(frozen=True)
class UnifiedSize:
    """One Unified thread of the list, in inches as the standard has it."""

    size: str
    """#10 or 1/4."""
    major_in: float
    tpi: int
    series: str
    """coarse (UNC) or fine (UNF)."""
    minor_low_in: float
    minor_high_in: float
    """Class 2B limits of the minor diameter."""
    limits_status: SourceStatus


@dataclass(frozen=True)
class MinorTolerance:
    """Width between the 6H limits of the minor diameter, for one pitch."""

    width_um: float
    status: SourceStatus


MINOR_TOLERANCE_6H: Mapping[float, MinorTolerance] = MappingProxyType(
    {
        # Pitch in mm. 0.35 to 0.7 from a catalogue's pairs of limits; 0.75 and 1 to 2 from a
        # public copy of ASME B1.13M; 2.5 and 3 from a copy of ISO 965-5; 0.8 recalled.
        0.35: MinorTolerance(100.0, _HEARD),
        0.4: MinorTolerance(112.0, _HEARD),
        0.45: MinorTolerance(125.0, _HEARD),
        0.5: MinorTolerance(140.0, _HEARD),
        0.6: MinorTolerance(160.0, _HEARD),
        0.7: MinorTolerance(180.0, _HEARD),
        0.75: MinorTolerance(190.0, _HEARD),
        0.8: MinorTolerance(200.0, _MEMORY),
        1.0: MinorTolerance(236.0, _HEARD),
        1.25: MinorTolerance(265.0, _HEARD),
        1.5: MinorTolerance(300.0, _HEARD),
        1.75: MinorTolerance(335.0, _HEARD),
        2.0: MinorTolerance(375.0, _HEARD),
        2.5: MinorTolerance(450.0, _HEARD),
        3.0: MinorTolerance(500.0, _HEARD),
    }
)
"""Tolerance TD1, grade 6, by pitch."""

_COARSE = (
    (2.0, 0.4),
    (2.5, 0.45),
    (3.0, 0.5),
    (3.5, 0.6),
    (4.0, 0.7),
    (5.0, 0.8),
    (6.0, 1.0),
    (7.0, 1.0),
    (8.0, 1.25),
    (10.0, 1.5),
    (12.0, 1.75),
    (14.0, 2.0),
    (16.0, 2.0),
    (18.0, 2.5),
    (20.0, 2.5),
    (22.0, 2.5),
    (24.0, 3.0),
)
_FINE = (
    (3.0, (0.35,)),
    (4.0, (0.5,)),
    (5.0, (0.5,)),
    (6.0, (0.75,)),
    (7.0, (0.75,)),
    (8.0, (1.0, 0.75)),
    (10.0, (1.25, 1.0, 0.75)),
    (12.0, (1.5, 1.25, 1.0)),
    (14.0, (1.5, 1.25)),
    (16.0, (1.5,)),
    (18.0, (2.0, 1.5)),
    (20.0, (2.0, 1.5)),
    (22.0, (2.0, 1.5)),
    (24.0, (2.0,)),
)
_FINE_RECALLED = (
    (2.5, (0.35,)),
    (14.0, (1.0,)),
    (16.0, (1.0,)),
    (18.0, (1.0,)),
    (20.0, (1.0,)),
    (22.0, (1.0,)),
    (24.0, (1.5, 1.0)),
)


def _fine(
    rows: tuple[tuple[float, tuple[float, ...]], ...], status: SourceStatus
) -> list[MetricPitch]:
    return [MetricPitch(d, p, "fine", status) for d, pitches in rows for p in pitches]


METRIC: tuple[MetricPitch, ...] = (
    *(MetricPitch(d, p, "coarse", _HEARD) for d, p in _COARSE),
    *_fine(_FINE, _HEARD),
    *_fine(_FINE_RECALLED, _MEMORY),
)
"""Every metric thread offered, M2 to M24."""

# fmt: off
UNIFIED: tuple[UnifiedSize, ...] = (
    UnifiedSize("#4", 0.112, 40, "coarse", 0.0849, 0.0939, _HEARD),
    UnifiedSize("#5", 0.125, 40, "coarse", 0.0979, 0.1062, _HEARD),
    UnifiedSize("#6", 0.138, 32, "coarse", 0.104, 0.114, _HEARD),
    UnifiedSize("#8", 0.164, 32, "coarse", 0.130, 0.139, _HEARD),
    UnifiedSize("#10", 0.190, 24, "coarse", 0.145, 0.156, _HEARD),
    UnifiedSize("#12", 0.216, 24, "coarse", 0.171, 0.181, _HEARD),
    UnifiedSize("1/4", 0.25, 20, "coarse", 0.196, 0.207, _HEARD),
    UnifiedSize("5/16", 0.3125, 18, "coarse", 0.252, 0.265, _HEARD),
    UnifiedSize("3/8", 0.375, 16, "coarse", 0.307, 0.321, _HEARD),
    UnifiedSize("7/16", 0.4375, 14, "coarse", 0.360, 0.376, _HEARD),
    # 1/2-13: one public list prints 0.4700 for the lower limit, above its own upper limit.
    UnifiedSize("1/2", 0.5, 13, "coarse", 0.417, 0.434, _HEARD),
    UnifiedSize("9/16", 0.5625, 12, "coarse", 0.472, 0.490, _HEARD),
    UnifiedSize("5/8", 0.625, 11, "coarse", 0.527, 0.546, _HEARD),
    UnifiedSize("3/4", 0.75, 10, "coarse", 0.642, 0.663, _HEARD),
    UnifiedSize("7/8", 0.875, 9, "coarse", 0.755, 0.778, _HEARD),
    UnifiedSize("1", 1.0, 8, "coarse", 0.865, 0.890, _HEARD),
    UnifiedSize("#4", 0.112, 48, "fine", 0.0894, 0.0968, _HEARD),
    UnifiedSize("#5", 0.125, 44, "fine", 0.1004, 0.1079, _HEARD),
    UnifiedSize("#6", 0.138, 40, "fine", 0.111, 0.119, _HEARD),
    UnifiedSize("#8", 0.164, 36, "fine", 0.134, 0.142, _HEARD),
    UnifiedSize("#10", 0.190, 32, "fine", 0.156, 0.164, _HEARD),
    UnifiedSize("#12", 0.216, 28, "fine", 0.177, 0.186, _HEARD),
    # From here the lower limits agree with a catalogue's in mm (to 3/4); the upper are recalled.
    UnifiedSize("1/4", 0.25, 28, "fine", 0.211, 0.220, _MEMORY),
    UnifiedSize("5/16", 0.3125, 24, "fine", 0.267, 0.277, _MEMORY),
    UnifiedSize("3/8", 0.375, 24, "fine", 0.330, 0.340, _MEMORY),
    UnifiedSize("7/16", 0.4375, 20, "fine", 0.383, 0.395, _MEMORY),
    UnifiedSize("1/2", 0.5, 20, "fine", 0.446, 0.457, _MEMORY),
    UnifiedSize("9/16", 0.5625, 18, "fine", 0.502, 0.515, _MEMORY),
    UnifiedSize("5/8", 0.625, 18, "fine", 0.565, 0.578, _HEARD),
    UnifiedSize("3/4", 0.75, 16, "fine", 0.682, 0.696, _MEMORY),
    UnifiedSize("7/8", 0.875, 14, "fine", 0.798, 0.814, _MEMORY),
    UnifiedSize("1", 1.0, 12, "fine", 0.910, 0.928, _MEMORY),
)
# fmt: on
"""UNC and UNF, #4 to 1 in."""
