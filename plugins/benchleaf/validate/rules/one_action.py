"""V513: a step's title asks for one action."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchleaf.diagnose import Finding

from ..case import JobCase

_VERBS = (
    "add|adjust|bolt|bore|brush|check|clamp|clean|clear|close|deburr|drill|fill|fit|gauge|grind|"
    "hang|lay|lift|lock|loosen|lower|measure|mount|move|open|place|press|pull|push|put|raise|ream|"
    "release|remove|set|slide|start|stop|swing|switch|take|tap|tighten|turn|unclamp|wash|wipe|write"
)
"""Commands of the shop: after an "and" or a comma they begin a second action."""
_SECOND = re.compile(rf"(?:\band(?: then)?|,(?: and| then)?|;|\bthen) ({_VERBS})\b", re.IGNORECASE)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each title that goes on to a second action."""
    for index, step in enumerate(case.job.steps):
        second = _SECOND.search(step.title)
        if second is not None:
            yield from case.practice(
                "V513",
                ("steps", index, "title"),
                f"the step '{step.title}' asks for two actions: the second is '{second[1]}'",
                "split the step, or name what both are for: a step is one advance of the work",
            )
