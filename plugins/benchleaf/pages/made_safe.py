"""How a station is started, stopped and made safe, as plain data."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from benchleaf.model import MachineControls, Shop, stations_of


@dataclass(frozen=True, slots=True)
class MadeSafe:
    """How one station is started, stopped and made safe."""

    of: str
    """Its name after a comma, where it belongs to a cell; else empty."""
    controls: MachineControls | None
    supply: str | None
    """Where air or current is cut off, at a station with no drive."""


def made_safe(shop: Shop, machine_id: str) -> tuple[MadeSafe, ...]:
    """How a station is made safe; a cell with each of its stations."""
    here = stations_of(shop, machine_id)
    return tuple(
        MadeSafe(f", {one.name}" if len(here) > 1 else "", one.controls, one.supply)
        for one in here
        if one.controls or one.supply
    )


def safe_title(safe: Sequence[MadeSafe]) -> str:
    """The heading above it; with no drive, what is done when somebody is hurt comes there."""
    return "Start, stop, make safe" if any(one.controls for one in safe) else "In an emergency"
