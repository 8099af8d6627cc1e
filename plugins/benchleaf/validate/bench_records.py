"""Records made at the bench: read, and held against what each kind must and may say."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from benchleaf.diagnose import Finding, Severity, nearest
from benchleaf.model import (
    Absence,
    BenchKind,
    BenchRecord,
    Crew,
    Gauged,
    Person,
    Result,
    Shop,
    Trainer,
)
from benchleaf.read import Document, Source

from .building import build
from .folded_records import Booked
from .standing_records import standing

TAKEN_IN, TO_TAKE_IN = "records", "to take in"
"""Kinds of document: a record that lies in the crew folder, and one that is held at the door."""

_OF_JOB = ("job", "revision", "fingerprint")
_SESSION = (
    "begun",
    "ended",
    "language",
    "steps",
    "pieces",
    "made_before",
    "faults",
    "checks",
    "paper",
)
_NEEDS: dict[BenchKind, tuple[str, ...]] = {
    BenchKind.LESSON: (*_OF_JOB, "begun", "ended", "steps"),
    BenchKind.TRY_OUT: (*_OF_JOB, "begun", "ended", "steps", "result"),
    BenchKind.CHECK: (*_OF_JOB, "begun", "ended", "result"),
    BenchKind.DONE: _OF_JOB,
    BenchKind.ABSENCE: (),
    BenchKind.TAKEN_BACK: ("replaces",),
}
_MAY: dict[BenchKind, tuple[str, ...]] = {
    BenchKind.LESSON: _SESSION,
    BenchKind.TRY_OUT: (*_SESSION, "learned_before", "helper", "next_check"),
    BenchKind.CHECK: (*_SESSION, "next_check"),
    BenchKind.DONE: ("said_by", "pieces", "made_before"),
    BenchKind.ABSENCE: ("said_by", "last", "begun", "ended"),
    BenchKind.TAKEN_BACK: (),
}
_TAUGHT = frozenset((BenchKind.LESSON, BenchKind.TRY_OUT))
_ALWAYS = ("kind", "person", "by", "day", "page_made", "replaces")


def read_records(
    documents: Sequence[Document], shop: Shop
) -> tuple[tuple[Booked, ...], tuple[Finding, ...]]:
    """Every record that counts, each once, and what is wrong with any by itself."""
    read: list[Booked] = []
    findings: list[Finding] = []
    for document in documents:
        source = Source(document, (), document.value)
        record, problems = build(BenchRecord, source)
        findings += problems
        if record is None:
            continue
        if document.kind == TAKEN_IN and (problem := _altered(document, record)):
            findings.append(problem)
            continue
        one = Booked(_by_present_number(record, shop), source.tree, record.name)
        lacking = tuple(_shape(one))
        findings += lacking
        if not lacking:
            read.append(one)
    counting, misfits = standing(read)
    return counting, (*findings, *misfits)


def _by_present_number(record: BenchRecord, shop: Shop) -> BenchRecord:
    present = shop.renamed.get(record.job or "")
    return record.model_copy(update={"job": present}) if present else record


def _altered(document: Document, record: BenchRecord) -> Finding | None:
    """A copy may have another end, as file managers give it: `NAME (1).yml` is the same record."""
    stem = document.name.rpartition("/")[2].removesuffix(".yml").lower()
    if stem.startswith(record.name):
        return None
    return Finding(
        "C748",
        Severity.ERROR,
        Source(document, (), document.value).tree.place,
        f"what this record says is named '{record.name}': it is not what was taken in",
        (
            "put the file back from a copy; records never change",
            "to put it right, make a record that has this one's name under 'replaces'",
        ),
    )


def _shape(one: Booked) -> Iterator[Finding]:
    """What a record of its kind must say, and what only others say."""
    record, said = one.record, set(one.record.said)
    needs, may = _NEEDS[record.kind], _MAY[record.kind]
    missing = [key for key in needs if key not in said]
    if missing:
        keys = ", ".join(f"'{key}'" for key in missing)
        cure = "make it on the record page of the job: what it lacks is never filled in"
        yield _refused(one, (), f"a record of the kind '{record.kind}' has no {keys}", cure)
    for key in sorted(said - {*needs, *may, *_ALWAYS}):
        cure = (
            f"it may say: {', '.join(dict.fromkeys((*needs, *may)))}"
            if needs or may
            else "take it out"
        )
        text = f"a record of the kind '{record.kind}' says nothing of '{key}'"
        yield _refused(one, (key,), text, cure)
    if record.kind is BenchKind.ABSENCE:
        if record.last is not None and record.last < record.day:
            yield _refused(one, ("last",), "the absence ends before it begins", "correct 'last'")
    elif record.begun and record.ended and record.ended <= record.begun:
        text = f"it ended at {record.ended:%H:%M}, and began at {record.begun:%H:%M}"
        yield _refused(one, ("ended",), text, "make one record for each day")


def _refused(one: Booked, keys: tuple[str, ...], text: str, cure: str) -> Finding:
    return Finding("C740", Severity.ERROR, one.at(*keys), text, (cure,))


def record_slips(
    records: Sequence[Booked], crew: Crew, shop: Shop, today: date
) -> Iterator[Finding]:
    """What cannot be so of records, beside what the rules of people's files find."""
    for one in records:
        if one.record.kind is BenchKind.TAKEN_BACK:
            continue
        yield from _days(one, shop, today)
        yield from _who(one, crew)
        yield from _there(one, crew)
        yield from _held(one)
        yield from _of_job(one, shop)
    yield from _two_places(records)


