"""The time chart of the timetable: each lesson a bar in its trainer's days, its due day a mark.

Bars differ by filling, not by colour: solid for what is new, hatched for what is taught or
checked again. A lesson that ends late says so in words.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from markupsafe import Markup

from benchleaf.html.dates import day_month
from benchleaf.plan import LessonKind, Planned, Timetable

from .drawing import WIDTH, Drawing, text_width

_LETTER = 22.0
_LEFT, _RIGHT, _TOP = 236.0, WIDTH - 16.0, 84.0
_ROW, _BAR, _FOOT = 40.0, 22.0, 112.0
_DAYS_AFTER = 5
_MOST_DAYS = 42
"""Days of the calendar that fit legibly side by side."""


@dataclass(frozen=True, slots=True)
class _Scale:
    """Days of the calendar to units of the drawing."""

    first: date
    days: int

    def x(self, day: date, share: float = 0.0) -> float:
        """Where a day begins, or a share of it."""
        ahead = min(max((day - self.first).days + share, 0.0), float(self.days))
        return _LEFT + ahead / self.days * (_RIGHT - _LEFT)


def time_figure(plan: Timetable) -> Markup | None:
    """The chart, or None where no lesson is planned."""
    planned = tuple(one for one in plan.schedule.planned if one.leads)
    if not planned:
        return None
    scale = _scale(plan, planned)
    groups = [
        (trainer.id, [one for one in planned if one.trainer is trainer])
        for trainer in plan.situation.crew.facts.trainers
    ]
    rows = sum(len(found) + 1 for _, found in groups if found)
    height = _TOP + rows * _ROW + _FOOT
    drawing = Drawing("timetable", "When each lesson is given", _said(planned), height)
    _axis(drawing, scale, height - _FOOT)
    y = _TOP
    for code, found in groups:
        if found:
            drawing.text(8, y + 28, f"Trainer {code}", size=_LETTER, bold=True)
            y += _ROW
            for one, shares in zip(found, _shares(found), strict=True):
                _row(drawing, scale, one, shares, y)
                y += _ROW
    _legend(drawing, height)
    if any(one.together for one in planned):
        drawing.text(430, height - 69, "+2: for two more people", size=_LETTER)
    return drawing.svg()


def _scale(plan: Timetable, planned: Sequence[Planned]) -> _Scale:
    """From today to some days past the last lesson; later due days are arrows at the edge."""
    first = plan.situation.today
    days = (max(one.last for one in planned) - first).days + _DAYS_AFTER
    return _Scale(first, max(10, min(days, _MOST_DAYS)))


def _said(planned: Sequence[Planned]) -> str:
    parts = (
        f"{', '.join(one.people)} {one.lesson.job.id.upper()} from {day_month(one.first)} to "
        f"{day_month(one.last)}"
        for one in planned
    )
    return f"{'; '.join(parts)}."


def _axis(drawing: Drawing, scale: _Scale, floor: float) -> None:
    """A line before each Monday, and its date; weekends stay empty."""
    drawing.line(_LEFT, _TOP - 6, _RIGHT, _TOP - 6, width=3)
    taken = 0.0
    for ahead in range(scale.days + 1):
        day = scale.first + timedelta(days=ahead)
        if day.weekday() == 0 or ahead == 0:
            x = scale.x(day)
            drawing.line(x, _TOP - 14, x, floor, dash="3 7")
            wide = text_width(day_month(day), _LETTER)
            if taken <= x <= WIDTH - wide:  # else it would be moved over the one before
                drawing.text(x, _TOP - 24, day_month(day), size=_LETTER)
                taken = x + wide + 24


def _shares(found: Sequence[Planned]) -> Iterator[list[tuple[date, float, float]]]:
    """For each lesson its sessions as day, and from which to which share of the trainer's time."""
    used: dict[date, float] = {}
    for one in found:
        minutes = one.trainer.hours.value / 60
        sessions = []
        for session in one.sessions:
            begin = used.get(session.day, 0.0)
            used[session.day] = begin + session.minutes / minutes
            sessions.append((session.day, begin, used[session.day]))
        yield sessions


def _row(
    drawing: Drawing,
    scale: _Scale,
    one: Planned,
    shares: Sequence[tuple[date, float, float]],
    y: float,
) -> None:
    more = f" +{len(one.together) - 1}" if one.together else ""
    label = f"{one.lesson.person.id}{more}  {one.lesson.job.id.upper()}"
    drawing.text(20, y + 27, label, size=_LETTER)
    drawing.line(8, y + _ROW, _RIGHT, y + _ROW, width=0.6)
    again = one.lesson.kind in (LessonKind.AGAIN, LessonKind.CHECK)
    for day, begin, end in shares:
        left, right = scale.x(day, begin), scale.x(day, end)
        drawing.box(left, y + 9, max(right - left, 3), _BAR, line=2,
                    fill="hatch" if again else "solid")  # fmt: skip
    ends = scale.x(one.last, 1.0)
    if one.lesson.due is not None:
        _due(drawing, scale, one.lesson.due, y)
    if one.late_days:
        words = f"{one.late_days} d late"
        after = max(ends, scale.x(one.lesson.due or one.last, 1.0)) + 10
        fits = after + text_width(words, _LETTER) < WIDTH
        x = after if fits else min(scale.x(one.first), ends) - 14
        drawing.text(x, y + 27, words, size=_LETTER, bold=True, anchor="start" if fits else "end")


def _due(drawing: Drawing, scale: _Scale, due: date, y: float) -> None:
    """A diamond at the end of the due day; an arrow where it lies beyond the chart."""
    x, middle = scale.x(due, 1.0), y + 9 + _BAR / 2
    if (due - scale.first).days >= scale.days:
        drawing.path(((_RIGHT - 10, middle - 9), (_RIGHT, middle), (_RIGHT - 10, middle + 9)),
                     width=3)  # fmt: skip
        return
    _diamond(drawing, x, middle)


def _legend(drawing: Drawing, height: float) -> None:
    y = height - 88
    drawing.box(8, y, 34, _BAR, line=2, fill="solid")
    drawing.text(50, y + 19, "new", size=_LETTER)
    drawing.box(128, y, 34, _BAR, line=2, fill="hatch")
    drawing.text(170, y + 19, "taught or checked again", size=_LETTER)
    _diamond(drawing, 22, y + 42)
    drawing.text(50, y + 50, "last day asked for; an arrow: later than shown", size=_LETTER)
    words = "Width of a bar: share of the trainer's time that day"
    drawing.text(8, height - 8, words, size=_LETTER)


def _diamond(drawing: Drawing, x: float, middle: float) -> None:
    corners = ((x, middle - 12), (x + 9, middle), (x, middle + 12), (x - 9, middle))
    drawing.path(corners, width=3, closed=True)
