"""V510: no gloves at a spindle."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample

from ..case import JobCase
from ..rule import JobRule
from .wording import says, words

CODE = Code(
    "V510",
    "Gloves at a spindle",
    why=(
        "A glove that a spindle catches pulls the hand in. Published rules forbid gloves there "
        "(OSHA 3170, in summary)."
    ),
    instead="Put gloves under take_off; where they are for carrying only, say so.",
    bad=(
        Sample(
            """
            # Gloves at a spindle.
            - file: jobs/vg-0010.yml
              find: "  - Safety glasses with side shields."
              put: "  - Safety glasses and gloves."
            """,
            """
            content/jobs/vg-0010.yml:35:5: warning V510 gloves are to be worn at a spindle
                gloves are caught by a spindle: take them off, or say that they are for carrying
                where it does not fit this job: accept: [{code: V510, reason: ...}]
            """,
        ),
        Sample(
            """
            # Nothing says that they come off.
            - file: jobs/vg-0010.yml
              find: "  - Gloves, rings and watch."
              put: "  - Rings and watch."
            """,
            """
            content/jobs/vg-0010.yml:37:3: warning V510 nothing says that gloves come off at
                    the spindle
                add gloves to take_off
                where it does not fit this job: accept: [{code: V510, reason: ...}]
            """,
        ),
    ),
    good="""
        # Gloves for carrying only.
        - file: jobs/vg-0010.yml
          find: "  - Safety glasses with side shields."
          put: "  - Safety glasses. Gloves for carrying totes, never at the drill."
    """,
)

_GLOVES = words(r"gloves?")
_NO_GLOVES = words(r"(?:no|never|without) (?:\w+ )?gloves?")
_CARRY = words(r"carry(?:ing)?|handling|lift(?:ing)?|only for|wash(?:ing)?|mixing|deburr(?:ing)?")


def check(case: JobCase) -> Iterator[Finding]:
    """Findings about gloves to wear, and gloves that nobody takes off."""
    if not case.turns:
        return
    for index, line in enumerate(case.job.wear):
        kept_off = says(line, _CARRY) or says(line, _NO_GLOVES)
        if says(line, _GLOVES) and not kept_off:
            yield from case.practice(
                CODE,
                ("wear", index),
                "gloves are to be worn at a spindle",
                "gloves are caught by a spindle: take them off, or say that they are for carrying",
            )
    if not any(says(line, _GLOVES) for line in case.job.take_off):
        yield from case.practice(
            CODE,
            ("take_off",),
            "nothing says that gloves come off at the spindle",
            "add gloves to take_off",
        )


RULE = JobRule(check, (CODE,))