def _days(one: Booked, shop: Shop, today: date) -> Iterator[Finding]:
    record = one.record
    is_ahead = record.kind is BenchKind.ABSENCE
    if record.day > today and not is_ahead:
        yield one.found(
            "C720", ("day",),
            f"it happened on {record.day}, a day that is still to come on {today}",
            "look at the clock of the tablet, and make the record anew",
        )  # fmt: skip
    if record.day < record.page_made and not is_ahead:
        yield one.found(
            "C741", ("day",),
            f"it happened on {record.day}, and its page was made on {record.page_made}",
            "look at the clock of the tablet, and make the record anew",
        )  # fmt: skip
    job = shop.jobs.get(one.job)
    since = job.in_force_since(record.revision or "") if job is not None else None
    if since is not None and record.day < since:
        yield one.found(
            "C721", ("day",),
            f"{one.job.upper()} is taught on {record.day}; revision {record.revision} came into "
            f"force on {since}",
            "make the record on the page that was in force then",
        )  # fmt: skip


def _who(one: Booked, crew: Crew) -> Iterator[Finding]:
    record = one.record
    if record.person not in crew.people:
        near = nearest(record.person, crew.people)
        cure = f"did you mean '{near}'?" if near else "write a file people/CODE.yml first"
        yield one.found("C723", ("person",), f"nobody of the crew has a file {record.person}", cure)
    for key in ("by", "said_by", "helper"):
        code = getattr(record, key)
        if code is not None and code not in crew.codes | {record.person}:
            near = nearest(code, crew.codes)
            cure = f"did you mean '{near}'?" if near else "correct the code, or keep a file of them"
            yield one.found("C723", (key,), f"nobody of the crew has the code {code}", cure)
    if record.by == record.person and record.kind is not BenchKind.ABSENCE:
        text = f"{record.person} makes a record of themselves"
        yield one.found("C722", ("by",), text, "another one makes it: a proof is what they saw")


def _there(one: Booked, crew: Crew) -> Iterator[Finding]:
    """Learner and trainer are there on the day; of an absence nobody is asked."""
    record = one.record
    if record.kind is BenchKind.ABSENCE:
        return
    trainers = {each.id: each for each in crew.facts.trainers}
    for key in ("person", "by"):
        code = getattr(record, key)
        for who in (crew.people.get(code), trainers.get(code) if key == "by" else None):
            why = _away(who, record.day) if who is not None else ""
            if why:
                cure = "correct the day, or make a record that puts the absence right"
                yield one.found("C742", (key,), f"{code} {why} on {record.day}", cure)
                break


def _away(who: Person | Trainer, day: date) -> str:
    if who.first_day is not None and day < who.first_day:
        return f"begins on {who.first_day}, so is not there"
    if who.last_day is not None and day > who.last_day:
        return f"was there until {who.last_day}, so not"
    return "is recorded as absent" if any(_all_day(one, day) for one in who.absent) else ""


