"""Where sessions of a lesson and checks are put: as early as all who must meet are free."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from benchleaf.model import ShiftEdge

from .books import Booking, Books, Room, Wish
from .clock import DAY, GRID, Span, up
from .presence import edge_span

LATER_DAYS = 7
"""So many days of the calendar may a lesson wait to be given in one, where it is in time."""
_CHANGE_AS_FAR = 60
"""A check that needs a change of the station counts as so many minutes off its time."""


@dataclass(frozen=True, slots=True)
class Ask:
    """A lesson that is to be put somewhere."""

    wish: Wish
    minutes: int
    ready: int
    """Not before."""
    due_day: int | None
    """The last day of the plan on which it is in time."""
    least: int
    """The shortest part."""
    edge: ShiftEdge | None
    has_pieces: Callable[[int], bool]
    """Whether pieces to practise on are there on a day."""


def place(books: Books, ask: Ask, days: int) -> list[Booking] | None:
    """Book the lesson, in one where that is soon enough, else in parts; None where it never fits."""
    at_once = next(_whole(books, ask, days), None)
    if at_once is not None and ask.due_day is not None and at_once.day <= ask.due_day:
        return [books.book(ask.wish, at_once.begin, ask.minutes, at_once.day)]
    parts = place_in_parts(books, ask, days if at_once is None else at_once.day + 1)
    if parts is None:
        if at_once is None:
            return None
        return [books.book(ask.wish, at_once.begin, ask.minutes, at_once.day)]
    if at_once is None or parts[-1].end < at_once.begin + ask.minutes - _patience(ask, parts):
        return parts
    for one in reversed(parts):
        books.take_back(one)
    return [books.book(ask.wish, at_once.begin, ask.minutes, at_once.day)]


def _patience(ask: Ask, parts: Sequence[Booking]) -> int:
    """How much later a lesson in one may end than one in parts; a late one waits for nothing."""
    if len(parts) == 1 or ask.due_day is not None:
        return 0
    return LATER_DAYS * DAY


def _rooms(books: Books, ask: Ask, days: int) -> Iterator[Room]:
    """Where anything of the lesson fits, in order of time. What is booked meanwhile counts."""
    shift = books.crew.shift(ask.wish.trainer.shift)
    for day in range(max(0, ask.ready // DAY - 1), days):
        if not ask.has_pieces(day):
            continue
        within = edge_span(shift, day, ask.edge)
        after = max(within.begin, ask.ready)
        while after < within.end:
            room = next(books.rooms(ask.wish, day, Span(after, within.end)), None)
            if room is None:
                break
            yield room
            after = max(room.end, after + GRID)


def _whole(books: Books, ask: Ask, days: int) -> Iterator[Room]:
    return (room for room in _rooms(books, ask, days) if room.minutes >= ask.minutes)


def place_in_parts(books: Books, ask: Ask, days: int) -> list[Booking] | None:
    """The lesson in parts, none shorter than the shop wants; nothing is booked where it fails."""
    left, found = ask.minutes, list[Booking]()
    for room in _rooms(books, ask, days):
        minutes = _part(left, room.minutes, ask.least)
        if minutes:
            found.append(books.book(ask.wish, room.begin, minutes, room.day))
            left -= minutes
        if not left:
            return found
    for one in reversed(found):
        books.take_back(one)
    return None


def _part(left: int, room: int, least: int) -> int:
    """How much of what is left is given in a room; 0 where that is too short."""
    if room >= left:
        return left
    part = min(room, left - least)
    return part if part >= least else 0


def place_check(
    books: Books, wish: Wish, wanted: int, minutes: int, day: int, edge: ShiftEdge | None
) -> Booking | None:
    """Book a check as near to its time as can be, best without changing the station for it."""
    within = edge_span(books.crew.shift(wish.trainer.shift), day, edge)
    best: tuple[int, int, Room] | None = None
    for room in books.rooms(wish, day, within):
        if room.minutes < minutes:
            continue
        begin = min(max(up(wanted), room.begin), (room.end - minutes) // GRID * GRID)
        off = abs(begin - wanted) + (_CHANGE_AS_FAR if room.change else 0)
        if best is None or (off, begin) < best[:2]:
            best = (off, begin, room)
    if best is None:
        return None
    _, begin, _ = best
    return books.book(wish, begin, minutes, day)
