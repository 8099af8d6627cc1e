"""Travel through and into the work as printed examples count it, against the stop's setting."""

from benchleaf.formulas.domain import not_negative, positive


def through_travel_mm(
    thickness_mm: float, point_length_mm: float, start_clearance_mm: float, overtravel_mm: float
) -> float:
    """Find the travel under feed for a hole right through the work.

    Equation: L = c + t + A + o

    Args:
        thickness_mm: [mm] thickness t drilled through
        point_length_mm: [mm] length A of the drill's point
        start_clearance_mm: [mm] gap c between tip and work where feed begins
        overtravel_mm: [mm] distance o the full diameter goes past the far side

    Returns:
        [mm] travel L

    Valid: thickness above 0; the others 0 or more

    >>> through_travel_mm(15.0, 6.01, 0.0, 0.0)
    21.01

    Source: Groover 5th ed., Example 21.2, which has no clearance or overtravel
        [groover5-ex-21.2, read]; those two by geometry [geometry, geometry]
    """
    approach_mm = not_negative("start_clearance_mm", start_clearance_mm)
    past_mm = not_negative("overtravel_mm", overtravel_mm)
    point_mm = not_negative("point_length_mm", point_length_mm)
    return approach_mm + positive("thickness_mm", thickness_mm) + point_mm + past_mm


def blind_travel_mm(depth_mm: float, point_length_mm: float, start_clearance_mm: float) -> float:
    """Find the travel under feed for a blind hole measured to the end of its full diameter.

    Equation: L = c + d + A

    Args:
        depth_mm: [mm] depth d of the full diameter
        point_length_mm: [mm] length A of the drill's point, which goes deeper than d
        start_clearance_mm: [mm] gap c between tip and work where feed begins

    Returns:
        [mm] travel L

    Valid: depth above 0; the others 0 or more. A depth measured to the tip already holds A

    >>> blind_travel_mm(60.0, 3.82, 0.0)
    63.82

    Source: Groover 4th ed., solution 22.10 [groover4-22.10, read]; the clearance by geometry
        [geometry, geometry]
    """
    approach_mm = not_negative("start_clearance_mm", start_clearance_mm)
    point_mm = not_negative("point_length_mm", point_length_mm)
    return approach_mm + positive("depth_mm", depth_mm) + point_mm