def _all_day(one: Absence, day: date) -> bool:
    is_whole = one.starts is None and one.ends is None
    return is_whole and one.first <= day <= (one.last or one.first)


def _held(one: Booked) -> Iterator[Finding]:
    """What stands against the result in the record itself."""
    record = one.record
    for number, fault in enumerate(record.faults):
        if not fault.put_right:
            yield one.found(
                "C743", ("faults", number, "put_right"),
                f"what was set wrong on purpose at step '{fault.step}' is not put right",
                "put it right at the machine now, then tick it, and save again",
            )  # fmt: skip
    if record.result is not Result.ALONE:
        return
    if record.kind is BenchKind.TRY_OUT and record.paper is None:
        yield one.found(
            "C743", ("result",), f"judged '{record.result}', and no signed paper is named",
            "have the printed record signed, and write under 'paper' where it lies",
        )  # fmt: skip
    gauged = [each for each in record.pieces if each.gauge is not Gauged.NOT_GAUGED]
    if gauged and gauged[-1].gauge is Gauged.NOT_GOOD:
        yield one.found(
            "C743", ("result",),
            f"judged '{record.result}', and piece {gauged[-1].piece}, the last one gauged, is not "
            "good",
            "let them make a good one first, or write: more practice",
        )  # fmt: skip


def _of_job(one: Booked, shop: Shop) -> Iterator[Finding]:
    """Steps are held against the job as it is only where the record was made on it."""
    record, job = one.record, shop.jobs.get(one.job)
    for number, seen in enumerate(record.steps):
        for key in ("points", "reasons"):
            count = getattr(seen, key)
            if count is not None and count > seen.of:
                text = f"{count} {key} of step '{seen.step}', which has {seen.of} key points"
                cure = f"correct '{key}'"
                yield one.found("C746", ("steps", number, key), text, cure)
    if job is None or record.revision != job.revision:
        return
    known = {step.id: len(step.key_points) for step in job.steps}
    said = [("steps", number, each.step) for number, each in enumerate(record.steps)]
    said += [("faults", number, each.step) for number, each in enumerate(record.faults)]
    said += [("checks", number, each) for number, each in enumerate(record.checks)]
    for key, number, step in said:
        if step not in known:
            near = nearest(step, known)
            cure = f"did you mean '{near}'?" if near else f"its steps: {', '.join(known)}"
            text = f"{one.job.upper()} has no step '{step}'"
            yield one.found("C746", (key, number), text, cure)
    if (
        record.steps
        and {each.step: each.of for each in record.steps} != known
        and all(each.step in known for each in record.steps)
    ):
        cure = "a record has every step, each with the number of its key points"
        text = f"its steps and key points are not those of {one.job.upper()}"
        yield one.found("C746", ("steps",), text, cure)


def _two_places(records: Sequence[Booked]) -> Iterator[Finding]:
    """Nobody is in two places; a trainer may teach several people the same job at once."""
    timed = [one for one in records if one.record.begun and one.record.ended
             and one.record.kind is not BenchKind.ABSENCE]  # fmt: skip
    by_day: dict[date, list[Booked]] = {}
    for one in sorted(timed, key=lambda each: each.in_time):
        by_day.setdefault(one.record.day, []).append(one)
    for those in by_day.values():
        for number, one in enumerate(those):
            for other in those[:number]:
                both = _in_both(one.record, other.record)
                if both:
                    begun, ended = other.record.begun, other.record.ended
                    yield one.found(
                        "C742", ("begun",),
                        f"{both} is also at {other.job.upper()} from {begun:%H:%M} to "
                        f"{ended:%H:%M} on that day",
                        "correct the times, or put one of the two records right",
                    )  # fmt: skip
                    break


def _in_both(one: BenchRecord, other: BenchRecord) -> str:
    """Who is in two sessions at once, or nothing."""
    if not (one.begun and one.ended and other.begun and other.ended):
        return ""
    if one.begun >= other.ended or other.begun >= one.ended:
        return ""
    mine, theirs = {one.person, one.by}, {other.person, other.by}
    both = mine & theirs
    if one.job == other.job and {one.kind, other.kind} <= _TAUGHT:
        both -= {one.by} & {other.by}  # one trainer may teach several people a job together
    return min(both, default="")
