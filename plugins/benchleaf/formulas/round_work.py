"""Holes across round work: the saddles where the drill enters and leaves, and what it drills.

The bar or tube lies level, the drill comes down square through its axis.
"""

import math

from .domain import positive


def saddle_mm(round_diameter_mm: float, drill_diameter_mm: float) -> float:
    """Find how far a round surface falls away from its crown at the rim of a hole across it.

    Args:
        round_diameter_mm: [mm] diameter of the round surface, outside or bore
        drill_diameter_mm: [mm] diameter of the hole

    Returns:
        [mm] saddle s

    Valid: drill smaller than the round surface, its axis through the work's axis

    >>> saddle_mm(20.0, 8.0)
    0.835

    Source: geometry [geometry, geometry]
    """
    outer = positive("round_diameter_mm", round_diameter_mm) / 2
    inner = positive("drill_diameter_mm", drill_diameter_mm) / 2
    if inner >= outer:
        raise ValueError(
            f"drill_diameter_mm is {drill_diameter_mm!r}; it must be smaller than the round "
            f"surface, {round_diameter_mm!r}"
        )
    return outer - math.sqrt(outer**2 - inner**2)


def bar_depth_mm(round_diameter_mm: float, drill_diameter_mm: float) -> float:
    """Find the depth that the full diameter must reach to clear a hole through a bar or tube.

    Args:
        round_diameter_mm: [mm] outside diameter D of the work
        drill_diameter_mm: [mm] diameter of the hole

    Returns:
        [mm] depth d below the crown

    Valid: drill smaller than the work. The rim leaves at the sides first, one saddle earlier

    >>> bar_depth_mm(20.0, 8.0)
    20.0

    Source: geometry [geometry, geometry]
    """
    saddle_mm(round_diameter_mm, drill_diameter_mm)
    return round_diameter_mm


def one_wall_depth_mm(round_diameter_mm: float, wall_mm: float, drill_diameter_mm: float) -> float:
    """Find the depth that the full diameter must reach to clear one wall of a tube.

    Equation: d = w + s, with s the saddle of the bore

    Args:
        round_diameter_mm: [mm] outside diameter of the tube
        wall_mm: [mm] wall thickness w
        drill_diameter_mm: [mm] diameter of the hole

    Returns:
        [mm] depth d below the crown; the bore falls away at the sides, so it is more than the wall

    Valid: a bore is left, and the drill is smaller than it

    >>> one_wall_depth_mm(25.0, 2.0, 8.0)
    2.792

    Source: geometry [geometry, geometry]
    """
    return positive("wall_mm", wall_mm) + saddle_mm(
        bore_mm(round_diameter_mm, wall_mm), drill_diameter_mm
    )


def bore_mm(round_diameter_mm: float, wall_mm: float) -> float:
    """Find the bore of a tube.

    Equation: b = D - 2 w

    Args:
        round_diameter_mm: [mm] outside diameter D
        wall_mm: [mm] wall thickness w

    Returns:
        [mm] bore b

    Valid: twice the wall is less than the outside diameter

    >>> bore_mm(25.0, 2.0)
    21.0

    Source: geometry [geometry, geometry]
    """
    bore = positive("round_diameter_mm", round_diameter_mm) - 2 * positive("wall_mm", wall_mm)
    if bore <= 0:
        raise ValueError(
            f"wall_mm is {wall_mm!r}; a tube of {round_diameter_mm!r} has no bore then"
        )
    return bore


def room_to_far_wall_mm(round_diameter_mm: float, wall_mm: float, tip_depth_mm: float) -> float:
    """Find the room left between the drill's tip and the far wall of a tube.

    Equation: g = D - w - t

    Args:
        round_diameter_mm: [mm] outside diameter D
        wall_mm: [mm] wall thickness w
        tip_depth_mm: [mm] depth t of the tip below the crown

    Returns:
        [mm] room g; below 0 the tip is cutting the far wall

    Valid: a bore is left; depth above 0

    >>> room_to_far_wall_mm(25.0, 2.0, 6.0)
    17.0

    Source: geometry [geometry, geometry]
    """
    bore_mm(round_diameter_mm, wall_mm)
    return round_diameter_mm - wall_mm - positive("tip_depth_mm", tip_depth_mm)
