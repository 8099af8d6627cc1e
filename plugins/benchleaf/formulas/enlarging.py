"""Torque of a tool that enlarges a hole: a drill after a pilot, a reamer, countersink, counterbore.

Two published models share out the torque of drilling in the solid. One keeps the lips' part of the
drilling equation (the second here). The other takes the area that is cut, on its own arm, with a
cutting force that grows as the chip gets thinner. The second is the higher for every hole, so the
holding is compared with it. Published cutting forces of one steel differ by half and more: both
start from the handbook's torque in the solid, the highest of those compared.

No measured torque of enlarging a hole was found, so none is checked.
"""

import math

from .domain import positive, whole, within
from .drill_factors import STANDARD_CHISEL_RATIO, chisel_factors
from .drilling import torque_nm

LIPS_POWER = 0.2
"""Power of (1 + x) in the lips' part of the drilling equation (source shaw-oxford, from memory)."""
EDGES_POWER = 0.2
"""Each of z edges takes 2 f / z, and the handbook's torque follows feed^0.8 (Table 8)."""
THIN_CHIP_POWER = 0.3
"""Largest power of chip thickness in the table compared, 0.20 to 0.30 by material (source
iscar-kc, read): the highest force."""
LANDS_FACTOR = 2.0
"""A reamer's lands rub in the hole, and no model counts them. Our own judgement: twice the torque
of its cut; no published figure is known."""

DRILL_LIP_DEG = 59.0
"""Half of the 118 degrees of the drills behind the handbook's torque."""
EDGE_ANGLE_RANGE_DEG = (20.0, 90.0)
"""Angle between edge and axis. Our own judgement: slimmer cones are no countersinks."""
USUAL_EDGE_DEG = {"reaming": 45.0, "counterboring": 90.0}
"""The chamfer of a machine reamer and the flat end of a counterbore, where the tool gives no angle
of its own (common forms, our own judgement)."""
EDGES_RANGE = (2, 24)
"""Cutting edges believed. Our own judgement. One edge would cut with less force than two."""


def lips_share(open_part: float) -> float:
    """Find the share of a drill's torque that is left beside a hole, by the drilling equation.

    Equation: share = (1 - x^2) / (1 + x)^0.2, of the torque without the chisel edge's factor A

    Args:
        open_part: [-] hole over final diameter x

    Returns:
        [-] share, from 0 to 1

    Valid: 0 to below 1

    >>> lips_share(0.5)
    0.692

    Source: Shaw and Oxford 1957 [shaw-oxford, from memory]
    """
    return area_share(open_part) / float((1 + open_part) ** LIPS_POWER)


def area_share(open_part: float) -> float:
    """Find the share of a drill's torque that is left beside a hole, by the area cut on its arm.

    Equation: share = 1 - x^2

    Args:
        open_part: [-] hole over final diameter x

    Returns:
        [-] share, from 0 to 1

    Valid: 0 to below 1

    >>> area_share(0.5)
    0.75

    Source: M = kc f (D^2 - d^2) / 8 by the chip's section and its middle radius [el-hofy,
        second-hand]
    """
    within("open_part", open_part, 0.0, 1.0)
    if open_part == 1.0:
        raise ValueError(f"open_part is {open_part!r}; it must be below 1")
    return 1 - open_part**2


def chip_thinness(edges: int, edge_angle_deg: float) -> float:
    """Find how many times thinner a tool's chip is than that of a drill at the same feed a turn.

    Args:
        edges: [-] cutting edges z
        edge_angle_deg: [deg] angle kappa between edge and axis: 45 for a countersink of 90

    Returns:
        [-] ratio t; below 1 the chip is thicker

    Valid: edges 2 to 24; angle 20 to 90; edges that share the feed evenly

    >>> chip_thinness(3, 45.0)
    1.82

    Source: h = f / z sin(kappa) [geometry, geometry]
    """
    within("edge_angle_deg", edge_angle_deg, *EDGE_ANGLE_RANGE_DEG)
    # Sines are taken in radians; the angle is ground and written in degrees.
    drill, own = (math.sin(math.radians(one)) for one in (DRILL_LIP_DEG, edge_angle_deg))
    return whole("edges", edges, *EDGES_RANGE) / 2 * drill / own


