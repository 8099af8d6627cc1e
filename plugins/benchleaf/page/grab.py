"""What a drill that comes through can do to its work, in words: on the set-up, curve and hazard."""

from __future__ import annotations

from benchleaf.compute import Drilled, SetUpSheet
from benchleaf.compute.results import rough


def grab_words(sheet: SetUpSheet) -> tuple[str, ...]:
    """Sentences that fit a line of a drawing; none for a blind hole or a job that must not run."""
    found = sheet.found
    if not isinstance(found, Drilled) or not sheet.may_run:
        return ()
    limit, torque, capacity = found.exit_limit, found.torque, found.capacity
    if limit is None or torque is None or capacity is None or found.exit_torque is None:
        return ()
    grown = f"Not eased, it turns with up to {_told(limit)}."
    times = f"That is {limit / torque:.1f} times the cut's torque."
    held = f"The work is held to {_told(capacity)}."
    if found.exit_torque < limit:
        return grown, times, f"The feed stop keeps it to {_told(found.exit_torque)}.", held
    return grown, times, held


def _told(torque: float) -> str:
    return rough(torque, "N m").text
