"""What each revision changed: a file of `changed/` to its record, and whether it is whole."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from benchleaf.diagnose import Code, Finding, Place, Severity
from benchleaf.model import JobChanges, revision_order
from benchleaf.read import Document, Source

from .building import build
from .places import locate

CODE = Code(
    "A620",
    "The record of what a job's revisions changed is damaged",
    why="From it a person is taught what changed, and no more. A gap would hide a change.",
    instead="Restore the file from the last commit; `benchleaf release` adds to it.",
)


def enter_changes(document: Document, known: dict[str, JobChanges]) -> Iterator[Finding]:
    """Enter the record of a file by its job; what is wrong with it instead."""
    found, problems = build(JobChanges, Source(document, (), document.value))
    yield from problems
    if found is None:
        return
    stem = document.name.rpartition("/")[2].removesuffix(".yml")
    if stem != found.job:
        place = locate(document.tree, ("job",))
        yield _damaged(place, f"this file is named '{stem}.yml' and is about {found.job.upper()}")
        return
    for at, (one, after) in enumerate(pairwise(found.changes), 1):
        if revision_order(after.revision) <= revision_order(one.revision):
            place = locate(document.tree, ("changes", at, "revision"))
            yield _damaged(place, f"revision {after.revision} stands after {one.revision}")
            return
    known[found.job] = found


def _damaged(place: Place, why: str) -> Finding:
    cures = ("restore it from the last commit: entries are only ever added, the newest last",)
    return Finding(CODE.id, Severity.ERROR, place, why, cures)
