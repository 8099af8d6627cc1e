"""The tree of a file: scalars as text, mappings and lists, each with its line and column."""

from __future__ import annotations

from dataclasses import dataclass

from benchleaf.diagnose import Place

Path = tuple[str | int, ...]
"""Where a value stands in a record: keys and list positions from the top."""


@dataclass(frozen=True, slots=True)
class Scalar:
    """One value as text; what it means is decided by the field it stands in."""

    text: str
    place: Place
    empty: bool = False
    """True where nothing was written (`key:` or `~`): not the same as quoted emptiness."""


@dataclass(frozen=True, slots=True)
class Listing:
    """A YAML sequence."""

    items: tuple[Node, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Mapping:
    """A YAML mapping, keys in the order written, each key once."""

    entries: tuple[tuple[Scalar, Node], ...]
    place: Place


Node = Scalar | Listing | Mapping


def child(node: Node, step: str | int) -> Node | None:
    """The value under a key or at a list position, or None."""
    if isinstance(node, Mapping):
        return next((value for key, value in node.entries if key.text == str(step)), None)
    if isinstance(node, Listing) and isinstance(step, int) and 0 <= step < len(node.items):
        return node.items[step]
    return None


def key_place(node: Node, step: str | int) -> Place | None:
    """The place of the key itself, for findings about the key."""
    if isinstance(node, Mapping):
        return next((key.place for key, _ in node.entries if key.text == str(step)), None)
    return None


def plain(node: Node) -> object:
    """The tree as dict, list and text, without places; an empty scalar is None."""
    if isinstance(node, Scalar):
        return None if node.empty else node.text
    if isinstance(node, Listing):
        return [plain(item) for item in node.items]
    return {key.text: plain(value) for key, value in node.entries}
