"""Two meanings of one job to the statements that moved between them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import compress
from operator import not_

from .parted import parted
from .statement import About, Fact, Statement, Value


class MoveKind(StrEnum):
    """What happened to a statement."""

    NEW = "new"
    GONE = "gone"
    OTHER = "says something else"
    MOVED = "moved"
    """The same, in another order."""


@dataclass(frozen=True, slots=True)
class Move:
    """A statement that moved."""

    kind: MoveKind
    before: Statement | None
    after: Statement | None

    @property
    def one(self) -> Statement:
        """The statement as it is now, or as it was where it is gone."""
        found = self.after or self.before
        assert found is not None
        return found

    @property
    def words(self) -> tuple[str | None, str | None]:
        """As it is shown on either side, with the digits that tell two numbers apart."""
        before, after = self.before, self.after
        if before is None or after is None:
            return before.words if before else None, after.words if after else None
        return parted(before.words, after.words, before.numbers, after.numbers)

    @property
    def abouts(self) -> tuple[About, ...]:
        """What it is about on either side."""
        both = (one.about for one in (self.before, self.after) if one is not None)
        return tuple(dict.fromkeys(both))

    @property
    def percent(self) -> float | None:
        """How far a number moved in percent of what it was; of a range the end that moved most.

        None where there is no number on a side, or a zero before.
        """
        if self.before is None or self.after is None:
            return None
        return percent_moved(self.before.numbers, self.after.numbers)

    def rests_on(self, old: Fact | None, new: Fact | None) -> bool:
        """True where a side of it rests on a value, or on one inside it."""
        return _touches(self.before, old) or _touches(self.after, new)


def percent_moved(old: tuple[float, float] | None, new: tuple[float, float] | None) -> float | None:
    """How far numbers moved, of the value before."""
    if old is None or new is None:
        return None
    if any(before == 0 and after != 0 for before, after in zip(old, new, strict=True)):
        return None
    ends = zip(old, new, strict=True)
    found = [100 * (after - before) / abs(before) if before else 0.0 for before, after in ends]
    return max(found, key=abs)


def _touches(one: Statement | None, fact: Fact | None) -> bool:
    if one is None or fact is None:
        return False
    record, path = fact
    return any(known == record and own[: len(path)] == path for known, own in one.facts)


def moves(old: Sequence[Statement], new: Sequence[Statement]) -> tuple[Move, ...]:
    """Every statement that moved. Entries of one list are compared with one another."""
    if old == new:
        return ()
    olds, news, points = _grouped(old), _grouped(new), {**_points(old), **_points(new)}
    found = [
        move
        for group in dict.fromkeys((*olds, *news))
        for move in _of_group(olds.get(group, []), news.get(group, []), points)
    ]
    return tuple(found)


def _grouped(meaning: Iterable[Statement]) -> dict[str, list[Statement]]:
    found: dict[str, list[Statement]] = {}
    for one in meaning:
        found.setdefault(one.group, []).append(one)
    return found


Points = Mapping[int, Value]
"""What a key point says, by each statement that is its kind or its reason."""


def _points(meaning: Sequence[Statement]) -> Points:
    said = {one.subject: one.value for one in meaning if one.subject.endswith("/point")}
    found = ((id(one), said.get(f"{one.subject.rpartition('/')[0]}/point")) for one in meaning)
    return {key: value for key, value in found if value is not None}


def _of_group(old: list[Statement], new: list[Statement], points: Points) -> Iterator[Move]:
    if (old and old[0].about is About.ORDER) or (new and new[0].about is About.ORDER):
        yield from _of_order(old, new)
        return
    same = Counter(_said(one) for one in old) & Counter(_said(one) for one in new)
    rest_old, kept_old = _without(old, same, new, points)
    rest_new, kept_new = _without(new, same, old, points)
    in_order = [_said(one) for one in kept_old] == [_said(one) for one in kept_new]
    if not in_order and _is_listed(kept_new):
        yield _first_moved(kept_old, kept_new)
    for before, after in zip(rest_old, rest_new, strict=False):
        yield Move(MoveKind.OTHER, before, after)
    for before in rest_old[len(rest_new) :]:
        yield Move(MoveKind.GONE, before, None)
    for after in rest_new[len(rest_old) :]:
        yield Move(MoveKind.NEW, None, after)


def _first_moved(old: list[Statement], new: list[Statement]) -> Move:
    """The first entry that stands where another stood."""
    after = next(b for a, b in zip(old, new, strict=True) if _said(a) != _said(b))
    before = next(one for one in old if _said(one) == _said(after))
    return Move(MoveKind.MOVED, before, after)


def _of_order(old: list[Statement], new: list[Statement]) -> Iterator[Move]:
    """Entries with ids in another order; what is new or gone is told by its own statements."""
    before, after = (list(side[0].value) if side else [] for side in (old, new))
    both = set(before) & set(after)
    if [one for one in before if one in both] != [one for one in after if one in both]:
        yield Move(MoveKind.MOVED, old[0], new[0])


def _said(one: Statement) -> tuple[object, ...]:
    return one.about, one.value


def _without(
    meaning: list[Statement],
    same: Counter[tuple[object, ...]],
    others: list[Statement],
    points: Points,
) -> tuple[list[Statement], list[Statement]]:
    """Those that only this side has, and the others.

    Of several that say the same, such as two kinds of key points, first that of the same key point
    stays, then that at the same place: else a change would be told of the wrong one.
    """
    beside = {(_said(one), points.get(id(one))) for one in others}
    at = {(_said(one), one.subject) for one in others}
    left, kept = Counter(same), set[int]()

    def rank(one: Statement) -> tuple[bool, bool]:
        is_beside = points.get(id(one)) is not None and (_said(one), points[id(one)]) in beside
        return not is_beside, (_said(one), one.subject) not in at

    for one in sorted(meaning, key=rank):
        if left[_said(one)] > 0:
            left[_said(one)] -= 1
            kept.add(id(one))
    is_kept = [id(one) in kept for one in meaning]
    return list(compress(meaning, map(not_, is_kept))), list(compress(meaning, is_kept))


def _is_listed(kept: list[Statement]) -> bool:
    """True for entries of a list whose order counts: their subjects differ by positions."""
    return bool(kept) and kept[0].subject != kept[-1].subject
