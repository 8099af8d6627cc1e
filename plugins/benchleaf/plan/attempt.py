"""One plan by one order of lessons: each is put as early as all who must meet are free.

After each lesson its checks are put on the days that follow, so that they take their share of the
trainers' time before later lessons come to it. What was promised stands before all else.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime

from benchleaf.model import Job, Person, SignOff

from .books import Booking, Books, Wish
from .clock import DAY, GRID, Span, moment, whole
from .days import HORIZON_DAYS
from .follow_up import FollowUp, FollowUpDay
from .lessons import Key, LessonKind
from .pace import follow_up_of, followed_from
from .placing import Ask, part_of_shift, place, place_check
from .practice_pieces import PracticePieces
from .promises import WAITS, Kept, keep, matched, minutes_left
from .setting import Setting
from .talks import Talk

AT_ONCE = 1.0
"""Working days: what must be over by then comes before the checks of those who are proved."""
LATER_CHECK_DAYS = 4
"""So many days of the calendar later a check may be that no trainer has time for on its own day: it
is made up, as one that was not made. A house value."""
APART = 60
"""A check that is made up begins so many minutes from others of the follow-up. A house value."""
NOT_ALONE_YET = "they are not on their own by then"
NO_ROOM = "it does not fit within the next 400 days"
WAITS_FOR_NOBODY = "it waits for a lesson that nobody can give"
NO_PIECES = "no batch of the job has {pieces} pieces left for practice"


@dataclass(slots=True)
class Attempt:
    """A plan that is being made, and then one that is made."""

    setting: Setting
    books: Books
    kept: Kept
    given: dict[Key, list[Booking]] = field(default_factory=dict)
    """The sessions of each talk."""
    never: dict[Key, str] = field(default_factory=dict)
    """Talks that found no place, and why."""
    follow_ups: dict[Key, FollowUp] = field(default_factory=dict)
    """By person and job."""
    checks: dict[Key, list[Booking]] = field(default_factory=dict)
    told_checks: list[Booking] = field(default_factory=list)
    """Promised checks that stay."""
    broken: dict[tuple[Key, int, bool], str] = field(default_factory=dict)
    """Promises given up so late that what follows on the station has no time to change it."""
    pieces: PracticePieces = field(init=False)
    _unmet: list[tuple[FollowUpDay, datetime, tuple[Person, Job, str]]] = field(
        default_factory=list
    )
    """Checks without room on their own day: made up where no lesson needs the trainer."""

    def __post_init__(self) -> None:
        self.pieces = PracticePieces(self.setting)
        self.pieces.promise(self.kept.lessons)

    @property
    def unmet_checks(self) -> int:
        """Checks that no trainer has time for."""
        return sum(day.unmet for one in self.follow_ups.values() for day in one.days)


def attempt(setting: Setting, order: Sequence[Key]) -> Attempt:
    """The plan by an order in which every talk comes after those it needs.

    A promise that is given up where others count on its set-up is given up from the start.
    """
    given_up: dict[tuple[Key, int, bool], str] = {}
    while True:
        made = _made(setting, order, given_up)
        if not made.broken:
            return made
        given_up |= made.broken


def _made(
    setting: Setting, order: Sequence[Key], given_up: Mapping[tuple[Key, int, bool], str]
) -> Attempt:
    books = setting.books()
    made = Attempt(setting, books, keep(setting, books, given_up))
    by_key = {one.key: one for one in setting.talks}
    taught = {one.key for talk in setting.talks for one in talk.lessons}
    _drop_checks_of_nobody(made, taught)
    at_once = [key for key in order if setting.ranks[key] <= AT_ONCE]
    for key in at_once:
        _give(made, by_key[key])
    for (person, job), sign_off in _followed(setting, taught):
        start, by, again = followed_from(setting.situation, setting.presence, person, job, sign_off)
        _follow(made, person, job, start, by, again=again)
    for key in order:
        if setting.ranks[key] > AT_ONCE:
            _give(made, by_key[key])
    for one, time, who in made._unmet:
        _make_up(made, one, time, who)
    return made


def _give(made: Attempt, talk: Talk) -> None:
    """Give one talk, and look in on its people afterwards."""
    _place(made, talk)
    sessions = made.given.get(talk.key)
    if sessions is None:
        for booking in made.kept.lessons.pop(talk.key, ()):
            _lose(made, talk.key, booking, made.never[talk.key])
        for one in talk.lessons:
            _drop_checks(made, one.key, made.never[talk.key])
        return
    trainer = sessions[-1].trainer
    end = made.setting.presence.day(sessions[-1].day)
    for one in talk.lessons:
        again = one.kind in (LessonKind.AGAIN, LessonKind.CHECK)
        _follow(made, one.person, one.job, end, trainer.id, again=again)


def _place(made: Attempt, talk: Talk) -> None:
    setting = made.setting
    if any(need not in made.given for need in talk.needs):
        made.never[talk.key] = WAITS_FOR_NOBODY
        return
    ends = (made.given[need][-1].end for need in talk.needs)
    ready = max((setting.opens(talk), *ends))
    kept = _still_kept(made, talk, ready)
    wanted = minutes_left(setting, talk, setting.promised.get(talk.key))
    left = wanted - sum(one.minutes for one in kept)
    if kept and not made.pieces.suffice(talk):
        for one in made.kept.lessons.pop(talk.key):
            _lose(made, talk.key, one, NO_PIECES.format(pieces=setting.pieces(talk)))
        kept, left = [], wanted
    if kept and left < GRID:
        made.given[talk.key] = kept
        return
    made.pieces.give_back(talk)
    if kept:
        left = max(left, min(wanted, setting.least_session))
    found = _best(made, talk, left, ready, kept)
    if found is None:
        return
    made.given[talk.key] = sorted((*kept, *found), key=lambda one: one.begin)


def _still_kept(made: Attempt, talk: Talk, ready: int) -> list[Booking]:
    """Promised sessions, but for those that come before what the lesson waits for is over."""
    kept = made.kept.lessons.get(talk.key, [])
    for one in [each for each in kept if each.begin < ready]:
        kept.remove(one)
        _lose(made, talk.key, one, WAITS)
    return kept


def _lose(made: Attempt, key: Key, one: Booking, why: str, *, is_check: bool = False) -> None:
    """Give a promise up; what followed on the station may find no time to change it now."""
    made.kept.lost[key, one.begin, is_check] = why
    if made.books.take_back(one):
        made.broken[key, one.begin, is_check] = why


def _best(
    made: Attempt, talk: Talk, minutes: int, ready: int, kept: Sequence[Booking]
) -> list[Booking] | None:
    """With the trainer who is to give it, or with another one where it would be late."""
    setting, due = made.setting, made.setting.due_day(talk)
    numbers = setting.able(talk)
    if kept:
        numbers = tuple(n for n in numbers if setting.trainers[n].id == kept[0].trainer.id)
    batches = setting.jobs[talk.lessons[0].job.id].batches
    every = [(number, batch) for number in numbers for batch in batches or (-1,)]
    best: tuple[int, int] | None = None
    end = 0
    for one in every:
        found = _with(made, talk, minutes, ready, one)
        if found is None:
            continue
        last = found[-1]
        _undo(made, found)
        if best is None or last.end < end:
            best, end = one, last.end
        if best == one and (due is None or last.day <= due):
            break
    if best is None:
        pieces = setting.pieces(talk)
        short = batches and all(made.pieces.left(one) < pieces for one in batches)
        made.never[talk.key] = NO_PIECES.format(pieces=pieces) if short else NO_ROOM
        return None
    found = _with(made, talk, minutes, ready, best)
    made.pieces.use(talk, best[1])
    return found


def _with(
    made: Attempt, talk: Talk, minutes: int, ready: int, choice: tuple[int, int]
) -> list[Booking] | None:
    setting, (number, batch) = made.setting, choice
    if batch >= 0 and made.pieces.left(batch) < setting.pieces(talk):
        return None

    def fits_day(day: int) -> bool:
        return setting.fits_day(talk, number, day, (batch,))

    edge = setting.jobs[talk.lessons[0].job.id].edge
    wish = setting.wish(talk, number)
    due = setting.due_day(talk)
    ask = Ask(wish, minutes, ready, due, setting.least_session, edge, fits_day)
    return place(made.books, ask, HORIZON_DAYS)


def _undo(made: Attempt, found: Sequence[Booking]) -> None:
    for one in reversed(found):
        made.books.take_back(one)


def _followed(setting: Setting, taught: set[Key]) -> list[tuple[tuple[Person, Job], SignOff]]:
    """Those proved lately, who are not taught again: their checks go on."""
    shop, crew = setting.situation.shop, setting.situation.crew
    return [
        ((person, shop.jobs[one.job]), one)
        for person in crew.people.values()
        for one in person.can_do
        if (person.id, one.job) not in taught and one.job in shop.jobs
        and not setting.jobs[one.job].never
    ]  # fmt: skip


def _follow(
    made: Attempt, person: Person, job: Job, start: date, trainer: str, *, again: bool
) -> None:
    """Put the checks that follow; those of days that are past stay as the rule has them.

    A promised check more than the days to come ask for is one that was put off, and stays.
    """
    setting = made.setting
    key = (person.id, job.id)
    plan = follow_up_of(setting.situation, setting.presence, (person, job), start, again=again)
    past = [one for one in plan.days if not 0 <= setting.day(one.day) < HORIZON_DAYS]
    overdue = [one for one in past if setting.day(one.day) < 0 for _ in one.times]
    rest = [
        (one, time)
        for one in plan.days
        if 0 <= setting.day(one.day) < HORIZON_DAYS
        for time in one.times
    ]
    told = []
    for each in made.kept.checks.pop(key, ()):
        if each.day > setting.day(start):
            told.append(each)
        else:
            _lose(made, key, each, NOT_ALONE_YET, is_check=True)
    days_wanted = [setting.day(one.day) for one, _ in rest]
    looks, over = matched(days_wanted, told)
    put_off, over = over[: len(overdue)], over[len(overdue) :]
    # a day that fell away has no day of its own
    beyond, over = (over[: plan.beyond], over[plan.beyond :]) if rest else ([], over)
    made.told_checks += (*(one for one in looks if one is not None), *put_off, *beyond)
    for each in over:
        _lose(made, key, each, "no longer needed: fewer checks follow", is_check=True)
    found: dict[date, list[tuple[FollowUpDay, Booking | None]]] = {}
    for each in beyond:
        found.setdefault(setting.presence.day(each.day), []).append((rest[-1][0], each))
    who = (person, job, trainer)
    for (one, time), kept in zip(rest, looks, strict=True):
        booked = kept or _look(made, one, time, who)
        if booked is None:
            made._unmet.append((one, time, who))
        day = one.day if booked is None else setting.presence.day(booked.day)
        found.setdefault(day, []).append((one, booked))
    for one, put in zip(reversed(overdue), put_off, strict=False):
        at = next(n for n, each in enumerate(past) if each.day == one.day)
        past[at] = replace(past[at], times=past[at].times[:-1])
        found.setdefault(setting.presence.day(put.day), []).append((one, put))
    days = (
        *past,
        *(_day(made, person, day, entries) for day, entries in sorted(found.items())),
    )
    made.follow_ups[key] = replace(plan, days=tuple(sorted(days, key=lambda one: one.day)))
    entries = (booked for some in found.values() for _, booked in some if booked is not None)
    made.checks[key] = sorted(entries, key=lambda one: one.begin)


def _make_up(
    made: Attempt, wanted: FollowUpDay, time: datetime, who: tuple[Person, Job, str]
) -> None:
    """Put a check that had no room on its own day on one soon after, once all lessons have room."""
    key, setting = (who[0].id, who[1].id), made.setting
    tries = (
        _look(made, wanted, time, who, later, made.checks[key])
        for later in range(1, LATER_CHECK_DAYS + 1)
    )
    booked = next((one for one in tries if one is not None), None)
    if booked is None:
        return
    made.checks[key] = sorted((*made.checks[key], booked), key=lambda one: one.begin)
    days = {one.day: one for one in made.follow_ups[key].days}
    own = days[wanted.day]
    days[wanted.day] = replace(own, unmet=own.unmet - 1)
    day = setting.presence.day(booked.day)
    there = days.get(day) or _made_up(setting, who[0], wanted, day)
    at = (moment(setting.situation.today, booked.begin), booked.trainer.id)
    times = sorted((*zip(there.times, there.by, strict=True), at))
    days[day] = replace(there, times=tuple(t for t, _ in times), by=tuple(b for _, b in times))
    left = (one for one in days.values() if one.times or one.unmet)
    made.follow_ups[key] = replace(
        made.follow_ups[key], days=tuple(sorted(left, key=lambda one: one.day))
    )


def _look(
    made: Attempt,
    wanted: FollowUpDay,
    time: datetime,
    who: tuple[Person, Job, str],
    later: int = 0,
    others: Sequence[Booking | None] = (),
) -> Booking | None:
    """One check near the time of the rule, by whoever has time; or so many days later.

    One that is made up later keeps away from the `others` of its follow-up.
    """
    person, job, trainer = who
    setting, at = made.setting, made.setting.jobs[job.id]
    minutes = whole(setting.situation.shop.manual.teaching.lesson.check_minutes)
    day = setting.day(wanted.day) + later
    minute = int((time - moment(setting.situation.today, 0)).total_seconds() // 60) + later * DAY
    part = part_of_shift(setting.situation.crew.shift(person.shift), len(wanted.times))
    around = Span(minute - part, minute + part)
    for number in _who_looks(setting, person, job, trainer, setting.presence.day(day)):
        wish = Wish(setting.trainers[number], (person,), at.stations, at.set_up)
        booked = place_check(made.books, wish, around, minutes, day, at.edge)
        if booked is None:
            continue
        if all(one is None or abs(one.begin - booked.begin) >= APART for one in others):
            return booked
        made.books.take_back(booked)
    return None


def _day(
    made: Attempt,
    person: Person,
    day: date,
    entries: Sequence[tuple[FollowUpDay, Booking | None]],
) -> FollowUpDay:
    """The checks of one day, as they are booked; one that is made up comes with its own reason."""
    booked = sorted((one for _, one in entries if one is not None), key=lambda one: one.begin)
    today = made.setting.situation.today
    own = next((one for one, _ in entries if one.day == day), None)
    return replace(
        own or _made_up(made.setting, person, entries[0][0], day),
        times=tuple(moment(today, one.begin) for one in booked),
        by=tuple(one.trainer.id for one in booked),
        unmet=len(entries) - len(booked),
    )


def _made_up(setting: Setting, person: Person, one: FollowUpDay, day: date) -> FollowUpDay:
    """A day on which checks are only because their own day had no time for them."""
    if day < one.day:
        return replace(one, day=day)
    between = range(setting.day(one.day) + 1, setting.day(day) + 1)
    worked = sum(1 for each in between if setting.presence.of_person(person, each))
    return FollowUpDay(one.number + worked, day, (), f"{one.why}, made up")


def _who_looks(setting: Setting, person: Person, job: Job, trainer: str, at: date) -> list[int]:
    """First the one who taught or judged, then any other of the shift who may teach the job."""
    may = [
        number
        for number, one in enumerate(setting.trainers)
        if one.shift == person.shift and one.id != person.id
        and (not one.teaches or job.id in one.teaches)
        and setting.teaching.lets(one.id, job.id, at)
    ]  # fmt: skip
    return sorted(may, key=lambda n: setting.trainers[n].id != trainer)


def _drop_checks(made: Attempt, key: Key, why: str) -> None:
    for one in made.kept.checks.pop(key, ()):
        _lose(made, key, one, why, is_check=True)


def _drop_checks_of_nobody(made: Attempt, taught: set[Key]) -> None:
    """Promised checks of somebody who is neither taught nor proved."""
    followed = {(person.id, job.id) for (person, job), _ in _followed(made.setting, taught)}
    for key in [one for one in made.kept.checks if one not in taught and one not in followed]:
        _drop_checks(made, key, "no longer needed: they are not followed up")
