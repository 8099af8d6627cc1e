"""The reviewer's journey: the two sides of a comparison found, read, and compared.

Like `pipeline.py` it hands back plain values and knows nothing of MkDocs.
"""

from __future__ import annotations

import hashlib
import tempfile
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path, PurePosixPath
from urllib.parse import quote

from benchleaf import diff, pages, pipeline, read, registers
from benchleaf.diagnose import Finding, Place, Severity
from benchleaf.model import Crew, Shop
from benchleaf.people import crews

__all__ = ["FORMATS", "Asked", "Reviewed", "compare", "hides_records", "side_of"]

FORMATS: dict[str, Callable[[diff.Report], str]] = {
    "text": diff.as_text,
    "markdown": diff.as_markdown,
    "json": diff.as_json,
    "html": pages.comparison_page,
}
"""Every printer of a comparison."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What is to be compared."""

    content: Path
    """The content folder as it is now."""
    old: str | None = None
    """A content folder, a revision, or REVISION:FOLDER; the merge base where it is left out."""
    new: str | None = None
    """The same; the content folder as it is now where it is left out."""
    crew: Path | None = None
    main: str | None = None
    """The main branch; looked for where it is left out."""
    pictures_at: str | None = None
    """An address with {revision} and {file} at which the forge shows a file of a revision."""
    on: date | None = None
    """The day from which days are counted; today where it is left out."""


@dataclass(frozen=True, slots=True)
class Reviewed:
    """A comparison ready to print, or why there is none."""

    report: diff.Report | None = None
    findings: tuple[Finding, ...] = ()
    """What makes a side unfit to be compared."""
    problem: str = ""
    """Why a side cannot be had at all."""
    help: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Source:
    """One side: its folder, its name in words, and what its files are called in findings."""

    folder: Path
    name: str
    prefix: str = ""
    commit: str = ""
    """The revision that it is; empty for a folder as it is now."""
    inside: str = ""
    """The folder below the top of the repository, where it is a revision."""


def compare(asked: Asked) -> Reviewed:
    """Both sides found, read, checked for being whole, and compared."""
    with ExitStack() as rooms:
        try:
            old, new = _sources(asked, rooms)
        except read.RevisionError as error:
            return Reviewed(problem=error.problem, help=error.help)
        loaded = {side.name: pipeline.load(side.folder) for side in (old, new)}
        unfit = tuple(
            _named(finding, side)
            for side in (old, new)
            for finding in loaded[side.name].findings
            if hides_records(finding)
        )
        if unfit:
            return Reviewed(findings=unfit)
        return _compared(asked, (old, loaded[old.name]), (new, loaded[new.name]))


def _compared(
    asked: Asked,
    old: tuple[_Source, pipeline.Loaded],
    new: tuple[_Source, pipeline.Loaded],
) -> Reviewed:
    crew = crews.crew_for(asked.crew, new[1].shop, new[1].content)
    if asked.crew is not None and crew.crew is None:
        return Reviewed(findings=tuple(one for one in crew.findings if one.blocks_publishing))
    comparison = diff.compare(side_of(old[1]), side_of(new[1]))
    changes = tuple(
        replace(one, file=_file_of(one, old, new), seen=_seen(one, old, new, asked.pictures_at))
        for one in comparison.changes
    )
    comparison = replace(comparison, changes=changes)
    due = _due(comparison, crew.crew, new[1].shop, asked.on)
    notes = tuple(_notes(old, new))
    return Reviewed(diff.Report(comparison, old[0].name, new[0].name, due, notes))


def _due(
    comparison: diff.Comparison, crew: Crew | None, shop: Shop, on: date | None
) -> tuple[diff.Due, ...] | None:
    if crew is None:
        return None
    return diff.due(
        comparison, crew, shop.manual.retraining, on or crew.facts.as_of or date.today()
    )


def _sources(asked: Asked, rooms: ExitStack) -> tuple[_Source, _Source]:
    now = _Source(asked.content, f"{asked.content}/ as it is now")
    if asked.old is None:
        repository = read.repository_of(asked.content)
        branch = repository.main_branch(asked.main)
        commit = repository.merge_base(branch)
        words = f"{repository.short(commit)} (where this and {branch} went apart)"
        return _of_revision(repository, commit, asked.content, words, rooms), now
    new = now if asked.new is None else _source(asked.new, asked, rooms)
    return _source(asked.old, asked, rooms), new


def _source(written: str, asked: Asked, rooms: ExitStack) -> _Source:
    """A folder where there is one of that name, else a revision."""
    if written and Path(written).is_dir():
        return _Source(Path(written), f"{written.rstrip('/')}/")
    try:
        repository = read.repository_of(asked.content)
    except read.RevisionError as error:
        text = f"'{written}' is no folder, and {error.problem}"
        raise read.RevisionError(text, *error.help) from None
    revision, colon, folder = written.partition(":")
    commit = repository.commit(revision)
    words = repository.short(commit)
    words = words if commit.startswith(revision) else f"{words} ({written})"
    content = repository.top / folder if colon else asked.content
    return _of_revision(repository, commit, content, words, rooms)


