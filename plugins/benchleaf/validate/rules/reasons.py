"""V517: a reason says why; it does not say the point again."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from benchleaf.diagnose import Code, Finding, Sample

from ..case import JobCase
from ..rule import JobRule
from .wording import listed

CODE = Code(
    "V517",
    "A reason gives no reason",
    why="Who knows why does not leave the point out when the trainer is gone.",
    instead="Say what spoils, breaks or hurts when the point is left out.",
    bad=(
        Sample(
            """
            # The point once more.
            - file: jobs/vg-0010.yml
              find: A plate that lies crooked gets a crooked hole.
              put: The plate must be pushed down on the parallels.
            """,
            """
            content/jobs/vg-0010.yml:57:17: warning V517 the reason only says the point again
                say what happens if the point is left out: what spoils, breaks or hurts
                where it does not fit this job: accept: [{code: V517, reason: ...}]
            """,
        ),
    ),
    good="""
        # Words of the point, and what follows.
        - file: jobs/vg-0010.yml
          find: A plate that lies crooked gets a crooked hole.
          put: A plate that is not down on its parallels gets a crooked hole.
    """,
)

_SMALL = listed("small")
_NOTHING = listed("no_reason")
REPEATED = 0.8
"""So much of a reason's words may not come from the point: our own judgement."""


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each reason that gives none."""
    for number, step in enumerate(case.job.steps):
        for index, one in enumerate(step.key_points):
            problem = _problem(one.point, one.reason)
            if problem:
                yield from case.practice(
                    CODE,
                    ("steps", number, "key_points", index, "reason"),
                    problem,
                    "say what happens if the point is left out: what spoils, breaks or hurts",
                )


def _problem(point: str, reason: str) -> str:
    said = _words(reason)
    if " ".join(re.findall(r"\w+", reason.lower())) in _NOTHING or not said:
        return f"'{reason}' is no reason that a learner can use"
    from_point = _words(point)
    repeated = [word for word in said if word in from_point]
    return "the reason only says the point again" if len(repeated) >= REPEATED * len(said) else ""


def _words(text: str) -> list[str]:
    """The words that carry meaning, endings left out."""
    found = re.findall(r"\w+", text.lower())
    return [_stem(word) for word in found if word not in _SMALL]


@cache
def _stem(word: str) -> str:
    return re.sub(r"(?:ing|ed|es|s)$", "", word)


RULE = JobRule(check, (CODE,))
