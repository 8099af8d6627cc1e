"""A record's tree as the text of a job file; what is still open is marked where it belongs."""

from __future__ import annotations

import json
import re
import textwrap
from collections.abc import Iterator, Mapping, Sequence

from benchleaf import read
from benchleaf.diagnose import Place
from benchleaf.model import OPEN_MARK, Record, Trait, classes_below, has
from benchleaf.model.schema import described, example_of, is_free_text
from benchleaf.read import Listing, Node, Scalar

from .tables import is_list

WIDTH = 100
_PLAIN = re.compile(r"[A-Za-z0-9\[]")
OPEN = "# open: "


Notes = Mapping[tuple[str | int, ...], Sequence[str]]
"""Comments above the value at a place."""


def job_text(
    cls: type[Record], tree: Node, notes: Notes | None = None, *, is_issued: bool = False
) -> str:
    """The file, each needed key that is open marked; `notes` are comments above a place.

    Where `is_issued`, what a release gives is not asked for.
    """
    writing = _Writing(notes or {}, is_issued=is_issued)
    return "\n".join(writing.mapping((cls,), tree, (), "")) + "\n"


class _Writing:
    """Lines of a file, from the top down."""

    def __init__(self, notes: Notes, *, is_issued: bool = False) -> None:
        self.notes, self.is_issued = notes, is_issued

    def mapping(
        self, classes: tuple[type[Record], ...], node: Node, path: tuple[str | int, ...], left: str
    ) -> Iterator[str]:
        """The keys of one record in the order of its class, then those that are needed and open."""
        entries = {key.text: value for key, value in node.entries} if isinstance(
            node, read.Mapping
        ) else {}  # fmt: skip
        known = list(dict.fromkeys(key for one in classes for key in one.model_fields))
        for key in (*known, *(one for one in entries if one not in known)):
            value = entries.get(key)
            owner = next((one for one in classes if key in one.model_fields), None)
            if value is not None:
                for note in self.notes.get((*path, key), ()):
                    yield from _comment(note, left)
                yield from self._entry(classes, key, value, (*path, key), left)
            elif owner and len(classes) == 1 and self._is_wanted(owner, key):
                yield from self._open(owner, key, path, left)

    def _open(
        self, owner: type[Record], key: str, path: tuple[str | int, ...], left: str
    ) -> Iterator[str]:
        """A needed key that nobody gave: a text to be written, an empty value, or a record."""
        inner = classes_below((owner,), key)
        if inner:
            entry: Node = read.Mapping((), Place(""))
            value = Listing((entry,), Place("")) if is_list(owner, key) else entry
            yield from self._entry((owner,), key, value, (*path, key), left)
            return
        said, example = _first(described(owner, key)), f"for example: {example_of(owner, key)}"
        is_text = is_free_text(owner, key) and not has(owner, key, Trait.ISSUED)
        yield from _comment(OPEN[2:] + (example if is_text else said), left)
        head, below = (f"{key}:\n{left}  -", "    ") if is_list(owner, key) else (f"{key}:", "  ")
        if not is_text:
            yield from f"{left}{head}  # {example}".split("\n")
            return
        first, *others = _scalar(f"{left}{head}", f"{OPEN_MARK} {said}", left + below)
        yield from (*first.split("\n"), *others)

    def _is_wanted(self, owner: type[Record], key: str) -> bool:
        if self.is_issued and has(owner, key, Trait.ISSUED):
            return False
        return owner.model_fields[key].is_required()

    def _entry(
        self,
        classes: tuple[type[Record], ...],
        key: str,
        value: Node,
        path: tuple[str | int, ...],
        left: str,
    ) -> Iterator[str]:
        inner = classes_below(tuple(one for one in classes if key in one.model_fields), key)
        if isinstance(value, Scalar):
            yield from _scalar(f"{left}{key}:", value.text, f"{left}  ")
        elif isinstance(value, read.Mapping):
            yield f"{left}{key}:"
            yield from self.mapping(inner, value, path, f"{left}  ")
        else:
            yield f"{left}{key}:"
            yield from self._list(inner, value, path, f"{left}  ")

    def _list(
        self,
        inner: tuple[type[Record], ...],
        value: Listing,
        path: tuple[str | int, ...],
        left: str,
    ) -> Iterator[str]:
        for index, item in enumerate(value.items):
            for note in self.notes.get((*path, index), ()):
                yield from _comment(note, left)
            if isinstance(item, Scalar):
                yield from _scalar(f"{left}-", item.text, f"{left}  ")
                continue
            lines = list(self.mapping(_chosen(inner, item), item, (*path, index), f"{left}  "))
            start = next(at for at, line in enumerate(lines) if not line.lstrip().startswith("#"))
            yield from (f"{left}{line.strip()}" for line in lines[:start])
            yield f"{left}- {lines[start].lstrip()}"
            yield from lines[start + 1 :]


def _chosen(classes: tuple[type[Record], ...], item: Node) -> tuple[type[Record], ...]:
    """The class that an entry is of, where a word of it chooses."""
    word = read.child(item, "operation")
    if len(classes) < 2 or not isinstance(word, Scalar):
        return classes
    fits = tuple(one for one in classes
                 if word.text in str(one.model_fields["operation"].annotation))  # fmt: skip
    return fits or classes


def _first(text: str) -> str:
    return " ".join(text.split())


def _comment(text: str, left: str) -> Iterator[str]:
    for line in textwrap.wrap(text, WIDTH - len(left) - 2):
        yield f"{left}# {line}"


def _scalar(head: str, text: str, left: str) -> Iterator[str]:
    """A value on the line of its key, folded below it where it is long, or quoted."""
    if _can_fold(text) and len(head) + len(text) >= WIDTH:
        yield f"{head} >-"
        yield from textwrap.wrap(
            text, WIDTH, initial_indent=left, subsequent_indent=left,
            break_long_words=False, break_on_hyphens=False,
        )  # fmt: skip
        return
    if _must_quote(text):
        yield f"{head} {json.dumps(text, ensure_ascii=False)}"
    else:
        yield f"{head} {text}"


def _can_fold(text: str) -> bool:
    """True where folding and unfolding give the same text."""
    return (
        "  " not in text
        and text.strip() == text
        and (not re.search(r"[\n\t\r\f\v\x85\u2028\u2029\u00a0]", text))
    )


def _must_quote(text: str) -> bool:
    """True where the text alone on its line would not be read as the same text."""
    document, findings = read.document_of(f"x: {text}\n", "", "")
    return bool(findings) or document is None or document.value != {"x": text}
