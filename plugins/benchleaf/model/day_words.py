"""A day in words that nobody can read two ways."""

from __future__ import annotations

from datetime import date

MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip


def long_date(day: date) -> str:
    """A date that nobody can read two ways, whatever the computer's language.

    >>> long_date(date(2026, 12, 18))
    '18 December 2026'
    """
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"
