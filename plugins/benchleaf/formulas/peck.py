"""Deep holes: when to peck, how far each peck goes, and how far speed and feed come down.

A peck is a short stretch of drilling, after which the drill comes right out and brings its chips.
"""

import math
from dataclasses import dataclass

from .domain import positive, whole
from .speeds import seconds_for_travel

PECK_ABOVE_RATIO = 3.0
"""Depth over diameter above which the drill is pecked (source peck-practice, read): two to three
diameters can usually be drilled in one go."""

FIRST_PECK_RATIO = 2.0
"""First peck over diameter (source peck-practice, read)."""

PECK_SHRINK = 0.5
"""Each peck over the one before. Our own judgement: the trade says that a deeper hole is cleared
more often and names no rule, and halves are easy to keep on a scale."""

LEAST_PECK_RATIO = 0.5
"""Shortest regular peck over diameter (source peck-rule, our own judgement): shorter ones rub more
than they cut."""

WITHDRAWAL_S = 4.0
"""Seconds to bring the drill right out, clear its chips and go back in, once (source
peck-withdrawal, our own judgement): for planning. Time your own."""

# Origin: a drill maker's reference guide for high-speed steel drills, read. Columns: depth over
# diameter, cut in speed and in feed in per cent. At 6 it prints 35 to 40 for speed; the larger cut
# stands here. Another school's sheet takes half off from 3 diameters on.
_REDUCTIONS = (
    (3.0, 10.0, 10.0),
    (4.0, 20.0, 10.0),
    (5.0, 30.0, 20.0),
    (6.0, 40.0, 20.0),
)

DEEPEST_RATIO = _REDUCTIONS[-1][0]
"""Last row printed; deeper holes are not covered."""

RATIO_DECIMALS = 9
"""Decimals of a depth over diameter that mean something."""


@dataclass(frozen=True)
class DeepHoleCut:
    """What is left of speed and feed in a deep hole."""

    speed_share: float
    feed_share: float


@dataclass(frozen=True)
class PeckPlan:
    """How a hole is pecked."""

    depth_ratio: float
    pecks_mm: tuple[float, ...]
    depths_mm: tuple[float, ...]


def depth_ratio(depth_mm: float, diameter_mm: float) -> float:
    """Find how many diameters deep a hole is.

    Args:
        depth_mm: [mm] depth d of the full diameter
        diameter_mm: [mm] diameter D

    Returns:
        [-] ratio

    Valid: both above 0

    >>> depth_ratio(40.0, 10.0)
    4.0

    Source: geometry [geometry, geometry]
    """
    return positive("depth_mm", depth_mm) / positive("diameter_mm", diameter_mm)


def deep_hole_cut(depth_mm: float, diameter_mm: float) -> DeepHoleCut:
    """Find what is left of speed and feed in a deep hole, by the next printed row.

    Equation: share = 1 - cut / 100 of the row at or above d / D; below 3 nothing is cut

    Args:
        depth_mm: [mm] depth d of the full diameter
        diameter_mm: [mm] diameter D

    Returns:
        speed_share: [-] share of the cutting speed kept
        feed_share: [-] share of the feed kept

    Valid: up to 6 diameters, the last row printed; deeper is not covered. Between rows the deeper
        one counts, which is the slower: a step, no straight line. High-speed steel

    >>> deep_hole_cut(45.0, 10.0)
    DeepHoleCut(speed_share=0.7, feed_share=0.8)

    Source: Metal Drilling Reference Guide (HSS drills) [drill-guide-deep, read]; the step between
        rows [peck-rule, our own judgement]
    """
    ratio = _covered(depth_mm, diameter_mm)
    if ratio < _REDUCTIONS[0][0]:
        return DeepHoleCut(1.0, 1.0)
    speed, feed = next((speed, feed) for row, speed, feed in _REDUCTIONS if ratio <= row)
    return DeepHoleCut(1 - speed / 100, 1 - feed / 100)


def peck_plan(depth_mm: float, diameter_mm: float) -> PeckPlan:
    """Find the pecks for a hole; one of them where it needs no pecking.

    Equation: 2 D, then each half of the one before but not under 0.5 D, the last what is left

    Args:
        depth_mm: [mm] depth d of the full diameter
        diameter_mm: [mm] diameter D

    Returns:
        depth_ratio: [-] depth over diameter
        pecks_mm: [mm] length of each peck; none is longer than the one before
        depths_mm: [mm] depth of the full diameter after each peck, the last the whole depth; on a
            scale set to 0 at first touch the point's length comes on top

    Valid: up to 6 diameters; deeper is not covered. Chips that pack or a drill that squeals ask
        for more pecks than these

    >>> peck_plan(40.0, 10.0).depths_mm
    (20.0, 30.0, 35.0, 40.0)

    Source: start and first peck [peck-practice, read]; how pecks shrink [peck-rule,
        our own judgement]
    """
    ratio = _covered(depth_mm, diameter_mm)
    if ratio <= PECK_ABOVE_RATIO:
        return PeckPlan(ratio, (depth_mm,), (depth_mm,))
    depths = [*_stops(ratio, diameter_mm), depth_mm]
    pecks = (after - before for before, after in zip([0.0, *depths], depths, strict=False))
    return PeckPlan(ratio, tuple(pecks), tuple(depths))


def pecked_time_s(travel_mm: float, feed_rate_mm_min: float, pecks: int) -> float:
    """Find the time of a pecked hole: under feed, and out and in between two pecks.

    Equation: t = 60 L / vf + 4 (k - 1)

    Args:
        travel_mm: [mm] distance L travelled under feed
        feed_rate_mm_min: [mm/min] feed rate vf
        pecks: [-] stretches of drilling k

    Returns:
        [s] time t

    Valid: as seconds_for_travel; pecks from 1 to 100. The withdrawals are a guess for planning

    >>> pecked_time_s(70.0, 280.0, 6)
    35.0

    Source: Groover 5th ed., Example 21.2 [groover5-ex-21.2, read]; the withdrawal
        [peck-withdrawal, our own judgement]
    """
    between = whole("pecks", pecks, 1, 100) - 1
    return seconds_for_travel(travel_mm, feed_rate_mm_min) + between * WITHDRAWAL_S


def _stops(ratio: float, diameter: float) -> list[float]:
    """Depths at which the drill comes out, before the last one."""
    stops, peck, place = [], FIRST_PECK_RATIO, FIRST_PECK_RATIO
    # A sliver left by the arithmetic is no peck.
    while place < ratio and not math.isclose(place, ratio):
        stops.append(place * diameter)
        peck = max(peck * PECK_SHRINK, LEAST_PECK_RATIO)
        place += peck
    return stops


def _covered(depth: float, diameter: float) -> float:
    # Rounded below any rule's grain: 4.2 over 0.7 is 6.000000000000001 to the machine.
    ratio = round(depth_ratio(depth, diameter), RATIO_DECIMALS)
    if ratio > DEEPEST_RATIO:
        deepest = DEEPEST_RATIO * diameter
        raise ValueError(
            f"depth_mm is {depth!r}; it must be at most {DEEPEST_RATIO:g} diameters, {deepest:g}: "
            "deeper is not covered"
        )
    return ratio
