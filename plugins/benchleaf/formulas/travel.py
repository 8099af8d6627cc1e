"""How far a drill goes: the length of its point, and the travel through, into and past the work."""

import math

from .domain import not_negative, positive, within

POINT_ANGLE_RANGE_DEG = (60.0, 180.0)
"""Included point angles accepted; 180 is a flat-ended tool. The floor of 60 is our own judgement:
drill points are 90 to 140, and it refuses the half angle (59 for 118) entered by mistake."""


def point_length_mm(diameter_mm: float, point_angle_deg: float) -> float:
    """Find the length of a drill's point, from its tip to its full diameter.

    Args:
        diameter_mm: [mm] diameter D of the drill
        point_angle_deg: [deg] whole (included) angle theta of the point

    Returns:
        [mm] point length A

    Valid: diameter above 0; angle from 60 to 180. Multiplying by tan(theta / 2), printed in one
        public lesson, is wrong and gives nearly three times the length at 118 degrees

    >>> point_length_mm(20.0, 118.0)
    6.01

    Source: Groover 5th ed., equation 21.10 [groover5-eq-21.10, read]
    """
    within("point_angle_deg", point_angle_deg, *POINT_ANGLE_RANGE_DEG)
    # Tangents are taken in radians; the angle is ground and written in degrees.
    slope = math.radians(90.0 - point_angle_deg / 2)
    return positive("diameter_mm", diameter_mm) / 2 * math.tan(slope)


def stop_travel_mm(depth_mm: float, point_length_mm: float, overtravel_mm: float) -> float:
    """Find where to set the depth stop, counted from the tip's first touch.

    Args:
        depth_mm: [mm] depth d of the full diameter; the thickness where the hole goes through
        point_length_mm: [mm] length A of the drill's point
        overtravel_mm: [mm] distance o past the far side; 0 for a blind hole

    Returns:
        [mm] travel S from first touch to the stop

    Valid: depth above 0; the others 0 or more

    >>> stop_travel_mm(12.0, 2.55, 1.5)
    16.05

    Source: geometry [geometry, geometry]
    """
    past_mm = not_negative("overtravel_mm", overtravel_mm)
    point_mm = not_negative("point_length_mm", point_length_mm)
    return positive("depth_mm", depth_mm) + point_mm + past_mm
