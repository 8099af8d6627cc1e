"""Work shared among processes: the same answer, in the same order, whatever happens."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Callable, Sequence

import pytest

from benchleaf import processes as module
from benchleaf.processes import FEWEST, no_collecting, spread

HERE = os.getpid()
needs_fork = pytest.mark.skipif(sys.platform != "linux", reason="processes are forked on Linux")


def flat(parts: list[list[int]]) -> list[int]:
    return [one for part in parts for one in part]


def squares(numbers: Sequence[int]) -> list[int]:
    return [number * number for number in numbers]


@pytest.mark.parametrize("count", [0, 1, FEWEST - 1, FEWEST, FEWEST + 1, 1001])
@pytest.mark.parametrize("processes", [1, 2, 3])
def test_the_results_are_those_of_one_process(
    count: int, processes: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "_processes", lambda _: processes)
    assert flat(spread(squares, range(count))) == squares(range(count))


@needs_fork
def test_the_shares_are_done_elsewhere(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "_processes", lambda _: 2)
    here, there = spread(lambda _: os.getpid(), range(FEWEST))
    assert (here, there == HERE) == (HERE, False)


@needs_fork
def test_what_a_helper_cannot_do_is_done_here(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "_processes", lambda _: 2)

    def only_here(numbers: Sequence[int]) -> list[int]:
        if os.getpid() != HERE:
            os._exit(3)
        return list(numbers)

    assert flat(spread(only_here, range(FEWEST))) == list(range(FEWEST))


@needs_fork
def test_what_cannot_be_sent_back_is_done_here(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "_processes", lambda _: 2)

    def late(numbers: Sequence[int]) -> list[Callable[[], int]]:
        return [lambda: len(numbers)]

    parts = spread(late, range(FEWEST))
    assert [one() for part in parts for one in part] == [FEWEST // 2, FEWEST // 2]


def test_garbage_is_collected_again_afterwards() -> None:
    assert gc.isenabled()
    with no_collecting():
        assert not gc.isenabled()
    assert gc.isenabled()
    with pytest.raises(ZeroDivisionError), no_collecting():
        _ = 1 / 0
    assert gc.isenabled()
