"""The handbook's drilling equations in inches, to check the metric ones and its own example."""

from benchleaf.formulas.domain import positive, within
from benchleaf.formulas.drill_factors import (
    FEED_EXPONENT,
    THRUST_EXPONENT,
    TORQUE_EXPONENT,
    chisel_factors,
)
from benchleaf.formulas.drilling_limits import KD_RANGE, WEAR_RANGE

FEED_RANGE_IN_REV = (0.0005, 0.05)
"""First and last inch row of Table 8."""
DIAMETER_RANGE_IN = (0.063, 3.0)
"""First and last inch row of Table 9."""

LIPS_COEFFICIENT_INCH = 2.0
"""Coefficient of equation 1, p. 1152 (read)."""
POWER_DIVISOR_INCH = 63025.0
"""Inch-pounds times rpm to horsepower, equation 3, p. 1152 (read)."""


def thrust_lbf(
    diameter_in: float, feed_in_rev: float, *, kd: float, chisel_ratio: float, wear: float
) -> float:
    """Find the thrust along the drill's axis in solid metal, in inch units.

    Equation: T = 2 Kd Ff FT B W + Kd D^2 J W

    Args:
        diameter_in: [in] diameter D of the drill
        feed_in_rev: [in/rev] advance a turn, giving Ff
        kd: [-] work material factor Kd for thrust, in the handbook's scale
        chisel_ratio: [-] chisel edge over diameter, giving B and J
        wear: [-] wear factor W: 1.0 sharp, 1.3 normal, 1.5 very dull or hard material

    Returns:
        [lbf] thrust T

    Valid: 0.063 to 3 in; 0.0005 to 0.05 in/rev; Kd 4000 to 70000; ratio 0.03 to 0.40; W 1 to 2

    >>> thrust_lbf(0.875, 0.008, kd=24000, chisel_ratio=0.18, wear=1.3)
    2313.2

    Source: Machinery's Handbook 31st ed., p. 1152, equation 1 [mh31-drilling, read]; the result
        printed there is recalled, not read
    """
    load = within("kd", kd, *KD_RANGE) * within("wear", wear, *WEAR_RANGE)
    chisel = chisel_factors(chisel_ratio)
    diameter = within("diameter_in", diameter_in, *DIAMETER_RANGE_IN)
    cut = _feed_factor_inch(feed_in_rev) * float(diameter**THRUST_EXPONENT)
    lips_lbf = LIPS_COEFFICIENT_INCH * load * cut * chisel.thrust_b
    return lips_lbf + load * diameter**2 * chisel.thrust_j


def torque_in_lbf(
    diameter_in: float, feed_in_rev: float, *, kd: float, chisel_ratio: float, wear: float
) -> float:
    """Find the torque of a drill, in inch units.

    Equation: M = Kd Ff FM A W

    Args:
        diameter_in: [in] diameter of the drill, giving FM
        feed_in_rev: [in/rev] advance a turn, giving Ff
        kd: [-] work material factor Kd for torque, in the handbook's scale
        chisel_ratio: [-] chisel edge over diameter, giving A
        wear: [-] wear factor W: 1.0 sharp, 1.3 normal, 1.5 very dull or hard material

    Returns:
        [in.lbf] torque M

    Valid: 0.063 to 3 in; 0.0005 to 0.05 in/rev; Kd 4000 to 70000; ratio 0.03 to 0.40; W 1 to 2

    >>> torque_in_lbf(0.875, 0.008, kd=24000, chisel_ratio=0.18, wear=1.3)
    559.3

    Source: Machinery's Handbook 31st ed., p. 1152, equation 2 [mh31-drilling, read]; the result
        printed there is recalled, not read
    """
    load = within("kd", kd, *KD_RANGE) * within("wear", wear, *WEAR_RANGE)
    diameter = within("diameter_in", diameter_in, *DIAMETER_RANGE_IN)
    cut = _feed_factor_inch(feed_in_rev) * float(diameter**TORQUE_EXPONENT)
    return load * cut * chisel_factors(chisel_ratio).torque_a


def cutter_power_hp(torque_in_lbf: float, spindle_speed_rpm: float) -> float:
    """Find the power used at the drill, in horsepower.

    Equation: Pc = M N / 63025

    Args:
        torque_in_lbf: [in.lbf] torque M
        spindle_speed_rpm: [rpm] spindle speed N

    Returns:
        [hp] power Pc at the cutter

    Valid: both above 0

    >>> cutter_power_hp(559.0, 350.0)
    3.1

    Source: Machinery's Handbook 31st ed., p. 1152, equation 3 [mh31-drilling, read]
    """
    torque = positive("torque_in_lbf", torque_in_lbf)
    return torque * positive("spindle_speed_rpm", spindle_speed_rpm) / POWER_DIVISOR_INCH


def _feed_factor_inch(feed_in_rev: float) -> float:
    return float(within("feed_in_rev", feed_in_rev, *FEED_RANGE_IN_REV) ** FEED_EXPONENT)
