"""Stop 3b: documents to one shop, every record indexed, every id once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from benchleaf.diagnose import Finding, Place, Related, Severity
from benchleaf.model import (
    FOLDERS,
    KINDS,
    Job,
    JobChanges,
    MadeFrom,
    Manual,
    PartCopy,
    PictureFile,
    Record,
    Shop,
    open_lines,
)
from benchleaf.read import CHANGED_FOLDER, Contents, Document, Node, Source

from .building import build
from .changed_files import enter_changes
from .copied_parts import records_of, without_copy
from .made_document import made_of
from .places import Places, locate, misnamed, written_id
from .told_once import told_once

UNWRITTEN = Manual.model_validate(
    {
        key: "not written"
        for key, field_info in Manual.model_fields.items()
        if field_info.is_required()
    }
)
"""Stands in for a manual.yml with mistakes, so that the other files are still checked."""


@dataclass(slots=True)
class _Gathered:
    """What has been built so far."""

    manual: Manual | None = None
    records: dict[str, dict[str, Record]] = field(
        default_factory=lambda: {kind: {} for kind in KINDS}
    )
    changes: dict[str, JobChanges] = field(default_factory=dict)
    sources: dict[tuple[str, str], Source] = field(default_factory=dict)
    unbuilt: set[tuple[str, str]] = field(default_factory=set)
    copied: dict[str, PartCopy] = field(default_factory=dict)
    """Parts that jobs hold copies of, by job."""
    made: dict[str, MadeFrom] = field(default_factory=dict)
    """Jobs that have no file of their own."""
    of_made: dict[str, list[Finding]] = field(default_factory=dict)
    """What is wrong with the records of those jobs, by job."""
    findings: list[Finding] = field(default_factory=list)


def gather(
    contents: Contents,
    pictures: Mapping[str, tuple[int, int, int]],
    sheets: Mapping[str, int],
    pages: Mapping[str, str | None] = MappingProxyType({}),
) -> tuple[Shop, Places, tuple[Finding, ...]]:
    """The shop, where its values stand, and what is wrong with any record.

    With findings of severity error the shop is incomplete: good for more checks, not for pages.
    """
    gathered = _Gathered()
    gathered.unbuilt |= set(contents.unread)
    for document in contents.documents:
        if document.kind == "manual":
            gathered.manual = _manual(document, gathered)
            if gathered.manual is None:
                gathered.unbuilt.add(("manual", "manual"))
        elif document.kind == CHANGED_FOLDER:
            gathered.findings += enter_changes(document, gathered.changes)
        elif document.kind in KINDS:
            for source in _sources(document, gathered):
                _enter(document.kind, source, gathered)
            if document.kind in FOLDERS and not _is_copy(document, gathered):
                gathered.findings += _file_name(document)
    _enter_copied(gathered)
    shop = Shop.of(
        gathered.manual or UNWRITTEN,
        gathered.records,
        pictures={name: PictureFile(*size) for name, size in pictures.items()},
        sheets=sheets,
        pages=tuple(pages),
        page_texts={name: text for name, text in pages.items() if text is not None},
        changes=dict(sorted(gathered.changes.items())),
        open_pages={
            name: lines for name, text in pages.items() if text and (lines := open_lines(text))
        },
        copied=gathered.copied,
        made=gathered.made,
    )
    gathered.findings += told_once(gathered.of_made, gathered.made)
    places = Places(gathered.sources, frozenset(gathered.unbuilt))
    return shop, places, tuple(gathered.findings)


def _manual(document: Document, gathered: _Gathered) -> Manual | None:
    source = Source(document, (), document.value)
    gathered.sources["manual", "manual"] = source
    manual, problems = build(Manual, source)
    gathered.findings += problems
    return manual


def _sources(document: Document, gathered: _Gathered) -> Iterator[Source]:
    """The records of a document: itself, or the entries of a shared list."""
    if document.kind in FOLDERS:
        yield Source(document, (), document.value)
        return
    value = document.value if isinstance(document.value, dict) else {}
    listed = value.get(document.kind)
    if isinstance(listed, list):
        for index, entry in enumerate(listed):
            yield Source(document, (document.kind, index), entry)
    if not isinstance(listed, list) or len(value) > 1:
        gathered.findings.append(_not_one_list(document))
        gathered.unbuilt.add((document.kind, document.kind))


def _is_copy(document: Document, gathered: _Gathered) -> bool:
    """True where another file holds the id already: that is told, and is enough."""
    first = gathered.sources.get((document.kind, written_id(document.value) or ""))
    return first is not None and first.document is not document


def _file_name(document: Document) -> Iterator[Finding]:
    """One record a file, found by the id that is written there; a family's rows have none."""
    made = made_of(document)
    if made is None or not made.family:
        yield from misnamed(document, made.written if made else written_id(document.value))


