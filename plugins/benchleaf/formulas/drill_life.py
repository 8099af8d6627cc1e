"""How long a cutting edge lasts: Taylor's law, and the holes between two grinds.

Published constants are for turning. A drill's edge is hotter, its chips rub in the flutes and its
rim cuts fastest, so a drill needs constants of its own: from tests of the shop, two speeds and two
lives.
"""

import math

from .domain import positive, within

EXPONENT_RANGE = (0.05, 1.0)
"""Exponents n accepted. Our own judgement: the printed ones run from 0.1 to 0.6."""

SECONDS_PER_MINUTE = 60.0
"""Seconds in a minute, by definition: lives are in minutes, times in cut in seconds."""

LONGEST_LIFE_MIN = 10000.0
"""Longest life believed, about a month of single shifts. Our own judgement: beyond it the law is
stretched far outside the lives it is measured at, and a slip of the pen is likelier."""


def tool_life_min(cutting_speed_m_min: float, exponent: float, c_m_min: float) -> float:
    """Find how long an edge lasts at a cutting speed.

    Args:
        cutting_speed_m_min: [m/min] cutting speed v, at the rim of a drill
        exponent: [-] exponent n, for this edge and this material
        c_m_min: [m/min] cutting speed for a life of one minute

    Returns:
        [min] life T in the cut

    Valid: n from 0.05 to 1; a life of up to 10000 min; near the lives the constants were measured
        at. For a drill, constants from drilling must be given. One edge differs from the next by
        half or more: a plan, no promise

    >>> tool_life_min(50.0, 0.125, 70.0)
    14.76

    Source: Groover 5th ed., Example 23.4 [groover5-ex-23.4, read]
    """
    within("exponent", exponent, *EXPONENT_RANGE)
    speed = positive("cutting_speed_m_min", cutting_speed_m_min)
    # Compared as logarithms: the power itself can be too large for a number.
    power = math.log(positive("c_m_min", c_m_min) / speed) / exponent
    if power > math.log(LONGEST_LIFE_MIN):
        slowest = c_m_min / LONGEST_LIFE_MIN**exponent
        raise ValueError(
            f"cutting_speed_m_min is {cutting_speed_m_min!r}; it must be at least {slowest:.3g}, "
            f"a life of {LONGEST_LIFE_MIN:g} min"
        )
    return math.exp(power)


def holes_between_grinds(life_min: float, cut_time_s: float) -> int:
    """Find how many holes an edge drills before it is ground.

    Args:
        life_min: [min] life T in the cut
        cut_time_s: [s] time t in the cut for one hole, without coming back and loading

    Returns:
        [-] whole holes; 0 where the edge does not last for one

    Valid: both above 0; grind sooner at the first squeal, burr or blue chip

    >>> holes_between_grinds(14.76, 6.3)
    140

    Source: arithmetic from Taylor's law [groover5-ex-23.4, read]
    """
    # Lives are in minutes, times in cut in seconds.
    life_s = positive("life_min", life_min) * SECONDS_PER_MINUTE
    # Rounded below any use: 60 holes must not come out as 59.999999999999993.
    return math.floor(round(life_s / positive("cut_time_s", cut_time_s), 9))
