"""A second published model of drilling, from a toolmaker's catalogue, kept as a cross-check.

It has its own material factor K (1.0 is cast iron of 177 HB) that must not be mixed with the
handbook's Kd. Set-up figures come from the handbook's model, which gives the higher torque.
"""

from benchleaf.formulas.domain import positive, within

CATALOGUE_K_RANGE = (1.0, 3.44)
"""Smallest and largest K printed: cast iron of 177 HB, nickel-chrome steel of 390 HB (read)."""

TORQUE_MODEL_SPREAD = 0.34
"""Largest difference found between two published torque models (this one and the catalogue's):
28 to 34 % at 10 mm and 0.2 mm/rev in steel, this one the higher; hardness was not quite matched.
Thrust differs by 4 to 8 %. Trust a torque to about a third, not to a few per cent."""

# Coefficients as printed on p. L068 (read).
THRUST_COEFFICIENT, THRUST_FEED_EXPONENT = 570.0, 0.85
TORQUE_BASE, TORQUE_FEED_SLOPE, TORQUE_SCALE = 0.630, 16.84, 100.0
POWER_BASE, POWER_FEED_SLOPE, POWER_SCALE = 0.647, 17.29, 1e-6


def catalogue_thrust_n(diameter_mm: float, feed_mm_rev: float, *, catalogue_k: float) -> float:
    """Find the thrust of a drill by the catalogue's model.

    Equation: T = 570 K D f^0.85

    Args:
        diameter_mm: [mm] diameter D of the drill
        feed_mm_rev: [mm/rev] advance f a turn
        catalogue_k: [-] the catalogue's material factor K

    Returns:
        [N] thrust T

    Valid: diameter and feed above 0 (no bounds are printed); K from 1.0 to 3.44

    >>> catalogue_thrust_n(10.0, 0.2, catalogue_k=2.22)
    3221.8

    Source: Tungaloy catalogue 2020-2021, p. L068 [tungaloy-l068, read]
    """
    k = within("catalogue_k", catalogue_k, *CATALOGUE_K_RANGE)
    feed_term = float(positive("feed_mm_rev", feed_mm_rev) ** THRUST_FEED_EXPONENT)
    return THRUST_COEFFICIENT * k * positive("diameter_mm", diameter_mm) * feed_term


def catalogue_torque_nm(diameter_mm: float, feed_mm_rev: float, *, catalogue_k: float) -> float:
    """Find the torque of a drill by the catalogue's model.

    Equation: M = K D^2 (0.630 + 16.84 f) / 100

    Args:
        diameter_mm: [mm] diameter D of the drill
        feed_mm_rev: [mm/rev] advance f a turn
        catalogue_k: [-] the catalogue's material factor K

    Returns:
        [N.m] torque M

    Valid: diameter and feed above 0 (no bounds are printed); K from 1.0 to 3.44

    >>> catalogue_torque_nm(10.0, 0.2, catalogue_k=2.22)
    8.88

    Source: Tungaloy catalogue 2020-2021, p. L068 [tungaloy-l068, read]
    """
    k = within("catalogue_k", catalogue_k, *CATALOGUE_K_RANGE)
    feed_term = TORQUE_BASE + TORQUE_FEED_SLOPE * positive("feed_mm_rev", feed_mm_rev)
    return k * positive("diameter_mm", diameter_mm) ** 2 * feed_term / TORQUE_SCALE


def catalogue_power_kw(
    diameter_mm: float, feed_mm_rev: float, spindle_speed_rpm: float, *, catalogue_k: float
) -> float:
    """Find the power used at the drill by the catalogue's model.

    Equation: Pc = K D^2 n (0.647 + 17.29 f) / 1000000

    Args:
        diameter_mm: [mm] diameter D of the drill
        feed_mm_rev: [mm/rev] advance f a turn
        spindle_speed_rpm: [rpm] spindle speed n
        catalogue_k: [-] the catalogue's material factor K

    Returns:
        [kW] power Pc at the cutter

    Valid: diameter, feed and speed above 0 (no bounds are printed); K from 1.0 to 3.44. Its
        constants are about 3 % above the torque's, so it ends about 2 % off M n / 9550

    >>> catalogue_power_kw(10.0, 0.2, 1000.0, catalogue_k=2.22)
    0.911

    Source: Tungaloy catalogue 2020-2021, p. L068 [tungaloy-l068, read]
    """
    k = within("catalogue_k", catalogue_k, *CATALOGUE_K_RANGE)
    feed_term = POWER_BASE + POWER_FEED_SLOPE * positive("feed_mm_rev", feed_mm_rev)
    turning = positive("diameter_mm", diameter_mm) ** 2
    return k * turning * positive("spindle_speed_rpm", spindle_speed_rpm) * feed_term * POWER_SCALE
