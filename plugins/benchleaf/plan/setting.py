"""What stands before any attempt at a plan: the talks, who may give them, and what was promised."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from benchleaf.model import PromisedLesson, Trainer

from .books import Books, Wish
from .clock import DAY, whole
from .days import Timeline, works_on
from .lessons import Key, Lesson
from .may import Teaching
from .order import Work, adjusted_dues
from .presence import Presence
from .situation import Situation
from .talks import Talk, Teller, talks, teller
from .workings import JobAtWork, jobs_at_work, pieces_wanted


@dataclass(frozen=True, slots=True)
class Setting:
    """The same for every attempt."""

    situation: Situation
    presence: Presence
    jobs: Mapping[str, JobAtWork]
    trainers: tuple[Trainer, ...]
    lines: tuple[Timeline, ...]
    """Each trainer's days with time for training."""
    talks: tuple[Talk, ...]
    given: Mapping[Key, int]
    """Which trainer is to give each lesson, by place, unless it would be late with them."""
    asked: Mapping[Key, int]
    """The trainer whom a record names, or whose talk several hear, of each such lesson."""
    never: Mapping[Key, str]
    """Lessons that nobody can give, and why."""
    promised: Mapping[Key, PromisedLesson]
    """What was promised of a talk, by its key."""
    ranks: Mapping[Key, float]
    """When each talk is to end at the latest for all that waits for it, in working days."""
    teaching: Teaching
    """Who may teach which job."""

    def books(self) -> Books:
        """Nothing booked yet."""
        rule = self.situation.shop.manual.teaching.lesson
        change = whole(rule.change_minutes) if rule.change_minutes else 0
        return Books(self.situation.crew, self.presence, change)

    def day(self, when: date) -> int:
        """A date as a day of the plan."""
        return (when - self.situation.today).days

    def due_day(self, talk: Talk) -> int | None:
        """The last day of the plan on which a talk is in time."""
        return None if talk.due is None else self.day(talk.due)

    def opens(self, talk: Talk) -> int:
        """The first minute of the plan at which a talk may begin, whatever it waits for."""
        return 0 if talk.opens is None else max(0, self.day(talk.opens)) * DAY

    def wish(self, talk: Talk, number: int) -> Wish:
        """Who and what must meet for a talk with one of the trainers."""
        job = self.jobs[talk.lessons[0].job.id]
        people = tuple(one.person for one in talk.lessons)
        return Wish(self.trainers[number], people, job.stations, job.set_up)

    def able(self, talk: Talk) -> tuple[int, ...]:
        """Trainers who may give a talk, first the one who is to."""
        first = self.given[talk.key]
        others = (n for n in able(self.trainers, talk.lessons[0], self.teaching) if n != first)
        return (first, *others)

    @property
    def least_session(self) -> int:
        """The shortest part of a lesson, in minutes."""
        return whole(self.situation.shop.manual.teaching.lesson.least_session_minutes)

    def fits_day(
        self, talk: Talk, number: int, day: int, batches: Sequence[int] | None = None
    ) -> bool:
        """Whether a trainer may teach the job that day, and there are pieces to practise on.

        A lesson of a list waits for the list's day.

        `batches` are places of batches, one of which is to serve; all of the job's where none is
        given, and -1 where it asks for none.
        """
        job = self.jobs[talk.lessons[0].job.id]
        at = self.presence.day(day)
        if day * DAY < self.opens(talk):
            return False
        if not self.teaching.lets(self.trainers[number].id, job.job.id, at):
            return False
        facts = self.situation.crew.facts.batches
        for place in (job.batches or (-1,)) if batches is None else batches:
            if place < 0 or facts[place].is_there(at):
                return True
        return False

    def pieces(self, talk: Talk) -> int:
        """Pieces that all of a talk use up together."""
        return sum(pieces_wanted(one, self.jobs[one.job.id]) for one in talk.lessons)


def setting_of(situation: Situation, lessons: Sequence[Lesson], teaching: Teaching) -> Setting:
    """What all attempts share."""
    trainers = situation.crew.facts.trainers
    presence = Presence(situation.crew, situation.today)
    jobs = jobs_at_work(situation)
    lines = tuple(_timeline(presence, one) for one in trainers)
    told = _told(situation)
    may = [one for one in lessons if not jobs[one.job.id].never]
    given, never = _assigned(situation, trainers, may, told, teaching)
    never |= {one.key: jobs[one.job.id].never for one in lessons if jobs[one.job.id].never}
    every = talks(may, given, _apart(presence, may, told))
    works = [_work(one, lines[given[one.key]]) for one in every]
    promised = {
        talk.key: told[one.key]
        for talk in every
        for one in talk.lessons
        if one.key in told
    }  # fmt: skip
    return Setting(
        situation, presence, jobs, trainers, lines, every, given,
        {
            one.key: number
            for one in may
            if (number := given.get(one.key) if one.talk else _asked(trainers, one)) is not None
        },
        never, promised,
        adjusted_dues(works), teaching,
    )  # fmt: skip


