"""In which order one trainer gives lessons so that the greatest lateness is least.

Earliest due date first gives the least greatest lateness on one machine (Jackson 1955). Where
one piece of work must come before another, its due date is first made no later than the latest
start of whatever waits for it; earliest due date first is then still the best (Lawler 1973). A
test tries every order on small cases.
"""

from __future__ import annotations

import math
from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from graphlib import TopologicalSorter
from typing import Generic, TypeVar

K = TypeVar("K", bound=Hashable)


@dataclass(frozen=True, slots=True)
class Work(Generic[K]):
    """A piece of work for one trainer."""

    key: K
    minutes: float
    due: float
    """Minutes of the trainer's time until its due day ends; without end where there is none."""
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


def earliest_due_order(works: Sequence[Work[K]]) -> tuple[Work[K], ...]:
    """The works by adjusted due time, each after all that it needs; else in the order given."""
    dues, by_key = adjusted_dues(works), {one.key: one for one in works}
    place = {one.key: number for number, one in enumerate(works)}
    done: set[K] = set()
    order: list[Work[K]] = []
    while len(order) < len(by_key):
        ready = [
            one
            for one in by_key.values()
            if one.key not in done and all(key in done or key not in by_key for key in one.needs)
        ]
        if not ready:
            raise ValueError("these works wait for one another")
        first = min(ready, key=lambda one: (dues[one.key], place[one.key]))
        done.add(first.key)
        order.append(first)
    return tuple(order)


def lateness(order: Sequence[Work[K]]) -> Mapping[K, float]:
    """Finish less due time of each work, done one after another; below zero is early."""
    found: dict[K, float] = {}
    clock = 0.0
    for one in order:
        clock += one.minutes
        found[one.key] = clock - one.due
    return found


def greatest_lateness(order: Sequence[Work[K]]) -> float:
    """The greatest lateness of an order; minus infinity where nothing is due."""
    return max(lateness(order).values(), default=-math.inf)
