"""What is taught otherwise in each job of two shops: moves of its meaning, and what to teach."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace

from benchleaf.compute import set_up_sheets
from benchleaf.meaning import Changed, Meanings, Move, Statement, changed, moves, written
from benchleaf.model import ChangedStatement, Retraining, Shop

from .change import Side
from .renames import Renames, aligned


@dataclass(frozen=True, slots=True)
class TaughtOtherwise:
    """A job that both sides have, and the statements that moved in it."""

    job: str
    moves: tuple[Move, ...]
    meaning: tuple[Statement, ...]
    """What it says now."""
    was: Shop
    """The old shop, with the new ids."""
    now: Shop

    def entries(self, *, is_declared: bool = False) -> tuple[ChangedStatement, ...]:
        """The moves as they are kept."""
        return written(self.moves, self.meaning, self.was, self.now, is_declared=is_declared)

    def lesson(self, rule: Retraining, *, is_declared: bool = False) -> tuple[Changed, ...]:
        """What there is to teach or tell of them."""
        return changed(self.entries(is_declared=is_declared), self.meaning, rule)


def taught_otherwise(
    was: Side, now: Side, only: Collection[str] | None = None
) -> Iterator[TaughtOtherwise]:
    """Each job that both sides have under one id; `only` those named, where some are."""
    old, new = Meanings(was.shop), Meanings(now.shop)
    for job_id, job in now.shop.jobs.items():
        if job_id in was.shop.jobs and (only is None or job_id in only):
            meaning = new.of(job, now.sheets.get(job_id, ()))
            former = old.of(was.shop.jobs[job_id], was.sheets.get(job_id, ()))
            yield TaughtOtherwise(job_id, moves(former, meaning), meaning, was.shop, now.shop)


def with_new_ids(side: Side, renames: Renames) -> Side:
    """The old side with the ids that the new one has for the same things."""
    if not renames:
        return side
    shop = aligned(side.shop, renames)
    sheets = {job_id: set_up_sheets(shop, job) for job_id, job in shop.jobs.items()}
    uses = {
        renames.new_id("terms", term): frozenset(renames.new_id("jobs", one) for one in jobs)
        for term, jobs in side.term_uses.items()
    }
    return replace(side, shop=shop, sheets=sheets, term_uses=uses)
