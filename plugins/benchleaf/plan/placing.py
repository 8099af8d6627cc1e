"""Where sessions of a lesson and checks are put: as early as all who must meet are free."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from benchleaf.model import Shift, ShiftEdge

from .books import Booking, Books, Room, Wish, minutes_a_shift
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
    fits_day: Callable[[int], bool]
    """Whether on a day there are pieces to practise on, and the trainer may still teach it."""


def place(books: Books, ask: Ask, days: int) -> list[Booking] | None:
    """Book the lesson, in one where that is soon enough, else in parts; None where none fits."""
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


def _days(books: Books, ask: Ask, days: int) -> Iterator[tuple[int, Span]]:
    """The days on which something may be put, each with the part of the shift for it."""
    shift = books.crew.shift(ask.wish.trainer.shift)
    for day in range(max(0, ask.ready // DAY - 1), days):
        if books.presence.of_all(ask.wish.trainer, ask.wish.people, day) and ask.fits_day(day):
            within = edge_span(shift, day, ask.edge)
            if within.end > ask.ready:
                yield day, Span(max(within.begin, ask.ready), within.end)


def _whole(books: Books, ask: Ask, days: int) -> Iterator[Room]:
    if ask.minutes > minutes_a_shift(ask.wish.trainer):
        return
    for day, within in _days(books, ask, days):
        if books.left(ask.wish.trainer, day) >= ask.minutes:
            rooms = books.rooms(ask.wish, day, within)
            yield from (room for room in rooms if room.minutes >= ask.minutes)


def place_in_parts(books: Books, ask: Ask, days: int) -> list[Booking] | None:
    """The lesson in parts, none shorter than the shop wants; nothing is booked where it fails."""
    left, found = ask.minutes, list[Booking]()
    most = minutes_a_shift(ask.wish.trainer)
    if left > most and not _divides(left, ask.least, most):
        return None
    for day, within in _days(books, ask, days):
        after = within.begin
        while books.left(ask.wish.trainer, day) >= min(ask.least, left):
            room = next(books.rooms(ask.wish, day, Span(after, within.end)), None)
            if room is None:
                break
            minutes = _part(left, room.minutes, ask.least, most)
            if minutes:
                found.append(books.book(ask.wish, room.begin, minutes, room.day))
                left -= minutes
            if not left:
                return found
            after = max(room.end, after + GRID)
    for one in reversed(found):
        books.take_back(one)
    return None


def _part(left: int, room: int, least: int, most: int) -> int:
    """How much of what is left is given in a room, so that the rest still divides; else 0."""
    if room >= left:
        return left
    parts = range(room // GRID * GRID, least - 1, -GRID)
    return next((one for one in parts if _divides(left - one, least, most)), 0)


def _divides(minutes: int, least: int, most: int) -> bool:
    """True where so many minutes are one part or several, each of at least and at most so many.

    >>> _divides(65, 20, 30), _divides(65, 45, 45), _divides(15, 20, 30)
    (True, False, False)
    """
    return minutes // least >= -(-minutes // most)


def part_of_shift(shift: Shift, checks: int) -> int:
    """How far from its time a check may be, so that several are spread over the shift."""
    return round(shift.hours.value / 60) // max(1, 2 * checks)


def place_check(
    books: Books, wish: Wish, around: Span, minutes: int, day: int, edge: ShiftEdge | None
) -> Booking | None:
    """Book a check as near to its time as can be, best without changing the station for it.

    It stays in its own part of the shift, unless the job is done at one end of it.
    """
    wanted = (around.begin + around.end) // 2
    within = edge_span(books.crew.shift(wish.trainer.shift), day, edge)
    if edge is None:
        within = Span(max(within.begin, around.begin), min(within.end, around.end))
    best: tuple[int, int] | None = None
    for room in books.rooms(wish, day, within):
        if room.minutes < minutes:
            continue
        begin = min(max(up(wanted), room.begin), (room.end - minutes) // GRID * GRID)
        off = abs(begin - wanted) + (_CHANGE_AS_FAR if room.change else 0)
        best = min(best or (off, begin), (off, begin))
    return None if best is None else books.book(wish, best[1], minutes, day)
