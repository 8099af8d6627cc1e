"""Round a figure for a page: to significant digits, to a dial's step, or as text.

Halves go away from zero, as in a shop. Noise below the twelfth significant digit is dropped
first, so that 0.1 * 3 behaves as 0.3 and a step is never lost to it.
"""

from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Decimal
from typing import Literal

from .domain import finite, positive, whole

Direction = Literal["nearest", "down", "up"]
"""Which neighbouring step to take: down is toward lower numbers, also below zero."""

NOISE_DIGITS = 12
"""Significant digits kept before rounding: doubles carry 15 to 16, shop data at most 6."""

_MODES = {"nearest": ROUND_HALF_UP, "down": ROUND_FLOOR, "up": ROUND_CEILING}


def significant(value: float, digits: int) -> float:
    """Round to a number of significant digits.

    Equation: result = round(value, digits - 1 - floor(log10 |value|)), halves away from zero

    Args:
        value: [any] figure to round
        digits: [-] significant digits to keep

    Returns:
        [any] the figure rounded

    Valid: any finite value; digits a whole number from 1 to 12

    >>> significant(626.594, 3)
    627.0
    >>> significant(2.675, 3)
    2.68

    Source: decimal arithmetic [number-rules, geometry]
    """
    return float(_rounded(value, digits))


def to_step(value: float, step: float, *, direction: Direction = "nearest") -> float:
    """Round to a multiple of a step, such as the graduation of a dial.

    Equation: result = step * round(value / step)

    Args:
        value: [any] figure to round
        step: [any] distance between neighbours, in the unit of value
        direction: [text] nearest, down or up

    Returns:
        [any] the multiple of step

    Valid: any finite value; step above 0; one of the three directions

    >>> to_step(0.1 * 3, 0.1, direction="up")
    0.3
    >>> to_step(23.26, 0.05, direction="down")
    23.25

    Source: decimal arithmetic [number-rules, geometry]
    """
    if direction not in _MODES:
        raise ValueError(f"direction is {direction!r}; it must be one of {', '.join(_MODES)}")
    size = _quiet(positive("step", step))
    # The quotient can carry noise of its own (1 / 3 * 3), so it is cleaned as the value was.
    count = _quiet(float(_quiet(finite("value", value)) / size))
    return float(count.to_integral_value(_MODES[direction]) * size)


def shown(value: float, digits: int) -> str:
    """Write a figure to a number of significant digits, with no exponent and no idle zeros.

    Equation: text of significant(value, digits)

    Args:
        value: [any] figure to write
        digits: [-] significant digits to keep

    Returns:
        [text] the figure in plain decimal notation

    Valid: any finite value; digits a whole number from 1 to 12

    >>> shown(23812.5, 3)
    '23800'
    >>> shown(0.00002514, 2)
    '0.000025'
    >>> shown(12.0001, 4)
    '12'

    Source: decimal arithmetic [number-rules, geometry]
    """
    text = f"{_rounded(value, digits):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _quiet(value: float) -> Decimal:
    return Decimal(f"{value:.{NOISE_DIGITS}g}")


def _rounded(value: float, digits: int) -> Decimal:
    whole("digits", digits, 1, NOISE_DIGITS)
    number = _quiet(finite("value", value))
    if number.is_zero():
        # A negative zero would print a sign that means nothing.
        return Decimal(0)
    last_place = Decimal(1).scaleb(number.adjusted() - digits + 1)
    return (number / last_place).to_integral_value(ROUND_HALF_UP) * last_place
