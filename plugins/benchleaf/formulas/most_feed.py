"""The largest feed that a holding, a motor or a rated thrust allows: drilling solved backwards.

Torque and the lips' thrust follow feed^0.8 (Table 8), and the chisel edge's thrust does not change
with the feed. So each limit is one line. All are limits at the worst case, and none is a setting.
"""

from .domain import positive, within
from .drill_factors import FEED_EXPONENT, FEED_RANGE_MM_REV
from .drilling import POWER_DIVISOR

MOST_MM_REV = FEED_RANGE_MM_REV[1]
"""The coarsest feed that the handbook covers: nothing is shown beyond it."""


def feed_for_torque_mm_rev(most_nm: float, torque_at_one_nm: float) -> float:
    """Find the feed at which a drill asks for a torque.

    Equation: f = (M / M1)^(1 / 0.8), and 1.27 at most

    Args:
        most_nm: [N.m] torque M that may be asked for
        torque_at_one_nm: [N.m] torque M1 at a feed of 1 mm/rev, at its worst

    Returns:
        [mm/rev] feed f

    Valid: a feed of 0.01 mm/rev at least; less is not covered

    >>> feed_for_torque_mm_rev(11.34, 41.1)
    0.200

    Source: Machinery's Handbook 31st ed., p. 1153, Table 8 [mh31-table-8, read]
    """
    share = positive("most_nm", most_nm) / positive("torque_at_one_nm", torque_at_one_nm)
    return _covered(share)


def feed_for_exit_mm_rev(
    capacity_nm: float,
    torque_at_one_nm: float,
    lips_at_one_n: float,
    lips_and_more_at_one_n: float,
    chisel_n: float,
    open_part: float,
) -> float:
    """Find the feed whose pull, kept to the end, still leaves the work held at break-through.

    Equation: f^0.8 = (c (1 + x) l / (2 M1) - N) / L, and 1.27 at most

    Args:
        capacity_nm: [N.m] torque c that the holding resists
        torque_at_one_nm: [N.m] torque M1 at a feed of 1 mm/rev, at its worst
        lips_at_one_n: [N] thrust l of the lips alone at 1 mm/rev
        lips_and_more_at_one_n: [N] the part L of the thrust that grows with feed, at 1 mm/rev
        chisel_n: [N] the part N of the thrust that does not
        open_part: [-] chisel edge over the diameter x

    Returns:
        [mm/rev] feed f

    Valid: as exit_torque_limit_nm; no feed stop, no pilot hole; a feed of 0.01 mm/rev at least

    >>> round(feed_for_exit_mm_rev(18.0, 40.0, 4000.0, 7000.0, 500.0, 0.18), 3)
    0.043

    Source: statics [statics, geometry]; the split [chisel-share, our own judgement];
        [mh31-table-8, read]
    """
    dragged = capacity_nm * (1 + open_part) / 2 / positive("torque_at_one_nm", torque_at_one_nm)
    left = dragged * positive("lips_at_one_n", lips_at_one_n) - chisel_n
    if left <= 0:
        raise ValueError(
            f"capacity_nm is {capacity_nm!r}; it must be above "
            f"{capacity_nm * chisel_n / (left + chisel_n):.3g}: even the finest feed, kept, turns "
            "the work at break-through"
        )
    return _covered(left / positive("lips_and_more_at_one_n", lips_and_more_at_one_n))


def feed_for_power_mm_rev(
    motor_power_kw: float, efficiency: float, speed_rpm: float, torque_at_one_nm: float
) -> float:
    """Find the feed at which a drill asks for all that the motor gives.

    Equation: f = (9550 P E / (n M1))^(1 / 0.8), and 1.27 at most

    Args:
        motor_power_kw: [kW] rated power P of the motor
        efficiency: [-] share E of it that reaches the drill
        speed_rpm: [rpm] spindle speed n
        torque_at_one_nm: [N.m] torque M1 at a feed of 1 mm/rev, at its worst

    Returns:
        [mm/rev] feed f

    Valid: all above 0, efficiency up to 1; a feed of 0.01 mm/rev at least

    >>> round(feed_for_power_mm_rev(1.04, 0.8, 700.0, 41.1), 3)
    0.200

    Source: Machinery's Handbook 31st ed., p. 1152, equations 6 and 7 [mh31-drilling, read]
    """
    share = within("efficiency", positive("efficiency", efficiency), 0.0, 1.0)
    power = positive("motor_power_kw", motor_power_kw) * share
    most = POWER_DIVISOR * power / positive("speed_rpm", speed_rpm)
    return feed_for_torque_mm_rev(most, torque_at_one_nm)


def feed_for_thrust_mm_rev(
    rated_n: float, worst: float, lips_and_more_at_one_n: float, chisel_n: float
) -> float:
    """Find the feed at which a drill presses with all that a machine is rated for.

    Equation: f^0.8 = (T / w - N) / L, and 1.27 at most

    Args:
        rated_n: [N] thrust T that the machine is rated for
        worst: [-] load at its worst over the load reckoned w
        lips_and_more_at_one_n: [N] the part L of the thrust that grows with feed, at 1 mm/rev
        chisel_n: [N] the part N of the thrust that does not

    Returns:
        [mm/rev] feed f

    Valid: all above 0; a feed of 0.01 mm/rev at least

    >>> round(feed_for_thrust_mm_rev(3335.0, 1.0, 10260.0, 504.0), 3)
    0.200

    Source: Machinery's Handbook 31st ed., p. 1152, equation 4 [mh31-drilling, read]
    """
    left = positive("rated_n", rated_n) / positive("worst", worst) - chisel_n
    if left <= 0:
        raise ValueError(
            f"rated_n is {rated_n!r}; it must be above {worst * chisel_n:.4g}, what the chisel "
            "edge alone presses with"
        )
    return _covered(left / positive("lips_and_more_at_one_n", lips_and_more_at_one_n))


def _covered(share: float) -> float:
    """The feed whose feed factor this is."""
    feed = float(share ** (1 / FEED_EXPONENT))
    if feed < FEED_RANGE_MM_REV[0]:
        raise ValueError(
            f"the feed is {feed:.3g} mm/rev; it must be at least {FEED_RANGE_MM_REV[0]:g}, the "
            "finest that the handbook covers: nothing shows that this is held"
        )
    return min(feed, MOST_MM_REV)
