"""Which entry of an old list is which entry of the new one: by equality, id, likeness, position.

Every measure here is the same from either side, so that a comparison read backwards is the same
comparison.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import Any

from benchleaf.meaning.folding import LIKE, dice, words

RECORD_LIKE = 0.9
"""The same for whole records, words and numbers each: two gauges differ in little but a size."""

Pair = tuple[int, int]


def pairs(old: Sequence[Any], new: Sequence[Any]) -> list[Pair]:
    """Positions of entries that are one and the same, in the order of the new list."""
    found: dict[int, int] = {}
    _pair_equal(old, new, found)
    _pair_ids(old, new, found)
    if any(isinstance(one, dict) for one in (*old, *new)):
        _pair_like(old, new, found)
    _pair_gaps(old, new, found)
    return sorted(found.items(), key=lambda pair: pair[1])


def _free(count: int, taken: Iterable[int]) -> list[int]:
    used = set(taken)
    return [index for index in range(count) if index not in used]


def _pair_equal(old: Sequence[Any], new: Sequence[Any], found: dict[int, int]) -> None:
    """Equal entries, the first with the first."""
    waiting: dict[str, list[int]] = {}
    for j, one in enumerate(new):
        waiting.setdefault(repr(one), []).append(j)
    for i, one in enumerate(old):
        same = waiting.get(repr(one))
        if same:
            found[i] = same.pop(0)


def _pair_ids(old: Sequence[Any], new: Sequence[Any], found: dict[int, int]) -> None:
    free = _free(len(new), found.values())
    by_id = {name: j for j in free if (name := _id(new[j])) is not None}
    for i in _free(len(old), found):
        name = _id(old[i])
        if name is not None and name in by_id:
            found[i] = by_id[name]


def _id(entry: Any) -> str | None:
    return entry.get("id") if isinstance(entry, dict) else None


def _pair_like(old: Sequence[Any], new: Sequence[Any], found: dict[int, int]) -> None:
    """The likest first; at one likeness those that stand nearest to one another."""
    rest_old, rest_new = _free(len(old), found), _free(len(new), found.values())
    for i, j in like_pairs([old[i] for i in rest_old], [new[j] for j in rest_new], LIKE):
        found[rest_old[i]] = rest_new[j]


def _likeness_of_records(old: Counter[str], new: Counter[str]) -> float:
    """The least of the likeness of all words and that of the numbers among them."""
    numbers = (
        Counter({word: count for word, count in one.items() if any(c.isdigit() for c in word)})
        for one in (old, new)
    )
    return min(dice(old, new), dice(*numbers))


def like_pairs(
    old: Sequence[Any], new: Sequence[Any], least: float, *, records: bool = False
) -> Iterator[Pair]:
    """Pairs at or above a likeness, each entry once, the likest first."""
    measure = _likeness_of_records if records else dice
    old_words, new_words = [words(one) for one in old], [words(one) for one in new]
    scored = (
        (-measure(one, other), abs(i - j), i + j, i, j)
        for i, one in enumerate(old_words)
        for j, other in enumerate(new_words)
    )
    used_old, used_new = set(), set()
    for *_, i, j in sorted(one for one in scored if -one[0] >= least):
        if i not in used_old and j not in used_new:
            used_old.add(i)
            used_new.add(j)
            yield i, j


def _pair_gaps(old: Sequence[Any], new: Sequence[Any], found: dict[int, int]) -> None:
    """Between the same neighbours, as many old entries as new ones: each was edited.

    An entry with an id that neither id nor likeness finds is another entry, not an edited one.
    """
    for olds, news in list(_gaps(len(old), len(new), found)):
        has_ids = any(_id(one) for one in (*(old[i] for i in olds), *(new[j] for j in news)))
        if len(olds) == len(news) and not has_ids:
            found.update(zip(olds, news, strict=True))


def _gaps(old: int, new: int, found: dict[int, int]) -> Iterator[tuple[list[int], list[int]]]:
    """Runs of free positions on either side between the same neighbours.

    Where entries have moved there are no neighbours to go by: then only a lone pair is sure.
    """
    free_old, free_new = _free(old, found), _free(new, found.values())
    in_order = sorted(found.items())
    if steady_pairs(in_order) != in_order:
        if len(free_old) == len(free_new) == 1:
            yield free_old, free_new
        return
    ends = [(-1, -1), *in_order, (old, new)]
    for (i, j), (next_i, next_j) in pairwise(ends):
        yield (
            [one for one in free_old if i < one < next_i],
            [one for one in free_new if j < one < next_j],
        )


def steady_pairs(found: Sequence[Pair]) -> list[Pair]:
    """The longest run of pairs that keep their order: what is left over has moved."""
    best: list[list[Pair]] = []
    for index, pair in enumerate(found):
        before = [best[k] for k in range(index) if found[k][1] < pair[1]]
        best.append([*max(before, key=len, default=[]), pair])
    return max(best, key=len, default=[])
