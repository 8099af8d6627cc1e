"""Set-up figures on either side: which moved, by how much, and which limits broke or cleared."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from benchleaf.compute import SetUpSheet
from benchleaf.meaning import About, Move, MoveKind, moves, reckoned

from .change import Effect, EffectKind


def figure_effects(
    job_id: str, old: Sequence[SetUpSheet], new: Sequence[SetUpSheet]
) -> tuple[Effect, ...]:
    """Every figure, limit and doubt that differs between a job's set-ups on either side.

    A set-up on one side only is no moved figure; its limits are told all the same.
    """
    both = {one.id for one in old} & {one.id for one in new}
    sides = [[one for sheet in side for one in reckoned(sheet)] for side in (old, new)]
    labels = {
        f"set_ups/{sheet.id}/{row.key}": row.label
        for sheet in (*old, *new)
        for row in sheet.as_read.rows
    }
    return tuple(
        effect
        for move in moves(*sides)
        for effect in _effects(job_id, move, labels)
        if effect.kind is not EffectKind.FIGURE or move.one.subject.split("/")[1] in both
    )


_CROSSED = {
    (About.LIMIT, MoveKind.NEW): EffectKind.LIMIT_BROKEN,
    (About.LIMIT, MoveKind.GONE): EffectKind.LIMIT_CLEARED,
    (About.DOUBT, MoveKind.NEW): EffectKind.DOUBT,
    (About.DOUBT, MoveKind.GONE): EffectKind.DOUBT_CLEARED,
}


def _effects(job_id: str, move: Move, labels: Mapping[str, str]) -> Iterator[Effect]:
    _, set_up, code = move.one.subject.split("/")
    record, place = ("jobs", job_id), f"set-up {set_up}"
    before, after = move.words
    crossed = _CROSSED.get((move.one.about, move.kind))
    if crossed is not None:
        code = code.split(" ", 1)[1]
        yield Effect(crossed, record, place, before, after, code=code, subject=move.one.subject)
        return
    label = labels[move.one.subject]
    yield Effect(
        EffectKind.FIGURE,
        record,
        f"{place}, {label}",
        before,
        after,
        move.percent,
        code=code,
        subject=move.one.subject,
    )


def effects_of(job_id: str, move: Move) -> Iterator[Effect]:
    """What moved in a set-up, of a statement alone; nothing for any other statement."""
    one = move.one
    if one.about not in (About.FIGURE, About.SETTING, About.LIMIT, About.DOUBT):
        return
    if len(one.subject.split("/")) == _OF_SET_UP and one.subject.startswith("set_ups/"):
        label = one.where.rpartition(", ")[2]
        yield from _effects(job_id, move, {one.subject: label})


_OF_SET_UP = 3
"""Parts of the subject of what is reckoned for a set-up."""
