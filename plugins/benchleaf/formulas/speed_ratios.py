"""Speed and feed of reaming, counterboring and countersinking, as ratios to drilling.

The sources disagree about reaming, so the ratio is a range and stays one. No printed worked
result was found.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from .domain import positive


@dataclass(frozen=True)
class SpeedRatio:
    """Ratios to the drilling figure for the same material and diameter, and where they are from."""

    speed_low: float
    speed_high: float
    feed_low: float
    feed_high: float
    sources: tuple[str, ...]
    """Keys of the sources, all that went into the range."""


@dataclass(frozen=True)
class SpeedRange:
    """A range of cutting speed."""

    low_m_min: float
    high_m_min: float


@dataclass(frozen=True)
class FeedRange:
    """A range of feed."""

    low_mm_rev: float
    high_mm_rev: float


SPEED_RATIOS: Mapping[str, SpeedRatio] = MappingProxyType(
    {
        # Speed: a half (source tc-9-524-reaming, read), a third to a half (source kibbe-reaming,
        # second-hand), a half to two thirds in notes on a handbook (source mh30-reaming,
        # second-hand). Feed: two to three times, in those notes.
        "reaming": SpeedRatio(
            0.33, 0.66, 2.0, 3.0, ("tc-9-524-reaming", "kibbe-reaming", "mh30-reaming")
        ),
        # At the counterbore's diameter (source somta-33, read).
        "counterboring": SpeedRatio(0.80, 0.85, 0.80, 0.85, ("somta-33",)),
        # A quarter of the speed, the drill's feed a turn (source florida-dml, second-hand).
        "countersinking": SpeedRatio(0.25, 0.25, 1.0, 1.0, ("florida-dml",)),
    }
)
"""Ratios by operation."""


def operation_speed_m_min(operation: str, drilling_speed_m_min: float) -> SpeedRange:
    """Find the cutting speed of an operation from that of drilling the same metal.

    Equation: v = r v0, for both ends of r

    Args:
        operation: [text] reaming, counterboring or countersinking
        drilling_speed_m_min: [m/min] cutting speed v0 for drilling

    Returns:
        low_m_min: [m/min] slow end, the one to start with
        high_m_min: [m/min] fast end

    Valid: speed above 0

    >>> operation_speed_m_min("reaming", 30.0)
    SpeedRange(low_m_min=9.9, high_m_min=19.8)

    Source: US Army [tc-9-524-reaming, read], Kibbe [kibbe-reaming, second-hand], notes on a
        handbook [mh30-reaming, second-hand], Somta [somta-33, read], University of Florida
        [florida-dml, second-hand]
    """
    ratio = _ratio(operation)
    speed = positive("drilling_speed_m_min", drilling_speed_m_min)
    return SpeedRange(ratio.speed_low * speed, ratio.speed_high * speed)


def operation_feed_mm_rev(operation: str, drilling_feed_mm_rev: float) -> FeedRange:
    """Find the feed of an operation from that of drilling the same metal.

    Equation: f = r f0, for both ends of r

    Args:
        operation: [text] reaming, counterboring or countersinking
        drilling_feed_mm_rev: [mm/rev] feed f0 for drilling

    Returns:
        low_mm_rev: [mm/rev] fine end
        high_mm_rev: [mm/rev] coarse end

    Valid: feed above 0

    >>> operation_feed_mm_rev("reaming", 0.2)
    FeedRange(low_mm_rev=0.4, high_mm_rev=0.6)

    Source: as operation_speed_m_min [kibbe-reaming, second-hand] [mh30-reaming, second-hand]
        [somta-33, read] [florida-dml, second-hand]
    """
    ratio = _ratio(operation)
    feed = positive("drilling_feed_mm_rev", drilling_feed_mm_rev)
    return FeedRange(ratio.feed_low * feed, ratio.feed_high * feed)


def _ratio(operation: str) -> SpeedRatio:
    if operation not in SPEED_RATIOS:
        allowed = ", ".join(SPEED_RATIOS)
        raise ValueError(f"operation is {operation!r}; it must be one of {allowed}")
    return SPEED_RATIOS[operation]
