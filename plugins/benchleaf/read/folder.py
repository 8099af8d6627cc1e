"""Which files a folder of records holds, and of which kind; each as a document with its tree."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from benchleaf.diagnose import Finding, Place, Severity, suggestion
from benchleaf.processes import spread

from .border import at_border
from .document import Document, read_document
from .layout_table import LAYOUTS_FILE, layouts_amiss

SINGLE_FILES = (
    "manual.yml", "terms.yml", "addresses.yml", "forwards.yml", "revisions.yml", "history.yml",
    "tally.yml",
)  # fmt: skip
OTHER_FOLDERS = ("pages", "pictures", "sheets")
CHANGED_FOLDER = "changed"
"""The folder of what revisions changed, one file a job."""
CREW_FILE, PROMISED_FILE, CREW_FOLDER = "crew.yml", "promised.yml", "people"
RECORDS_FOLDER = "records"
"""Of the crew folder: what was made at the bench, one file a record."""


@dataclass(frozen=True, slots=True)
class Contents:
    """Everything below a content folder."""

    documents: tuple[Document, ...]
    unread: tuple[tuple[str, str], ...]
    """Kind and file stem of each record file that could not be read, or not as a whole.

    A kind twice where none of its records can be listed.
    """
    findings: tuple[Finding, ...]


def read_content(content: Path, kinds: Iterable[str]) -> Contents:
    """Every record file below `content`, in name order, and what is wrong with any of them."""
    if not content.is_dir():
        missing = Finding(
            "R101",
            Severity.ERROR,
            Place(str(content)),
            "there is no such content folder",
            ("run it in the folder that holds content/, or name the content folder",),
        )
        return Contents((), (), (missing,))
    kinds = (*kinds, CHANGED_FOLDER)
    found = _Reader(content, kinds, SINGLE_FILES, OTHER_FOLDERS, (LAYOUTS_FILE,)).contents()
    told = {(one.code, one.place.file) for one in found.findings}
    border = (one for one in at_border(content) if (one.code, one.place.file) not in told)
    return replace(found, findings=(*found.findings, *border, *layouts_amiss(content)))


def read_crew(folder: Path) -> Contents:
    """The files of a crew folder: crew.yml, a file a person, what was promised, and records."""
    if not folder.is_dir():
        cure = "name the folder that holds crew.yml and people/, or leave crew_dir out"
        missing = Finding(
            "R101", Severity.ERROR, Place(str(folder)), "there is no such crew folder", (cure,)
        )
        return Contents((), (), (missing,))
    kinds = (CREW_FOLDER, RECORDS_FOLDER)
    return _Reader(folder, kinds, (CREW_FILE, PROMISED_FILE), ()).contents()


class _Reader:
    """Reads one folder of records. The first of its single files must be there."""

    def __init__(
        self,
        content: Path,
        kinds: tuple[str, ...],
        single: tuple[str, ...],
        other: tuple[str, ...],
        beside: tuple[str, ...] = (),
    ) -> None:
        self.content = content
        self.kinds = kinds
        self.single = single
        self.other = other
        self.beside = beside
        self.findings: list[Finding] = []
        self.unlisted: list[tuple[str, str]] = []
        """Kinds of which the folder cannot be looked into."""

    def contents(self) -> Contents:
        self._strangers(self.content, (*self.single, *self.kinds, *self.other, *self.beside))
        documents, unread = [], []
        files = [(path, kind, self._name(path)) for path, kind in self._record_files()]
        read = (one for share in spread(_read_all, files) for one in share)
        for (path, kind, _), (document, problems) in zip(files, read, strict=True):
            self.findings += problems
            if document is None or any(problem.blocks_publishing for problem in problems):
                unread.append((kind, path.stem.lower()))
            if document is not None:
                documents.append(document)
        unread += self.unlisted
        return Contents(tuple(documents), tuple(unread), tuple(self.findings))

    def _name(self, path: Path) -> str:
        return f"{self.content.name}/{path.relative_to(self.content).as_posix()}"

    def _listed(self, folder: Path) -> list[Path]:
        """What a folder holds, hidden files left out; a finding where it may not be listed."""
        try:
            return sorted(path for path in folder.iterdir() if not path.name.startswith("."))
        except (FileNotFoundError, NotADirectoryError):
            return []
        except OSError as error:
            self.unlisted.append((folder.name, folder.name))
            self.findings.append(
                Finding(
                    "R101",
                    Severity.ERROR,
                    Place(self._name(folder) if folder != self.content else self.content.name),
                    f"this folder cannot be read: {error.strerror}",
                    ("check that you may list it",),
                )
            )
            return []

    def _record_files(self) -> list[tuple[Path, str]]:
        single = [(self.content / name, name.removesuffix(".yml")) for name in self.single]
        found = [
            (path, kind)
            for path, kind in single
            if path.exists() or path.is_symlink() or path == single[0][0]
        ]
        for kind in self.kinds:
            for path in self._listed(self.content / kind):
                if path.suffix == ".yml":
                    found.append((path, kind))
                else:
                    cure = "folders are not read" if path.is_dir() else "name it .yml"
                    self._unread(path, (f"records are files that end in .yml; {cure}",))
        return found

    def _strangers(self, folder: Path, allowed: tuple[str, ...]) -> None:
        """Files and folders at the top that look like content and will not be read."""
        for path in self._listed(folder):
            fits = path.is_dir() == ("." not in path.name)
            if path.name not in allowed or not fits:
                self._unread(path, suggestion(path.name, allowed, what="read here"))

    def _unread(self, path: Path, help_lines: tuple[str, ...]) -> None:
        place = Place(self._name(path))
        self.findings.append(
            Finding("R113", Severity.WARNING, place, "this is not read", help_lines)
        )


def _read_all(
    files: Sequence[tuple[Path, str, str]],
) -> list[tuple[Document | None, tuple[Finding, ...]]]:
    return [read_document(*each) for each in files]
