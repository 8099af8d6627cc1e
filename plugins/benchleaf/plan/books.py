"""What is booked of trainers, learners and stations: nobody and nothing in two places.

A station stands in the set-up of what was last booked there. Where another one is wanted, the
trainer changes it first, and that time is booked of trainer and station with the session. Who puts
something between two bookings may so cause a change before the later one: it must find room too. A
station on which nothing was booked for hours has been at other work, and is set before: no change
is counted.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from benchleaf.model import Crew, Person, Trainer

from .clock import GRID, Span, both, up, without
from .presence import Presence

OTHER_WORK_MINUTES = 240
"""After so long without a session, others have set the station. A house value."""


@dataclass(slots=True, eq=False)
class Booking:
    """A time of a trainer, some people and some stations."""

    begin: int
    end: int
    day: int
    """The day of the trainer's shift."""
    trainer: Trainer
    people: tuple[Person, ...]
    stations: tuple[str, ...]
    set_up: str | None
    """What the station must be set for; None where it does not matter."""
    change: int = 0
    """Minutes before it in which the station is changed."""

    @property
    def span(self) -> Span:
        """With the change before it."""
        return Span(self.begin - self.change, self.end)

    @property
    def minutes(self) -> int:
        """Without the change."""
        return self.end - self.begin


@dataclass(frozen=True, slots=True)
class Wish:
    """Who and what must meet."""

    trainer: Trainer
    people: tuple[Person, ...]
    stations: tuple[str, ...]
    set_up: str | None

    @property
    def names(self) -> tuple[str, ...]:
        """All that is booked, each once."""
        return _names(self)


@dataclass(frozen=True, slots=True)
class Room:
    """Where something may be put: from the earliest begin, after a change, to the end."""

    begin: int
    end: int
    change: int
    day: int

    @property
    def minutes(self) -> int:
        """How long a session fits, without the change."""
        return self.end - self.begin


