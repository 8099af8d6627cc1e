"""Who may run, set, lock off, teach or judge a job today, and why the others may not."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from benchleaf.model import (
    Crew,
    Drafts,
    Granted,
    Job,
    Person,
    SignOff,
    Trainer,
    drafts,
)

from .authorities import (
    LET,
    Bounds,
    Reason,
    Says,
    asked_to_run,
    barred,
    granted,
    is_there,
    unsure,
)
from .situation import Situation, Standing, State
from .workings import why_never

NO_RECORD = "no file in people/ is about them"


class Doing(StrEnum):
    """What somebody may do with a job."""

    RUN = "run"
    SET = "set"
    LOCK_OFF = "lock off"
    TEACH = "teach"
    JUDGE = "judge"


@dataclass(frozen=True, slots=True)
class Answer:
    """Whether one person may do one thing with a job today."""

    code: str
    says: Says
    against: tuple[Reason, ...]
    """Why they may not, or why it is not known."""
    last: date | None
    """The last day on which the records let them; None where they may not, or without end."""
    is_away: bool
    """True where they are not there today."""
    proof: tuple[str, ...]
    """What proves that they may; nothing where they may not."""


@dataclass(frozen=True, slots=True)
class WhoMay:
    """The answers about one job."""

    job: Job
    day: date
    never: str
    """Why nobody may run, set or teach it, or nothing."""
    needs_lock: bool
    licences: tuple[str, ...]
    """Licences from outside that the job asks for."""
    answers: Mapping[Doing, tuple[Answer, ...]]
    """Of everybody in the records, by staff code."""

    @property
    def somebody_runs(self) -> bool:
        """True where the records let anybody run it."""
        return bool(self.those(Doing.RUN, Says.MAY))

    def those(self, doing: Doing, says: Says) -> tuple[Answer, ...]:
        """Those of whom the records say so."""
        return tuple(one for one in self.answers[doing] if one.says is says)


def who_may(situation: Situation, job: Job) -> WhoMay:
    """The answers about one job, on the situation's day."""
    return _who_may(situation, job, drafts(situation.shop))


def who_may_each(situation: Situation) -> tuple[WhoMay, ...]:
    """The answers about every job."""
    unfinished = drafts(situation.shop)
    return tuple(_who_may(situation, job, unfinished) for job in situation.shop.jobs.values())


def _who_may(situation: Situation, job: Job, unfinished: Drafts) -> WhoMay:
    crew = situation.crew
    never = why_never(situation, job, unfinished)
    answers = {
        doing: tuple(_answer(situation, code, job, doing, never) for code in sorted(crew.codes))
        for doing in Doing
    }
    asked = tuple(one.licence for one in crew.facts.asks_for if job.id in one.jobs)
    return WhoMay(job, situation.today, never, job.is_under_lock, asked, answers)


def _answer(situation: Situation, code: str, job: Job, doing: Doing, never: str) -> Answer:
    found = _bounds(situation, code, job, doing, never)
    person = situation.crew.people.get(code)
    trainers = (one for one in situation.crew.facts.trainers if one.id == code)
    away = any(_is_away(one, situation.today) for one in (person, *trainers) if one is not None)
    last, proof = (found.last, found.proof) if found.says is Says.MAY else (None, ())
    return Answer(code, found.says, found.against, last, away, proof)


def _is_away(one: Person | Trainer, day: date) -> bool:
    """True for a whole day; somebody who is there for an hour is there."""
    return any(
        each.first <= day <= (each.last or each.first) and each.starts is None and each.ends is None
        for each in one.absent
    )


def _bounds(situation: Situation, code: str, job: Job, doing: Doing, never: str) -> Bounds:
    person = situation.crew.people.get(code)
    if never and doing in (Doing.RUN, Doing.SET, Doing.TEACH):
        return barred(never)
    if doing is Doing.TEACH:
        return may_teach(situation, code, job)
    if person is None:
        return unsure(NO_RECORD)
    if doing is Doing.RUN:
        return may_run(situation, person, job)
    there = is_there(person, situation.today)
    what = Granted(doing.value)
    return there & granted(situation.shop, situation.crew, person, job, what, situation.today)


def may_run(situation: Situation, person: Person, job: Job, *, unused: bool = True) -> Bounds:
    """Whether the records let somebody run a job: the sign-off, the lock, licences.

    Without `unused` the last day is not the one on which the sign-off lapses for want of use.
    """
    asked = asked_to_run(situation.shop, situation.crew, person, job, situation.today)
    return is_there(person, situation.today) & _signed_off(situation, person, job, unused) & asked


def _signed_off(situation: Situation, person: Person, job: Job, unused: bool) -> Bounds:
    standing = situation.standing(person, job)
    sign_off, last = standing.sign_off, standing.recheck_on
    if standing.state in (State.CAN_DO, State.NO_AUTHORITY):
        return Bounds(
            _doubts(situation.crew, job, sign_off) if sign_off is not None else (),
            last if unused or sign_off is None else sign_off.until,
            _proof(sign_off) if sign_off is not None else (),
        )
    if standing.state is State.TEACH_AGAIN and sign_off is not None and last is not None:
        lapsed = _lapsed(situation, sign_off, last) if last < situation.today else LET
        return _changed(standing, sign_off) & lapsed
    if standing.state is State.CHECK_AGAIN and sign_off is not None and last is not None:
        return _lapsed(situation, sign_off, last)
    if standing.state is State.LEARNING and standing.lesson is not None:
        return barred(f"is learning it, round {standing.lesson.round} reached")
    return barred(_not_signed(situation, standing))


