"""That a loop which goes through nothing is found."""

from __future__ import annotations

import sys
from collections.abc import Sequence

import pytest

from loops import loops_of, passed


def goes_through(every: Sequence[int]) -> None:
    for one in every:
        if one > 1:
            assert one < 9
    for one in every:
        print(one)
    for one in ():  # may be empty: it is the example
        assert one


def bodies() -> list[range]:
    return [body for _, body in loops_of(goes_through)]


def test_only_loops_with_an_assert_count() -> None:
    assert len(bodies()) == 1


@pytest.mark.parametrize(("every", "ran"), [((), False), ((1,), True), ((1, 2), True)])
def test_whether_a_loop_ran_is_seen(every: Sequence[int], ran: bool) -> None:
    seen: set[int] = set()
    code = goes_through.__code__
    trace = passed(code, seen)
    before = sys.gettrace()
    sys.settrace(trace)
    try:
        goes_through(every)
    finally:
        sys.settrace(before)
    assert [bool(seen.intersection(body)) for body in bodies()] == [ran]
