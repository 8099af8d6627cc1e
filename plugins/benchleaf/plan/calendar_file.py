"""A follow-up plan as an iCalendar file (RFC 5545), for any calendar program.

Times float: they have no zone, and mean the clock of the shop (RFC 5545, 3.3.5, form 1). Lines
end in CR LF and are folded at 75 octets (3.1); texts escape backslash, semicolon, comma and line
break (3.3.11).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

MOST_OCTETS = 75


@dataclass(frozen=True, slots=True)
class Event:
    """Something to do at a time."""

    uid: str
    """A name that stays the same when the plan is made again."""
    begin: datetime
    minutes: int
    summary: str
    description: str = ""


def calendar_text(name: str, stamp: datetime, events: Iterable[Event]) -> str:
    """The whole file; `stamp` is when it was made, in UTC."""
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Benchleaf//Follow-up plan//EN",
        "CALSCALE:GREGORIAN",
        f"NAME:{escaped(name)}",
        *(line for one in events for line in _event(one, stamp)),
        "END:VCALENDAR",
    ]
    return "".join(f"{folded}\r\n" for line in lines for folded in _folded(line))


def _event(one: Event, stamp: datetime) -> Iterator[str]:
    end = one.begin + timedelta(minutes=one.minutes)
    yield "BEGIN:VEVENT"
    yield f"UID:{one.uid}"
    yield f"DTSTAMP:{stamp:%Y%m%dT%H%M%S}Z"
    yield f"DTSTART:{one.begin:%Y%m%dT%H%M%S}"
    yield f"DTEND:{end:%Y%m%dT%H%M%S}"
    yield f"SUMMARY:{escaped(one.summary)}"
    if one.description:
        yield f"DESCRIPTION:{escaped(one.description)}"
    yield "END:VEVENT"


def escaped(text: str) -> str:
    r"""A text value of RFC 5545.

    >>> escaped("Watch; ask, listen")
    'Watch\\; ask\\, listen'
    """
    for sign in ("\\", ";", ","):
        text = text.replace(sign, f"\\{sign}")
    return text.replace("\r\n", "\n").replace("\n", "\\n")


def _folded(line: str) -> Iterator[str]:
    """Pieces of at most 75 octets, never cut inside a character; all but the first indented."""
    room, part = MOST_OCTETS, ""
    for sign in line:
        if len(f"{part}{sign}".encode()) > room:
            yield part
            part = " "
        part += sign
    yield part
