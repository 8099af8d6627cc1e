"""The calendar file: read back by a library that had no part in writing it (RFC 5545)."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import icalendar
from hypothesis import given, settings
from hypothesis import strategies as st

from benchleaf.plan import Event, calendar_text
from running import examples

STAMP = datetime(2026, 4, 6, 12, 30, tzinfo=UTC)
texts = st.text(
    st.characters(exclude_categories=("Cs", "Cc")) | st.sampled_from(';,\\:"\n é∅'), max_size=120
)


def read_back(text: str) -> list[icalendar.Event]:
    calendar = icalendar.Calendar.from_ical(text)
    assert calendar.errors == []
    assert calendar["VERSION"] == "2.0"
    assert calendar["PRODID"]
    events = list(calendar.walk("VEVENT"))
    assert all(one.errors == [] for one in events)
    return [one for one in events if isinstance(one, icalendar.Event)]


@settings(max_examples=examples(80))
@given(st.lists(st.tuples(texts, texts, st.datetimes(datetime(2020, 1, 1), datetime(2040, 1, 1)),
                          st.integers(1, 300)), max_size=4))  # fmt: skip
def test_whatever_is_written_is_read_back(given_: list[tuple[str, str, datetime, int]]) -> None:
    events = [
        Event(f"{n}@shop", begin.replace(microsecond=0), minutes, summary, more)
        for n, (summary, more, begin, minutes) in enumerate(given_)
    ]
    text = calendar_text("Follow-up", STAMP, events)
    found = read_back(text)
    assert len(found) == len(events)
    for one, wrote in zip(found, events, strict=True):
        assert str(one["UID"]) == wrote.uid
        assert str(one["SUMMARY"]) == wrote.summary
        assert str(one.get("DESCRIPTION", "")) == wrote.description
        assert one.decoded("DTSTART") == wrote.begin
        assert one.decoded("DTEND") - wrote.begin == timedelta(minutes=wrote.minutes)
        assert one.decoded("DTSTAMP") == STAMP


@settings(max_examples=examples(60))
@given(texts, texts)
def test_every_line_is_as_the_standard_wants_it(summary: str, more: str) -> None:
    """RFC 5545, 3.1: CR LF after each line, 75 octets at most, and no character cut."""
    event = Event("1@shop", datetime(2026, 4, 7, 7), 15, summary, more)
    data = calendar_text("Plan", STAMP, [event]).encode()
    assert data.endswith(b"\r\n")
    lines = data[:-2].split(b"\r\n")
    assert all(len(line) <= 75 and b"\n" not in line and b"\r" not in line for line in lines)
    assert [line.decode() for line in lines]
    whole = data.decode().replace("\r\n ", "").split("\r\n")
    assert whole[0] == "BEGIN:VCALENDAR"
    assert {line.partition(":")[0] for line in whole if line} >= {"UID", "DTSTAMP", "DTSTART"}


def test_a_required_property_left_out_would_be_noticed() -> None:
    """The reader is strict enough to be a check."""
    text = calendar_text("Plan", STAMP, [Event("1@s", datetime(2026, 4, 7, 7), 15, "Look")])
    broken = text.replace("DTSTART:20260407T070000", "DTSTART:2026-04-07")
    events = icalendar.Calendar.from_ical(broken).walk("VEVENT")
    assert any(one.errors for one in events)
