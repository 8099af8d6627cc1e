"""The handbook's factors for drilling thrust and torque, and the range in which they hold.

Tables 8 and 9 print power laws of feed and diameter. The laws are used here, and the tests hold
them against every printed row, so that sizes between rows need no interpolation. Table 7 follows
no such law and is kept row by row.
"""

from bisect import bisect_right
from dataclasses import dataclass

from .domain import within

FEED_EXPONENT = 0.8
"""Table 8 is feed to this power, in both unit systems."""
THRUST_EXPONENT = 0.8
"""Table 9's thrust column is diameter to this power, in both unit systems."""
TORQUE_EXPONENT = 1.8
"""Table 9's torque column is diameter to this power, in both unit systems."""

FEED_RANGE_MM_REV = (0.01, 1.27)
"""Table 8's first row in millimetres, to its last in inches (0.050 in)."""
DIAMETER_RANGE_MM = (1.6, 76.2)
"""Table 9's first row in millimetres, to its last in inches (3 in)."""

STANDARD_CHISEL_RATIO = 0.18
"""Chisel edge over diameter of a standard drill (Table 7's note, p. 1152, read)."""


# Origin: Machinery's Handbook, 31st ed., p. 1152, Table 7, read; same in both unit systems.
# Columns: chisel edge over diameter, A for torque, B for thrust, J for thrust.
_TABLE_7 = (
    (0.03, 1.000, 1.100, 0.001),
    (0.05, 1.005, 1.140, 0.003),
    (0.08, 1.015, 1.200, 0.006),
    (0.10, 1.020, 1.235, 0.010),
    (0.13, 1.040, 1.270, 0.017),
    (0.15, 1.080, 1.310, 0.022),
    (0.18, 1.085, 1.355, 0.030),
    (0.20, 1.105, 1.380, 0.040),
    (0.25, 1.155, 1.445, 0.065),
    (0.30, 1.235, 1.500, 0.090),
    (0.35, 1.310, 1.575, 0.120),
    (0.40, 1.395, 1.620, 0.160),
)
CHISEL_RATIO_RANGE = (_TABLE_7[0][0], _TABLE_7[-1][0])
"""First and last row of Table 7; nothing is printed outside it."""

LARGEST_PILOT_SHARE = 0.5
"""Largest pilot over drill taken for a pilot. Our own judgement: a wider hole leaves a narrow
ring, in which the drill grabs and chatters, and that is no longer what the factors are for."""

OPEN_PART_RANGE = (CHISEL_RATIO_RANGE[0], LARGEST_PILOT_SHARE)
"""Part of the diameter in which no lip cuts: from the shortest chisel edge to the widest pilot."""


@dataclass(frozen=True)
class ChiselFactors:
    """What a chisel edge adds to torque and thrust."""

    torque_a: float
    """Factor A on the torque."""
    thrust_b: float
    """Factor B on the thrust of the lips."""
    thrust_j: float
    """Factor J of the chisel edge's own thrust."""


def feed_factor(feed_mm_rev: float) -> float:
    """Find the handbook's feed factor, metric.

    Equation: Ff = f^0.8

    Args:
        feed_mm_rev: [mm/rev] advance f a turn

    Returns:
        [-] factor Ff

    Valid: 0.01 to 1.27 mm/rev, the rows printed

    >>> feed_factor(0.2)
    0.276

    Source: Machinery's Handbook 31st ed., p. 1153, Table 8 [mh31-table-8, read]
    """
    return float(within("feed_mm_rev", feed_mm_rev, *FEED_RANGE_MM_REV) ** FEED_EXPONENT)


def thrust_diameter_factor(diameter_mm: float) -> float:
    """Find the handbook's diameter factor for thrust, metric.

    Equation: FT = D^0.8

    Args:
        diameter_mm: [mm] diameter D of the drill

    Returns:
        [-] factor FT

    Valid: 1.6 to 76.2 mm, the rows printed; the row at 8.80 mm prints 5.96 where the law every
        other row follows gives 5.70: taken as a misprint

    >>> thrust_diameter_factor(8.0)
    5.28

    Source: Machinery's Handbook 31st ed., p. 1153, Table 9 [mh31-table-9, read]
    """
    return float(within("diameter_mm", diameter_mm, *DIAMETER_RANGE_MM) ** THRUST_EXPONENT)


def torque_diameter_factor(diameter_mm: float) -> float:
    """Find the handbook's diameter factor for torque, metric.

    Equation: FM = D^1.8

    Args:
        diameter_mm: [mm] diameter D of the drill

    Returns:
        [-] factor FM

    Valid: 1.6 to 76.2 mm, the rows printed

    >>> torque_diameter_factor(8.0)
    42.22

    Source: Machinery's Handbook 31st ed., p. 1153, Table 9 [mh31-table-9, read]
    """
    return float(within("diameter_mm", diameter_mm, *DIAMETER_RANGE_MM) ** TORQUE_EXPONENT)


def chisel_factors(chisel_ratio: float) -> ChiselFactors:
    """Find the chisel edge factors, by straight lines between the printed rows.

    Equation: y = y1 + (y2 - y1) (x - x1) / (x2 - x1)

    Args:
        chisel_ratio: [-] length of the chisel edge over the drill's diameter

    Returns:
        torque_a: [-] factor A on the torque
        thrust_b: [-] factor B on the thrust of the lips
        thrust_j: [-] factor J of the chisel edge's own thrust

    Valid: 0.03 (split point) to 0.40; 0.18 is a standard drill

    >>> chisel_factors(0.18)
    ChiselFactors(torque_a=1.085, thrust_b=1.355, thrust_j=0.030)

    Source: Machinery's Handbook 31st ed., p. 1152, Table 7 [mh31-table-7, read]
    """
    within("chisel_ratio", chisel_ratio, *CHISEL_RATIO_RANGE)
    after = bisect_right(_TABLE_7, chisel_ratio, key=lambda row: row[0])
    ratio, *lower = _TABLE_7[after - 1]
    if ratio == chisel_ratio:
        # A printed row comes back as printed, and the last row has no row after it.
        return ChiselFactors(*lower)
    next_ratio, *upper = _TABLE_7[after]
    share = (chisel_ratio - ratio) / (next_ratio - ratio)
    return ChiselFactors(*(a + (b - a) * share for a, b in zip(lower, upper, strict=True)))
