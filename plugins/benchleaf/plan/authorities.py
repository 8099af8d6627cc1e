"""Whether the records let somebody do what asks for an authority, today; and why they do not.

What nobody wrote down is not known. It is never taken for a yes.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from benchleaf.model import Authority, Crew, Granted, Job, Person, Shop, same_licence, station_ids


class Says(StrEnum):
    """What the records say to whether somebody may."""

    MAY = "may"
    NOT_KNOWN = "not known"
    MAY_NOT = "may not"


@dataclass(frozen=True, slots=True)
class Reason:
    """Why somebody may not, or why it is not known; with the day where it hangs on one."""

    says: Says
    words: str
    day: date | None = None
    """Comes after the words."""


@dataclass(frozen=True, slots=True)
class Bounds:
    """Reasons against, none where they may; and the last day on which the records let them."""

    against: tuple[Reason, ...] = ()
    last: date | None = None
    proof: tuple[str, ...] = ()
    """What proves it, where they may."""

    @property
    def says(self) -> Says:
        """The worst of its reasons."""
        found = {one.says for one in self.against}
        return next((one for one in (Says.MAY_NOT, Says.NOT_KNOWN) if one in found), Says.MAY)

    def __and__(self, other: Bounds) -> Bounds:
        """Both must let them."""
        days = [one for one in (self.last, other.last) if one is not None]
        proof = tuple(dict.fromkeys((*self.proof, *other.proof)))
        return Bounds((*self.against, *other.against), min(days, default=None), proof)


LET = Bounds()
NONE_RECORDED = "no authority to {doing} is recorded"
"""Of somebody, where the records hold it of others."""


def barred(words: str, day: date | None = None) -> Bounds:
    """They may not."""
    return Bounds((Reason(Says.MAY_NOT, words, day),))


def unsure(words: str) -> Bounds:
    """Nobody can tell."""
    return Bounds((Reason(Says.NOT_KNOWN, words),))


def is_there(who: Person, day: date) -> Bounds:
    """Whether somebody works in the shop on a day."""
    if who.first_day is not None and day < who.first_day:
        return barred("begins to work on", who.first_day)
    if who.last_day is not None and day > who.last_day:
        return barred("last worked on", who.last_day)
    return Bounds((), who.last_day)


def granted(shop: Shop, crew: Crew, person: Person, job: Job, what: Granted, day: date) -> Bounds:
    """Whether they have an authority of the shop for a job."""
    mine = [one for one in person.authorities if one.may is what]
    if not mine and not crew.records(what):
        return unsure(f"nobody's authority to {what} is recorded")
    if not mine:
        return barred(NONE_RECORDED.format(doing=what))
    return _of(mine, f"authority to {what}", shop, job, day)


def licensed(shop: Shop, crew: Crew, person: Person, job: Job, day: date) -> Bounds:
    """Whether they have every licence that the job asks for."""
    found = LET
    for asked in crew.facts.asks_for:
        if job.id in asked.jobs:
            mine = [
                one
                for one in person.authorities
                if one.licence is not None and same_licence(one.licence, asked.licence)
            ]
            found &= _of(mine, asked.licence, shop, job, day)
    return found


def _of(mine: Sequence[Authority], what: str, shop: Shop, job: Job, day: date) -> Bounds:
    here = station_ids(shop, job.machine)
    fitting = [one for one in mine if one.is_at(job.id, here)]
    if not mine:
        return barred(f"no {what} is recorded")
    if not fitting:
        return barred(f"{what} is for other jobs or stations")
    now = max(
        (one for one in fitting if one.holds_on(day)), key=lambda one: one.until, default=None
    )
    if now is not None:
        return Bounds((), now.until, (now.proof,))
    to_come = _first(one.given for one in fitting if one.given > day)
    past = max((one.until for one in fitting if one.until < day), default=None)
    if past is not None:
        return barred(f"{what} ended on", past)
    return barred(f"{what} begins on", to_come)


def _first(days: Iterable[date]) -> date | None:
    return min(days, default=None)


def asked_to_run(shop: Shop, crew: Crew, person: Person, job: Job, day: date) -> Bounds:
    """What a job asks of whoever runs it beside the sign-off: the lock, and licences."""
    lock = granted(shop, crew, person, job, Granted.LOCK_OFF, day) if job.is_under_lock else LET
    return lock & licensed(shop, crew, person, job, day)