def _of_revision(
    repository: read.Repository, commit: str, content: Path, words: str, rooms: ExitStack
) -> _Source:
    room = Path(rooms.enter_context(tempfile.TemporaryDirectory(prefix="benchleaf-")))
    try:
        inside = content.resolve().relative_to(repository.top.resolve())
    except ValueError:
        raise read.RevisionError(
            f"{content} lies outside the repository {repository.top}",
            "name the content folder with --content",
        ) from None
    folder = repository.write_folder(commit, PurePosixPath(inside.as_posix()), room)
    return _Source(
        folder, words, f"{repository.short(commit)}:", commit, inside.as_posix().removeprefix(".")
    )


def hides_records(finding: Finding) -> bool:
    """True for errors after which a record is missing: it would look as if it were removed."""
    return finding.blocks_publishing and (finding.code[0] in "RF" or finding.code == "L303")


def _named(finding: Finding, source: _Source) -> Finding:
    """The finding with the revision before its file's name."""
    place = finding.place
    return replace(finding, place=Place(f"{source.prefix}{place.file}", place.line, place.column))


def _notes(*sides: tuple[_Source, pipeline.Loaded]) -> Iterator[str]:
    for source, loaded in sides:
        errors = [one for one in loaded.findings if one.severity is Severity.ERROR]
        others = [one for one in errors if one.code not in ("A604", "A605")]
        if others:
            codes = ", ".join(sorted({one.code for one in others}))
            yield f"{source.name} has errors ({codes}); benchleaf check tells them"
    lost = _lost(sides[0][1].revisions, sides[1][1].revisions)
    if lost:
        yield f"the register of revisions has lost {len(lost)} of its entries ({', '.join(lost)})"


def _lost(old: registers.Registry, new: registers.Registry) -> list[str]:
    """Entries that were registered and are not any more: the register only grows."""
    kept = {
        one.model_copy(update={"link": None})  # which a shop gets when it is taken over
        for entries in new.by_job.values()
        for one in entries
    }
    return [
        f"{one.job.upper()} revision {one.revision}"
        for entries in old.by_job.values()
        for one in entries
        if one.model_copy(update={"link": None}) not in kept
    ]


def side_of(loaded: pipeline.Loaded) -> diff.Side:
    """Everything of a loaded shop that a comparison looks at."""
    shop = loaded.shop
    uses = {
        term: frozenset(one.id for one in used if one.kind == "jobs")
        for term, used in loaded.term_uses.items()
    }
    return diff.Side(
        shop,
        loaded.sheets,
        uses,
        dict(_pages(loaded.content / "pages")),
        dict(_hashes(loaded.content, shop)),
        loaded.revisions.declared(),
        loaded.fingerprints,
        {
            job_id: loaded.revisions.alike(job, loaded.fingerprints[job_id])
            for job_id, job in shop.jobs.items()
        },
    )  # fmt: skip


def _pages(folder: Path) -> Iterator[tuple[str, str]]:
    for path in sorted(folder.rglob("*.md")):
        text, _ = read.read_text(path, path.name)
        if text is not None:
            yield path.relative_to(folder).as_posix(), text


def _hashes(content: Path, shop: Shop) -> Iterator[tuple[str, str]]:
    for folder, names in (("pictures", shop.pictures), ("sheets", shop.sheets)):
        for name in names:
            data = (content / folder / name).read_bytes()
            yield f"{folder}/{name}", hashlib.sha256(data).hexdigest()


MOST_SHOWN = 2_000_000
"""Bytes of a picture that are put into the page; a larger one is named with its size."""


def _seen(
    change: diff.Change,
    old: tuple[_Source, pipeline.Loaded],
    new: tuple[_Source, pipeline.Loaded],
    pattern: str | None,
) -> tuple[diff.Seen | None, diff.Seen | None]:
    """The picture that a change is about, on either side."""
    before, after = diff.pictures_of(change)
    return _picture(before, *old, pattern), _picture(after, *new, pattern)


def _picture(
    name: str | None, source: _Source, loaded: pipeline.Loaded, pattern: str | None
) -> diff.Seen | None:
    words = diff.picture_words(name, loaded.shop) if name else ""
    if name is None or not words:
        return None
    inside = f"pictures/{name}"
    is_small = loaded.shop.pictures[name].bytes <= MOST_SHOWN
    data = (loaded.content / inside).read_bytes() if is_small else b""
    link = ""
    if pattern and source.commit:
        file = quote(str(PurePosixPath(source.inside, inside)))
        link = pattern.replace("{revision}", source.commit).replace("{file}", file)
    return diff.Seen(inside, words, data, link)


def _file_of(
    change: diff.Change,
    old: tuple[_Source, pipeline.Loaded],
    new: tuple[_Source, pipeline.Loaded],
) -> str:
    """File and line of a change, in the new content or else in the old."""
    kind, name = change.record
    is_gone = change.kind is diff.ChangeKind.REMOVED
    source, loaded = old if is_gone else new
    if kind in ("pages", "files"):
        folder = "pages/" if kind == "pages" else ""
        return f"{source.prefix}{loaded.content.name}/{folder}{name}"
    if (kind, name) not in loaded.places.sources:
        return ""
    place = loaded.places.of(kind, name, change.difference.path)
    return f"{source.prefix}{place.file}:{place.line}"
