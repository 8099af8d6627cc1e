"""What a drill that comes through can do to its work, in words: on the set-up, curve and hazard."""

from __future__ import annotations

from dataclasses import dataclass

from benchleaf.compute import Drilled, SetUpSheet, amount, told
from benchleaf.model import Units


@dataclass(frozen=True, slots=True)
class _Grab:
    limit: float
    torque: float
    capacity: float
    let_through: float
    """The limit, or what a feed stop lets through."""

    @property
    def times(self) -> str:
        return f"{self.limit / self.torque:.1f} times"


def grab_words(sheet: SetUpSheet) -> tuple[str, ...]:
    """Sentences that fit a line of a drawing; none for a blind hole or a job that must not run."""
    grab = _grab(sheet)
    if grab is None:
        return ()
    units = sheet.units
    grown = f"Not eased, it turns with up to {_told(grab.limit, units)}."
    times = f"That is {grab.times} the cut's torque."
    held = f"The work is held to {_told(grab.capacity, units)}."
    if grab.let_through < grab.limit:
        kept = f"The feed stop keeps it to {_told(grab.let_through, units)}."
        return grown, times, kept, held
    return grown, times, held


def grab_line(sheet: SetUpSheet) -> str:
    """The same in one line, for the hazard of a step; nothing where nothing comes through."""
    grab = _grab(sheet)
    if grab is None:
        return ""
    stopped, units = "", sheet.units
    if grab.let_through < grab.limit:
        stopped = f", by the feed stop {_told(grab.let_through, units)}"
    return (
        f"Not eased, it turns up to {grab.times} as hard: {_told(grab.limit, units)}{stopped}. "
        f"Held to {_told(grab.capacity, units)}."
    )


def _grab(sheet: SetUpSheet) -> _Grab | None:
    found = sheet.found
    if not isinstance(found, Drilled) or not sheet.may_run:
        return None
    limit, torque, capacity = found.exit_limit, found.torque, found.capacity
    if limit is None or torque is None or capacity is None or found.exit_torque is None:
        return None
    return _Grab(limit, torque, capacity, found.exit_torque)


def _told(torque: float, units: Units) -> str:
    # A unit does not stand on a line of its own.
    return told(amount(torque, "N m", -2), units).replace(" ", "\u00a0")
