"""In which order lessons are put into the trainers' days, before any of them is put there.

Earliest due date first gives the least greatest lateness on one machine (Jackson 1955). Where
one piece of work must come before another, its due date is first made no later than the latest
start of whatever waits for it; earliest due date first is then still the best (Lawler 1973). Both
hold for one trainer with nothing else in the way; tests try every order on small cases. With
learners, stations, breaks and checks the order is a good one to begin with.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from graphlib import TopologicalSorter
from heapq import heapify, heappop, heappush
from typing import Any, Generic, TypeVar

K = TypeVar("K", int, str, tuple[str, str])


@dataclass(frozen=True, slots=True)
class Work(Generic[K]):
    """A piece of work, in any unit of time."""

    key: K
    minutes: float
    due: float
    """When its due day ends; without end where there is none."""
    needs: tuple[K, ...] = ()


def adjusted_dues(works: Iterable[Work[K]]) -> dict[K, float]:
    """Due times made no later than the latest start of whatever waits for the work."""
    by_key = {one.key: one for one in works}
    needs = {one.key: [key for key in one.needs if key in by_key] for one in by_key.values()}
    dues = {key: one.due for key, one in by_key.items()}
    for key in reversed(list(TopologicalSorter(needs).static_order())):
        for before in needs[key]:
            dues[before] = min(dues[before], dues[key] - by_key[key].minutes)
    return dues


def in_order(works: Iterable[Work[K]], ranks: Mapping[K, Any]) -> tuple[K, ...]:
    """The keys by their ranks, least first, each after what it needs.

    Work that needs what nobody does has no place.

    Raises:
        graphlib.CycleError: works wait for one another
    """
    by_key = {one.key: one for one in works}
    TopologicalSorter({one.key: one.needs for one in by_key.values()}).prepare()
    waits = {one.key: set(one.needs) for one in by_key.values()}
    followers: dict[K, list[K]] = {}
    for one in by_key.values():
        for need in one.needs:
            followers.setdefault(need, []).append(one.key)
    ready = [(ranks[key], key) for key, needs in waits.items() if not needs]
    heapify(ready)
    found: list[K] = []
    while ready:
        _, key = heappop(ready)
        found.append(key)
        for after in followers.get(key, ()):
            waits[after].discard(key)
            if not waits[after]:
                heappush(ready, (ranks[after], after))
    return tuple(found)
