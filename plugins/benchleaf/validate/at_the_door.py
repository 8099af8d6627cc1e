"""What is asked of a record only when it is taken in: the page, the hold, the cut, the authority.

These look at the shop as it is on that day. A record that was let in is not doubted later because
a job was put on hold meanwhile.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from benchleaf.compute import SetUpSheet, set_up_sheets
from benchleaf.diagnose import Finding
from benchleaf.model import Authority, BenchKind, Crew, Granted, Job, Result, Shop, station_ids

from .folded_records import Booked

SHARE_OF_CUT = 0.5
"""A piece that took less than this share of the reckoned cut is refused: a hand may feed a little
faster than is written, never at twice the feed. House value."""
SHORTEST_S = 5.0
"""The shortest time of a piece where no cut is reckoned, in seconds. House value."""

Prints = Mapping[str, Mapping[str, frozenset[str]]]
"""The fingerprints of each job that its pages had, by revision."""


@dataclass(frozen=True, slots=True)
class Door:
    """What is known of the pages that there were, and which files are at the door."""

    prints: Prints
    files: frozenset[str]


def door_slips(records: Sequence[Booked], crew: Crew, shop: Shop, door: Door) -> Iterator[Finding]:
    """Everything that keeps one of these records out."""
    for one in records:
        job = shop.jobs.get(one.job)
        if job is None or one.record.kind is BenchKind.TAKEN_BACK:
            continue
        yield from _page(one, job, door.prints.get(job.id, {}), shop)
        sheets = set_up_sheets(shop, job)
        yield from _stopped(one, job, shop, sheets)
        yield from _times(one, job, sheets)
        yield from _authority(one, job, crew, shop)


def _page(
    one: Booked, job: Job, known: Mapping[str, frozenset[str]], shop: Shop
) -> Iterator[Finding]:
    """Revision and fingerprint belong together, and were those of a page."""
    revision, mark = one.record.revision or "", one.record.fingerprint or ""
    name, cure = job.id.upper(), "make it on the record page of the newest manual"
    if mark and shop.drafts.get(job.id, "").startswith(mark):
        yield one.found("C741", ("fingerprint",), f"its page was the draft of {name}", cure)
    elif revision not in known:
        text = f"no page of {name} had the revision {revision}"
        yield one.found("C741", ("revision",), text, cure)
    elif not any(each.startswith(mark) for each in known[revision]):
        text = f"no page of {name} at revision {revision} had the fingerprint {mark[:8]}"
        yield one.found("C741", ("fingerprint",), text, cure)


def _stopped(one: Booked, job: Job, shop: Shop, sheets: Sequence[SetUpSheet]) -> Iterator[Finding]:
    """Holds that had begun by then; broken limits only where its page was the page of today."""
    holds = [each.reason for each in shop.holds.get(job.id, ()) if each.day <= one.record.day]
    broken = [stop.reason for sheet in sheets for stop in sheet.stops]
    why = [*holds, *(broken if job.revision == one.record.revision else ())]
    if not why:
        return
    text = f"nobody may run {job.id.upper()} on {one.record.day}: {why[0]}"
    yield one.found("C744", ("job",), text, "correct job or day; else tell who may lift it")


def _times(one: Booked, job: Job, sheets: Sequence[SetUpSheet]) -> Iterator[Finding]:
    timed = [(at, each) for at, each in enumerate(one.record.pieces) if each.time is not None]
    if not timed:
        return
    cut, of = _cutting_s(job, sheets)
    least = SHARE_OF_CUT * cut if cut else SHORTEST_S
    why = (
        f"the cut alone takes {cut:.0f} s ({of}), and no hand feeds twice as fast"
        if cut
        else f"less than {SHORTEST_S:g} s, and no cut of this job is reckoned"
    )
    for at, piece in timed:
        if piece.time is not None and piece.time.value < least:
            yield one.found(
                "C745", ("pieces", at, "time"),
                f"piece {piece.piece} is timed at {piece.time.text}: {why}",
                "the watch was stopped too early: take its time out, and leave the piece",
            )  # fmt: skip


def _cutting_s(job: Job, sheets: Sequence[SetUpSheet]) -> tuple[float, str]:
    """The least seconds that the machine cuts at a piece, with what they come from; 0 if unknown.

    Each set-up that a step uses is cut once at least; where the rate says how often, that counts.
    """
    by_id = {one.id: one for one in sheets}
    often = {
        one.set_up: one.times_a_piece
        for one in (job.piece_rate.elements if job.piece_rate else ())
        if one.set_up
    }
    total, names = 0.0, []
    for name in dict.fromkeys(step.set_up for step in job.steps if step.set_up):
        sheet = by_id.get(name)
        seconds = getattr(sheet.found, "time", None) if sheet is not None else None
        if sheet is not None and seconds is not None:
            total += seconds * often.get(name, 1.0)
            names.append(sheet.title)
    return total, ", ".join(names)


def _authority(one: Booked, job: Job, crew: Crew, shop: Shop) -> Iterator[Finding]:
    """Authorities on the very day; that there is none at all is found with the files."""
    record = one.record
    asked = []
    if record.kind is BenchKind.TRY_OUT and record.result is Result.ALONE:
        asked.append((record.by, "by", Granted.JUDGE, "C724"))
        if job.is_under_lock:
            asked.append((record.person, "person", Granted.LOCK_OFF, "C725"))
    if record.kind in (BenchKind.LESSON, BenchKind.TRY_OUT):
        asked.append((record.by, "by", Granted.TEACH, "C724"))
        if job.is_under_lock:
            asked.append((record.by, "by", Granted.LOCK_OFF, "C725"))
    here = station_ids(shop, job.machine)
    for code, key, what, found in asked:
        person = crew.people.get(code)
        if person is None or not crew.records(what):
            continue
        mine = [each for each in person.authorities if each.may is what]
        if not _holds(mine, job, here, one):
            yield one.found(
                found, (key,),
                f"{code} has no authority to {what} that held for {job.id.upper()} on {record.day}",
                f"write it under 'authorities' in {code}.yml with its proof, or correct who it was",
            )  # fmt: skip


def _holds(mine: Iterable[Authority], job: Job, here: tuple[str, ...], one: Booked) -> bool:
    return any(each.is_at(job.id, here) and each.holds_on(one.record.day) for each in mine)
