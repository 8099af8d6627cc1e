"""YAML text straight to plain values, for the many files with nothing to say about them.

The tree with its places is only looked at where there is a finding. So a text is first composed
at C speed; at the least oddity this gives up, and `parser` reads the text with care. What comes
back is what `plain` would make of that tree, which a test holds.
"""

from __future__ import annotations

import re
from typing import Any

from yaml import YAMLError
from yaml.nodes import MappingNode, ScalarNode, SequenceNode

from benchleaf.diagnose import Place

from .parser import DEEPEST, MOST_ENTRIES, MOST_KEYS, NULLS
from .tree import Listing, Mapping, Node, Scalar

try:
    from yaml._yaml import CParser
except ImportError:  # PyYAML without its C part: every text is read with care
    CParser = None  # type: ignore[assignment,misc]

_ODD = {
    "&": re.compile(r"(?<![^\s\[\]{},:?-])&"),
    "*": re.compile(r"(?<![^\s\[\]{},:?-])\*"),
    "!": re.compile(r"(?<![^\s\[\]{},:?-])!"),
    "#": re.compile(r"\s#[^\s#]"),
    "\\": re.compile(r"\\[xuU0abvfeNLP_]"),
}
"""What may be an anchor, alias or tag, a text that is cut at a #, and a sign that is written by its
number: looked for by its own sign."""


class _OddError(Exception):
    """The text needs the careful reader."""


def quick_value(text: str) -> dict[str, object] | None:
    """The record in `text` as dict, list and text; None where `parser.parse` must look."""
    if CParser is None or any(sign in text and odd.search(text) for sign, odd in _ODD.items()):
        return None
    try:
        value = _value(_Composer(text).get_single_node(), 0)
    except (YAMLError, _OddError):
        return None
    return value if isinstance(value, dict) else None


def quick_tree(text: str, name: str) -> Node:
    """The tree of a text that `quick_value` could read."""
    return _node(_Composer(text).get_single_node(), name)


if CParser is not None:

    class _Composer(CParser):
        """Composes nodes without guessing what a scalar means: the field decides that."""

        def resolve(self, *_: object) -> str:
            return ""

        def descend_resolver(self, *_: object) -> None:
            """Nothing to remember: nothing is guessed."""

        def ascend_resolver(self) -> None:
            """Nothing to forget."""


def _value(node: Any, depth: int) -> object:
    kind = type(node)
    if kind is ScalarNode:
        if node.value in NULLS and not node.style:
            raise _OddError
        return node.value
    if depth >= DEEPEST:
        raise _OddError
    if kind is SequenceNode:
        if len(node.value) > MOST_ENTRIES:
            raise _OddError
        return [_value(item, depth + 1) for item in node.value]
    if kind is MappingNode:
        return _mapping(node, depth)
    raise _OddError


def _mapping(node: Any, depth: int) -> dict[str, object]:
    found: dict[str, object] = {}
    if len(node.value) > MOST_KEYS:
        raise _OddError
    for key, value in node.value:
        text = key.value
        if type(key) is not ScalarNode or text in found or text == "<<":
            raise _OddError
        found[text] = _value(value, depth + 1)
    return found


def _node(node: Any, name: str) -> Node:
    start = node.start_mark
    place = Place(name, start.line + 1, start.column + 1)
    if type(node) is ScalarNode:
        return Scalar(node.value, place)
    if type(node) is SequenceNode:
        return Listing(tuple(_node(item, name) for item in node.value), place)
    return Mapping(tuple((_key(key, name), _node(value, name)) for key, value in node.value), place)


def _key(node: Any, name: str) -> Scalar:
    start = node.start_mark
    empty = node.value in NULLS and not node.style
    return Scalar(node.value, Place(name, start.line + 1, start.column + 1), empty)
