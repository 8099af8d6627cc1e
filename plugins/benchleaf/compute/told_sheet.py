"""A row and a curve of a set-up as its readers have them: their units first, the others second."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from benchleaf.formulas.unit_order import Units

from .amounts import WAYS, has_amounts, told
from .results import FeelCurve, Figure, Row

_OF_ANOTHER_SYSTEM = frozenset((*(way.unit for way in WAYS.values()), "kgf"))
"""Second units that give way to the metric figure where inches stand first."""


def told_row(row: Row, units: Units) -> Row:
    """The row with its sentences in words, and the figure of the reader's units first."""
    texts: dict[str, Any] = {
        name: told(text, units)
        for name in ("label", "working", "limits", "note")
        if has_amounts(text := getattr(row, name))
    }
    if texts:
        row = replace(row, **texts)
    if units is Units.METRIC:
        return replace(row, inches=None) if row.inches is not None else row
    if row.inches is None or row.figure is None:
        return row
    return replace(row, figure=row.inches, other=second(row.figure, row.other), inches=None)


def second(metric: Figure, other: Figure | None) -> Figure:
    """What stands after the inches: the metric figure, or what is no unit of either system."""
    return metric if other is None or other.unit in _OF_ANOTHER_SYSTEM else other


def told_curve(curve: FeelCurve | None, units: Units) -> FeelCurve | None:
    """The curve of the hand in the reader's units."""
    if curve is None or units is Units.METRIC:
        return curve
    pull = 1 / WAYS["N"].each
    swing = 1 / WAYS["mm"].each if curve.along.startswith("mm ") else 1.0
    return FeelCurve(
        tuple((at * swing, force * pull) for at, force in curve.points),
        tuple(
            replace(zone, start=zone.start * swing, end=zone.end * swing) for zone in curve.zones
        ),
        curve.along.replace("mm ", "in ") if swing != 1 else curve.along,
        curve.upward.removesuffix(", N") + ", lbf",
    )
