"""The question that a solver is asked: which lessons on which days, without the clock.

It asks for less than a plan must hold: checks, changes of stations and the hours within a day are
left out. So no plan is better than the best answer to it, and what it proves holds for every plan.
Shifts share nothing here, and are asked one after another.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Container, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from benchleaf.model import ShiftEdge

from .attempt import Attempt
from .books import Booking, minutes_a_shift
from .clock import GRID, both, without
from .lessons import Key
from .presence import breaks, edge_span, shift_span
from .promises import minutes_left
from .setting import Setting
from .talks import Talk
from .worth import Gap

Place = tuple[object, ...]
"""What has so many minutes a day: a trainer, a learner, a station, the start or end of a shift."""
LOOKED_AHEAD_DAYS = 120
"""No further than this is asked: the rest of a plan stands as the rule has it. A house value."""


@dataclass(frozen=True, slots=True)
class DayWork:
    """A talk that has no promised time, or a rest of one."""

    key: Key
    minutes: int
    least: int
    """The shortest part on a day."""
    days: Mapping[tuple[int, int], int]
    """Most minutes by trainer and day of the plan."""
    kept_day: int
    """The last day on which a part of it is promised; -1 for none."""
    due: int | None
    needs: tuple[Key, ...]
    """What must end before, of those that are asked for."""
    uses: tuple[Place, ...]
    """What it takes up beside the trainer."""
    with_trainer: int
    """Who gives it in the plan."""
    is_asked: bool
    """True where the learner's record names that trainer: for even shares alone it stays so."""

    @property
    def learner(self) -> tuple[str, int]:
        """Lessons for which this is the same stay with one trainer, whoever that is."""
        return self.key[0], self.with_trainer

    def ends(self, last: int) -> list[int]:
        """The days on which it may end, up to one."""
        days = {day for _, day in self.days if self.kept_day <= day <= last}
        return sorted(days | ({self.kept_day} if 0 <= self.kept_day <= last else set()))


@dataclass(frozen=True, slots=True)
class DayGap:
    """Cover that is missed: so many must end, of promised lessons and of those asked for."""

    missing: int
    kept: tuple[int, ...]
    """The days on which promised ones end."""
    keys: tuple[Key, ...]


@dataclass(frozen=True, slots=True)
class DayQuestion:
    """What is asked of one shift."""

    works: Mapping[Key, DayWork]
    room: Mapping[tuple[Place, int], int]
    """Minutes of each place and day."""
    gaps: tuple[DayGap, ...]
    late: tuple[int, ...]
    """Days of lateness of each lesson whose time is promised whole, where it is late."""
    loads: Mapping[int, int]
    """Minutes of promised lessons of each trainer of the shift."""
    hours: Mapping[int, int]
    """Minutes that each of them has a shift."""

    def size(self, last: int) -> int:
        """How many lessons, trainers and days go together, up to a day."""
        return sum(day <= last for work in self.works.values() for _, day in work.days)


def questions(
    setting: Setting,
    made: Attempt,
    cover: Sequence[Gap],
    *,
    spare: bool = False,
    free: Container[Key] | None = None,
) -> Iterator[DayQuestion]:
    """One for each shift, about all lessons that the plan has a place for.

    Only those of `free`, where it is given: all others stay where the plan has them. That, too,
    proves nothing.

    With `spare` the time that checks and changes take in the plan is left free: its answers are
    nearer to plans, and prove nothing.
    """
    kept = _kept_by_day(setting, made, free)
    taken = _checks_by_day(made) if spare else {}
    for shift in dict.fromkeys(one.shift for one in setting.trainers):
        yield _of_shift(setting, made, cover, shift, kept, taken, free)