def _proof(one: SignOff) -> tuple[str, ...]:
    proved = f"signed off on revision {one.revision} on {one.judged} by {one.judged_by}"
    told = one.last_told
    if told is None:
        return (proved,)
    return (
        proved,
        f"taught what changed up to revision {told.revision} on {told.day} by {told.by}",
    )


def _doubts(crew: Crew, job: Job, sign_off: SignOff) -> tuple[Reason, ...]:
    """Why nobody can tell whether a sign-off is one."""
    judge, since = sign_off.judged_by, job.in_force_since(sign_off.revision)
    unknown = unsure(f"judged by {judge}, whom the records do not know").against
    found = () if judge in crew.codes else unknown
    if since is not None and sign_off.judged < since:
        words = f"judged before revision {sign_off.revision}, which is in force since"
        return (*found, Reason(Says.NOT_KNOWN, words, since))
    return found


def _changed(standing: Standing, sign_off: SignOff) -> Bounds:
    """The job means something else now; the person's page says what."""
    job = standing.job
    if sign_off.counts_for[0] == job.revision:
        return barred(f"to be taught again: {standing.why}")
    return barred(
        f"signed off on revision {sign_off.revision}, and to be taught what changed; revision "
        f"{job.revision} is in force since",
        job.effective,
    )


def _lapsed(situation: Situation, sign_off: SignOff, last: date) -> Bounds:
    if sign_off.until == last:
        return barred("the sign-off ended on", last)
    if sign_off.stopped_on is not None:
        return barred("to prove it again: a check stopped the work on", sign_off.stopped_on)
    done = sign_off.last_done or sign_off.judged
    days = (situation.today - done).days
    return barred(f"last done {days} days ago; the sign-off held until", last)


def _not_signed(situation: Situation, standing: Standing) -> str:
    """Who is signed off for the job on a like machine is not so on this one."""
    other = (
        one
        for one in situation.shop.alike(standing.job.id)
        if one.id != standing.job.id and standing.person.sign_off(one.id)
    )
    at = next(other, None)
    if at is None:
        return "not signed off"
    return f"signed off for it as {at.id.upper()} at {at.machine}, not at {standing.job.machine}"


def may_teach(situation: Situation, code: str, job: Job, *, unused: bool = True) -> Bounds:
    """Whether the records let somebody teach a job: the authority, and that they may run it."""
    crew, day = situation.crew, situation.today
    found = _may_train(crew, code, job, day)
    person = crew.people.get(code)
    if person is None:
        return found & unsure(NO_RECORD)
    given = granted(situation.shop, crew, person, job, Granted.TEACH, day)
    if given.says is Says.MAY_NOT:
        return found & given
    return found & given & may_run(situation, person, job, unused=unused)


def _may_train(crew: Crew, code: str, job: Job, day: date) -> Bounds:
    """What crew.yml says of a trainer; nothing of somebody who is not among them."""
    mine = [one for one in crew.facts.trainers if one.id == code]
    if not mine:
        return LET
    if all(one.teaches and job.id not in one.teaches for one in mine):
        return barred("crew.yml does not let them teach this job")
    if all(one.first_day is not None and one.first_day > day for one in mine):
        return barred("begins to train on", min(one.first_day for one in mine if one.first_day))
    if all(one.last_day is not None and one.last_day < day for one in mine):
        return barred("last trained on", max(one.last_day for one in mine if one.last_day))
    return LET


@dataclass(frozen=True, slots=True)
class Teaching:
    """Which trainers may teach which jobs, for a plan that goes by it."""

    bounds: Mapping[tuple[str, str], Bounds] | None = None
    """By trainer and job; None where the shop keeps no record of who may teach."""

    def lets(self, trainer: str, job_id: str, day: date | None = None) -> bool:
        """Whether a lesson may be planned with somebody: today, and on its day."""
        if self.bounds is None:
            return True
        found = self.bounds[trainer, job_id]
        is_over = day is not None and found.last is not None and day > found.last
        return found.says is Says.MAY and not is_over


def teaching_of(situation: Situation) -> Teaching:
    """What a plan goes by; a shop that records nobody's authority to teach plans as before.

    That a trainer has not done a job for long ends nothing here after today: teaching is doing it.
    """
    crew = situation.crew
    if not crew.records(Granted.TEACH):
        return Teaching()
    codes = dict.fromkeys(one.id for one in crew.facts.trainers)
    return Teaching(
        {
            (code, job.id): may_teach(situation, code, job, unused=False)
            for code in codes
            for job in situation.shop.jobs.values()
        }
    )


@dataclass(frozen=True, slots=True)
class NotTeaching:
    """Why a trainer may not give some of the lessons that are wanted."""

    code: str
    jobs: tuple[str, ...]
    against: tuple[Reason, ...]


def not_teaching(
    situation: Situation, teaching: Teaching, wanted: Iterable[tuple[str, str]]
) -> tuple[NotTeaching, ...]:
    """Trainers who may not give lessons that are wanted, jobs of one reason together.

    `wanted` are job and shift of each lesson. What `teaches` leaves out is no news.
    """
    found: dict[tuple[str, tuple[Reason, ...]], list[str]] = {}
    asked = sorted(set(wanted))
    for one in situation.crew.facts.trainers:
        for job_id, shift in asked:
            named = not one.teaches or job_id in one.teaches
            if shift == one.shift and named and not teaching.lets(one.id, job_id):
                against = (teaching.bounds or {})[one.id, job_id].against
                jobs = found.setdefault((one.id, against), [])
                jobs += [] if job_id in jobs else [job_id]
    return tuple(NotTeaching(code, tuple(jobs), against) for (code, against), jobs in found.items())
