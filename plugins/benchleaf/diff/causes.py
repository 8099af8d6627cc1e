"""Effects to their causes: which edit moved which figure, word or route, in whatever record.

Where one edit alone can have moved a job's figures, it has. Where several can, each is put into
the old shop by itself and the set-ups are reckoned again: it owns the figures that then move.
"""

from __future__ import annotations

import copy
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from pydantic import ValidationError

from benchleaf.compute import set_up_sheets
from benchleaf.meaning import Move
from benchleaf.model import Record, Shop

from .area import Area
from .change import Change, ChangeKind, Difference, Effect, RecordKey, Side
from .differences import plain
from .figures import figure_effects

_RECKONED = (
    Area.FIGURE, Area.TOOL, Area.MATERIAL, Area.MACHINE, Area.PART, Area.HOLDING, Area.SET_UP,
)  # fmt: skip
"""Areas that the reckoning reads."""


@dataclass(frozen=True, slots=True)
class Context:
    """Both sides with the same ids, and the records that each job uses on either."""

    was: Side
    now: Side
    uses: Mapping[str, frozenset[RecordKey]]
    moves: Mapping[str, tuple[Move, ...]]
    """What moved in the meaning of each job that both sides have."""


def with_figure_effects(changes: Sequence[Change], context: Context) -> list[Change]:
    """The changes with the figures and limits that each of them moved."""
    found: dict[int, list[Effect]] = {}
    for job_id in context.now.shop.jobs:
        old, new = (side.sheets.get(job_id, ()) for side in (context.was, context.now))
        effects = figure_effects(job_id, old, new) if old != new else ()
        if effects:
            near = [n for n, one in enumerate(changes) if _may_move(one, job_id, context)]
            for n, effect in _owned(effects, near, changes, job_id, context):
                found.setdefault(n, []).append(effect)
    return [
        replace(one, effects=(*one.effects, *found.get(n, ()))) for n, one in enumerate(changes)
    ]


def _may_move(change: Change, job_id: str, context: Context) -> bool:
    near = change.record == ("jobs", job_id) or change.record in context.uses[job_id]
    is_steady = change.kind in (ChangeKind.MOVED, ChangeKind.RENAMED)
    is_job = change.area == Area.JOB
    return near and not is_steady and (is_job or change.area in _RECKONED)


def _owned(
    effects: Sequence[Effect],
    near: Sequence[int],
    changes: Sequence[Change],
    job_id: str,
    context: Context,
) -> Iterator[tuple[int, Effect]]:
    """Each effect with every change that owns it."""
    if len(near) <= 1:
        yield from ((n, effect) for n in near for effect in effects)
        return
    moved = {n: _moved_by(changes[n], job_id, context) for n in near}
    for effect in effects:
        owners = [n for n in near if _key(effect) in moved[n]] or list(near)
        for n in owners:
            yield n, replace(effect, together=len(owners) > 1)


def _key(effect: Effect) -> tuple[str, str, str]:
    return effect.kind, effect.place, effect.code


def _moved_by(change: Change, job_id: str, context: Context) -> set[tuple[str, str, str]]:
    """What moves in a job when the old shop has this one change."""
    shop = _with_one(change, context)
    if shop is None:
        return set()
    sheets = set_up_sheets(shop, shop.jobs[job_id])
    effects = figure_effects(job_id, context.was.sheets.get(job_id, ()), sheets)
    return {_key(effect) for effect in effects}


def _with_one(change: Change, context: Context) -> Shop | None:
    """The old shop with one change, or None where that alone is no valid record."""
    kind, record_id = change.record
    shop = context.was.shop
    record = shop.of_kind(kind).get(record_id)
    if record is None:
        return _put_in(shop, kind, record_id, context.now.shop.of_kind(kind).get(record_id))
    try:
        values = applied(change.difference, plain(record))
        return _put_in(shop, kind, record_id, type(record).model_validate(values))
    except (ValidationError, LookupError, TypeError):
        return None


def _put_in(shop: Shop, kind: str, record_id: str, record: Record | None) -> Shop | None:
    if record is None:
        return None
    changed: dict[str, Any] = {kind: {**shop.of_kind(kind), record_id: record}}
    return replace(shop, **changed)


def applied(difference: Difference, values: dict[str, Any]) -> dict[str, Any]:
    """Plain values of the old record with one difference put in."""
    result = copy.deepcopy(values)
    *above, last = difference.old_path
    owner: Any = result
    for step in above:
        owner = owner[step]
    if difference.kind is ChangeKind.REMOVED:
        del owner[last]
    elif len(difference.old_path) < len(difference.new_path):  # a new entry of a list
        owner.setdefault(last, []).append(difference.after)
    else:
        owner[last] = difference.after
    return result
