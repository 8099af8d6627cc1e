"""Who may run, set, lock off, teach or judge a job today, as plain data for page, text and JSON."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from benchleaf.html.dates import short_date
from benchleaf.html.lookup import Lookup
from benchleaf.html.values import Link
from benchleaf.plan import (
    NONE_RECORDED,
    Answer,
    Doing,
    Says,
    Situation,
    WhoMay,
    who_may_each,
)

from .people_view import person_address
from .plan_words import reason_words


@dataclass(frozen=True, slots=True)
class Those:
    """People of whom the records say the same, for the same reason."""

    people: tuple[Link, ...]
    """Their codes; a code that no file is about leads nowhere."""
    words: str
    """Why, or until when."""


@dataclass(frozen=True, slots=True)
class DoingRow:
    """One thing that may be done with a job."""

    doing: Doing
    may: tuple[Those, ...]
    not_known: tuple[Those, ...]
    may_not: tuple[Those, ...]


@dataclass(frozen=True, slots=True)
class JobRows:
    """One job."""

    job: Link
    anchor: str
    never: str
    asks: str
    """What it asks for beside the sign-off, or nothing."""
    rows: tuple[DoingRow, ...]
    runners: int
    """How many may run it today."""


@dataclass(frozen=True, slots=True)
class WhoMayView:
    """Everything on the page."""

    day: date
    jobs: tuple[JobRows, ...]


def who_may_view(lookup: Lookup, situation: Situation) -> WhoMayView:
    """The view of every job."""
    known = frozenset(situation.crew.people)
    jobs = tuple(_job(lookup, one, known) for one in who_may_each(situation))
    return WhoMayView(situation.today, jobs)


def _job(lookup: Lookup, one: WhoMay, known: frozenset[str]) -> JobRows:
    return JobRows(
        lookup.link("jobs", one.job.id),
        one.job.id,
        one.never,
        asks_words(one),
        tuple(_row(one, doing, known) for doing in Doing),
        len(one.those(Doing.RUN, Says.MAY)),
    )


def _row(one: WhoMay, doing: Doing, known: frozenset[str]) -> DoingRow:
    return DoingRow(
        doing,
        *(
            tuple(
                Those(tuple(_person(code, known) for code in codes), words)
                for words, codes in _by_row(one, doing, says)
            )
            for says in Says
        ),
    )


def _by_row(one: WhoMay, doing: Doing, says: Says) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Groups as the page has them: most people have no authority at all, and come last."""
    groups = dict(grouped(one.those(doing, says)))
    none = NONE_RECORDED.format(doing=doing.value)
    rest = groups.pop(none, ()) if doing is not Doing.RUN else ()
    yield from groups.items()
    if rest:
        is_all = len(rest) == len(one.answers[doing])
        yield none, ("everybody" if is_all else "everybody else",)


def _person(code: str, known: frozenset[str]) -> Link:
    return Link(person_address(code) if code in known else "", code)


def asks_words(one: WhoMay) -> str:
    """What a job asks for beside the sign-off."""
    asked = (*(("the authority to lock off",) if one.needs_lock else ()), *one.licences)
    return " and ".join(asked)


def grouped(answers: Sequence[Answer]) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Reasons, each with the codes of all whom it is about."""
    found: dict[str, list[str]] = {}
    for one in answers:
        found.setdefault(_words(one), []).append(one.code)
    for words, codes in found.items():
        yield words, tuple(codes)


def _words(one: Answer) -> str:
    until = f"until {short_date(one.last)}" if one.last else ""
    why = reason_words(one.against) or until
    return "; ".join(each for each in (why, "not there today" if one.is_away else "") if each)


def who_may_text(one: WhoMay) -> str:
    """The answers about one job, for the command."""
    return "\n".join(_lines(one))


def _lines(one: WhoMay) -> Iterator[str]:
    job = one.job
    yield f"{job.id.upper()} {job.title}, revision {job.revision}, on {short_date(one.day)}"
    if one.never:
        yield f"nobody runs, sets or teaches it: {one.never}"
    if asks_words(one):
        yield f"whoever runs it needs {asks_words(one)}"
    for doing in Doing:
        yield f"{doing.value}:"
        if not one.those(doing, Says.MAY):
            yield "  may: nobody"
        for says in Says:
            for words, codes in grouped(one.those(doing, says)):
                yield f"  {says.value}: {', '.join(codes)}{f' ({words})' if words else ''}"


def who_may_json(one: WhoMay) -> str:
    """The same with stable keys; days as 2026-12-18."""
    found = {
        "job": one.job.id,
        "revision": one.job.revision,
        "day": one.day.isoformat(),
        "nobody_because": one.never or None,
        "needs_lock_off": one.needs_lock,
        "licences": list(one.licences),
        **{
            doing.value.replace(" ", "_"): [_answer(each) for each in one.answers[doing]]
            for doing in Doing
        },
    }
    return json.dumps(found, indent=2)


def _answer(one: Answer) -> dict[str, Any]:
    return {
        "person": one.code,
        "says": one.says.value,
        "why": [
            {"says": each.words, "day": each.day.isoformat() if each.day else None}
            for each in one.against
        ],
        "until": one.last.isoformat() if one.last else None,
        "not_there_today": one.is_away,
        "proof": list(one.proof),
    }
