"""One list of work shared among processes, where the machine has cores to spare. A leaf.

A process is forked, so that it costs some milliseconds and starts with everything in memory.
Only on Linux, and only while no other thread runs: forking is not safe elsewhere. Where anything
goes wrong with a helper, its share is done here: the answer is the same, only later.
"""

from __future__ import annotations

import gc
import os
import pickle
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from itertools import pairwise
from typing import TypeVar

Item = TypeVar("Item")
Result = TypeVar("Result")

FEWEST = 100
"""Below this many items a helper costs more than it saves."""
MOST_PROCESSES = 4


def spread(work: Callable[[Sequence[Item]], Result], items: Sequence[Item]) -> list[Result]:
    """`work` done on consecutive shares of `items`; the results in the order of the shares.

    What `work` hands back is pickled; what it changes elsewhere is lost in the other processes.
    """
    processes = _processes(len(items))
    bounds = [len(items) * number // processes for number in range(processes + 1)]
    shares = [items[start:end] for start, end in pairwise(bounds)]
    helpers = [_start(work, share) for share in shares[1:]]
    first = work(shares[0])
    rest = (_finish(work, one, helper) for one, helper in zip(shares[1:], helpers, strict=True))
    return [first, *rest]


def _processes(items: int) -> int:
    if sys.platform != "linux" or items < FEWEST or threading.active_count() > 1:
        return 1
    return min(MOST_PROCESSES, len(os.sched_getaffinity(0)))


def _start(work: Callable[[Sequence[Item]], Result], share: Sequence[Item]) -> tuple[int, int]:
    """Process number and the end of the pipe that its result comes from."""
    reading, writing = os.pipe()
    number = os.fork()
    if number:
        os.close(writing)
        return number, reading
    code = 1
    try:  # the helper never returns from here, whatever happens
        os.close(reading)
        with os.fdopen(writing, "wb") as pipe:
            pickle.dump(work(share), pipe, pickle.HIGHEST_PROTOCOL)
        code = 0
    finally:
        os._exit(code)


def _finish(
    work: Callable[[Sequence[Item]], Result], share: Sequence[Item], helper: tuple[int, int]
) -> Result:
    number, reading = helper
    with os.fdopen(reading, "rb") as pipe:
        data = pipe.read()
    _, status = os.waitpid(number, 0)
    if status:
        return work(share)
    result: Result = pickle.loads(data)
    return result


@contextmanager
def no_collecting() -> Iterator[None]:
    """Leave the search for garbage out for a while: much is made here, and none of it in rings."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
