"""Whose sign-off a comparison makes stale, who is to be told, and by when.

A sign-off stands for a job at a revision, and where it was recorded for a fingerprint. It is
stale by this comparison where it was good for the old state and does not name the new one. The
last day is counted from the day on which the change comes into force: the later of the day of
the comparison and the effective date of the new revision, plus the shop's days.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from benchleaf.meaning import page_fingerprint
from benchleaf.model import Crew, Retraining, SignOff

from .change import Comparison, Consequence, JobState, gravest


@dataclass(frozen=True, slots=True)
class Due:
    """One person, one job, and what is due."""

    staff: str
    job: str
    """The job, or the page that was signed, such as `safety.md`."""
    consequence: Consequence
    by: date
    """The last day; a job to be taught again is not run before that is done."""
    revision: str
    """The revision of the sign-off; of a page the day on which it was signed."""
    was_stale: bool = False
    """True where the sign-off was not good for the old state either."""

    @property
    def is_page(self) -> bool:
        """True for a page that was signed."""
        return self.job.endswith(".md")


def due(comparison: Comparison, crew: Crew, rule: Retraining, on: date) -> tuple[Due, ...]:
    """Everybody who is signed off for a job that changed: first who must be taught again.

    Somebody who signed a page, such as the safety preface, is called back to that page only.
    """
    found = [
        one
        for state in comparison.jobs
        if state.consequence is not Consequence.NOTHING
        for one in _of_job(state, crew, rule, on)
    ]
    found += _of_pages(comparison, crew, rule, on)
    return tuple(sorted(found, key=lambda one: (one.consequence.rank, one.job, one.staff)))


def _of_job(state: JobState, crew: Crew, rule: Retraining, on: date) -> Iterator[Due]:
    for staff, person in crew.people.items():
        sign_off = person.sign_off(state.id) or person.sign_off(state.old_id)
        if sign_off is None or _knows_new(sign_off, state):
            continue
        was_stale = not _knows(sign_off, state.old_alike, state.old_revision)
        what = state.consequence
        if was_stale and state.new_revision:
            what = gravest((Consequence.TEACH, what))
        by = last_day(state, what, rule, on)
        yield Due(staff, state.id, what, by, sign_off.revision, was_stale)


def _of_pages(comparison: Comparison, crew: Crew, rule: Retraining, on: date) -> Iterator[Due]:
    for change in comparison.changes:
        kind, page = change.record
        text = change.difference.after
        if kind != "pages" or text is None or change.consequence is Consequence.NOTHING:
            continue
        prints = [page_fingerprint(one) for one in (change.difference.before or "", text)]
        days = rule.teach_within_days if change.consequence.stops_a_run else rule.tell_within_days
        for staff, person in crew.people.items():
            signing = person.signing(page)
            mark = signing.fingerprint if signing else None
            if signing is not None and not (mark and prints[1].startswith(mark)):
                was_stale = mark is not None and not prints[0].startswith(mark)
                by = on + timedelta(days=days)
                yield Due(staff, page, change.consequence, by, f"{signing.signed}", was_stale)


def _knows_new(sign_off: SignOff, state: JobState) -> bool:
    """True where somebody was taught the new state already."""
    is_new = state.new_revision != state.old_revision
    return _knows(sign_off, state.new_alike, state.new_revision if is_new else None)


def _knows(sign_off: SignOff, alike: frozenset[str], revision: str | None) -> bool:
    """True where a sign-off is for that state; without a fingerprint the revision decides."""
    if sign_off.fingerprint is None:
        return sign_off.revision == revision
    return any(one.startswith(sign_off.fingerprint) for one in alike)


def last_day(state: JobState, what: Consequence, rule: Retraining, on: date) -> date:
    """The last day for teaching or telling."""
    effective = date.fromisoformat(state.effective) if state.effective else on
    is_new = state.old_revision != state.new_revision
    start = max(on, effective) if is_new else on
    days = rule.teach_within_days if what.stops_a_run else rule.tell_within_days
    return start + timedelta(days)