def _of_shift(
    setting: Setting,
    made: Attempt,
    cover: Sequence[Gap],
    shift: str,
    kept: Mapping[tuple[Place, int], int],
    taken: Mapping[tuple[Place, int], int],
    free: Container[Key] | None,
) -> DayQuestion:
    mine = [
        talk for talk in setting.talks
        if talk.key in made.given and talk.lessons[0].person.shift == shift
    ]  # fmt: skip
    ends: dict[Key, int] = {}
    works: dict[Key, DayWork] = {}
    room: dict[tuple[Place, int], int] = {}
    loads: dict[int, int] = {n: 0 for n, one in enumerate(setting.trainers) if one.shift == shift}
    for talk in mine:
        stays = free is not None and talk.key not in free
        minutes = 0 if stays else _minutes_to_give(setting, made, talk)
        promised = made.given[talk.key] if stays else made.kept.lessons.get(talk.key, ())
        if promised:
            loads[_number(setting, promised[0])] += sum(one.minutes for one in promised)
        if not minutes:
            ends[talk.key] = made.given[talk.key][-1].day
            continue
        works[talk.key] = _work(setting, made, talk, minutes, kept, room)
    for key, one in works.items():
        works[key] = _after(one, ends, works)
    for place, minutes in taken.items():
        if place in room:
            room[place] = max(0, room[place] - minutes)
    late = [
        ends[talk.key] - due for talk in mine
        if talk.key in ends and (due := setting.due_day(talk)) is not None
    ]  # fmt: skip
    hours = {number: minutes_a_shift(setting.trainers[number]) for number in loads}
    found = tuple(one for one in late if one > 0)
    return DayQuestion(works, room, tuple(_gaps(cover, ends, works)), found, loads, hours)


def _after(one: DayWork, ends: Mapping[Key, int], works: Mapping[Key, DayWork]) -> DayWork:
    """No day before the promised end of what it waits for; the rest it waits for is asked for."""
    first = max((ends[need] for need in one.needs if need in ends), default=0)
    days = {place: most for place, most in one.days.items() if place[1] >= first}
    return replace(one, days=days, needs=tuple(need for need in one.needs if need in works))


def _gaps(
    cover: Sequence[Gap], ends: Mapping[Key, int], works: Mapping[Key, DayWork]
) -> Iterator[DayGap]:
    for gap in cover:
        kept = tuple(sorted(ends[key] for key in gap.talks if key in ends))
        keys = tuple(key for key in gap.talks if key in works)
        if len(kept) + len(keys) >= gap.missing:
            yield DayGap(gap.missing, kept, keys)


def _number(setting: Setting, one: Booking) -> int:
    return next(n for n, each in enumerate(setting.trainers) if each is one.trainer)


def _minutes_to_give(setting: Setting, made: Attempt, talk: Talk) -> int:
    """As an attempt reckons it: nothing where promised sessions are all of it."""
    kept = made.kept.lessons.get(talk.key, ())
    wanted = minutes_left(setting, talk, setting.promised.get(talk.key))
    left = wanted - sum(one.minutes for one in kept)
    if not kept:
        return left
    return max(left, min(wanted, setting.least_session)) if left >= GRID else 0


def _work(
    setting: Setting,
    made: Attempt,
    talk: Talk,
    minutes: int,
    kept: Mapping[tuple[Place, int], int],
    room: dict[tuple[Place, int], int],
) -> DayWork:
    job = setting.jobs[talk.lessons[0].job.id]
    promised = made.kept.lessons.get(talk.key, ())
    numbers = setting.able(talk)
    if promised:
        numbers = (_number(setting, promised[0]),)
    shift = talk.lessons[0].person.shift
    people = tuple(one.person for one in talk.lessons)
    uses: list[Place] = [("person", one.id) for one in people]
    uses += [("station", one, shift) for one in job.stations]
    if job.edge is not None:
        uses += [("edge", one, shift, job.edge.value) for one in job.stations]
    days: dict[tuple[int, int], int] = {}
    for number in numbers:
        for day in range(LOOKED_AHEAD_DAYS):
            most = _most(setting, talk, number, day)
            if most:
                days[number, day] = most
                _open(setting, (("trainer", number), *uses), day, kept, room)
    return DayWork(
        talk.key, minutes, min(minutes, setting.least_session), days,
        max((one.day for one in promised), default=-1), setting.due_day(talk), talk.needs,
        tuple(uses), _number(setting, made.given[talk.key][-1]),
        any(setting.asked.get(one.key) == setting.given[one.key] for one in talk.lessons),
    )  # fmt: skip


