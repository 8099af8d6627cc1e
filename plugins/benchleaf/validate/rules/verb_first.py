"""V515: a step's title starts with a verb, as a command."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample

from ..case import JobCase
from ..rule import JobRule
from .wording import listed

CODE = Code(
    "V515",
    "A step does not begin with a verb",
    why="A step is something to do; a title that names a thing does not say what.",
    instead="Begin with the command: 'Clamp the plate'.",
    bad=(
        Sample(
            """
            # A thing, no command.
            - file: jobs/vg-0010.yml
              find: 'title: Drill the hole'
              put: 'title: Drilling of the hole'
            """,
            """
            content/jobs/vg-0010.yml:70:12: warning V515 the step's title begins with
                    'drilling', which is no command
                begin with what to do: 'Clamp the plate', not 'Clamping the plate'
                where it does not fit this job: accept: [{code: V515, reason: ...}]
            """,
        ),
    ),
    good="""
        # A command that ends like a noun.
        - file: jobs/vg-0010.yml
          find: 'title: Drill the hole'
          put: 'title: Bring the drill through'
    """,
)

_NO_VERB = listed("no_command")
_NOUN = re.compile(r".{3,}(?:ing|tion|sion|ment|ness|ance|ence|ity|als)$")
_IS_VERB = frozenset({"bring", "position", "ring", "station", "string", "swing", "mention"})
"""Words with such an ending that are commands all the same."""


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each title that is surely no command."""
    for index, step in enumerate(case.job.steps):
        first = re.split(r"[\s,:]", step.title.lower(), maxsplit=1)[0]
        is_noun = _NOUN.match(first) and first not in _IS_VERB
        if first in _NO_VERB or is_noun or not first[:1].isalpha():
            yield from case.practice(
                CODE,
                ("steps", index, "title"),
                f"the step's title begins with '{first}', which is no command",
                "begin with what to do: 'Clamp the plate', not 'Clamping the plate'",
            )


RULE = JobRule(check, (CODE,))
