"""Guards at the door of every formula: a bad number stops here, by name, and gives no answer.

A wrong figure on a set-up sheet can hurt someone, so nothing is clipped or guessed. Each guard
hands the number back unchanged, or raises ValueError naming the argument, the value and what is
allowed.
"""

import math


class NotKnownError(ValueError):
    """What is given is in order, and no table or model here covers it."""


def positive(name: str, value: float) -> float:
    """Hand back a finite number above zero, or raise ValueError.

    >>> positive("diameter_mm", 8.5)
    8.5
    >>> positive("diameter_mm", 0.0)
    Traceback (most recent call last):
    ValueError: diameter_mm is 0.0; it must be a finite number above 0
    """
    if not (math.isfinite(value) and value > 0):
        raise ValueError(f"{name} is {value!r}; it must be a finite number above 0")
    return value


def not_negative(name: str, value: float) -> float:
    """Hand back a finite number of zero or more, or raise ValueError.

    >>> not_negative("overtravel_mm", 0.0)
    0.0
    """
    if not (math.isfinite(value) and value >= 0):
        raise ValueError(f"{name} is {value!r}; it must be a finite number of 0 or more")
    return value


def finite(name: str, value: float) -> float:
    """Hand back a finite number of either sign, or raise ValueError.

    >>> finite("value", -2.5)
    -2.5
    """
    if not math.isfinite(value):
        raise ValueError(f"{name} is {value!r}; it must be a finite number")
    return value


def within(name: str, value: float, low: float, high: float) -> float:
    """Hand back a number from low to high, both ends allowed, or raise ValueError.

    >>> within("chisel_ratio", 0.18, 0.03, 0.40)
    0.18
    >>> within("chisel_ratio", 0.5, 0.03, 0.40)
    Traceback (most recent call last):
    ValueError: chisel_ratio is 0.5; it must be a number from 0.03 to 0.4
    """
    # NaN fails both comparisons, so it is refused without a test of its own.
    if not low <= value <= high:
        raise ValueError(f"{name} is {value!r}; it must be a number from {low:g} to {high:g}")
    return value


def whole(name: str, value: int, low: int, high: int) -> int:
    """Hand back a whole number from low to high, both ends allowed, or raise ValueError.

    >>> whole("faces", 2, 1, 2)
    2
    """
    # True and False are whole numbers to Python, and never what was meant here.
    if isinstance(value, bool) or not isinstance(value, int) or not low <= value <= high:
        raise ValueError(f"{name} is {value!r}; it must be a whole number from {low} to {high}")
    return value
