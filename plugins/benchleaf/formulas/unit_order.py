"""Which units a shop reads first. Either way all is reckoned in millimetres and newtons."""

from __future__ import annotations

from enum import StrEnum


class Units(StrEnum):
    """The units that stand first on a page; the others stand second."""

    METRIC = "metric"
    """Millimetres, metres a minute, newtons, kilowatts."""
    INCH = "inch"
    """Inches, feet a minute, pounds-force, horsepower."""
