"""What changed in a job since somebody was taught, statement by statement where that was kept."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from benchleaf.meaning import (
    Changed,
    Consequence,
    Statement,
    Verdict,
    changed,
    gravest_of,
    together,
)
from benchleaf.model import Job, Shop


@dataclass(frozen=True, slots=True)
class Since:
    """What changed since somebody was taught."""

    revision: str
    """The revision that they were taught."""
    verdict: Verdict | None
    """What follows of all of it; None where nobody can tell."""
    changed: tuple[Changed, ...] | None
    """Each thing that is taught otherwise; None where that was not kept for all revisions."""

    @property
    def is_due(self) -> bool:
        """True where they may not go on before they are taught, or nobody can tell."""
        return self.verdict is None or self.verdict.what.stops_a_run

    @property
    def says(self) -> str:
        """In a line, why."""
        if self.verdict is None:
            return f"what changed since revision {self.revision} is not recorded"
        count = len(self.changed or ())
        more = f"; {count} changes in all" if count > 1 else ""
        return f"{self.verdict.why}{more}"


def changed_since(
    shop: Shop, job: Job, meaning: Sequence[Statement], revision: str
) -> tuple[Changed, ...] | None:
    """Each thing that is taught otherwise since a revision; None where that was not kept."""
    kept = shop.changes.get(job.id)
    entries = kept.since(revision) if kept else None
    if kept is None or entries is None or kept.newest != job.revision:
        return None
    return changed(together(entries), meaning, shop.manual.retraining)


def since(revision: str, known: Verdict | None, rows: tuple[Changed, ...] | None) -> Since:
    """What changed, judged by the register's line of that revision where there is one.

    Where that line shows nothing, the entries decide: its hashes are short, and two may be alike.
    """
    if rows is not None and (known is None or known.what is Consequence.NOTHING):
        known = gravest_of([one.verdict for one in rows])
    return Since(revision, known, rows)
