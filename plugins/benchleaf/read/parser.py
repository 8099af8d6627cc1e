"""YAML text to a tree. Only structure is taken from YAML: every scalar stays text.

YAML 1.1 reads `3:1` as 181, `010` as 8 and `on` as true; here the field decides. The events of
the C parser are used where PyYAML has it; the tree is built without recursion, so depth is ours
to limit.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import yaml

from benchleaf.diagnose import Finding, Place, Related, Severity

from .tree import Listing, Mapping, Node, Scalar

DEEPEST = 12
"""No record needs more levels; the deepest, a check in a step, stands at six."""

_LOADER: type[Any] = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_NULLS = ("", "~", "null", "Null", "NULL")


@dataclass(slots=True)
class _Open:
    """A mapping or list still being read."""

    place: Place
    is_mapping: bool
    items: list[Node] = field(default_factory=list)
    entries: dict[str, tuple[Scalar, Node]] = field(default_factory=dict)
    key: Scalar | None = None


class _Builder:
    """Events in, a tree and findings out."""

    def __init__(self, text: str, name: str) -> None:
        self.name = name
        self.lines = text.split("\n")
        self.findings: list[Finding] = []
        self.stack: list[_Open] = []
        self.root: Node | None = None
        self.documents = 0

    def take(self, event: Any) -> bool:
        """Take one event; False when reading should stop."""
        place = Place(self.name, event.start_mark.line + 1, event.start_mark.column + 1)
        self._refuse_anchors_and_tags(event, place)
        if isinstance(event, yaml.ScalarEvent):
            self._add(self._scalar(event, place))
        elif isinstance(event, yaml.CollectionStartEvent):
            return self._open(isinstance(event, yaml.MappingStartEvent), place)
        elif isinstance(event, yaml.CollectionEndEvent):
            self._close()
        elif isinstance(event, yaml.AliasEvent):
            self._add(Scalar("", place))
        elif isinstance(event, yaml.DocumentStartEvent):
            return self._document(place)
        return True

    def _document(self, place: Place) -> bool:
        self.documents += 1
        if self.documents > 1:
            self._problem(
                "R110",
                place,
                "a second document starts here",
                "keep one record a file, and take the '---' line out",
            )
            return False
        return True

    def _refuse_anchors_and_tags(self, event: Any, place: Place) -> None:
        anchor = getattr(event, "anchor", None)
        if anchor is not None:
            sign = "*" if isinstance(event, yaml.AliasEvent) else "&"
            self._problem(
                "R109",
                place,
                f"'{sign}{anchor}' is an anchor or alias of YAML",
                "write the text out here; a value that starts with * or & is quoted",
            )
        tag = getattr(event, "tag", None)
        if tag is not None and tag != "!":
            self._problem(
                "R111",
                place,
                f"'{tag}' is a tag of YAML",
                "take it out; a value that starts with ! is quoted",
            )

    def _scalar(self, event: Any, place: Place) -> Scalar:
        is_plain = event.style in (None, "")  # the C parser says "", the other None
        empty = is_plain and event.value in _NULLS
        return Scalar(event.value, place, empty=empty)

    def _open(self, is_mapping: bool, place: Place) -> bool:
        if len(self.stack) >= DEEPEST:
            self._problem(
                "R104",
                place,
                f"more than {DEEPEST} levels are nested here",
                "check the indentation of this line and those above it",
            )
            return False
        self._claim_key(place)
        self.stack.append(_Open(place, is_mapping))
        return True

    def _claim_key(self, place: Place) -> None:
        """A mapping or list where a key is expected cannot become one."""
        if self.stack and self.stack[-1].is_mapping and self.stack[-1].key is None:
            self._problem(
                "R107",
                place,
                "a key is expected here, not a list or a mapping",
                "quote a text that starts with [ or {",
            )
            self.stack[-1].key = Scalar(f"?{place.line}:{place.column}", place)

    def _close(self) -> None:
        done = self.stack.pop()
        if done.is_mapping:
            self._add(Mapping(tuple(done.entries.values()), done.place))
        else:
            self._add(Listing(tuple(done.items), done.place))

    def _add(self, node: Node) -> None:
        if not self.stack:
            self.root = node
            return
        top = self.stack[-1]
        if not top.is_mapping:
            top.items.append(node)
            self._note_empty(node, "this list item")
        elif top.key is None:
            top.key = node if isinstance(node, Scalar) else None
        else:
            self._enter(top, top.key, node)
            top.key = None

    def _enter(self, top: _Open, key: Scalar, value: Node) -> None:
        if key.text == "<<":
            self._problem(
                "R109", key.place, "'<<' is a merge key of YAML", "write the keys out here"
            )
        elif key.text in top.entries:
            self._twice(key, top.entries[key.text][0])
        else:
            top.entries[key.text] = (key, value)
            self._note_empty(value, f"'{key.text}'")

    def _twice(self, key: Scalar, first: Scalar) -> None:
        self.findings.append(
            Finding(
                "R108",
                Severity.ERROR,
                key.place,
                f"the key '{key.text}' is written twice",
                ("keep one, or join the two",),
                (Related(first.place, "written first here"),),
            )
        )

    def _note_empty(self, node: Node, what: str) -> None:
        if not (isinstance(node, Scalar) and node.empty):
            return
        line = self.lines[node.place.line - 1] if node.place.line <= len(self.lines) else ""
        rest = line[node.place.column - 1 :].strip()
        self._problem("R112", node.place, f"{what} has no value", *_comment_cure(rest))

    def _problem(self, code: str, place: Place, text: str, *help_lines: str) -> None:
        self.findings.append(Finding(code, Severity.ERROR, place, text, help_lines))


def _comment_cure(rest: str) -> tuple[str, ...]:
    if rest.startswith("#"):
        value = rest.split(" #")[0].strip()
        return (
            f"YAML takes '{value}' for a comment, because it starts with #",
            f'write it in quotes: "{value}"',
        )
    return ("write the value, or take the key out",)


def parse(text: str, name: str) -> tuple[Node | None, tuple[Finding, ...]]:
    """The tree of `text`, or None, with every finding about its structure."""
    builder = _Builder(text, name)
    try:
        for event in yaml.parse(text, Loader=_LOADER):
            if not builder.take(event):
                return None, tuple(builder.findings)
    except yaml.YAMLError as error:
        builder.findings.append(_syntax(error, name))
        return None, tuple(builder.findings)
    return _record(builder, name)


def _record(builder: _Builder, name: str) -> tuple[Node | None, tuple[Finding, ...]]:
    if isinstance(builder.root, Mapping):
        return builder.root, tuple(builder.findings)
    found = "a list" if isinstance(builder.root, Listing) else "plain text"
    if builder.root is None or (isinstance(builder.root, Scalar) and builder.root.empty):
        found = "nothing"
    problem = Finding(
        "R110",
        Severity.ERROR,
        Place(name, 1, 1),
        f"a record is expected, {found} is here",
        ("start with lines like 'id: ...' and 'title: ...'",),
    )
    return None, (*builder.findings, problem)


def _syntax(error: yaml.YAMLError, name: str) -> Finding:
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    place = Place(name, mark.line + 1, mark.column + 1) if mark else Place(name, 1, 1)
    problem = str(getattr(error, "problem", None) or error).strip()
    code = "R104" if "nesting depth" in problem else "R107"
    return Finding(
        code,
        Severity.ERROR,
        place,
        f"the YAML cannot be understood: {problem}",
        _syntax_cure(problem),
    )


_CURES = (
    (
        "mapping values are not allowed",
        "a text with ': ' in it is quoted, or its indentation is off",
    ),
    ("did not find expected key", "check the indentation: keys of one record start in one column"),
    ("did not find expected '-'", "list items start in one column, each with '- '"),
    ("could not find expected ':'", "a key is followed by ': ' on its own line"),
    ("cannot start any token", "quote a text that starts with @, `, % or a tab"),
    ("unexpected end of stream", "a quote or bracket is opened and never closed"),
    ("did not find expected ',' or", "a [ or { is opened and never closed; or quote the text"),
)
"""What the parser says, and what usually caused it."""


def _syntax_cure(problem: str) -> tuple[str, ...]:
    return tuple(cure for said, cure in _CURES if said in problem) or (
        "look at this line and the one above it",
    )
