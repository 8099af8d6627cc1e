"""Records made at the bench taken in: looked at all together, and written one file a record.

What is in a record is never added to, and no file that is there is ever written over: the same
record has the same name, so that it is taken in once, however often it is given.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from benchleaf import read, validate
from benchleaf.diagnose import Finding, Severity, in_order
from benchleaf.html.site_facts import day_of_build
from benchleaf.model import BenchRecord
from benchleaf.read import Contents, Document, Source
from benchleaf.read.folder import RECORDS_FOLDER
from benchleaf.validate import Door
from benchleaf.write import make_folder, write_text

from .crews import Reckoned

_HEAD = """\
# Made at the bench, and taken in by `benchleaf book`. It never changes: what is wrong in it is put
# right by a record of its own. The signed paper is the proof.
"""
_PLAIN = re.compile(r"[A-Za-z0-9](?:[A-Za-z0-9. -]*[A-Za-z0-9.])?")


@dataclass(frozen=True, slots=True)
class Given:
    """A file that was given, and what became of it."""

    file: Path
    record: BenchRecord | None
    findings: tuple[Finding, ...] = ()
    """Why it is refused."""
    was_there: bool = False

    @property
    def is_refused(self) -> bool:
        """True where nothing of the file is taken in."""
        return self.record is None or bool(self.findings)


@dataclass(frozen=True, slots=True)
class Booking:
    """What was given, in the order in which it happened; or why nothing can be taken in at all."""

    given: tuple[Given, ...]
    folder_amiss: tuple[Finding, ...] = ()
    """Errors of the crew folder itself."""


def look_at(files: Sequence[Path], crew: Path, loaded: Reckoned) -> Booking:
    """Hold each file against the crew, the shop, and those that come before it; write nothing."""
    today = day_of_build()
    contents = read.read_crew(crew)
    _, found = validate.gather_crew(contents, loaded.shop, today)
    amiss = tuple(one for one in (*contents.findings, *found) if one.blocks_publishing)
    if amiss:
        return Booking((), in_order(amiss))
    given = [_read(file) for file in dict.fromkeys(files)]
    refused = [one for one, _ in given if one.record is None]
    readable = [(one, document) for one, document in given if document and one.record]
    readable.sort(key=lambda each: _in_time(each[0]))
    looking = _Looking(contents, loaded, today, _prints(loaded))
    return Booking((*refused, *(looking.at(one, document) for one, document in readable)))


def write_records(booking: Booking, crew: Path) -> Iterator[tuple[Given, Path]]:
    """Write what may be taken in, each file whole and on the disk before the next is begun."""
    for one in booking.given:
        if one.record is None or one.is_refused:
            continue
        path = crew / RECORDS_FOLDER / f"{one.record.name}.yml"
        if not one.was_there:
            make_folder(path.parent)
            write_text(path, record_text(one.record), within=crew)
        yield one, path


def record_text(record: BenchRecord) -> str:
    """The file of a record: what it says and nothing else, always in the same words."""
    return _HEAD + "".join(f"{line}\n" for line in _lines(record.said))


def _lines(values: dict[str, object]) -> Iterator[str]:
    for key, value in values.items():
        if isinstance(value, list) and value and isinstance(value[0], dict):
            yield f"{key}:"
            yield from (f"  - {_flow(one)}" for one in value)
        else:
            yield f"{key}: {_flow(value)}"


def _flow(value: object) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {_flow(one)}" for key, one in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_flow, value)) + "]"
    if isinstance(value, bool):
        return "true" if value else "false"
    text = str(value)
    return text if _PLAIN.fullmatch(text) else json.dumps(text, ensure_ascii=False)


def _read(file: Path) -> tuple[Given, Document | None]:
    document, problems = read.read_document(file, validate.TO_TAKE_IN, file.as_posix())
    if document is None or any(one.blocks_publishing for one in problems):
        return Given(file, None, problems), None
    record, found = validate.build(BenchRecord, Source(document, (), document.value))
    return Given(file, record, found), document


def _in_time(given: Given) -> tuple[str, str, str]:
    record = given.record
    assert record is not None
    return str(record.day), str(record.begun or ""), record.name


def _prints(loaded: Reckoned) -> dict[str, dict[str, frozenset[str]]]:
    """The fingerprints that pages of each job had, by revision."""
    found: dict[str, dict[str, frozenset[str]]] = {}
    for job in loaded.shop.jobs.values():
        by_revision: dict[str, frozenset[str]] = {}
        for entry in loaded.revisions.every(job.id):
            known = by_revision.get(entry.revision, frozenset())
            by_revision[entry.revision] = known | {entry.fingerprint}
        if job.id not in loaded.shop.drafts:
            known = by_revision.get(job.revision, frozenset())
            by_revision[job.revision] = known | {loaded.fingerprints[job.id]}
        found[job.id] = by_revision
    return found


@dataclass(slots=True)
class _Looking:
    """The crew as it is with what was let in so far."""

    contents: Contents
    loaded: Reckoned
    today: date
    prints: dict[str, dict[str, frozenset[str]]]

    def at(self, given: Given, document: Document) -> Given:
        """What a file brings that was not amiss before."""
        record = given.record
        assert record is not None
        names = [Path(one.name).stem for one in self.contents.documents]
        if any(one.startswith(record.name) for one in names):
            return replace(given, was_there=True)
        before = {(one.code, one.place) for one in self._found(self.contents, None)}
        both = replace(self.contents, documents=(*self.contents.documents, document))
        door = Door(self.prints, frozenset((document.name,)))
        new = [one for one in self._found(both, door) if (one.code, one.place) not in before]
        if not new:
            # From here on it is one of those in the folder, by the name that it will have there.
            inside = replace(
                document, kind=validate.TAKEN_IN, name=f"{RECORDS_FOLDER}/{record.name}.yml"
            )
            self.contents = replace(self.contents, documents=(*self.contents.documents, inside))
        return replace(given, findings=in_order(tuple(_graver(one) for one in new)))

    def _found(self, contents: Contents, door: Door | None) -> tuple[Finding, ...]:
        return validate.gather_crew(contents, self.loaded.shop, self.today, door)[1]


def _graver(one: Finding) -> Finding:
    """What is only doubted in a file that is there keeps one out that is not."""
    return replace(one, severity=Severity.ERROR)