def enlarging_torque_nm(
    diameter_mm: float,
    hole_mm: float,
    feed_mm_rev: float,
    *,
    kd: float,
    wear: float,
    thinness: float,
    chisel_ratio: float = STANDARD_CHISEL_RATIO,
) -> float:
    """Find the torque of enlarging a hole, by the model that gives the more.

    Equation: M = Kd Ff FM A W / 40000 (1 - (d / D)^2) t^0.3

    Args:
        diameter_mm: [mm] final diameter D; the mouth of a countersink
        hole_mm: [mm] diameter d of the hole that is there
        feed_mm_rev: [mm/rev] advance a turn, giving Ff
        kd: [-] work material factor Kd for torque, in the handbook's scale
        wear: [-] wear factor W
        thinness: [-] ratio t of chip_thinness; 1 for a drill
        chisel_ratio: [-] chisel edge over diameter of the drill that would cut it whole, giving A

    Returns:
        [N.m] torque M of cutting; what lands and packed chips add comes on top

    Valid: as torque_nm, whose good to a third it shares; hole 0 or more and below D. Rough: the two
        models differ by 1.09 to 1.25 times for a standard drill, and more with many edges

    >>> enlarging_torque_nm(10.0, 5.0, 0.2, kd=24000, wear=1.0, thinness=1.0)
    8.50

    Source: Machinery's Handbook 31st ed., p. 1152 [mh31-drilling, read]; the share [el-hofy,
        second-hand]; the power of the chip's thickness [iscar-kc, read]
    """
    case = {"kd": kd, "chisel_ratio": chisel_ratio, "wear": wear}
    solid = torque_nm(diameter_mm, feed_mm_rev, **case)
    thin = float(positive("thinness", thinness) ** THIN_CHIP_POWER)
    return solid * area_share(hole_mm / diameter_mm) * thin


def enlarging_torque_second_nm(
    diameter_mm: float, hole_mm: float, feed_mm_rev: float, *, kd: float, wear: float, edges: int
) -> float:
    """Find the torque of enlarging a hole, by the lips' part of the drilling equation.

    Equation: M = Kd Ff FM W / 40000 (1 - (d / D)^2) / (1 + d / D)^0.2 (z / 2)^0.2

    Args:
        diameter_mm: [mm] final diameter D; the mouth of a countersink
        hole_mm: [mm] diameter d of the hole that is there
        feed_mm_rev: [mm/rev] advance a turn, giving Ff
        kd: [-] work material factor Kd for torque, in the handbook's scale
        wear: [-] wear factor W
        edges: [-] cutting edges z

    Returns:
        [N.m] torque M of cutting, as a check on enlarging_torque_nm

    Valid: as enlarging_torque_nm; edges 2 to 24. The equation is for two lips: more edges take the
        feed's power with a finer feed each

    >>> enlarging_torque_second_nm(10.0, 5.0, 0.2, kd=24000, wear=1.0, edges=2)
    7.23

    Source: Shaw and Oxford 1957 [shaw-oxford, from memory]; Machinery's Handbook 31st ed., p. 1152
        [mh31-drilling, read]
    """
    whole("edges", edges, *EDGES_RANGE)
    solid = torque_nm(
        diameter_mm, feed_mm_rev, kd=kd, chisel_ratio=STANDARD_CHISEL_RATIO, wear=wear
    )
    bare = solid / chisel_factors(STANDARD_CHISEL_RATIO).torque_a
    return bare * lips_share(hole_mm / diameter_mm) * float((edges / 2) ** EDGES_POWER)
