"""A comparison as one self-contained HTML page, for a reviewer: no script, nothing fetched."""

from __future__ import annotations

import base64
import mimetypes
import re
from collections.abc import Iterator
from dataclasses import dataclass
from difflib import SequenceMatcher

from benchleaf.diff import (
    HEADLINES,
    NO_CREW,
    Change,
    ChangeKind,
    Consequence,
    Effect,
    Report,
    Seen,
    blocks,
    by_record,
    by_set_up,
    due_groups,
    fingerprint_text,
    is_said,
    percent_text,
    revision_text,
    said,
)
from benchleaf.html.writer import Writer

FULL_BAR = 25.0
"""Percent at which the bar beside a figure is full."""


@dataclass(frozen=True, slots=True)
class Piece:
    """Some words of a text: `same`, `gone` or `come`."""

    kind: str
    words: str


@dataclass(frozen=True, slots=True)
class Block:
    """A paragraph, or an entry of a list."""

    is_entry: bool
    pieces: tuple[Piece, ...]


@dataclass(frozen=True, slots=True)
class Shown:
    """A picture on one side, as it stands in the page."""

    words: str
    source: str
    """The file itself, as an address of the kind `data:`; empty where it is too large."""


@dataclass(frozen=True, slots=True)
class EffectView:
    """One thing that follows."""

    place: str
    kind: str
    before: str
    after: str
    percent: str
    bar: float
    """-1 to 1: how far and which way a figure moved; 0 for none."""
    is_limit: bool
    """True for a limit or doubt, which one text says."""
    together: bool


@dataclass(frozen=True, slots=True)
class ChangeView:
    """One cause."""

    where: str
    kind: str
    before: tuple[Block, ...]
    after: tuple[Block, ...]
    pictures: tuple[Shown | None, Shown | None]
    why: str
    file: str
    jobs: tuple[str, ...]
    effects: tuple[tuple[str, tuple[EffectView, ...]], ...]


@dataclass(frozen=True, slots=True)
class Group:
    """All changes with one consequence, record by record."""

    css: str
    title: str
    count: int
    records: tuple[tuple[str, tuple[ChangeView, ...]], ...]


def comparison_page(report: Report) -> str:
    """The whole page."""
    return Writer(None).write(
        "comparison.html.jinja",
        "comparison.html",
        report=report,
        groups=tuple(_groups(report)),
        jobs=tuple(_jobs(report)),
        no_crew=NO_CREW,
        people=tuple(due_groups(report.due or ())),
    )


def _jobs(report: Report) -> Iterator[dict[str, object]]:
    for state in report.comparison.jobs:
        yield {
            "number": state.id.upper(),
            "title": state.title,
            "revision": revision_text(state, "→"),
            "fingerprint": fingerprint_text(state, "→"),
            "must_advance": state.must_advance,
            "css": _CSS[state.consequence],
            "consequence": state.consequence.value,
        }


_CSS = {
    Consequence.NOBODY_RUNS: "teach",
    Consequence.TEACH: "teach",
    Consequence.TELL: "tell",
    Consequence.NOTHING: "nothing",
}


def _groups(report: Report) -> Iterator[Group]:
    for consequence in Consequence:
        changes = report.of(consequence)
        if changes:
            records = tuple(
                (name, tuple(_view(one) for one in group)) for name, group in by_record(changes)
            )
            yield Group(_CSS[consequence], HEADLINES[consequence], len(changes), records)


def _view(change: Change) -> ChangeView:
    before, after = _pieces(change)
    jobs = () if change.record[0] == "jobs" else tuple(one.upper() for one in change.jobs)
    effects = tuple(
        (name, tuple(_effect(label, one) for label, one in group))
        for name, group in by_set_up(change.effects)
    )
    is_file = change.record[0] == "files"
    return ChangeView(
        change.where,
        change.kind.value,
        tuple(_blocks(before)),
        tuple(_blocks(after)),
        (_shown(change.seen[0], is_told=is_file), _shown(change.seen[1], is_told=is_file)),
        change.why,
        change.file,
        jobs,
        effects,
    )


def _shown(seen: Seen | None, *, is_told: bool) -> Shown | None:
    if seen is None:
        return None
    kind = mimetypes.guess_type(seen.name)[0] or "image/svg+xml"
    source = f"data:{kind};base64,{base64.b64encode(seen.data).decode()}" if seen.data else ""
    return Shown("" if is_told else seen.words, source)


def _blocks(pieces: tuple[Piece, ...]) -> Iterator[Block]:
    """Pieces to paragraphs and entries: a new line begins one."""
    lines: list[list[Piece]] = [[]]
    for piece in pieces:
        first, *others = piece.words.split("\n")
        lines[-1].append(Piece(piece.kind, first.strip()))
        lines += [[Piece(piece.kind, one.strip())] for one in others]
    for line in lines:
        whole = " ".join(one.words for one in line if one.words)
        ((mark, _),) = blocks(whole)
        if mark is not None:
            line = _without_mark(line)
        if any(one.words for one in line):
            yield Block(mark is not None, tuple(one for one in line if one.words))


def _without_mark(line: list[Piece]) -> list[Piece]:
    """An entry without the sign before it, which the page draws."""
    at = next(n for n, one in enumerate(line) if one.words)
    _, _, rest = line[at].words.partition(" ")
    return [*line[:at], Piece(line[at].kind, rest), *line[at + 1 :]]


def _pieces(change: Change) -> tuple[tuple[Piece, ...], tuple[Piece, ...]]:
    """Both texts; of a reworded one, the words that are on one side only are marked."""
    if change.kind is ChangeKind.REWORDED and change.before and change.after:
        return marked_words(change.before, change.after)
    texts = (change.before, change.after)
    before, after = ((Piece("same", one),) if one else () for one in texts)
    return before, after


_WORDS = re.compile(r"\n|[^\s]+")


def marked_words(before: str, after: str) -> tuple[tuple[Piece, ...], tuple[Piece, ...]]:
    """Both texts in pieces, with the words that only one of them has.

    >>> [piece.kind for piece in marked_words("Push it down.", "Push it up.")[1]]
    ['same', 'come']
    """
    olds, news = (_WORDS.findall(one) for one in (before, after))
    gone: list[Piece] = []
    come: list[Piece] = []
    for what, a, b, c, d in SequenceMatcher(None, olds, news, autojunk=False).get_opcodes():
        if a < b:
            gone.append(Piece("same" if what == "equal" else "gone", " ".join(olds[a:b])))
        if c < d:
            come.append(Piece("same" if what == "equal" else "come", " ".join(news[c:d])))
    return tuple(gone), tuple(come)


def _effect(label: str, effect: Effect) -> EffectView:
    bar = 0.0 if effect.percent is None else max(-1.0, min(1.0, effect.percent / FULL_BAR))
    return EffectView(
        label,
        effect.kind.value,
        effect.before or "nothing",
        said(effect) if is_said(effect) else effect.after or "nothing",
        percent_text(effect),
        bar,
        is_said(effect),
        effect.together,
    )
