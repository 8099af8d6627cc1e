"""The units that figures are told in, as coherent SI units."""

from __future__ import annotations

from math import pi
from types import MappingProxyType

_COUNTED = (
    *("turns", "holes", "pecks", "pieces", "times", "turn forward", "diameters"),
    *("times the torque", "times the lips' thrust"),
)
IN_SI = MappingProxyType(
    {
        "mm": ("m", 1e-3),
        "mm/rev": ("m", 1e-3),
        "m/min": ("m/s", 1 / 60),
        "mm/min": ("m/s", 1e-3 / 60),
        "mm3/min": ("m3/s", 1e-9 / 60),
        "rpm": ("1/s", 1 / 60),
        "threads an inch": ("1/m", 1 / 0.0254),
        "N": ("N", 1.0),
        "N m": ("N m", 1.0),
        "kW": ("W", 1e3),
        "s": ("s", 1.0),
        "min": ("s", 60.0),
        "h": ("s", 3600.0),
        "deg": ("rad", pi / 180),
        "° of lever": ("rad", pi / 180),
        "%": ("1", 1e-2),
        "% of the pull": ("1", 1e-2),
        **dict.fromkeys(_COUNTED, ("1", 1.0)),
    }
)
"""Unit of a figure: its SI unit, and how many of that it is. A turn is a count, as a hole is."""


def in_si(value: float, unit: str) -> tuple[float, str]:
    """A value and its SI unit.

    >>> in_si(24.0, "m/min")
    (0.4, 'm/s')
    """
    name, factor = IN_SI[unit]
    return value * factor, name
