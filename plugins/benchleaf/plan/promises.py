"""What people were told stays: which promises hold still, and why one does not.

A promise ends only where somebody or something is not there: the shop is closed, a trainer or
learner is away, the job must not run. Or where it would come before a lesson that it waits for.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, time

from benchleaf.model import PromisedCheck, PromisedLesson, PromisedTime, Trainer

from .books import Booking, Books, Wish
from .clock import DAY, GRID, Session, Span, minute_of, moment, whole
from .lessons import Key, LessonKind
from .presence import edge_span, shift_span
from .setting import Setting, able
from .talks import Talk

SIGNED_OFF = "no longer needed"
WAITS = "it waits for a lesson that moved"


@dataclass(frozen=True, slots=True)
class Moved:
    """Something that people were told, and that is otherwise now."""

    people: tuple[str, ...]
    job: str
    is_check: bool
    trainer: str
    was: Session
    now: tuple[Session, ...]
    """Where it is instead; empty where it is given no more, or has no place."""
    why: str

    @property
    def is_dropped(self) -> bool:
        """True where nobody misses it: it is needed no more."""
        return self.why.startswith(SIGNED_OFF)


def begin_of(setting: Setting, trainer: Trainer, day: date, starts: time) -> tuple[int, int]:
    """Minute of the plan at which something told begins, and the day of its shift."""
    number = setting.day(day)
    shift = setting.situation.crew.shift(trainer.shift)
    begin = number * DAY + minute_of(starts)
    return (begin if begin >= shift_span(shift, number).begin else begin + DAY), number


def to_come(setting: Setting, promise: PromisedLesson) -> tuple[PromisedTime, ...]:
    """Its sessions from the day of the plan on."""
    return tuple(one for one in promise.sessions if one.day >= setting.situation.today)


def minutes_left(setting: Setting, talk: Talk, promise: PromisedLesson | None) -> int:
    """What is still to give of a talk, the part that was given already taken into account.

    Where the record shows as many rounds as the time given is good for, the lesson goes on as it
    was promised. Fewer, and it is reckoned anew; more, and it ends earlier.
    """
    by_rule = whole(talk.minutes)
    if promise is None:
        return by_rule
    total = sum(one.minutes for one in promise.sessions)
    rest = sum(one.minutes for one in to_come(setting, promise))
    lesson = talk.lessons[0]
    if rest in (0, total):
        return by_rule
    if lesson.kind not in (LessonKind.NEW, LessonKind.GO_ON):
        return rest
    record = lesson.person.lesson(lesson.job.id)
    reached = record.round if record else 0
    expected = _rounds_expected(setting, talk, promise, total, total - rest)
    if reached < expected:
        return by_rule
    return rest if reached == expected else min(rest, by_rule)


def _rounds_expected(
    setting: Setting, talk: Talk, promise: PromisedLesson, total: float, given: float
) -> int:
    """The round that somebody has come through after so many minutes of a lesson as promised."""
    lesson = talk.lessons[0]
    rule = setting.situation.shop.manual.teaching.lesson
    a_round = len(lesson.job.steps) * rule.round_step_minutes
    rounds = 4 - promise.round
    before = total - rounds * a_round
    done = int((given - before) / a_round + 1e-6) if a_round > 0 and given > before else 0
    return promise.round + min(max(done, 0), rounds)


@dataclass(slots=True)
class Kept:
    """The promises that hold, booked; and why the others do not."""

    lessons: dict[Key, list[Booking]]
    checks: dict[Key, list[Booking]]
    lost: dict[tuple[Key, int, bool], str]
    """By person and job, minute of its begin, and whether it is a check."""


@dataclass(frozen=True, slots=True)
class _Told:
    key: Key
    wish: Wish
    begin: int
    minutes: int
    day: int
    is_check: bool
    why_not: str


def keep(setting: Setting, books: Books, given_up: Mapping[tuple[Key, int, bool], str]) -> Kept:
    """Book every promise that holds, in the order of time; `given_up` are those that do not."""
    kept = Kept({}, {}, {})
    left = {talk.key: _left(setting, talk) for talk in setting.talks}
    for one in sorted(_told(setting), key=lambda each: (each.begin, each.is_check, each.key)):
        place = (one.key, one.begin, one.is_check)
        why = one.why_not or given_up.get(place, "") or _why_not(setting, books, one)
        if not why and not one.is_check and left.get(one.key, 0) < GRID:
            why = f"{SIGNED_OFF}: they are further on"
        if why:
            kept.lost[place] = why
            continue
        minutes = one.minutes if one.is_check else min(one.minutes, left[one.key])
        booking = books.book(one.wish, one.begin, minutes, one.day)
        if one.is_check:
            kept.checks.setdefault(one.key, []).append(booking)
        else:
            left[one.key] -= minutes
            kept.lessons.setdefault(one.key, []).append(booking)
    return kept


def _left(setting: Setting, talk: Talk) -> int:
    return minutes_left(setting, talk, setting.promised.get(talk.key))


def _told(setting: Setting) -> Iterator[_Told]:
    """Everything promised from the day of the plan on."""
    promised = setting.situation.promised
    if promised is None or not setting.trainers:
        return
    by_promise = {id(one): key for key, one in setting.promised.items()}
    by_key = {talk.key: talk for talk in setting.talks}
    for one in promised.lessons:
        talk = by_key.get(by_promise.get(id(one), ("", "")))
        yield from _of_lesson(setting, one, talk)
    for check in promised.checks:
        if check.day >= setting.situation.today:
            yield _of_check(setting, check)


def _of_lesson(setting: Setting, one: PromisedLesson, talk: Talk | None) -> Iterator[_Told]:
    key = talk.key if talk else (one.people[0], one.job)
    number, why = _trainer(setting, one.trainer, one.people[0])
    if talk is None:
        never = (setting.never.get((code, one.job), "") for code in one.people)
        why = next((each for each in never if each), f"{SIGNED_OFF}: nobody needs it now")
    elif not why and number not in able(setting.trainers, talk.lessons[0], setting.teaching):
        why = f"{one.trainer} may not teach it"
    for each in to_come(setting, one):
        trainer = setting.trainers[number]
        begin, day = begin_of(setting, trainer, each.day, each.starts)
        wish = setting.wish(talk, number) if talk else Wish(trainer, (), (), None)
        yield _Told(key, wish, begin, each.minutes, day, False, why)


def _of_check(setting: Setting, one: PromisedCheck) -> _Told:
    number, why = _trainer(setting, one.trainer, one.person)
    trainer = setting.trainers[number]
    begin, day = begin_of(setting, trainer, one.day, one.starts)
    person = setting.situation.crew.people.get(one.person)
    job = setting.jobs[one.job]
    people = () if person is None else (person,)
    minutes = whole(setting.situation.shop.manual.teaching.lesson.check_minutes)
    wish = Wish(trainer, people, job.stations, job.set_up)
    why = why or ("" if people else f"{SIGNED_OFF}: {one.person} is in the crew no more")
    return _Told((one.person, one.job), wish, begin, minutes, day, True, why)


def _trainer(setting: Setting, code: str, learner: str) -> tuple[int, str]:
    """The trainer's place in the list; the first one with a reason where they train no more."""
    person = setting.situation.crew.people.get(learner)
    places = [n for n, one in enumerate(setting.trainers) if one.id == code]
    same = [n for n in places if person is None or setting.trainers[n].shift == person.shift]
    if same:
        return same[0], ""
    return (places or [0])[0], f"{code} does not train in that shift now"


