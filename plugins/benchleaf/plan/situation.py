"""What a plan is made from, and where each person stands with each job today."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from enum import StrEnum

from benchleaf.compute import SetUpSheet, reasons_not_to_run, set_up_sheets
from benchleaf.meaning import Consequence, Statement, gravest_of, moved_since, statements, verdict
from benchleaf.model import Crew, Job, Learning, Person, Promised, Shop, SignOff

from .authorities import Says, asked_to_run
from .by_list import ByList, jobs_by_list
from .presence import Presence
from .since import Since, changed_since, since


class State(StrEnum):
    """Where a person stands with a job."""

    CAN_DO = "can do"
    TEACH_AGAIN = "teach again"
    """The job has changed its meaning since they proved it."""
    CHECK_AGAIN = "check again"
    """They have not done it for so long, or the sign-off was for a time that is over: it is proved
    again before the next run."""
    NO_AUTHORITY = "no authority"
    """The sign-off holds, and what the job asks for besides does not: the lock, a licence."""
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
    since: Since | None = None
    """What changed since they were taught, where that asks for something."""

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
    _by_list: dict[str, Mapping[str, ByList]] = field(default_factory=dict, compare=False)
    """What each person's lists teach; filled as it is asked for."""
    _meanings: dict[str, tuple[Statement, ...]] = field(default_factory=dict, compare=False)
    """What jobs say now; filled as it is asked for."""
    _sheets: dict[str, tuple[SetUpSheet, ...]] = field(default_factory=dict, compare=False)

    @property
    def promised(self) -> Promised | None:
        """What people were told of an earlier plan."""
        return self.crew.promised

    def standing(self, person: Person, job: Job) -> Standing:
        """Where a person stands with a job."""
        sign_off, lesson = person.sign_off(job.id), person.lesson(job.id)
        recheck_on = self._recheck_on(sign_off) if sign_off else None
        state, why, since = self._state(person, job, sign_off, recheck_on)
        listed = self.by_list(person, job)
        dues = (person.due(job.id), listed.due if listed else None)
        due = min((one for one in dues if one is not None), default=None)
        return Standing(person, job, state, why, due, sign_off, lesson, recheck_on, since)

    def by_list(self, person: Person, job: Job) -> ByList | None:
        """What a list that somebody follows asks of this job, or None."""
        if person.id not in self._by_list:
            presence = Presence(self.crew, self.today)
            self._by_list[person.id] = jobs_by_list(self.shop, presence, person)
        return self._by_list[person.id].get(job.id)

    def standings(self) -> Iterator[Standing]:
        """Every person with every job, people first."""
        for person in self.crew.people.values():
            for job in self.shop.jobs.values():
                yield self.standing(person, job)

    def _recheck_on(self, sign_off: SignOff) -> date:
        unused = self.shop.manual.teaching.recheck_after_unused_days
        last = (sign_off.last_done or sign_off.judged) + timedelta(days=unused)
        if sign_off.stopped_on is not None:
            last = min(last, sign_off.stopped_on - timedelta(days=1))
        return last if sign_off.until is None else min(last, sign_off.until)

    def _state(
        self, person: Person, job: Job, sign_off: SignOff | None, recheck_on: date | None
    ) -> tuple[State, str, Since | None]:
        if sign_off is not None and recheck_on is not None:
            state, why, since = self._of_sign_off(job, sign_off, recheck_on)
            lacks = self._lacks(person, job) if state is State.CAN_DO else ""
            return (State.NO_AUTHORITY, f"{why}; {lacks}", since) if lacks else (state, why, since)
        lesson = person.lesson(job.id)
        if lesson is not None:
            return self._of_lesson(job, lesson)
        if person.due(job.id) is not None:
            return State.TO_LEARN, "not begun", None
        listed = self.by_list(person, job)
        if listed is not None and job.id not in person.not_needed:
            return State.TO_LEARN, f"not begun; in the list {listed.list}", None
        if job.id in person.not_needed:
            return State.NOT_NEEDED, "not needed", None
        return State.NOTHING, "", None

    def _lacks(self, person: Person, job: Job) -> str:
        """What a job asks for beside its sign-off that is recorded, and that somebody has not."""
        asked = asked_to_run(self.shop, self.crew, person, job, self.today)
        return "; ".join(
            f"{one.words} {one.day}" if one.day else one.words
            for one in asked.against
            if one.says is Says.MAY_NOT
        )

    def _of_lesson(self, job: Job, lesson: Learning) -> tuple[State, str, Since | None]:
        """Somebody in the middle of a job is told what changed since they began."""
        reached = f"round {lesson.round} reached"
        taught = lesson.taught
        if lesson.round == 0 or taught == job.revision:
            return State.LEARNING, reached, None
        if taught is None:
            return State.LEARNING, f"{reached}; the revision they were taught is not recorded", None
        since = self.since(job, taught)
        if since.verdict is not None and since.verdict.what is Consequence.NOTHING:
            return State.LEARNING, reached, None
        what = "" if since.verdict is None else f"{since.verdict.what.value}: "
        why = f"{reached} on revision {taught}; now {job.revision}: {what}{since.says}"
        return State.LEARNING, why, since

    def meaning(self, job: Job) -> tuple[Statement, ...]:
        """What a job says now."""
        if job.id not in self._meanings:
            self._meanings[job.id] = statements(self.shop, job, self.sheets(job))
        return self._meanings[job.id]

    def sheets(self, job: Job) -> tuple[SetUpSheet, ...]:
        """The set-ups of a job, computed."""
        if job.id not in self._sheets:
            self._sheets[job.id] = set_up_sheets(self.shop, job)
        return self._sheets[job.id]

    def not_to_run(self, job: Job) -> tuple[str, ...]:
        """Every reason not to run a job: its holds, and the limits that its set-ups break."""
        return reasons_not_to_run(self.shop, job.id, self.sheets(job))

    def since(self, job: Job, revision: str, mark: str | None = None) -> Since:
        """What changed since somebody was taught a revision; `mark` is its fingerprint.

        It counts from what they were taught, so that ten small steps are one large one.
        """
        known = self.said.get(job.id, {})
        if mark is None:
            then = known.get(revision)
        else:
            then = next((said for key, said in known.items() if key.startswith(mark)), None)
        rule = self.shop.manual.retraining
        found = None
        if then is not None:
            moved = moved_since(then, self.meaning(job))
            found = gravest_of([verdict(one, rule) for one in moved])
        return since(revision, found, changed_since(self.shop, job, self.meaning(job), revision))

    def _of_sign_off(
        self, job: Job, sign_off: SignOff, recheck_on: date
    ) -> tuple[State, str, Since | None]:
        prints = {self.fingerprints[job.id], *self.alike.get(job.id, ())}
        stale, told = stale_reason(job, sign_off, prints), ""
        if job.id in self.shop.drafts:
            stale = stale or f"a draft has changed since revision {sign_off.counts_for[0]}"
        since = self.since(job, *sign_off.counts_for) if stale else None
        if since is not None and since.verdict is not None:
            found = since.verdict
            stale, told = (since.says, "") if found.what.stops_a_run else ("", since.says)
            if found.what is Consequence.NOTHING:
                since, told = None, ""
        last = sign_off.last_done or sign_off.judged
        unused = f"last done {(self.today - last).days} days ago" if self.today > recheck_on else ""
        if sign_off.until is not None and self.today > sign_off.until:
            unused = f"the sign-off ended on {sign_off.until}"
        elif sign_off.stopped_on is not None:
            unused = f"a check stopped the work on {sign_off.stopped_on}"
        if stale:
            return State.TEACH_AGAIN, f"{stale}; {unused}" if unused else stale, since
        if unused:
            return State.CHECK_AGAIN, unused, since
        proved = f"proved on revision {sign_off.revision}"
        if sign_off.last_told is not None:
            one = sign_off.last_told
            proved += f"; taught what changed up to revision {one.revision} on {one.day}"
        return State.CAN_DO, f"{proved}; to be told: {told}" if told else proved, since


def stale_reason(job: Job, sign_off: SignOff, fingerprints: Collection[str]) -> str:
    """Why a sign-off no longer holds, or nothing where it does.

    The fingerprint decides, where it was recorded. Without one an older revision counts as
    stale: nobody can tell whether what was taught is what the job says now.
    """
    revision, mark = sign_off.counts_for
    if mark is not None:
        if any(one.startswith(mark) for one in fingerprints):
            return ""
        return f"what the job means has changed since revision {revision}"
    if revision != job.revision:
        done = "taught what changed up to" if sign_off.last_told else "proved on"
        return f"{done} revision {revision} with no fingerprint; now revision {job.revision}"
    return ""
