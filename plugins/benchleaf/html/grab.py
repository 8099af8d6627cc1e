"""What a drill that comes through can do to its work, in words: on the set-up, curve and hazard."""

from __future__ import annotations

import math
from dataclasses import dataclass

from benchleaf.compute import Drilled, SetUpSheet, told
from benchleaf.compute.worst import no_less, no_more
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
        return f"{math.ceil(round(10 * self.limit / self.torque, 9)) / 10:.1f} times"


def grab_words(sheet: SetUpSheet) -> tuple[str, ...]:
    """Sentences that fit a line of a drawing; none for a blind hole or a job that must not run."""
    grab = _grab(sheet)
    if grab is None:
        return ()
    units = sheet.units
    grown = f"Not eased, it turns with up to {_asked(grab.limit, units)}."
    times = f"That is {grab.times} the cut's torque."
    held = f"The work is held to {_held(grab.capacity, units)}."
    if grab.let_through < grab.limit:
        kept = f"The feed stop keeps it to {_asked(grab.let_through, units)}."
        return grown, times, kept, held
    return grown, times, held


def grab_line(sheet: SetUpSheet) -> str:
    """The same in one line, for the hazard of a step; nothing where nothing comes through."""
    grab = _grab(sheet)
    if grab is None:
        return ""
    stopped, units = "", sheet.units
    if grab.let_through < grab.limit:
        stopped = f", by the feed stop {_asked(grab.let_through, units)}"
    return (
        f"Not eased, it turns up to {grab.times} as hard: {_asked(grab.limit, units)}{stopped}. "
        f"Held to {_held(grab.capacity, units)}."
    )


def _grab(sheet: SetUpSheet) -> _Grab | None:
    found = sheet.found
    if not isinstance(found, Drilled) or not sheet.may_run:
        return None
    limit, torque, capacity = found.exit_limit, found.torque, found.capacity
    if limit is None or torque is None or capacity is None or found.exit_torque is None:
        return None
    return _Grab(limit, torque, capacity, found.exit_torque)


def _asked(torque: float, units: Units) -> str:
    """What turns the work, rounded up; a unit does not stand on a line of its own."""
    return told(no_less(torque, "N m"), units).replace(" ", "\u00a0")


def _held(torque: float, units: Units) -> str:
    """What resists, rounded down."""
    return told(no_more(torque, "N m"), units).replace(" ", "\u00a0")
