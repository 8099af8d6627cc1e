"""Days and times in words, in few letters for tables and drawings."""

from __future__ import annotations

from datetime import date

from benchleaf.model.day_words import MONTHS
from benchleaf.model.day_words import long_date as long_date

_DAYS = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"]


def short_date(day: date) -> str:
    """A day in few letters.

    >>> short_date(date(2026, 12, 18))
    '18 Dec 2026'
    """
    return f"{day_month(day)} {day.year}"


def day_month(day: date) -> str:
    """A day in still fewer.

    >>> day_month(date(2026, 12, 18))
    '18 Dec'
    """
    return f"{day.day} {MONTHS[day.month - 1][:3]}"


def week_date(day: date) -> str:
    """A day with its name, for plans of the next weeks.

    >>> week_date(date(2026, 12, 18))
    'Fri 18 Dec'
    """
    return f"{_DAYS[day.weekday()]} {day_month(day)}"


def hours(minutes: float) -> str:
    """Minutes as hours and minutes.

    >>> hours(145)
    '2 h 25 min'
    """
    whole = round(minutes)
    parts = (f"{whole // 60} h" if whole >= 60 else "", f"{whole % 60} min" if whole % 60 else "")
    return " ".join(part for part in parts if part) or "0 min"
