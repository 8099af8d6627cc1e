"""The cadence of checks as people read it: its stages, where somebody stands, what moved it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from benchleaf.html.dates import short_date, week_date
from benchleaf.plan import FollowUp

RULE = (
    "A stage is over when its checks are made. A miss goes one stage back. A step left out, a "
    "missed key point that can injure, or work that was stopped goes back to the first stage. "
    "A stage in which nothing was missed makes the next one half as long, unless something was "
    "missed before."
)
"""What results do with the cadence. A house rule: none is published."""


@dataclass(frozen=True, slots=True)
class StageRow:
    """A stage of the cadence."""

    number: int
    says: str
    state: str
    """Whether it is over, goes on or is to come; empty where nothing is on record."""
    is_now: bool


def stage_rows(found: FollowUp) -> tuple[StageRow, ...]:
    """The stages that concern somebody: for who could do the job before, only the last one."""
    place = found.place
    first = 0 if place.went_back else place.begun
    return tuple(_row(found, number) for number in range(first, len(place.stages)))


def _row(found: FollowUp, number: int) -> StageRow:
    place = found.place
    says = place.stages[number].says
    if not found.is_recorded or number > place.at:
        return StageRow(number + 1, says, "to come" if found.is_recorded else "", False)
    if number < place.at:
        return StageRow(number + 1, says, "over", False)
    days = place.days(number)
    state = f"now: {place.days_done} of {days} day{'s' if days > 1 else ''} done"
    if place.checks_done:
        state += f", and {place.checks_done} of {place.stages[number].checks} checks of the next"
    return StageRow(number + 1, says, state + (", half as long" if place.is_half else ""), True)


def follow_up_lines(found: FollowUp) -> Iterator[str]:
    """How the follow-up stands, in sentences."""
    if not found.is_recorded:
        yield "No result of a check is on record, so that the days go by the calendar."
    for turn in found.place.turns:
        yield f"{short_date(turn.day)}: {turn.says}."
    if found.overdue is not None:
        was = week_date(found.overdue)
        yield f"The next check was due on {was}: it is put on the first day that there is."
    yield found.note
