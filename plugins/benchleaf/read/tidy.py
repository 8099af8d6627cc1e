"""A YAML file put in order: two spaces a level, lists below their key, no loose blanks.

The library keeps comments and quotes. What it hands back is read again and held against what was
there: where a value or a comment is not the same, the file is left as it is.
"""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Iterator, Sequence
from copy import deepcopy
from pathlib import Path
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError
from ruamel.yaml.resolver import VersionedResolver

from benchleaf.diagnose import Finding, Place, Severity

from .document import document_of
from .text_file import read_text

WIDTH = 100
_COMMENT = re.compile(r"(?:^|(?<=\s))#.*$", re.MULTILINE)


class _Text(VersionedResolver):
    """Every value is text: the field decides what it means, so it is written as it was."""

    @property
    def versioned_resolver(self) -> dict[str, object]:
        """No sign at the start of a value makes it a number, a date or a truth."""
        return {}


def tidied(path: Path, name: str) -> tuple[bytes, bytes | None, tuple[Finding, ...]]:
    """The file as it is, as it should be (None where it must stay), and why it must stay."""
    text, problems = read_text(path, name)
    if text is None:
        return b"", None, problems
    before = path.read_bytes()
    document, problems = document_of(text, "", name)
    if document is None or any(one.blocks_publishing for one in problems):
        return before, None, problems
    after = tidied_text(text)
    if after is None:
        return before, None, (_left(name),)
    return before, after.encode(), ()


def tidied_text(text: str) -> str | None:
    """The text in order; None where its values or comments would not stay the same."""
    try:
        after = _rewritten(text)
        again = _rewritten(after)
    except (YAMLError, ValueError, AttributeError, NotImplementedError):
        return None
    is_same = _values(after) == _values(text) and _comments(after) == _comments(text)
    return after if is_same and again == after else None


def without(text: str, paths: Sequence[Sequence[str | int]]) -> str | None:
    """The text in order and without some keys; None where a comment or another value would go."""

    def drop(tree: Any) -> None:
        for *above, last in paths:
            inside = tree
            for step in above:
                inside = inside[step]
            del inside[last]

    try:
        after = _rewritten(text, drop)
        wanted = deepcopy(_values(text))
        drop(wanted)
    except (YAMLError, ValueError, AttributeError, NotImplementedError, LookupError):
        return None
    is_same = _values(after) == wanted and _comments(after) == _comments(text)
    return after if is_same else None


def _rewritten(text: str, change: Callable[[Any], None] = lambda _: None) -> str:
    yaml = YAML(typ="rt")
    yaml.Resolver = _Text
    yaml.preserve_quotes = True
    yaml.width = WIDTH
    yaml.indent(mapping=2, sequence=4, offset=2)
    out = io.StringIO()
    tree = yaml.load(text)
    change(tree)
    yaml.dump(tree, out)
    lines = [line.rstrip() for line in out.getvalue().strip("\n").split("\n")]
    return "\n".join(_with_comments_in_line(lines)) + "\n"


def _with_comments_in_line(lines: Sequence[str]) -> Iterator[str]:
    """A comment on a line of its own stands above what it speaks of, and as far in."""
    for at, line in enumerate(lines):
        is_comment = line.lstrip().startswith("#")
        below = (one for one in lines[at + 1 :] if one and not one.lstrip().startswith("#"))
        next_line = next(below, "") if is_comment else line
        indent = len(next_line) - len(next_line.lstrip())
        yield " " * indent + line.lstrip() if is_comment else line


def _values(text: str) -> object:
    document, _ = document_of(text, "", "")
    return document.value if document is not None else None


def _comments(text: str) -> list[str]:
    """Everything that may be a comment; a # inside a text counts on both sides alike."""
    return sorted(" ".join(found.split()) for found in _COMMENT.findall(text))


def _left(name: str) -> Finding:
    return Finding(
        "R115",
        Severity.WARNING,
        Place(name),
        "this file is left as it is: put in order, a value or a comment would change",
        ("put comments on lines of their own, above what they speak of",),
    )
