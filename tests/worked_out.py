"""What tests ask of a computed set-up: values that must be there."""

from __future__ import annotations

from benchleaf.compute import Drilled, SetUpSheet


def drilled(sheet: SetUpSheet) -> Drilled:
    """What a drilling set-up found."""
    assert isinstance(sheet.found, Drilled)
    return sheet.found


def known(value: float | None) -> float:
    """A value that must have been worked out."""
    assert value is not None
    return value