def _most(setting: Setting, talk: Talk, number: int, day: int) -> int:
    """Minutes in which a trainer and all people are there, for a job that may be taught then."""
    trainer, job = setting.trainers[number], setting.jobs[talk.lessons[0].job.id]
    people = tuple(one.person for one in talk.lessons)
    there = setting.presence.of_all(trainer, people, day)
    if not there or not setting.fits_day(talk, number, day):
        return 0
    within = edge_span(setting.situation.crew.shift(trainer.shift), day, job.edge)
    return min(minutes_a_shift(trainer), sum(one.minutes for one in both(there, (within,))))


def _open(
    setting: Setting,
    places: Sequence[Place],
    day: int,
    kept: Mapping[tuple[Place, int], int],
    room: dict[tuple[Place, int], int],
) -> None:
    for place in places:
        if (place, day) not in room:
            whole = _ROOM[str(place[0])](setting, place, day)
            room[place, day] = max(0, whole - kept.get((place, day), 0))


def _of_trainer(setting: Setting, place: Place, day: int) -> int:
    trainer = setting.trainers[int(str(place[1]))]
    there = sum(one.minutes for one in setting.presence.of_trainer(trainer, day))
    return min(minutes_a_shift(trainer), there)


def _of_person(setting: Setting, place: Place, day: int) -> int:
    person = setting.situation.crew.people[str(place[1])]
    return sum(one.minutes for one in setting.presence.of_person(person, day))


def _of_station(setting: Setting, place: Place, day: int) -> int:
    shift = setting.situation.crew.shift(str(place[2]))
    open_ = tuple(without((shift_span(shift, day),), breaks(shift, day)))
    if place[0] == "station":
        return sum(one.minutes for one in open_)
    within = edge_span(shift, day, ShiftEdge(str(place[3])))
    return sum(one.minutes for one in both(open_, (within,)))


_ROOM: Mapping[str, Callable[[Setting, Place, int], int]] = {
    "trainer": _of_trainer, "person": _of_person, "station": _of_station, "edge": _of_station,
}  # fmt: skip


def _kept_by_day(
    setting: Setting, made: Attempt, free: Container[Key] | None
) -> dict[tuple[Place, int], int]:
    """Minutes that promised sessions and checks take up, and lessons that stay where they are."""
    found: dict[tuple[Place, int], int] = defaultdict(int)
    sessions = (
        made.kept.lessons.get(key, ()) if free is None or key in free else made.given[key]
        for key in made.given
    )  # fmt: skip
    for some in (*sessions, made.told_checks):
        for one in some:
            shift = one.trainer.shift
            places: list[Place] = [("trainer", _number(setting, one))]
            places += [("person", each.id) for each in one.people]
            places += [("station", each, shift) for each in one.stations]
            for place in places:
                found[place, one.day] += one.minutes
    return found


def _checks_by_day(made: Attempt) -> dict[tuple[Place, int], int]:
    """Minutes of each trainer that checks and changes take, promised ones apart."""
    found: dict[tuple[Place, int], int] = defaultdict(int)
    told = {id(one) for one in made.told_checks}
    for some in made.checks.values():
        for one in some:
            minutes = one.change + (0 if id(one) in told else one.minutes)
            found[("trainer", _number(made.setting, one)), one.day] += minutes
    for sessions in made.given.values():
        for one in sessions:
            found[("trainer", _number(made.setting, one)), one.day] += one.change
    return found
