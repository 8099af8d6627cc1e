"""Two numbers that round alike, with as many digits as tell them apart.

A page rounds a figure by what it is good for. Side by side, *110 N, now 110 N* says nothing.
"""

from __future__ import annotations

import re

Ends = tuple[float, float] | None
"""Low and high end of a number, not rounded, in the unit of its words."""

_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_HALF = " and a half"
"""Half a turn, which a figure says in words."""
_COARSEST, _FINEST = -6, 9
"""Digits after the point that a figure of a page may have."""


def parted(was: str, now: str, before: Ends, after: Ends) -> tuple[str, str]:
    """Both words as they are, or with more digits where they are alike and the numbers are not.

    >>> parted("110 N", "110 N", (111.8, 111.8), (105.1, 105.1))
    ('112 N', '105 N')
    >>> parted("24 to 30 m/min", "24 to 30 m/min", (24.4, 30.2), (24.4, 29.9))
    ('24.4 to 30.2 m/min', '24.4 to 29.9 m/min')
    """
    if was != now or before is None or after is None or before == after:
        return was, now
    words = was.replace(_HALF, "")
    found = _NUMBER.findall(words)
    ends = range(2) if len(found) > 1 and before[0] != before[1] else _one_end(before, after)
    if len(found) < len(ends):
        return was, now
    shown = [_decimals(text, before[end], after[end])
             for text, end in zip(found, ends, strict=False)]  # fmt: skip
    if None in shown:  # in another unit than the numbers
        return was, now
    for digits in range(max(one for one in shown if one is not None) + 1, _FINEST):
        sides = [_with(words, [side[end] for end in ends], digits) for side in (before, after)]
        if sides[0] != sides[1]:
            return sides[0], sides[1]
    return was, now


def _one_end(before: tuple[float, float], after: tuple[float, float]) -> range:
    """Of one number in words the end that moved."""
    return range(1) if before[0] != after[0] else range(1, 2)


def _decimals(text: str, before: float, after: float) -> int | None:
    """The digits after the point at which both numbers are shown as this text; below 0 for tens."""
    value = float(text)
    fits = (
        one for one in reversed(range(_COARSEST, _FINEST))
        if _is_at(before, value, one) and _is_at(after, value, one)
    )  # fmt: skip
    return next(fits, None)


def _is_at(number: float, shown: float, digits: int) -> bool:
    """True where a number rounded to so many digits, up or down, is what is shown."""
    unit = 10.0**-digits
    is_multiple = abs(shown / unit - round(shown / unit)) < 1e-9
    return is_multiple and abs(number - shown) < unit * (1 - 1e-9)


def _with(words: str, numbers: list[float], digits: int) -> str:
    """The words with these numbers in place of the first ones."""
    left = iter(numbers)

    def put(found: re.Match[str]) -> str:
        number = next(left, None)
        if number is None:
            return found[0]
        return f"{round(number, digits) + 0.0:.{max(digits, 0)}f}"

    return _NUMBER.sub(put, words)