def _why_not(setting: Setting, books: Books, one: _Told) -> str:
    """Why a promise cannot be kept, or nothing."""
    trainer, crew = one.wish.trainer, setting.situation.crew
    shift = crew.shift(trainer.shift)
    needed = Span(one.begin, one.begin + one.minutes)
    if setting.presence.day(one.day) in crew.facts.closed:
        return "the shop is closed that day"
    if not _holds(setting.presence.of_trainer(trainer, one.day), needed):
        return f"{trainer.id} is not there then"
    for person in one.wish.people:
        if not _holds(setting.presence.of_person(person, one.day), needed):
            return f"{person.id} is not there then"
    if not setting.teaching.lets(trainer.id, one.key[1], setting.presence.day(one.day)):
        return f"{trainer.id} may not teach it then"
    job = setting.jobs[one.key[1]]
    if one.is_check and job.never:
        return job.never
    if not _holds((edge_span(shift, one.day, job.edge),), needed):
        return "the job is done at another time of the shift now"
    if books.left(trainer, one.day) < one.minutes:
        return f"{trainer.id} has less time for training that day"
    if not books.is_free(one.wish, one.begin, one.minutes, one.day):
        return "somebody or the station is needed elsewhere then"
    return ""


def matched(
    wanted: Sequence[int], told: Sequence[Booking]
) -> tuple[list[Booking | None], list[Booking]]:
    """Which promised check serves for which one that the rule wants now, and those for none.

    On the same day first. Then by what is nearest: where a closed day moves the days of the rule, a
    promised check stays on its own.
    """
    found: list[Booking | None] = [None] * len(wanted)
    left = list(told)
    for at, day in enumerate(wanted):
        same = next((one for one in left if one.day == day), None)
        if same is not None:
            found[at] = same
            left.remove(same)
    over = []
    for one in left:
        open_places = [at for at, each in enumerate(found) if each is None]
        if open_places:
            nearest = min(open_places, key=lambda at: (abs(wanted[at] - one.day), at))
            found[nearest] = one
        else:
            over.append(one)
    return found, over


def _holds(spans: tuple[Span, ...], needed: Span) -> bool:
    return any(one.begin <= needed.begin and one.end >= needed.end for one in spans)


def session_of(setting: Setting, one: Booking) -> Session:
    """A booking by the clock of the shop."""
    today = setting.situation.today
    return Session(setting.presence.day(one.day), moment(today, one.begin), one.minutes, one.change)