def _not_one_list(document: Document) -> Finding:
    keys = [key for key, _ in getattr(document.tree, "entries", ()) if key.text != document.kind]
    place = keys[0].place if keys else Place(document.name, 1, 1)
    also = f", not '{keys[0].text}' too" if keys else ""
    return Finding(
        "F203",
        Severity.ERROR,
        place,
        f"this file holds one list under the key '{document.kind}'{also}",
        (f"start with '{document.kind}:' and list the records below it",),
    )


def _enter(kind: str, source: Source, gathered: _Gathered) -> None:
    written = source
    source, copy, amiss = without_copy(source) if kind == "jobs" else (source, None, ())
    record, problems = build(KINDS[kind], source)
    record = None if amiss else record
    record_id = getattr(record, "id", None) or written_id(source.value)
    made = made_of(source.document)
    if made is None or record_id is None or (kind, str(record_id)) in gathered.sources:
        gathered.findings += (*amiss, *problems)
    else:
        gathered.of_made.setdefault(str(record_id), []).extend((*amiss, *problems))
    if record_id is None:
        return
    key = (kind, str(record_id))
    if key in gathered.sources:
        first = gathered.sources[key]
        gathered.unbuilt.add(key)  # nobody knows which of the two is meant
        gathered.findings.append(_twice(kind, str(record_id), source.tree, first.tree))
        return
    gathered.sources[key] = written
    if made is not None:
        gathered.made[str(record_id)] = made
    if copy is not None and record is not None:
        gathered.copied[str(record_id)] = copy
    if record is None or key in gathered.unbuilt:  # an empty value must not look like none
        gathered.unbuilt.add(key)
    else:
        gathered.records[kind][str(record_id)] = record


def _enter_copied(gathered: _Gathered) -> None:
    """Parts that have no record of their own, made of what their jobs say."""
    made, takes = records_of(gathered.copied)
    parts, jobs = gathered.records["parts"], gathered.records["jobs"]
    for part_id, part in made.items():
        first = next(one for one, copy in sorted(gathered.copied.items()) if copy.id == part_id)
        if ("parts", part_id) not in gathered.sources:
            parts[part_id] = part
            at = gathered.sources["jobs", first]
            gathered.sources["parts", part_id] = Source(at.document, (*at.path, "part"), None)
    for job_id, state in takes.items():
        job = jobs.get(job_id)
        if isinstance(job, Job) and job.takes is None:
            jobs[job_id] = job.model_copy(update={"takes": state})


def _twice(kind: str, record_id: str, tree: Node, first: Node) -> Finding:
    return Finding(
        "L303",
        Severity.ERROR,
        locate(tree, ("id",)),
        f"the id '{record_id}' is used twice among the {kind}",
        (
            "give one of the two another id; a copied file needs an id of its own, and that name",
            "ids are told apart without regard to capitals",
        ),
        (Related(locate(first, ("id",)), "used first here"),),
    )