def _timeline(presence: Presence, trainer: Trainer) -> Timeline:
    crew = presence.crew
    shift = crew.shift(trainer.shift)
    days = (
        presence.day(number)
        for number in range(400)
        if works_on(shift, crew.facts.closed, presence.day(number))
        and presence.of_trainer(trainer, number)
    )
    return Timeline(tuple(days), trainer.hours.value / 60)


def _told(situation: Situation) -> dict[Key, PromisedLesson]:
    """What each person was promised at each job."""
    lessons = situation.promised.lessons if situation.promised else ()
    return {(person, one.job): one for one in lessons for person in one.people}


def _apart(
    presence: Presence, lessons: Sequence[Lesson], told: Mapping[Key, PromisedLesson]
) -> dict[Key, object]:
    """Who hears a talk together: those promised the same one, and those back on the same day."""
    found: dict[Key, object] = {}
    for one in lessons:
        if one.talk:
            promise = told.get(one.key)
            back = next(presence.days_of(one.person), None)
            found[one.key] = back if promise is None else (promise.people, promise.sessions)
    return found


def _work(talk: Talk, line: Timeline) -> Work[Key]:
    """Counted in working days, so that trainers with unlike hours compare."""
    a_day = line.minutes_a_day
    return Work(talk.key, talk.minutes / a_day, line.until(talk.due) / a_day, talk.needs)


def _assigned(
    situation: Situation,
    trainers: Sequence[Trainer],
    lessons: Sequence[Lesson],
    told: Mapping[Key, PromisedLesson],
    teaching: Teaching,
) -> tuple[dict[Key, int], dict[Key, str]]:
    """Which trainer gives each lesson, by place in the list; and why nobody gives some."""
    given: dict[Key, int] = {}
    nobody: dict[Key, str] = {}
    load = [0.0] * len(trainers)
    own: dict[str, int] = {}
    telling: dict[tuple[Teller, str], int] = {}
    there = [
        number
        for number, one in enumerate(trainers)
        if one.last_day is None or one.last_day >= situation.today
    ]
    for lesson in sorted(lessons, key=lambda one: (one.due or date.max, one.key)):
        may = [one for one in able(trainers, lesson, teaching) if one in there]
        if not may:
            nobody[lesson.key] = f"no trainer of the {lesson.person.shift} shift may teach it"
            continue
        talk = (teller(lesson), lesson.person.shift)
        wanted = (
            _promised_trainer(trainers, told.get(lesson.key), lesson.person.shift),
            _asked(trainers, lesson),
            telling.get(talk) if lesson.talk else None,
            own.get(lesson.person.id),
            min(may, key=lambda n: (load[n] / trainers[n].hours.value, n)),
        )
        chosen = next(one for one in wanted if one is not None and one in may)
        is_told_already = bool(lesson.talk) and telling.get(talk) == chosen
        if lesson.talk:
            telling.setdefault(talk, chosen)
        if not is_told_already:
            own.setdefault(lesson.person.id, chosen)
        given[lesson.key] = chosen
        load[chosen] += lesson.own_minutes if is_told_already else lesson.minutes
    return given, nobody


def able(trainers: Sequence[Trainer], lesson: Lesson, teaching: Teaching) -> list[int]:
    """The trainers of a learner's shift who may teach the job, and are not that learner."""
    return [
        number
        for number, one in enumerate(trainers)
        if one.shift == lesson.person.shift
        and one.id != lesson.person.id
        and (not one.teaches or lesson.job.id in one.teaches)
        and teaching.lets(one.id, lesson.job.id)
    ]


def _promised_trainer(
    trainers: Sequence[Trainer], promise: PromisedLesson | None, shift: str
) -> int | None:
    if promise is None:
        return None
    places = (
        n for n, one in enumerate(trainers) if (one.id, one.shift) == (promise.trainer, shift)
    )
    return next(places, None)


def _asked(trainers: Sequence[Trainer], lesson: Lesson) -> int | None:
    """The trainer whom the learner's record names for this job, or for any other."""
    records = sorted(lesson.person.learning, key=lambda one: one.job != lesson.job.id)
    codes = [one.trainer for one in records if one.trainer is not None]
    places = {one.id: number for number, one in enumerate(trainers)}
    return places.get(codes[0]) if codes else None
