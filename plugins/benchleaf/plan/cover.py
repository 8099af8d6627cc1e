"""Who can do what, against the cover that the shop wants: gaps, and jobs that hang on one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from benchleaf.model import Shift

from .situation import Situation, State


@dataclass(frozen=True, slots=True)
class CoverLine:
    """One job in one shift."""

    job: str
    shift: Shift
    wanted: int
    able: tuple[str, ...]
    """Codes of those whose sign-off holds today."""
    lapsed: tuple[str, ...]
    """Codes of those whose sign-off does not hold until they are taught or checked again, or who
    lack what the job asks for besides."""
    coming: tuple[str, ...]
    """Codes of those who learn it, or must be able by a day."""

    @property
    def gap(self) -> int:
        """How many are missing."""
        return max(0, self.wanted - len(self.able))

    @property
    def hangs_on_one(self) -> bool:
        """True where exactly one person of the shift can do a job that the shift needs."""
        return self.wanted > 0 and len(self.able) == 1


def cover_lines(situation: Situation) -> tuple[CoverLine, ...]:
    """Every job and shift for which the shop wants cover, in the order of the crew's file."""
    return tuple(_lines(situation))


def _lines(situation: Situation) -> Iterator[CoverLine]:
    facts = situation.crew.facts
    for cover in facts.cover:
        for shift in facts.shifts:
            if not cover.shifts or shift.id in cover.shifts:
                yield _line(situation, cover.job, shift, cover.at_least)


def _line(situation: Situation, job_id: str, shift: Shift, wanted: int) -> CoverLine:
    found: dict[State, list[str]] = {}
    for person in situation.crew.on_shift(shift.id):
        state = situation.standing(person, situation.shop.jobs[job_id]).state
        found.setdefault(state, []).append(person.id)

    def codes(*states: State) -> tuple[str, ...]:
        return tuple(code for state in states for code in found.get(state, ()))

    return CoverLine(
        job_id,
        shift,
        wanted,
        codes(State.CAN_DO),
        codes(State.TEACH_AGAIN, State.CHECK_AGAIN, State.NO_AUTHORITY),
        codes(State.LEARNING, State.TO_LEARN),
    )


@dataclass(frozen=True, slots=True)
class OnlyOne:
    """A job that one person alone, of all shifts, can do today."""

    job: str
    person: str


def only_one_in_all(situation: Situation) -> tuple[OnlyOne, ...]:
    """Jobs that nobody could do if that one person were away."""
    able: dict[str, list[str]] = {}
    for one in situation.standings():
        if one.state is State.CAN_DO:
            able.setdefault(one.job.id, []).append(one.person.id)
    return tuple(OnlyOne(job, codes[0]) for job, codes in sorted(able.items()) if len(codes) == 1)
