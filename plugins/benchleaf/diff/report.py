"""What a comparison's printers are given, and the words that they share."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from benchleaf.meaning import SHOWN

from .change import Change, ChangeKind, Comparison, Consequence, Effect, EffectKind, JobState
from .due import Due

NO_CREW = "No crew folder was given: who must be taught again is not known here."

SIGN_AGAIN = "explain back and sign again"
"""What follows for a page that was signed, where a job is taught again."""

HEADLINES = {
    Consequence.NOBODY_RUNS: "Nobody runs it",
    Consequence.TEACH: "Teach again before next run",
    Consequence.TELL: "Tell",
    Consequence.NOTHING: "Nothing to teach",
}
"""Headings of the three groups, gravest first."""


@dataclass(frozen=True, slots=True)
class Report:
    """A comparison with the names of both sides, and who is due."""

    comparison: Comparison
    old: str
    """What was compared, in words, such as `1a2b3c4 (merge base with main)`."""
    new: str
    due: tuple[Due, ...] | None
    """None where no crew was given."""
    notes: tuple[str, ...] = ()
    """What a reader should know of the comparison itself."""

    def of(self, consequence: Consequence) -> tuple[Change, ...]:
        """The changes with one consequence, record by record."""
        found = (one for one in self.comparison.changes if one.consequence is consequence)
        return tuple(found)

    def summary(self) -> str:
        """The whole in one line."""
        changes = self.comparison.changes
        if not changes:
            return "No change of meaning."
        counts = Counter(one.consequence for one in changes)
        parts = [f"{counts[one]} {_TO_DO[one]}" for one in Consequence if counts[one]]
        effects = {
            (one.kind, one.record, one.place, one.code)
            for change in changes
            for one in change.effects
        }
        kinds = Counter(kind for kind, *_ in effects)
        moved = [
            f"{count_of(kinds[kind], word)} {what}" for kind, word, what in _COUNTED if kinds[kind]
        ]
        return f"{count_of(len(changes), 'change')}: {', '.join(parts)}." + (
            f" {', '.join(moved)}." if moved else ""
        )

    def broken(self) -> tuple[tuple[str, str], ...]:
        """Each limit that is newly broken: the job with its set-up, and the reason."""
        effects = (
            one
            for change in self.comparison.changes
            for one in change.effects
            if one.kind is EffectKind.LIMIT_BROKEN
        )
        found = ((f"{one.record[1].upper()}, {one.place}", said(one)) for one in effects)
        return tuple(dict.fromkeys(found))

    def must_advance(self) -> tuple[JobState, ...]:
        """Jobs whose revision must advance."""
        return tuple(one for one in self.comparison.jobs if one.must_advance)


_TO_DO = {
    Consequence.NOBODY_RUNS: "that let nobody run",
    Consequence.TEACH: "to teach again",
    Consequence.TELL: "to tell",
    Consequence.NOTHING: "with nothing to teach",
}
_COUNTED = (
    (EffectKind.LIMIT_BROKEN, "limit", "newly broken"),
    (EffectKind.LIMIT_CLEARED, "limit", "cleared"),
    (EffectKind.FIGURE, "set-up figure", "moved"),
    (EffectKind.SIGNAL_WORD, "signal word", "changed"),
)


def count_of(number: int, word: str) -> str:
    """`1 change`, `2 changes`."""
    return f"{number} {word}{'' if number == 1 else 's'}"


def by_record(changes: tuple[Change, ...]) -> Iterator[tuple[str, list[Change]]]:
    """Changes of one record together, in the order in which the records come."""
    found: dict[tuple[str, str], list[Change]] = {}
    for one in changes:
        found.setdefault(one.record, []).append(one)
    for group in found.values():
        yield group[0].name, group


def by_set_up(effects: tuple[Effect, ...]) -> Iterator[tuple[str, list[tuple[str, Effect]]]]:
    """Effects of one set-up or record together, each with the rest of its place.

    Jobs are called by their number: `TR-0110, set-up fixing-holes`.
    """
    found: dict[str, list[tuple[str, Effect]]] = {}
    for one in effects:
        kind, name = one.record
        shown = name.upper() if kind in ("jobs", "parts") else f"{kind.removesuffix('s')} {name}"
        place, _, rest = one.place.partition(", ")
        is_set_up = place.startswith("set-up ")
        heading = f"{shown}, {place}" if is_set_up else shown
        label = (rest if is_set_up else one.place) or one.kind.value
        found.setdefault(heading, []).append((label, one))
    yield from found.items()


def percent_text(effect: Effect) -> str:
    """`+4.2 %`, or nothing where there is no number to give."""
    return "" if effect.percent is None else f"{effect.percent:+.1f} %"


def is_said(effect: Effect) -> bool:
    """True for a limit or a doubt: one text says it, on whichever side it stands."""
    return effect.kind in _SAID


_SAID = (
    EffectKind.LIMIT_BROKEN,
    EffectKind.LIMIT_CLEARED,
    EffectKind.DOUBT,
    EffectKind.DOUBT_CLEARED,
)


def said(effect: Effect) -> str:
    """The text of a limit or doubt."""
    return effect.after or effect.before or ""


def revision_text(state: JobState, arrow: str) -> str:
    """`revision 2 → 3`, `revision 2`, `new, revision 1` or `gone, was revision 2`."""
    old, new = state.old_revision, state.new_revision
    if old is None:
        return "new, draft" if new == "draft" else f"new, revision {new}"
    if new is None:
        return f"gone, was revision {old}"
    if old == new:
        return new if new == "draft" else f"revision {new}"
    return f"revision {old} {arrow} {new}"


def fingerprint_text(state: JobState, arrow: str) -> str:
    """The first digits of the fingerprint on either side."""
    ends = (one[:SHOWN] for one in (state.old_fingerprint, state.new_fingerprint) if one)
    return f" {arrow} ".join(dict.fromkeys(ends))


def headline(change: Change) -> str:
    """Where and what, such as `step 'Clamp', key point 2, reason: reworded`."""
    if not change.where:
        return change.kind.value
    return f"{change.where}: {change.kind.value}"


def is_pair(change: Change) -> bool:
    """True for short values that read well side by side, such as 0.12 → 0.15 mm/rev."""
    if change.before is None or change.after is None or change.kind is ChangeKind.REWORDED:
        return False
    if any(change.seen):
        return False
    return len(change.before) + len(change.after) <= _SIDE_BY_SIDE


_SIDE_BY_SIDE = 70
_MARK = re.compile(r"(?:[-*+]|(\d+[.)])) +")


def blocks(text: str) -> tuple[tuple[str | None, str], ...]:
    """Each line of a text: the mark of an entry of a list, None for a paragraph; and its words.

    >>> blocks("Stop.\\n- Wait.\\n2. Look.")
    ((None, 'Stop.'), ('-', 'Wait.'), ('2.', 'Look.'))
    """
    found = []
    for line in text.split("\n"):
        mark = _MARK.match(line)
        found.append(((mark[1] or "-") if mark else None, line[mark.end() :] if mark else line))
    return tuple(found)


def is_list(text: str) -> bool:
    """True for a text of several paragraphs, or with an entry of a list."""
    return "\n" in text or _MARK.match(text) is not None


def due_groups(due: tuple[Due, ...]) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    """Job, what is due and by when, and the staff codes, job by job."""
    found: dict[tuple[str, str], list[str]] = {}
    for one in due:
        is_closed = one.consequence is Consequence.NOBODY_RUNS  # no day makes it safe
        word = one.consequence.value
        if one.is_page and one.consequence is Consequence.TEACH:
            word = SIGN_AGAIN
        what = word if is_closed else f"{word}, by {one.by}"
        on = one.revision if one.is_page else f"revision {one.revision}"
        stale = f" (stale already, signed off on {on})" if one.was_stale else ""
        name = one.job if one.is_page else one.job.upper()
        found.setdefault((name, what), []).append(f"{one.staff}{stale}")
    for (job, what), staff in found.items():
        yield job, what, tuple(staff)
