"""What a list for new people asks of somebody who follows it, by the working days of its stages.

The list and the plan know each other both ways. Where a stage says its day, the plan keeps it: the
lesson of a job begins no earlier than the first stage that teaches it, and is due on the last one.
Where a stage says none, the plan decides, and the list takes its day from there.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from itertools import islice

from benchleaf.model import DoneWhen, Follows, Onboarding, Person, Shop

from .days import working_days
from .presence import Presence

TEACHES = (DoneWhen.EXPLAINED_BACK, DoneWhen.SHOWN, DoneWhen.TRIED, DoneWhen.DONE_ALONE)
"""What of an item makes its job one to be taught; who only reads a job is not taught it."""


@dataclass(frozen=True, slots=True)
class ByList:
    """A job that a list teaches somebody."""

    list: str
    opens: date | None
    """The first day on which a stage of the list teaches it; None where the list does not say."""
    due: date | None
    """The last such day."""


def stage_days(
    presence: Presence, person: Person, follows: Follows, record: Onboarding
) -> tuple[date | None, ...]:
    """The day of each stage for somebody; None where the list does not say, or plans do not reach.

    Days on which they are away, or the shop is closed, are no working days of theirs.
    """
    shift = presence.crew.shift(person.shift)
    closed = {*presence.crew.facts.closed, *presence.away(person)}
    last = max((one.day or 0 for one in record.stages), default=0)
    days = list(islice(working_days(shift, closed, follows.first_day), last))
    return tuple(
        days[one.day - 1] if one.day and one.day <= len(days) else None for one in record.stages
    )


def jobs_by_list(shop: Shop, presence: Presence, person: Person) -> Mapping[str, ByList]:
    """Each job that somebody's lists teach; of two lists the earlier day counts."""
    found: dict[str, ByList] = {}
    for follows in person.follows:
        record = shop.onboarding[follows.list]
        for job_id, days in _taught(record, stage_days(presence, person, follows, record)):
            known = [one for one in days if one is not None]
            one = ByList(record.id, min(known, default=None), max(known, default=None))
            before = found.get(job_id)
            if before is None or (one.due or date.max) < (before.due or date.max):
                found[job_id] = one
    return found


def _taught(
    record: Onboarding, days: tuple[date | None, ...]
) -> Iterator[tuple[str, list[date | None]]]:
    taught: dict[str, list[date | None]] = {}
    for at, _, item in record.items():
        if item.job is not None and item.done_when in TEACHES:
            taught.setdefault(item.job, []).append(days[at])
    return iter(taught.items())
