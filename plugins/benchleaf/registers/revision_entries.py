"""The register of revisions: its tree to entries, each with its place, and what is wrong with it.

It is one list that only grows. Of one revision of a job the first entry stands by itself; each
further one is declared as wording only, and its core must be that of the first.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from benchleaf.diagnose import Finding, Place
from benchleaf.read import Document, Source
from benchleaf.validate.building import build

from .faults import damaged
from .revision_entry import RegisteredRevision

Registered = tuple[tuple[RegisteredRevision, Source], ...]
"""Every entry and where it stands, in the order of the file."""


_NO_ENTRY = "an entry has job, revision, fingerprint of 64 digits and core of 16 (0-9, a-f)"


def read_revisions(document: Document | None) -> tuple[Registered, tuple[Finding, ...]]:
    """Every entry of the register, and what is wrong with it; no file is an empty register."""
    if document is None:
        return (), ()
    listed = document.value.get("revisions") if isinstance(document.value, dict) else None
    if not isinstance(listed, list):
        return (), (
            damaged(
                "A606", "revisions", Place(document.name, 1, 1), "it holds no list 'revisions'"
            ),
        )
    entries, problems = [], []
    for index, value in enumerate(listed):
        source = Source(document, ("revisions", index), value)
        entry, _ = build(RegisteredRevision, source)
        if entry is None:
            problems.append(damaged("A606", "revisions", source.tree.place, _NO_ENTRY))
        else:
            entries.append((entry, source))
    return tuple(entries), (*problems, *_contradictions(tuple(entries)))


def unsure_jobs(
    document: Document | None, problems: Iterable[Finding], jobs: Collection[str]
) -> frozenset[str]:
    """Of these jobs those of which the register tells nothing sure: they have a faulty entry.

    All of them where nobody can read whose entry it is.
    """
    places = {one.place for one in problems}
    if document is None or not places:
        return frozenset()
    listed = document.value.get("revisions") if isinstance(document.value, dict) else None
    found = [
        one.get("job") if isinstance(one, dict) else None
        for index, one in enumerate(listed if isinstance(listed, list) else (None,))
        if not isinstance(listed, list)
        or Source(document, ("revisions", index), one).tree.place in places
    ]
    names = frozenset(str(one).strip().lower() for one in found)
    return names if names <= set(jobs) else frozenset(jobs)


def _contradictions(entries: Registered) -> Iterator[Finding]:
    first: dict[tuple[str, str, int], RegisteredRevision] = {}
    known: set[tuple[str, str]] = set()
    for entry, source in entries:
        before = first.setdefault((entry.job, entry.revision, entry.method), entry)
        why = _contradiction(entry, before, is_new=(entry.job, entry.revision) not in known)
        known.add((entry.job, entry.revision))
        if why:
            name = f"revision {entry.revision} of {entry.job.upper()}"
            yield damaged("A606", "revisions", source.tree.place, f"{name} {why}")


def _contradiction(entry: RegisteredRevision, first: RegisteredRevision, *, is_new: bool) -> str:
    """What is wrong with an entry beside the first one of its revision; empty where nothing is.

    Entries of one method are held against one another; the first of a later method may be a
    change of wording of what the former one registered.
    """
    if first is entry:
        return "starts with a change of wording" if entry.wording_only and is_new else ""
    if not entry.wording_only:
        return "is there twice"
    return "" if entry.core == first.core else "is declared wording only, but more changed"
