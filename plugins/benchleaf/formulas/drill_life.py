"""How long a cutting edge lasts: Taylor's law, and the holes between two grinds.

The constants printed here are for turning. A drill's edge is hotter, its chips rub in the flutes
and its rim cuts fastest, so a drill needs constants of its own: from tests of the shop, two speeds
and two lives (taylor_law).
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from .domain import positive, within

EXPONENT_RANGE = (0.05, 1.0)
"""Exponents n accepted. Our own judgement: the printed ones run from 0.1 to 0.6."""

SECONDS_PER_MINUTE = 60.0
"""Seconds in a minute, by definition: lives are in minutes, times in cut in seconds."""

LONGEST_LIFE_MIN = 10000.0
"""Longest life believed, about a month of single shifts. Our own judgement: beyond it the law is
stretched far outside the lives it is measured at, and a slip of the pen is likelier."""


@dataclass(frozen=True)
class TaylorLaw:
    """One edge in one material: cutting speed times life to the power n is C."""

    exponent: float
    c_m_min: float
    """Cutting speed for a life of one minute."""


@dataclass(frozen=True)
class TurningConstants:
    """Printed constants of one tool material in turning."""

    exponent: float
    c_nonsteel_m_min: float | None
    c_steel_m_min: float | None


TURNING_CONSTANTS: Mapping[str, TurningConstants] = MappingProxyType(
    {
        # Origin: Groover, Fundamentals of Modern Manufacturing, 5th ed., Table 22.2, read; turning
        # at 0.25 mm/rev and 2.5 mm deep. Its columns in m/min and in ft/min are rounded apart, by
        # up to 15 %.
        "plain carbon tool steel": TurningConstants(0.1, 70.0, 20.0),
        "high-speed steel": TurningConstants(0.125, 120.0, 70.0),
        "cemented carbide": TurningConstants(0.25, 900.0, 500.0),
        "cermet": TurningConstants(0.25, None, 600.0),
        "coated carbide": TurningConstants(0.25, None, 700.0),
        "ceramic": TurningConstants(0.6, None, 3000.0),
    }
)
"""For turning, NOT for drilling (source groover5-table-22.2, read). None where none is printed."""


def taylor_law(
    fast_m_min: float, fast_life_min: float, slow_m_min: float, slow_life_min: float
) -> TaylorLaw:
    """Find the constants of an edge from two tests.

    Equation: n = ln(v1 / v2) / ln(T2 / T1); C = v1 T1^n

    Args:
        fast_m_min: [m/min] higher cutting speed v1
        fast_life_min: [min] life T1 at it
        slow_m_min: [m/min] lower cutting speed v2
        slow_life_min: [min] life T2 at it

    Returns:
        exponent: [-] exponent n
        c_m_min: [m/min] cutting speed for a life of one minute

    Valid: the slower test lasts longer; n from 0.05 to 1; same feed, material, fluid and edge

    >>> taylor_law(160.0, 5.0, 100.0, 41.0)
    TaylorLaw(exponent=0.223, c_m_min=229.2)

    Source: Groover 5th ed., Example 22.1 [groover5-ex-22.1, read]
    """
    positive("slow_m_min", slow_m_min)
    positive("fast_life_min", fast_life_min)
    if positive("fast_m_min", fast_m_min) <= slow_m_min:
        raise ValueError(
            f"fast_m_min is {fast_m_min!r}; it must be above slow_m_min, {slow_m_min!r}"
        )
    if positive("slow_life_min", slow_life_min) <= fast_life_min:
        raise ValueError(
            f"slow_life_min is {slow_life_min!r}; it must be above fast_life_min, {fast_life_min!r}"
        )
    exponent = math.log(fast_m_min / slow_m_min) / math.log(slow_life_min / fast_life_min)
    within("exponent", exponent, *EXPONENT_RANGE)
    return TaylorLaw(exponent, fast_m_min * fast_life_min**exponent)


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


def speed_for_life_m_min(life_min: float, exponent: float, c_m_min: float) -> float:
    """Find the cutting speed at which an edge lasts a wanted time.

    Equation: v = C / T^n

    Args:
        life_min: [min] life T wanted, in the cut
        exponent: [-] exponent n, for this edge and this material
        c_m_min: [m/min] cutting speed for a life of one minute

    Returns:
        [m/min] cutting speed v

    Valid: n from 0.05 to 1; a life of up to 10000 min; for a drill, constants from drilling

    >>> speed_for_life_m_min(59.54, 0.125, 70.0)
    42.0

    Source: Groover 5th ed., Example 23.4 [groover5-ex-23.4, read]
    """
    within("exponent", exponent, *EXPONENT_RANGE)
    within("life_min", positive("life_min", life_min), 0.0, LONGEST_LIFE_MIN)
    return float(positive("c_m_min", c_m_min) / life_min**exponent)


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
