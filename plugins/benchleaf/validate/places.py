"""Where in which file each record and each of its values stands."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from benchleaf.diagnose import Finding, Place, Severity
from benchleaf.read import Document, Node, Scalar, Source, child, key_place


def locate(tree: Node, path: Sequence[str | int]) -> Place:
    """The place of the value at `path`, or of the nearest thing above it that exists.

    Parts of a path that the file does not hold (the tag of a union) are passed over.
    """
    node = tree
    for step in path:
        node = child(node, step) or node
    return node.place


def locate_key(tree: Node, path: Sequence[str | int]) -> Place:
    """The place of the key that ends `path`."""
    node = tree
    for step in path[:-1]:
        node = child(node, step) or node
    return key_place(node, path[-1]) or node.place


def written(tree: Node, path: Sequence[str | int]) -> str | None:
    """The text at `path`, where it is one."""
    node = tree
    for step in path:
        node = child(node, step) or node
    return node.text if isinstance(node, Scalar) else None


def written_id(value: object) -> str | None:
    """The id as written, lower case, even where the record itself could not be built."""
    written = value.get("id", ...) if isinstance(value, dict) else ...
    if written is None:  # `id:` with nothing after it
        return ""
    return written.strip().lower() if isinstance(written, str) else None


def misnamed(document: Document, record_id: str | None) -> Iterator[Finding]:
    """A finding where a file is not named by the id of its record."""
    stem = document.name.rpartition("/")[2].removesuffix(".yml")
    if record_id is not None and stem != record_id:
        yield Finding(
            "F210",
            Severity.WARNING,
            locate(document.tree, ("id",)),
            f"this file is named '{stem}.yml', its record's id is '{record_id}'",
            (
                f"name the file {record_id}.yml",
                f"or put the id back to '{stem}', if it was published: ids never change",
            ),
        )


def may_be(kind: str, record_id: str, unbuilt: tuple[str, str]) -> bool:
    """True where what could not be built is that record, its list, or a job it is made from.

    >>> may_be("jobs", "tr-0110-drill-2", ("jobs", "tr-0110"))
    True
    """
    of, name = unbuilt
    is_made = kind == "jobs" and record_id.startswith(f"{name}-")  # a machine's id stands behind
    return of == kind and (name in (record_id, kind) or is_made)


@dataclass(frozen=True, slots=True)
class Places:
    """Sources by kind and id, and the ids of records that could not be built."""

    sources: Mapping[tuple[str, str], Source]
    unbuilt: frozenset[tuple[str, str]] = field(default_factory=frozenset)

    def is_unbuilt(self, kind: str, record_id: str) -> bool:
        """True for a record that could not be built, or that may be one of those."""
        return any(may_be(kind, record_id, one) for one in self.unbuilt)

    def of(self, kind: str, record_id: str, path: Sequence[str | int] = ()) -> Place:
        """The place of a value of a record."""
        source = self.sources.get((kind, record_id))
        return locate(source.tree, path) if source is not None else Place("content")
