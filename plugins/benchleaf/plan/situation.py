"""What a plan is made from, and where each person stands with each job today."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from enum import StrEnum

from benchleaf.compute import set_up_sheets
from benchleaf.meaning import Statement, Verdict, gravest_of, moved_since, statements, verdict
from benchleaf.model import Crew, Job, Learning, Person, Shop, SignOff


class State(StrEnum):
    """Where a person stands with a job."""

    CAN_DO = "can do"
    TEACH_AGAIN = "teach again"
    """The job has changed its meaning since they proved it."""
    CHECK_AGAIN = "check again"
    """They have not done it for so long that it is proved again before the next run."""
    LEARNING = "learning"
    TO_LEARN = "to learn"
    NOT_NEEDED = "not needed"
    NOTHING = "nothing said"


@dataclass(frozen=True, slots=True)
class Standing:
    """A person and a job, today."""

    person: Person
    job: Job
    state: State
    why: str
    due: date | None
    """The day by which they must be able, where one is given."""
    sign_off: SignOff | None
    lesson: Learning | None
    recheck_on: date | None
    """The last day on which the sign-off holds if they do not do the job until then."""

    @property
    def key(self) -> tuple[str, str]:
        """Person and job."""
        return self.person.id, self.job.id


@dataclass(frozen=True, slots=True)
class Situation:
    """The shop, its people, and the day of the plan."""

    shop: Shop
    crew: Crew
    fingerprints: Mapping[str, str]
    """The present fingerprint of each job's meaning."""
    today: date
    alike: Mapping[str, frozenset[str]] = field(default_factory=dict)
    """Other fingerprints that mean the same, where a change was declared as wording only."""
    said: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    """What each job said, by revision and by fingerprint, as the register of revisions keeps it."""
    _meanings: dict[str, tuple[Statement, ...]] = field(default_factory=dict, compare=False)
    """What jobs say now; filled as it is asked for."""

    def standing(self, person: Person, job: Job) -> Standing:
        """Where a person stands with a job."""
        sign_off, lesson = person.sign_off(job.id), person.lesson(job.id)
        recheck_on = self._recheck_on(sign_off) if sign_off else None
        state, why = self._state(person, job, sign_off, recheck_on)
        return Standing(person, job, state, why, person.due(job.id), sign_off, lesson, recheck_on)

    def standings(self) -> Iterator[Standing]:
        """Every person with every job, people first."""
        for person in self.crew.people.values():
            for job in self.shop.jobs.values():
                yield self.standing(person, job)

    def _recheck_on(self, sign_off: SignOff) -> date:
        unused = self.shop.manual.teaching.recheck_after_unused_days
        return (sign_off.last_done or sign_off.judged) + timedelta(days=unused)

    def _state(
        self, person: Person, job: Job, sign_off: SignOff | None, recheck_on: date | None
    ) -> tuple[State, str]:
        if sign_off is not None and recheck_on is not None:
            return self._of_sign_off(job, sign_off, recheck_on)
        lesson = person.lesson(job.id)
        if lesson is not None:
            return State.LEARNING, f"round {lesson.round} reached"
        if person.due(job.id) is not None:
            return State.TO_LEARN, "not begun"
        if job.id in person.not_needed:
            return State.NOT_NEEDED, "not needed"
        return State.NOTHING, ""

    def since(self, job: Job, sign_off: SignOff) -> Verdict | None:
        """What follows from all that changed since somebody proved a job; None where unknown.

        It counts from the revision that they proved, so that ten small steps are one large one.
        """
        known = self.said.get(job.id, {})
        mark = sign_off.fingerprint
        if mark is None:
            then = known.get(sign_off.revision)
        else:
            then = next((said for key, said in known.items() if key.startswith(mark)), None)
        if then is None:
            return None
        if job.id not in self._meanings:
            sheets = set_up_sheets(self.shop, job)
            self._meanings[job.id] = statements(self.shop, job, sheets)
        rule = self.shop.manual.retraining
        moved = moved_since(then, self._meanings[job.id])
        return gravest_of([verdict(one, rule) for one in moved])

    def _of_sign_off(self, job: Job, sign_off: SignOff, recheck_on: date) -> tuple[State, str]:
        stale = stale_reason(
            job, sign_off, {self.fingerprints[job.id], *self.alike.get(job.id, ())}
        )
        if job.id in self.shop.drafts:
            stale = stale or f"a draft has changed since revision {sign_off.revision}"
        told = ""
        since = self.since(job, sign_off) if stale else None
        if since is not None:
            stale, told = (since.why, "") if since.what.stops_a_run else ("", since.why)
        last = sign_off.last_done or sign_off.judged
        unused = f"last done {(self.today - last).days} days ago" if self.today > recheck_on else ""
        if stale:
            return State.TEACH_AGAIN, f"{stale}; {unused}" if unused else stale
        if unused:
            return State.CHECK_AGAIN, unused
        proved = f"proved on revision {sign_off.revision}"
        return State.CAN_DO, f"{proved}; to be told: {told}" if told else proved


def stale_reason(job: Job, sign_off: SignOff, fingerprints: Collection[str]) -> str:
    """Why a sign-off no longer holds, or nothing where it does.

    The fingerprint decides, where it was recorded. Without one an older revision counts as
    stale: nobody can tell whether what was taught is what the job says now.
    """
    if sign_off.fingerprint is not None:
        if any(one.startswith(sign_off.fingerprint) for one in fingerprints):
            return ""
        return f"what the job means has changed since revision {sign_off.revision}"
    if sign_off.revision != job.revision:
        return (
            f"proved on revision {sign_off.revision} with no fingerprint; now revision "
            f"{job.revision}"
        )
    return ""
