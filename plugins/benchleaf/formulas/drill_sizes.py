"""The inch sizes of twist drills by name: numbers #1 to #80, letters A to Z, fractions to 1 in.

Origin: nominal diameters of ANSI/ASME B94.11M, in inches, second-hand: written from memory, then
each number and letter compared by program with two other public lists. One list rounds #5, #10,
#18, #25, #28 and #69 to three decimals; the four-decimal values stand here. Fractions are exact.
"""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

MM_PER_IN = 25.4
"""Millimetres in an inch, by definition."""

# fmt: off
# Ten numbers a line, #1 first.
_NUMBERS_IN = (
    0.2280, 0.2210, 0.2130, 0.2090, 0.2055, 0.2040, 0.2010, 0.1990, 0.1960, 0.1935,
    0.1910, 0.1890, 0.1850, 0.1820, 0.1800, 0.1770, 0.1730, 0.1695, 0.1660, 0.1610,
    0.1590, 0.1570, 0.1540, 0.1520, 0.1495, 0.1470, 0.1440, 0.1405, 0.1360, 0.1285,
    0.1200, 0.1160, 0.1130, 0.1110, 0.1100, 0.1065, 0.1040, 0.1015, 0.0995, 0.0980,
    0.0960, 0.0935, 0.0890, 0.0860, 0.0820, 0.0810, 0.0785, 0.0760, 0.0730, 0.0700,
    0.0670, 0.0635, 0.0595, 0.0550, 0.0520, 0.0465, 0.0430, 0.0420, 0.0410, 0.0400,
    0.0390, 0.0380, 0.0370, 0.0360, 0.0350, 0.0330, 0.0320, 0.0310, 0.0292, 0.0280,
    0.0260, 0.0250, 0.0240, 0.0225, 0.0210, 0.0200, 0.0180, 0.0160, 0.0145, 0.0135,
)
_LETTERS_IN = {
    "A": 0.234, "B": 0.238, "C": 0.242, "D": 0.246, "E": 0.250,
    "F": 0.257, "G": 0.261, "H": 0.266, "I": 0.272, "J": 0.277,
    "K": 0.281, "L": 0.290, "M": 0.295, "N": 0.302, "O": 0.316,
    "P": 0.323, "Q": 0.332, "R": 0.339, "S": 0.348, "T": 0.358,
    "U": 0.368, "V": 0.377, "W": 0.386, "X": 0.397, "Y": 0.404,
    "Z": 0.413,
}
# fmt: on
_FINEST_FRACTION = 64
"""Fractions step by a sixty-fourth of an inch, from 1/64 to 1."""


@dataclass(frozen=True)
class DrillSize:
    """One named size."""

    name: str
    """As it is written on the drill: #7, F, 1/4."""
    diameter_in: float
    diameter_mm: float


def _fraction_name(sixty_fourths: int) -> str:
    shared = math.gcd(sixty_fourths, _FINEST_FRACTION)
    below = _FINEST_FRACTION // shared
    return "1" if below == 1 else f"{sixty_fourths // shared}/{below}"


def _named_sizes() -> dict[str, float]:
    numbers = {f"#{at}": inches for at, inches in enumerate(_NUMBERS_IN, start=1)}
    parts = range(1, _FINEST_FRACTION + 1)
    fractions = {_fraction_name(part): part / _FINEST_FRACTION for part in parts}
    return numbers | _LETTERS_IN | fractions


SIZES: Mapping[str, DrillSize] = MappingProxyType(
    {
        name: DrillSize(name, inches, inches * MM_PER_IN)
        for name, inches in sorted(_named_sizes().items(), key=lambda item: item[1])
    }
)
"""Every named size by its name, smallest first."""


def is_known(name: str) -> bool:
    """Say whether a name is a listed drill size; spaces at the ends and case do not count.

    Equation: none, a look-up

    Args:
        name: [text] size as written, such as #7, F or 1/4

    Returns:
        [-] True where the size is listed

    Valid: any text; fractions in lowest terms

    >>> is_known("#7"), is_known("#81"), is_known("2/8")
    (True, False, False)

    Source: ANSI/ASME B94.11M [asme-b94.11m, second-hand]
    """
    return _key(name) in SIZES


def diameter_mm(name: str) -> float:
    """Find a named drill's diameter in millimetres.

    Equation: D = 25.4 times the diameter in inches

    Args:
        name: [text] size as written, such as #7, F or 1/4

    Returns:
        [mm] nominal diameter

    Valid: #1 to #80, A to Z, 1/64 to 1 in lowest terms

    >>> diameter_mm("F")
    6.528

    Source: ANSI/ASME B94.11M [asme-b94.11m, second-hand]
    """
    return _find(name).diameter_mm


def _key(name: str) -> str:
    return re.sub(r"^#\s+", "#", name.strip().upper())


def _find(name: str) -> DrillSize:
    if not is_known(name):
        allowed = "#1 to #80, A to Z, or a fraction from 1/64 to 1 in lowest terms"
        raise ValueError(f"name is {name!r}; it must be {allowed}")
    return SIZES[_key(name)]
