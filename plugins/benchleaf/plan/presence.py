"""Who is there when: shifts, breaks, closed days, absences, first and last days."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date, time, timedelta

from benchleaf.model import Absence, Crew, Person, Shift, ShiftEdge, Trainer

from .clock import DAY, GRID, Span, both, minute_of, up, without
from .days import HORIZON_DAYS, works_on

PAST_DAYS = 150
"""So far back a follow-up may have begun that still goes on."""
EDGE_MINUTES = 120
"""How much of a shift counts as its start or its end. A house value."""


@dataclass(slots=True)
class Presence:
    """When each person is there, day by day, on the clock of a plan that begins at `today`."""

    crew: Crew
    today: date
    _known: dict[tuple[str, str, int], tuple[Span, ...]] = field(default_factory=dict)
    _away: dict[str, frozenset[date]] = field(default_factory=dict)

    def day(self, number: int) -> date:
        """The date of a day of the plan; 0 is the first."""
        return self.today + timedelta(days=number)

    def of_all(self, trainer: Trainer, people: tuple[Person, ...], day: int) -> tuple[Span, ...]:
        """When a trainer and some people are all there."""
        key = (f"{trainer.id} {trainer.shift}", " ".join(one.id for one in people), day)
        if key not in self._known:
            found = self.of_trainer(trainer, day)
            for person in people:
                found = tuple(both(found, self.of_person(person, day))) if found else ()
            self._known[key] = found
        return self._known[key]

    def of_person(self, person: Person, day: int) -> tuple[Span, ...]:
        """When somebody of the crew is at work in the shift that begins that day."""
        return self._of(person, person.shift, day)

    def of_trainer(self, trainer: Trainer, day: int) -> tuple[Span, ...]:
        """When a trainer is there; who is in the crew's files too has both files' absences."""
        found = self._of(trainer, trainer.shift, day)
        same = self.crew.people.get(trainer.id)
        return found if same is None else tuple(both(found, self.of_person(same, day)))

    def _of(self, who: Person | Trainer, shift_id: str, day: int) -> tuple[Span, ...]:
        key = (who.id, shift_id, day)
        if key not in self._known:
            self._known[key] = tuple(self._reckoned(who, self.crew.shift(shift_id), day))
        return self._known[key]

    def _reckoned(self, who: Person | Trainer, shift: Shift, day: int) -> Iterator[Span]:
        at = self.day(day)
        if not works_on(shift, self.crew.facts.closed, at):
            return
        if (who.first_day and at < who.first_day) or (who.last_day and at > who.last_day):
            return
        there = without((shift_span(shift, day),), breaks(shift, day))
        for span in without(there, _away(who.absent, at, shift, day)):
            inside = Span(up(span.begin), span.end // GRID * GRID)
            if inside.minutes > 0:
                yield inside

    def away(self, person: Person) -> frozenset[date]:
        """Days on which their shift works and they do not, before and after the plan begins."""
        if person.id not in self._away:
            shift = self.crew.shift(person.shift)
            self._away[person.id] = frozenset(
                self.day(day)
                for day in range(-PAST_DAYS, HORIZON_DAYS)
                if works_on(shift, self.crew.facts.closed, self.day(day))
                and not self.of_person(person, day)
            )
        return self._away[person.id]

    def days_of(self, person: Person) -> Iterator[int]:
        """The days on which somebody is there at all."""
        return (day for day in range(HORIZON_DAYS) if self.of_person(person, day))


def shift_span(shift: Shift, day: int) -> Span:
    """From start to end of the shift that begins that day."""
    begin = day * DAY + minute_of(shift.starts)
    return Span(begin, begin + round(shift.hours.value / 60))


def edge_span(shift: Shift, day: int, edge: ShiftEdge | None) -> Span:
    """The part of the shift in which a job is done."""
    whole = shift_span(shift, day)
    if edge is ShiftEdge.START:
        return Span(whole.begin, min(whole.end, whole.begin + EDGE_MINUTES))
    if edge is ShiftEdge.END:
        return Span(max(whole.begin, whole.end - EDGE_MINUTES), whole.end)
    return whole


def breaks(shift: Shift, day: int) -> tuple[Span, ...]:
    """The breaks in their order; where no time is given, all of them in the middle."""
    whole = shift_span(shift, day)
    if shift.breaks_at:
        found = (_at(one.starts, whole, round(one.lasts.value / 60)) for one in shift.breaks_at)
        return _in_order(found)
    if shift.breaks is None:
        return ()
    minutes = round(shift.breaks.value / 60)
    begin = whole.begin + (whole.minutes - minutes) // (2 * GRID) * GRID
    return (Span(begin, begin + minutes),)


def _at(clock: time, whole: Span, minutes: int) -> Span:
    """A time of the clock in a shift, which may go past midnight."""
    begin = whole.begin // DAY * DAY + minute_of(clock)
    if begin < whole.begin:
        begin += DAY
    return Span(begin, begin + minutes)


def _away(absences: Sequence[Absence], at: date, shift: Shift, day: int) -> tuple[Span, ...]:
    whole = shift_span(shift, day)
    found = (
        each
        for one in absences
        if one.first <= at <= (one.last or one.first)
        for each in _hours_away(one, whole)
    )
    return _in_order(found)


def _hours_away(absence: Absence, whole: Span) -> Iterator[Span]:
    """The hours of an absence; those after midnight count for a shift that goes past it."""
    midnight = whole.begin // DAY * DAY
    begin = None if absence.starts is None else midnight + minute_of(absence.starts)
    end = None if absence.ends is None else midnight + minute_of(absence.ends)
    if begin is not None and end is not None:
        end += DAY if end <= begin else 0
        yield from (Span(begin + later, end + later) for later in (-DAY, 0, DAY))
    elif begin is not None:
        later = DAY if begin < whole.begin else 0
        outside = later and begin + later >= whole.end
        yield Span(whole.begin if outside else begin + later, whole.end)
    elif end is not None:
        later = DAY if end <= whole.begin else 0
        if not (later and end + later > whole.end):
            yield Span(whole.begin, end + later)
    else:
        yield whole


def _in_order(spans: Iterable[Span]) -> tuple[Span, ...]:
    return tuple(sorted(span for span in spans if span.minutes > 0))
