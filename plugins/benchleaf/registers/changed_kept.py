"""The records of what revisions changed, held to what the last release left of them.

A lesson that lost an entry would teach too little. `tally.yml` counts the entries of each file and
holds the link of the last one. A tally from before that does not: then the files are held to the
commit of the last release, where git knows it.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path, PurePosixPath

from benchleaf.diagnose import Finding, Place, Severity
from benchleaf.link import CHANGED_SHEET, lesson_address, sheet_address
from benchleaf.model import ChangedRevision, JobChanges
from benchleaf.read import (
    CHANGED_FOLDER,
    Contents,
    RevisionError,
    Source,
    document_of,
    read_document,
    repository_of,
)
from benchleaf.validate import build

from .chain import CURE, START, links
from .history_entry import Kept, Tally

TALLY = "tally.yml"


def kept(changes: Mapping[str, JobChanges]) -> tuple[Kept, ...]:
    """What a tally holds of these records."""
    return tuple(
        Kept(job=job, count=len(one.changes), last=_last(one.changes))
        for job, one in sorted(changes.items())
    )


def _last(entries: Sequence[ChangedRevision]) -> str:
    return [START, *links(_said(one) for one in entries)][-1]


def _said(entry: ChangedRevision) -> str:
    """Everything that an entry says; a key that is left out says nothing, so that keys may come."""
    said = entry.model_dump(mode="json", exclude_defaults=True)
    return json.dumps(said, sort_keys=True, ensure_ascii=True)


def check_changed(
    tally: Tally | None,
    changes: Mapping[str, JobChanges],
    contents: Contents,
    content: Path,
    *,
    is_damaged: bool,
) -> Iterator[Finding]:
    """A finding for each record that is not what a release left. `changes` are those read well.

    Where the registers are damaged, their tally may be an old one: what goes beyond it is no news.
    """
    if tally is None:
        return  # that is told, and nothing else counts them
    there = {PurePosixPath(one.name).stem for one in contents.documents
             if one.kind == CHANGED_FOLDER}  # fmt: skip
    there |= {name for kind, name in contents.unread if kind == CHANGED_FOLDER}
    slipped = there - changes.keys()  # told by whatever read them
    found = _by_git(content) if tally.changed is None else _by_tally(tally.changed, changes)
    for job, why in found:
        if job not in slipped and not (is_damaged and why in _BEYOND):
            yield Finding(
                "A620",
                Severity.ERROR,
                Place(f"{content.name}/{CHANGED_FOLDER}/{job}.yml"),
                f"the record of what the revisions of {job.upper()} changed is damaged: {why}",
                CURE,
            )


def pages_of(lessons: Iterable[Finding]) -> frozenset[str]:
    """The addresses that are there only with the records that these findings are about."""
    jobs = [PurePosixPath(one.place.file).stem for one in lessons]
    return frozenset(
        one for job in jobs for one in (lesson_address(job), sheet_address(job, CHANGED_SHEET))
    )


def _by_tally(
    counted: Sequence[Kept], changes: Mapping[str, JobChanges]
) -> Iterator[tuple[str, str]]:
    """Each job whose record is not what was counted, and why."""
    for one in counted:
        entries = changes[one.job].changes if one.job in changes else None
        lost = one.count - len(entries or ())
        if entries is None:
            yield one.job, "the file is gone"
        elif lost > 0:
            some = "an entry is" if lost == 1 else f"{lost} entries are"
            yield one.job, f"{some} gone"
        elif lost < 0:
            yield one.job, _MORE
        elif _last(entries) != one.last:
            yield one.job, "an entry was altered"
    for job in changes.keys() - {one.job for one in counted}:
        yield job, _BY_HAND


_MORE = "it holds more than tally.yml counts"
_BY_HAND = "it was written in by hand"
_BEYOND = (_MORE, _BY_HAND)
_WHY = {"D": "the file is gone", "A": _BY_HAND}
"""By the letter with which git tells what became of a file."""


def _by_git(content: Path) -> Iterator[tuple[str, str]]:
    """The same by what the files were at the last release, as far as git knows."""
    try:
        repository = repository_of(content)
    except RevisionError:
        return
    tally, folder = ((content / name).resolve() for name in (TALLY, CHANGED_FOLDER))
    commit = repository.ask("log", "-1", "--format=%H", "HEAD", "--", f"{tally}")
    if not commit:
        return
    differing = ("diff", "--no-renames", "--name-status", commit, "--")
    if repository.ask(*differing, f"{tally}"):
        return  # a release that is not committed yet
    for line in (repository.ask(*differing, f"{folder}") or "").splitlines():
        what, _, name = line.partition("\t")
        yield PurePosixPath(name).stem, _WHY.get(what, "it was altered since the last release")


def read_changed(content: Path, new: Mapping[Path, str]) -> dict[str, JobChanges]:
    """The records as they will stand in their files; those that cannot be read are left out.

    `new` are the texts that are about to be written.
    """
    found: dict[str, JobChanges] = {}
    for path in sorted({*(content / CHANGED_FOLDER).glob("*.yml"), *new}):
        if path in new:
            document, _ = document_of(new[path], CHANGED_FOLDER, path.name)
        else:
            document, _ = read_document(path, CHANGED_FOLDER, path.name)
        if document is not None:
            one, _ = build(JobChanges, Source(document, (), document.value))
            if one is not None:
                found[one.job] = one
    return found
