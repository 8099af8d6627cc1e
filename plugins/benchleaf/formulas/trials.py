"""The constants of a law from two trials: a tool's life, and the rate of a learner.

Two points always lie on a law of two constants, and show no scatter: a third point is the check.
"""

import math

from .domain import positive, whole, within
from .drill_life import EXPONENT_RANGE, LONGEST_LIFE_MIN
from .learning_curve import MOST_PIECES, PERCENT_RANGE

LEAST_STEP = 1.1
"""Least ratio of two speeds that tell an exponent. Our own judgement: one edge differs from the
next by half, and speeds closer together tell that and not the law."""


def taylor_exponent(
    first_speed_m_min: float, first_life_min: float, other_speed_m_min: float, other_life_min: float
) -> float:
    """Find the exponent of Taylor's law from two speeds and two lives.

    Equation: n = ln(v2 / v1) / ln(T1 / T2)

    Args:
        first_speed_m_min: [m/min] cutting speed v1
        first_life_min: [min] life T1 at it
        other_speed_m_min: [m/min] cutting speed v2
        other_life_min: [min] life T2 at it

    Returns:
        [-] exponent n

    Valid: speeds a tenth apart at least, the faster with the shorter life; n from 0.05 to 1

    >>> taylor_exponent(70.0, 1.0, 50.0, 14.76)
    0.125

    Source: Groover 5th ed., Example 23.4 [groover5-ex-23.4, read]
    """
    slow, fast = sorted(
        (positive("speed", first_speed_m_min), positive("speed", other_speed_m_min))
    )
    if fast < LEAST_STEP * slow:
        raise ValueError(f"the speeds are {slow:g} and {fast:g} m/min; they must be a tenth apart")
    lives = math.log(positive("life", first_life_min) / positive("life", other_life_min))
    if lives == 0:
        raise ValueError("the lives are the same; two lives are needed")
    return within("exponent", math.log(other_speed_m_min / first_speed_m_min) / lives,
                  *EXPONENT_RANGE)  # fmt: skip


def taylor_constant_m_min(speed_m_min: float, life_min: float, exponent: float) -> float:
    """Find the cutting speed for a life of one minute, from one trial.

    Args:
        speed_m_min: [m/min] cutting speed v
        life_min: [min] life T at it
        exponent: [-] exponent n

    Returns:
        [m/min] constant C

    Valid: n from 0.05 to 1; a life of up to 10000 min

    >>> taylor_constant_m_min(50.0, 14.76, 0.125)
    70.0

    Source: Groover 5th ed., Example 23.4 [groover5-ex-23.4, read]
    """
    life = within("life_min", positive("life_min", life_min), 0.0, LONGEST_LIFE_MIN)
    power = within("exponent", exponent, *EXPONENT_RANGE)
    return float(positive("speed_m_min", speed_m_min) * life**power)


def speed_for_life_m_min(life_min: float, exponent: float, c_m_min: float) -> float:
    """Find the cutting speed at which an edge lasts for a life.

    Args:
        life_min: [min] life T wanted
        exponent: [-] exponent n
        c_m_min: [m/min] cutting speed for a life of one minute

    Returns:
        [m/min] cutting speed v

    Valid: as tool_life_min

    >>> speed_for_life_m_min(14.76, 0.125, 70.0)
    50.0

    Source: Groover 5th ed., Example 23.4 [groover5-ex-23.4, read]
    """
    life = within("life_min", positive("life_min", life_min), 0.0, LONGEST_LIFE_MIN)
    power = within("exponent", exponent, *EXPONENT_RANGE)
    return float(positive("c_m_min", c_m_min) / life**power)


def two_piece_learning_percent(
    first_piece: int, first_time_s: float, other_piece: int, other_time_s: float
) -> float:
    """Find the learning percentage of the unit model from the times of two pieces.

    Equation: p = 100 (T2 / T1)^(1 / log2(n2 / n1))

    Args:
        first_piece: [-] number n1 of a piece
        first_time_s: [s] its time T1
        other_piece: [-] number n2 of another
        other_time_s: [s] its time T2

    Returns:
        [%] learning percentage

    Valid: two numbers that differ; 51 to 100. Two points always lie on a curve and show no scatter

    >>> two_piece_learning_percent(1, 100.0, 4, 64.0)
    80.0

    Source: Chase and Jacobs, exhibit 4A.2 [chase-4a, read], solved for the percentage
    """
    doublings = math.log2(_piece(other_piece) / _piece(first_piece))
    if doublings == 0:
        raise ValueError("both times are of one piece; two pieces are needed")
    ratio = positive("time", other_time_s) / positive("time", first_time_s)
    percent = 100.0 * ratio ** (1 / doublings)
    return within("learning_percent", round(percent, 9), *PERCENT_RANGE)


def _piece(number: int) -> int:
    return whole("piece", number, 1, MOST_PIECES)