@dataclass(slots=True)
class Books:
    """Everything that is booked."""

    crew: Crew
    presence: Presence
    change_minutes: int
    _busy: dict[str, list[Span]] = field(default_factory=dict)
    """By person, trainer or station."""
    _set: dict[str, list[tuple[int, int, Booking]]] = field(default_factory=dict)
    """What sets each station up, in order."""
    _spent: dict[tuple[str, str, int], int] = field(default_factory=dict)
    """Minutes of each trainer's time, by shift and day."""
    _count: int = 0

    def left(self, trainer: Trainer, day: int) -> int:
        """Minutes that a trainer still has for training that day."""
        return minutes_a_shift(trainer) - self._spent.get((trainer.id, trainer.shift, day), 0)

    def rooms(self, wish: Wish, day: int, within: Span) -> Iterator[Room]:
        """Every stretch of a day in which all of them are free, with the trainer's time in mind."""
        left = self.left(wish.trainer, day)
        there = self.presence.of_all(wish.trainer, wish.people, day)
        if left < GRID or not there:
            return
        free: Sequence[Span] = tuple(both(there, (within,)))
        for name in wish.names:
            taken = self._taken(name, within)
            if taken and free:
                free = tuple(without(free, taken))
        for span in free:
            yield from self._room(wish, day, span, left)

    def _room(self, wish: Wish, day: int, span: Span, left: int) -> Iterator[Room]:
        change = self.change_before(wish, span.begin)
        begin = up(span.begin + change)
        end = span.end
        for after in self._next_of_others(wish, span.begin):
            if not after.change and after.begin - span.end < OTHER_WORK_MINUTES:
                more = self.change_minutes
                before = Span(after.begin - more, after.begin)
                same_day = (after.trainer.id, after.day) == (wish.trainer.id, day)
                if not self._trainer_can(after, before) or (same_day and left < more + GRID):
                    return
                left -= more if same_day else 0
                end = min(end, before.begin)
        end = min(end, begin + (left - change) // GRID * GRID)
        if end - begin >= GRID:
            yield Room(begin, end, change, day)

    def change_before(self, wish: Wish, at: int) -> int:
        """Minutes of change that somebody needs who begins then."""
        if wish.set_up is None:
            return 0
        former = (self._before(station, at) for station in wish.stations)
        is_other = any(
            one is not None and one.set_up != wish.set_up and at - one.end < OTHER_WORK_MINUTES
            for one in former
        )
        return self.change_minutes if is_other else 0

    def book(self, wish: Wish, begin: int, minutes: int, day: int) -> Booking:
        """Book a session in a room that was found."""
        change = self.change_before(wish, begin)
        new = Booking(
            begin, begin + minutes, day, wish.trainer, wish.people, wish.stations, wish.set_up,
            change,
        )  # fmt: skip
        followers = self._followers(new)
        self._write(new)
        for one in followers:
            self._change(one)
        return new

    def take_back(self, one: Booking) -> tuple[Booking, ...]:
        """Take a booking out again; those after it that find no time now for a change they need."""
        followers = self._followers(one)
        for name in _names(one):
            self._busy[name].remove(self._span_of(name, one))
        if one.set_up is not None:
            for station in one.stations:
                entries = self._set[station]
                del entries[next(n for n, each in enumerate(entries) if each[2] is one)]
        self._spent[_purse(one)] -= one.end - one.span.begin
        broken = tuple(each for each in followers if not self._may_change(each))
        for each in followers:
            self._change(each)
        return broken

    def _may_change(self, one: Booking) -> bool:
        more = self.change_before(_wish(one), one.begin) - one.change
        return more <= 0 or self._trainer_can(one, Span(one.begin - more, one.begin))

    def is_free(self, wish: Wish, begin: int, minutes: int, day: int) -> bool:
        """True where just that session may be booked."""
        whole = Span(begin - self.change_before(wish, begin), begin + minutes)
        return any(
            room.begin <= begin and room.end >= begin + minutes
            for room in self.rooms(wish, day, whole)
        )

    def _write(self, one: Booking) -> None:
        self._count += 1
        for name in _names(one):
            insort(self._busy.setdefault(name, []), self._span_of(name, one))
        if one.set_up is not None:
            for station in one.stations:
                insort(self._set.setdefault(station, []), (one.begin, self._count, one))
        purse = _purse(one)
        self._spent[purse] = self._spent.get(purse, 0) + one.end - one.span.begin

    def _change(self, one: Booking) -> None:
        """Give a booking the change that it needs now, no more and no less."""
        change = self.change_before(_wish(one), one.begin)
        if change == one.change:
            return
        names = (_trainer(one.trainer), *map(_station, one.stations))
        for name in names:
            self._busy[name].remove(one.span)
        self._spent[_purse(one)] += change - one.change
        one.change = change
        for name in names:
            insort(self._busy[name], one.span)

    @staticmethod
    def _span_of(name: str, one: Booking) -> Span:
        is_learner = name in map(_person, one.people) and name != _trainer(one.trainer)
        return Span(one.begin, one.end) if is_learner else one.span

    def _taken(self, name: str, within: Span) -> Sequence[Span]:
        spans = self._busy.get(name)
        if not spans:
            return ()
        first = bisect_left(spans, (within.begin,))
        last = bisect_left(spans, (within.end,))
        return spans[max(0, first - 1) : last]

    def _before(self, station: str, at: int) -> Booking | None:
        entries = self._set.get(station, ())
        place = bisect_left(entries, (at,))
        return entries[place - 1][2] if place else None

    def _next(self, station: str, at: int) -> Booking | None:
        entries = self._set.get(station, ())
        place = bisect_left(entries, (at,))
        return entries[place][2] if place < len(entries) else None

    def _next_of_others(self, wish: Wish, at: int) -> Iterator[Booking]:
        """What follows on a station in another set-up."""
        if wish.set_up is not None:
            found = {
                id(one): one for one in (self._next(each, at) for each in wish.stations) if one
            }
            yield from (one for one in found.values() if one.set_up != wish.set_up)

    def _followers(self, one: Booking) -> tuple[Booking, ...]:
        """What is next on its stations, and may need another change once it is there or gone."""
        if one.set_up is None:
            return ()
        found = (self._next(station, one.begin + 1) for station in one.stations)
        return tuple({id(each): each for each in found if each is not None}.values())

    def _trainer_can(self, after: Booking, change: Span) -> bool:
        """True where that trainer and the stations are free for a change before their session."""
        if self.left(after.trainer, after.day) < change.minutes:
            return False
        there = self.presence.of_trainer(after.trainer, after.day)
        if not any(one.begin <= change.begin and one.end >= change.end for one in there):
            return False
        names = (_trainer(after.trainer), *map(_station, after.stations))
        return not any(
            one.begin < change.end and one.end > change.begin
            for name in names
            for one in self._taken(name, change)
        )


def minutes_a_shift(trainer: Trainer) -> int:
    """A trainer's time for training, in whole five minutes."""
    return int(trainer.hours.value / 60 + 1e-6) // GRID * GRID


def _wish(one: Booking) -> Wish:
    return Wish(one.trainer, one.people, one.stations, one.set_up)


def _person(one: Person) -> str:
    return f"person {one.id}"


def _trainer(one: Trainer) -> str:
    """A trainer may be of the crew too: one body."""
    return f"person {one.id}"


def _station(name: str) -> str:
    return f"station {name}"


def _names(one: Wish | Booking) -> tuple[str, ...]:
    people = map(_person, one.people)
    return tuple(dict.fromkeys((_trainer(one.trainer), *people, *map(_station, one.stations))))


def _purse(one: Booking) -> tuple[str, str, int]:
    return one.trainer.id, one.trainer.shift, one.day
