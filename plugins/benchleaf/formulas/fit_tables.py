"""ISO tolerances and deviations to 500 mm, as data, in micrometres.

Origin: Narayana, Kannaiah and Venkata Reddy, Machine Drawing, Tables 15.1 to 15.3, the values of
ISO 286 (source narayana-15, read). Grades 5 to 13 of Table 15.1 were read to 500 mm. Of the
deviations those of f, g, h, k, n and p were read there or in makers' tables that the tests hold
against them; n and p from 180 to 500 mm follow from the hole columns N and P, which the book
prints with the sign turned. Values stand as printed: the formulas behind them give other numbers.
"""

from collections.abc import Mapping
from types import MappingProxyType

STEPS_MM = (3.0, 6.0, 10.0, 18.0, 30.0, 50.0, 80.0, 120.0, 180.0, 250.0, 315.0, 400.0, 500.0)
"""Upper ends of the size steps; a step holds its upper end, not its lower."""

# fmt: off
IT_UM: Mapping[int, tuple[float, ...]] = MappingProxyType({
    # Table 15.1: one figure a step.
    5: (4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27),
    6: (6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40),
    7: (10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63),
    8: (14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97),
    9: (25, 30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155),
    10: (40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250),
    11: (60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400),
    12: (100, 120, 150, 180, 210, 250, 300, 350, 400, 460, 520, 570, 630),
    13: (140, 180, 220, 270, 330, 390, 460, 540, 630, 720, 810, 890, 970),
})
"""Fundamental tolerance by grade."""

SHAFT_UPPER_UM: Mapping[str, tuple[float, ...]] = MappingProxyType({
    "f": (-6, -10, -13, -16, -20, -25, -30, -36, -43, -50, -56, -62, -68),
    "g": (-2, -4, -5, -6, -7, -9, -10, -12, -14, -15, -17, -18, -20),
    "h": (0,) * len(STEPS_MM),
})
"""Upper deviation es of shafts that lie below the nominal size."""

SHAFT_LOWER_UM: Mapping[str, tuple[float, ...]] = MappingProxyType({
    # k: grades 4 to 7 only.
    "k": (0, 1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5),
    "n": (4, 8, 10, 12, 15, 17, 20, 23, 27, 31, 34, 37, 40),
    "p": (6, 12, 15, 18, 22, 26, 32, 37, 43, 50, 56, 62, 68),
})
"""Lower deviation ei of shafts that lie above it."""

HOLE_LOWER_UM: Mapping[str, tuple[float, ...]] = MappingProxyType({
    "F": (6, 10, 13, 16, 20, 25, 30, 36, 43, 50, 56, 62, 68),
    "G": (2, 4, 5, 6, 7, 9, 10, 12, 14, 15, 17, 18, 20),
    "H": (0,) * len(STEPS_MM),
})
"""Lower deviation EI of holes that lie above the nominal size."""

HOLE_UPPER_UM: Mapping[str, tuple[float, ...]] = MappingProxyType({
    # To each the book adds delta, below.
    "K": (0, -1, -1, -1, -2, -2, -2, -3, -3, -4, -4, -4, -5),
    "N": (-4, -8, -10, -12, -15, -17, -20, -23, -27, -31, -34, -37, -40),
    "P": (-6, -12, -15, -18, -22, -26, -32, -37, -43, -50, -56, -62, -68),
})
"""Upper deviation ES of holes that lie below it, before delta."""

DELTA_UM: Mapping[int, tuple[float, ...]] = MappingProxyType({
    # By grade, Table 15.3: read from 180 mm; below that from memory and held row by row against a
    # mould maker's K6 to N8 and a part maker's P6 and P7.
    6: (0, 3, 3, 3, 4, 5, 6, 7, 7, 9, 9, 11, 13),
    7: (0, 4, 6, 7, 8, 9, 11, 13, 15, 17, 20, 21, 23),
    8: (0, 6, 7, 9, 12, 14, 16, 19, 23, 26, 29, 32, 34),
})
"""Delta, added to the upper deviation of holes K and N to grade 8 and P to grade 7."""
# fmt: on

GRADES: Mapping[str, tuple[int, ...]] = MappingProxyType(
    {
        **dict.fromkeys(("F", "G", "H", "JS", "f", "g", "h", "js"), tuple(IT_UM)),
        **dict.fromkeys(("K", "N"), (6, 7, 8)),
        "P": (6, 7),
        "k": (5, 6, 7),
        **dict.fromkeys(("n", "p"), (5, 6, 7, 8)),
    }
)
"""Grades offered, by letter: those for which the tables above hold."""
