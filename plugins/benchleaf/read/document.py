"""One file read: its values at once, and its tree with all places where somebody asks for it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path as FilePath

from benchleaf.diagnose import Finding

from .parser import parse
from .quick import quick_tree, quick_value
from .rest import rest_of
from .text_file import read_rest, read_text
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
    echoes: frozenset[int] | None = None
    """None for a whole file. Of one with a slip that ends its reading, what else can be read stands
    here; these are the lines at which something may seem to be missing only because of that."""

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


def with_tree(document: Document, tree: Node) -> Document:
    """The same file with more in it than was written there; each value has its own place."""
    made = replace(document, value=plain(tree), is_quick=False)
    made.__dict__["tree"] = tree  # what `cached_property` would keep
    return made


def read_document(
    path: FilePath, kind: str, name: str
) -> tuple[Document | None, tuple[Finding, ...]]:
    """One file as a document, or None with its findings; with a slip, what else can be read."""
    text, problems = read_text(path, name)
    if text is not None:
        document, found = document_of(text, kind, name)
        rest = _rest(text, kind, name) if document is None else None
        return rest or (document, found)
    cleaned, lines = read_rest(path, problems), frozenset(one.place.line for one in problems)
    rest = _rest(cleaned, kind, name, lines) if cleaned is not None else None
    if rest is None:
        return None, problems
    return rest[0], (*problems, *rest[1])


def document_of(text: str, kind: str, name: str) -> tuple[Document | None, tuple[Finding, ...]]:
    """A text as a document, or None with its findings."""
    value = quick_value(text)
    if value is not None:
        return Document(kind, name, text, value, is_quick=True), ()
    tree, found = parse(text, name)
    return (Document(kind, name, text, plain(tree)) if tree is not None else None), found


def _rest(
    text: str, kind: str, name: str, known: frozenset[int] = frozenset()
) -> tuple[Document, tuple[Finding, ...]] | None:
    """What can still be read of a text with a slip; `known` are lines told already."""
    rest = rest_of(text, name, known=known)
    if rest is None:
        return None
    value = plain(rest.tree)
    return Document(kind, name, rest.text, value, echoes=rest.echoes), rest.findings
