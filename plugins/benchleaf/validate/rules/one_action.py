"""V513: a step's title asks for one action."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V513",
    "A step asks for two actions",
    why="A learner is shown, and checked on, one advance of the work at a time.",
    instead="Split the step, or name the one thing that both actions are for.",
    bad=(
        Sample(
            """
            # The title goes on to a second action.
            - file: jobs/vg-0010.yml
              find: 'title: Clamp the plate'
              put: 'title: Clamp the plate and check the vice'
            """,
            """
            content/jobs/vg-0010.yml:54:12: warning V513 the step 'Clamp the plate and check
                    the vice' asks for two actions: the second is 'check'
                split the step, or name what both are for: a step is one advance of the work
                where it does not fit this job: accept: [{code: V513, reason: ...}]
            """,
        ),
    ),
    good="""
        # Two things, one action.
        - file: jobs/vg-0010.yml
          find: 'title: Clamp the plate'
          put: 'title: Clamp the plate and its packing'
    """,
)

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
                CODE,
                ("steps", index, "title"),
                f"the step '{step.title}' asks for two actions: the second is '{second[1]}'",
                "split the step, or name what both are for: a step is one advance of the work",
            )


RULE = JobRule(check, (CODE,))
