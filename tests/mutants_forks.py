"""Work in forks of this process: what is loaded and collected once serves all of it."""

from __future__ import annotations

import os
import resource
import select
import signal
import time
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import islice
from typing import Generic, TypeVar

DIED, NOTHING = "it died", "-"
STACK = 1 << 29
"""For what goes deep while its calls are noted."""
P = TypeVar("P")


@dataclass(frozen=True)
class Work(Generic[P]):
    """What one fork does, and for how many seconds at most."""

    what: P
    do: Callable[[], str]
    seconds: float


def in_forks(every: Iterable[Work[P]], processes: int) -> Iterator[tuple[P, str]]:
    """Each piece of work, and what it says at its end; several at a time."""
    running: dict[int, tuple[int, Work[P], float]] = {}
    waiting = iter(every)
    while True:
        for work in islice(waiting, processes - len(running)):
            pid, pipe = forked(work.do)
            running[pipe] = pid, work, time.monotonic() + work.seconds
        if not running:
            return
        ready, _, _ = select.select(list(running), [], [], 1)
        for pipe, (pid, work, end) in list(running.items()):
            if pipe not in ready and time.monotonic() < end:
                continue
            if pipe not in ready:
                os.kill(pid, signal.SIGKILL)
            said = os.read(pipe, 4000).decode() if pipe in ready else "it never ends"
            os.waitpid(pid, 0)
            os.close(pipe)
            del running[pipe]
            yield work.what, said or DIED


def forked(work: Callable[[], str]) -> tuple[int, int]:
    """Begin it in a fork; its number, and the pipe through which what it says comes at its end."""
    out, into = os.pipe()
    pid = os.fork()
    if pid:
        os.close(into)
        return pid, out
    said, me = DIED, os.getpid()
    try:
        resource.setrlimit(resource.RLIMIT_STACK, (STACK, resource.RLIM_INFINITY))
        silence = os.open(os.devnull, os.O_WRONLY)
        os.dup2(silence, 1)
        os.dup2(silence, 2)
        said = work() or NOTHING
    finally:
        if os.getpid() == me:  # and no process that a test has made
            os.write(into, said.encode()[:4000])
        os._exit(0)
