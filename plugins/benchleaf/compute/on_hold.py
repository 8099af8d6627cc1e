"""Why nobody may run a job: limits that its set-ups break, and holds.

A hold is put into the set-ups as a stop, after every meaning was taken from them: so all that
withholds the figures of a broken limit withholds these too.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from benchleaf.model import Shop, lift_command

from .results import SetUpSheet, Stop

ON_HOLD = "A623"
"""The code of a hold, among the reasons not to run a set-up."""


def held_reasons(shop: Shop, job_id: str) -> tuple[str, ...]:
    """What the holds of a job say; none where nobody holds it."""
    return tuple(dict.fromkeys(one.reason for one in shop.holds.get(job_id, ())))


def reasons_not_to_run(shop: Shop, job_id: str, sheets: Sequence[SetUpSheet]) -> tuple[str, ...]:
    """Every reason not to run a job, its holds first; `sheets` are its set-ups."""
    stops = (stop for sheet in sheets for stop in sheet.stops)
    broken = (stop.reason for stop in stops if stop.code != ON_HOLD)
    return (*held_reasons(shop, job_id), *broken)


def with_holds(shop: Shop, job_id: str, sheets: Sequence[SetUpSheet]) -> tuple[SetUpSheet, ...]:
    """The set-ups of a job, each with its holds before what else speaks against it.

    For what people read and plan by; never for a meaning, which a hold leaves as it is.
    """
    stops = tuple(
        Stop(
            ON_HOLD, one.reason, f"by that role alone: {lift_command(job_id.upper(), one.lift_by)}"
        )
        for one in shop.holds.get(job_id, ())
    )
    return tuple(_with(stops, one) for one in sheets) if stops else tuple(sheets)


def _with(stops: tuple[Stop, ...], sheet: SetUpSheet) -> SetUpSheet:
    other = sheet.in_inches
    return replace(
        sheet, stops=(*stops, *sheet.stops), in_inches=_with(stops, other) if other else None
    )


def all_with_holds(
    shop: Shop, sheets: Mapping[str, Sequence[SetUpSheet]]
) -> dict[str, tuple[SetUpSheet, ...]]:
    """The set-ups of every job, those on hold with their holds."""
    return {job_id: with_holds(shop, job_id, found) for job_id, found in sheets.items()}
