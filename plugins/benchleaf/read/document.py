"""One file read: its values at once, and its tree with all places where somebody asks for it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from pathlib import Path as FilePath

from benchleaf.diagnose import Finding

from .parser import parse
from .quick import quick_tree, quick_value
from .text_file import read_text
from .tree import Node, Path, child, plain


@dataclass(frozen=True)
class Document:
    """A file: its kind (the folder's or file's name), name for findings, text and values."""

    kind: str
    name: str
    text: str
    value: object
    """The record as dict, list and text; None for an empty value."""
    is_quick: bool = False
    """True where nothing in the text is odd."""

    @cached_property
    def tree(self) -> Node:
        """The same with every place; made when first asked for, as few findings need it."""
        if self.is_quick:
            return quick_tree(self.text, self.name)
        tree, _ = parse(self.text, self.name)
        if tree is None:
            raise AssertionError(f"{self.name} was read and cannot be read again")
        return tree


@dataclass(frozen=True, slots=True)
class Source:
    """A record in a document: the whole of it, or an entry of its list."""

    document: Document
    path: Path
    value: object

    @property
    def tree(self) -> Node:
        """The record's tree."""
        node = self.document.tree
        for step in self.path:
            node = child(node, step) or node
        return node


def read_document(
    path: FilePath, kind: str, name: str
) -> tuple[Document | None, tuple[Finding, ...]]:
    """One file as a document, or None with its findings."""
    text, problems = read_text(path, name)
    if text is None:
        return None, problems
    return document_of(text, kind, name)


def document_of(text: str, kind: str, name: str) -> tuple[Document | None, tuple[Finding, ...]]:
    """A text as a document, or None with its findings."""
    value = quick_value(text)
    if value is not None:
        return Document(kind, name, text, value, is_quick=True), ()
    tree, found = parse(text, name)
    return (Document(kind, name, text, plain(tree)) if tree is not None else None), found
