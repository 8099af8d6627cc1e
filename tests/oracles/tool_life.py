"""Taylor's law from two tests, and the speed for a life: the other ways of the printed examples.

The constants printed here are for turning.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from benchleaf.formulas.domain import positive, within
from benchleaf.formulas.drill_life import EXPONENT_RANGE, LONGEST_LIFE_MIN


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
