"""Two records as plain values to their differences, entry by entry, down to single values."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from benchleaf.meaning.folding import folded_text
from benchleaf.model import Record, class_of, order_is_free

from .change import ChangeKind, Difference, Path
from .pairing import pairs

_NONE = object()


def plain(record: Record) -> dict[str, Any]:
    """A record as plain values: what is as it would be anyway is left out, texts are on one line.

    So key order, quoting, comments and line breaks are gone.
    """
    folded: dict[str, Any] = _folded(dumped(record))
    return folded


def dumped(record: Record) -> dict[str, Any]:
    """A record as plain values, texts as they are."""
    return record.model_dump(mode="json", exclude_defaults=True)


def _folded(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _folded(one) for key, one in value.items()}
    if isinstance(value, list):
        return [_folded(one) for one in value]
    return folded_text(value) if isinstance(value, str) else value


def differences(
    old: Any, new: Any, old_path: Path = (), new_path: Path = ()
) -> Iterator[Difference]:
    """Every difference between two plain values; each is told once, as deep as it goes."""
    if isinstance(old, dict) and isinstance(new, dict):
        yield from _of_keys(old, new, old_path, new_path)
    elif isinstance(old, list) and isinstance(new, list):
        yield from _of_lists(old, new, old_path, new_path)
    elif old != new:
        yield Difference(ChangeKind.CHANGED, old_path, new_path, old, new)


def _of_keys(
    old: dict[str, Any], new: dict[str, Any], old_path: Path, new_path: Path
) -> Iterator[Difference]:
    for key in dict.fromkeys((*old, *new)):
        before, after = old.get(key, _NONE), new.get(key, _NONE)
        at = (*old_path, key), (*new_path, key)
        if before is _NONE and isinstance(after, list):
            yield from _of_lists([], after, *at)
        elif after is _NONE and isinstance(before, list):
            yield from _of_lists(before, [], *at)
        elif before is _NONE:
            yield Difference(ChangeKind.ADDED, *at, None, after)
        elif after is _NONE:
            yield Difference(ChangeKind.REMOVED, *at, before, None)
        else:
            yield from differences(before, after, *at)


def _of_lists(
    old: list[Any], new: list[Any], old_path: Path, new_path: Path
) -> Iterator[Difference]:
    if old == new:
        return
    found = pairs(old, new)
    old_of = {j: i for i, j in found}
    if [i for i, _ in found] != sorted(old_of.values()):
        befores = [old[i] for i in sorted(old_of.values())]
        afters = [new[j] for j in sorted(old_of)]
        yield Difference(ChangeKind.MOVED, old_path, new_path, befores, afters)
    for i in range(len(old)):
        if i not in old_of.values():
            at = (*old_path, i), new_path
            yield Difference(ChangeKind.REMOVED, *at, old[i], None)
    for j in range(len(new)):
        if j in old_of:
            at = (*old_path, old_of[j]), (*new_path, j)
            yield from differences(old[old_of[j]], new[j], *at)
        else:
            yield Difference(ChangeKind.ADDED, old_path, (*new_path, j), None, new[j])


def is_order_only(kind: str, difference: Difference) -> bool:
    """True where only the order of a list changed whose order carries no meaning."""
    is_move = difference.kind is ChangeKind.MOVED
    return is_move and order_is_free(class_of(kind), difference.path)
