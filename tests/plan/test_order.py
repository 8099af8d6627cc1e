"""The order of lessons: published results, and every order tried on small cases."""

from __future__ import annotations

import math
from collections.abc import Sequence
from graphlib import CycleError
from itertools import accumulate, permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchleaf.plan.order import Work, adjusted_dues, in_order
from running import examples


def booked(works: Sequence[Work[int]]) -> tuple[Work[int], ...]:
    """The works in the order in which the timetable tries them first."""
    by_key = {one.key: one for one in works}
    dues = adjusted_dues(works)
    return tuple(by_key[key] for key in in_order(works, {key: (dues[key], key) for key in by_key}))


def lateness(order: Sequence[Work[int]]) -> dict[int, float]:
    """Finish less due time of each work, done one after another; below zero is early."""
    ends = accumulate(one.minutes for one in order)
    return {one.key: end - one.due for one, end in zip(order, ends, strict=True)}


def greatest_lateness(order: Sequence[Work[int]]) -> float:
    return max(lateness(order).values())


def works_of(times: list[int], dues: list[int]) -> list[Work[int]]:
    return [Work(n, float(t), float(d)) for n, (t, d) in enumerate(zip(times, dues, strict=True))]


def test_a_published_order_is_as_late_as_printed() -> None:
    """Public lecture notes on minimising lateness print these for the order 3, 2, 5, 4, 1, 6."""
    works = works_of([3, 2, 1, 4, 3, 2], [6, 8, 9, 9, 10, 11])
    order = [works[number - 1] for number in (3, 2, 5, 4, 1, 6)]
    assert list(lateness(order).values()) == [-8, -5, -4, 1, 7, 4]
    assert greatest_lateness(order) == 7
    assert greatest_lateness(booked(works)) < 7


def test_a_recalled_example() -> None:
    """From memory: with the last two due at 14 and 15, the least lateness in a textbook is 1."""
    works = works_of([3, 2, 1, 4, 3, 2], [6, 8, 9, 9, 14, 15])
    assert greatest_lateness(booked(works)) == 1


small = st.lists(st.tuples(st.integers(1, 9), st.integers(0, 30)), min_size=1, max_size=6)


@settings(max_examples=examples(60))
@given(small)
def test_no_order_has_a_smaller_greatest_lateness(pairs: list[tuple[int, int]]) -> None:
    """Jackson 1955: earliest due date first is the best there is on one machine."""
    works = works_of([t for t, _ in pairs], [d for _, d in pairs])
    best = min(greatest_lateness(each) for each in permutations(works))
    assert greatest_lateness(booked(works)) == best


@settings(max_examples=examples(60))
@given(small, st.data())
def test_nor_where_some_works_wait_for_others(
    pairs: list[tuple[int, int]], data: st.DataObject
) -> None:
    """Lawler 1973: with due times adjusted for what waits, the same rule stays the best."""
    works = [
        Work(
            number,
            float(time),
            float(due),
            tuple(data.draw(st.sets(st.integers(0, number - 1), max_size=2))) if number else (),
        )
        for number, (time, due) in enumerate(pairs)
    ]
    allowed = [each for each in permutations(works) if respects(each)]
    order = booked(works)
    assert respects(order)
    assert greatest_lateness(order) == min(greatest_lateness(each) for each in allowed)


def respects(order: tuple[Work[int], ...]) -> bool:
    place = {one.key: number for number, one in enumerate(order)}
    return all(place[key] < place[one.key] for one in order for key in one.needs)


def test_a_due_time_is_no_later_than_the_start_of_what_waits() -> None:
    works = [Work(0, 3, 99), Work(1, 4, 10, (0,)), Work(2, 5, math.inf, (1,))]
    assert adjusted_dues(works) == {0: 6, 1: 10, 2: math.inf}
    assert lateness(booked(works)) == {0: -96, 1: -3, 2: -math.inf}


def test_what_is_not_among_the_works_moves_no_due_time_and_is_waited_for() -> None:
    works = [Work(0, 3, 9, (7,)), Work(1, 3, 12)]
    assert adjusted_dues(works) == {0: 9, 1: 12}
    assert booked(works) == (works[1],)


def test_works_that_wait_for_one_another_are_refused() -> None:
    with pytest.raises(CycleError):
        booked([Work(0, 1, 1, (1,)), Work(1, 1, 1, (0,))])


def test_nothing_to_do_is_no_order() -> None:
    assert booked(()) == ()
