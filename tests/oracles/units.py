"""Quantities in another unit, by pint."""

from __future__ import annotations

from pint import UnitRegistry

_UREG: UnitRegistry[float] = UnitRegistry()
_PINT = {
    "N m": "newton * meter", "mm/rev": "mm", "in/rev": "inch", "in": "inch", "rpm": "rpm",
    "lbf in": "lbf * inch", "hp": "horsepower", "kgf": "kgf", "in/min": "inch/minute",
    "ft/min": "foot/minute", "m/min": "m/minute", "mm/min": "mm/minute",
}  # fmt: skip


def converted(value: float, unit: str, other: str) -> float:
    """In another unit, by pint."""
    return float(_UREG.Quantity(value, _PINT.get(unit, unit)).to(_PINT.get(other, other)).magnitude)
