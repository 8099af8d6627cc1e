"""Which files content/ holds, and of which kind. Hands each on as a document with its tree."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from benchleaf.diagnose import Finding, Place, Severity, suggestion

from .parser import parse
from .text import read_text
from .tree import Node

SINGLE_FILES = ("manual.yml", "terms.yml", "addresses.yml")
OTHER_FOLDERS = ("pages", "pictures", "sheets")


@dataclass(frozen=True, slots=True)
class Document:
    """One file read: its kind (the folder's or file's name), name for findings, and tree."""

    kind: str
    name: str
    tree: Node


def read_content(
    content: Path, kinds: Iterable[str]
) -> tuple[tuple[Document, ...], tuple[Finding, ...]]:
    """Every record file below `content`, in name order, and what is wrong with any of them."""
    if not content.is_dir():
        missing = Finding(
            "R101",
            Severity.ERROR,
            Place(str(content)),
            "there is no such content folder",
            ("name the folder that holds manual.yml and jobs/",),
        )
        return (), (missing,)
    kinds = tuple(kinds)
    documents: list[Document] = []
    findings = list(_strangers(content, kinds))
    for path, kind in _record_files(content, kinds):
        document, problems = read_document(path, kind, _name(path, content))
        findings += problems
        documents += [document] if document else []
    return tuple(documents), tuple(findings)


def read_document(path: Path, kind: str, name: str) -> tuple[Document | None, tuple[Finding, ...]]:
    """One file as a document, or None with its findings."""
    text, problems = read_text(path, name)
    if text is None:
        return None, problems
    tree, found = parse(text, name)
    return (Document(kind, name, tree) if tree is not None else None), found


def _name(path: Path, content: Path) -> str:
    return f"{content.name}/{path.relative_to(content).as_posix()}"


def _record_files(content: Path, kinds: tuple[str, ...]) -> list[tuple[Path, str]]:
    single = [(content / name, name.removesuffix(".yml")) for name in SINGLE_FILES]
    present = [(path, kind) for path, kind in single if path.exists() or kind == "manual"]
    for kind in kinds:
        present += [(path, kind) for path in sorted((content / kind).glob("*.yml"))]
    return present


def _strangers(content: Path, kinds: tuple[str, ...]) -> Iterable[Finding]:
    """Files and folders that look like content and will not be read."""
    allowed = (*kinds, *OTHER_FOLDERS)
    for path in sorted(content.iterdir()):
        known = allowed if path.is_dir() else SINGLE_FILES
        if path.name not in known and not path.name.startswith("."):
            yield _unread(_name(path, content), suggestion(path.name, known, what="read here"))
    for kind in kinds:
        for path in sorted((content / kind).glob("*")):
            if path.suffix != ".yml" and not path.name.startswith("."):
                yield _unread(_name(path, content), ("records are files that end in .yml",))


def _unread(name: str, help_lines: tuple[str, ...]) -> Finding:
    return Finding("R113", Severity.WARNING, Place(name), "this is not read", help_lines)
