"""YAML text to a tree. Only structure is taken from YAML: every scalar stays text.

YAML 1.1 reads `3:1` as 181, `010` as 8 and `on` as true; here the field decides. The events of
the C parser are used where PyYAML has it; the tree is built without recursion, so depth is ours
to limit.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any

import yaml

from benchleaf.diagnose import Finding, Place, Related, Severity

from .syntax import syntax_finding
from .text_file import hidden_sign
from .tree import Listing, Mapping, Node, Scalar

DEEPEST = 12
"""No record needs more levels; the deepest, a check in a step, stands at six."""

MOST_KEYS, MOST_ENTRIES = 200, 50_000
"""Of one record and of one list. The longest record has some 40 keys; registers only grow."""

_LOADER: type[Any] = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_CUT = re.compile(r"\s+(#[^\s#].*)$")
NULLS = ("", "~", "null", "Null", "NULL")


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
            self._add(Scalar("", place, empty=True), quiet=True)
        elif isinstance(event, yaml.DocumentStartEvent):
            return self._document(place)
        return not (self.stack and self._is_full(self.stack[-1], place))

    def _is_full(self, top: _Open, place: Place) -> bool:
        count, most = len(top.items), MOST_ENTRIES
        if top.is_mapping:
            count, most = len(top.entries), MOST_KEYS
        if count <= most:
            return False
        self._problem(
            "R121",
            place,
            f"more than {most:,} {'keys' if top.is_mapping else 'entries'} stand in one place here",
            "no record needs so many: look where they come from",
        )
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
                f"'{tag.replace('tag:yaml.org,2002:', '!!')}' is a tag of YAML",
                "take it out; a value that starts with ! is quoted",
            )

    def _scalar(self, event: Any, place: Place) -> Scalar:
        is_plain = event.style in (None, "")  # the C parser says "", the other None
        hidden = hidden_sign(event.value) if event.style == '"' else None
        if hidden:
            self._problem(
                "R107",
                place,
                f"this text holds the invisible sign {hidden}, written by its number",
                "take it out; it can hide what a line really says",
            )
        if is_plain and event.value:
            self._note_cut(event)
        empty = is_plain and event.value in NULLS
        return Scalar(event.value, place, empty=empty)

    def _note_cut(self, event: Any) -> None:
        """An unquoted text that goes on with ` #7` is cut there; ` # so` is an honest comment."""
        line, column = event.end_mark.line, event.end_mark.column
        rest = self.lines[line][column:] if line < len(self.lines) else ""
        cut = _CUT.match(rest)
        if cut is not None:
            place = Place(self.name, line + 1, column + 1 + cut.start(1))
            self.findings.append(
                Finding(
                    "R114",
                    Severity.WARNING,
                    place,
                    f"the text ends before '{cut[1].strip()}': YAML takes the rest for a comment",
                    ("quote the whole text to keep it; for a comment write a space after the #",),
                )
            )

    def _open(self, is_mapping: bool, place: Place) -> bool:
        if len(self.stack) >= DEEPEST:
            self._problem(
                "R104",
                place,
                f"more than {DEEPEST} levels are nested here",
                "check the indentation of this line and those above it",
            )
            return False
        self.stack.append(_Open(place, is_mapping))
        return True

    def _close(self) -> None:
        done = self.stack.pop()
        if done.is_mapping:
            self._add(Mapping(tuple(done.entries.values()), done.place))
        else:
            self._add(Listing(tuple(done.items), done.place))

    def _add(self, node: Node, *, quiet: bool = False) -> None:
        """Put a finished node where it belongs; `quiet` for one that is reported already."""
        if not self.stack:
            self.root = node
            return
        top = self.stack[-1]
        if not top.is_mapping:
            top.items.append(node)
            if not quiet:
                self._note_empty(node, "this list item", "take the entry out")
        elif top.key is None:
            top.key = self._as_key(node)
        else:
            self._enter(top, top.key, node, quiet=quiet)
            top.key = None

    def _as_key(self, node: Node) -> Scalar:
        """A key is a text; for anything else a stand-in keeps the keys after it in step."""
        if isinstance(node, Scalar):
            return node
        self._problem(
            "R107",
            node.place,
            "a key is expected here, not a list or keys",
            "quote a text that starts with [ or {",
        )
        return Scalar(f"?{node.place.line}:{node.place.column}", node.place, empty=True)

    def _enter(self, top: _Open, key: Scalar, value: Node, *, quiet: bool) -> None:
        if key.text == "<<":
            self._problem(
                "R109", key.place, "'<<' is a merge key of YAML", "write the keys out here"
            )
        elif key.text.startswith("?") and key.empty:
            return
        elif key.text in top.entries:
            self._twice(key, top.entries[key.text][0])
        else:
            top.entries[key.text] = (key, value)
            if not quiet:
                self._note_empty(
                    value, f"'{key.text}'", "take the key out where it may be left out"
                )

    def _twice(self, key: Scalar, first: Scalar) -> None:
        self.findings.append(
            Finding(
                "R108",
                Severity.ERROR,
                key.place,
                f"the key '{key.text}' is written twice",
                (
                    "keep one, or join the two",
                    "for another entry of a list, write '- ' before its first key",
                ),
                (Related(first.place, "written first here"),),
            )
        )

    def _note_empty(self, node: Node, what: str, otherwise: str) -> None:
        if not (isinstance(node, Scalar) and node.empty):
            return
        line = self.lines[node.place.line - 1] if node.place.line <= len(self.lines) else ""
        rest = line[node.place.column - 1 :].strip()
        self._problem("R112", node.place, f"{what} has no value", *_comment_cure(rest, otherwise))

    def _problem(self, code: str, place: Place, text: str, *help_lines: str) -> None:
        self.findings.append(Finding(code, Severity.ERROR, place, text, help_lines))


def _comment_cure(rest: str, otherwise: str) -> tuple[str, ...]:
    if rest.startswith("# "):
        return (f"write the value before the comment, or {otherwise}",)
    if rest.startswith("#"):
        value = rest.split(" #")[0].strip()
        return (
            f"YAML takes '{value}' for a comment, because it starts with #",
            f'write it in quotes: "{value}"',
        )
    return (f"write the value, or {otherwise}",)


def parse(text: str, name: str) -> tuple[Node | None, tuple[Finding, ...]]:
    """The tree of `text`, or None, with every finding about its structure."""
    builder = _Builder(text, name)
    try:
        for event in yaml.parse(text, Loader=_LOADER):
            if not builder.take(event):
                return None, tuple(builder.findings)
    except yaml.YAMLError as error:
        builder.findings.append(syntax_finding(error, name, builder.lines))
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
