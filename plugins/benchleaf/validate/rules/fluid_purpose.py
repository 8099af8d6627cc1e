"""V504: somebody says what the cutting fluid is for.

The purposes are published (Bingham, US Bureau of Standards; Machinery's Handbook 31), that somebody
says one is a house rule.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample

from ..case import JobCase
from ..rule import JobRule
from .wording import says, words

CODE = Code(
    "V504",
    "Nothing says what the cutting fluid is for",
    why=(
        "House rule, on published purposes (Bingham, US Bureau of Standards: cool, lubricate; "
        "handbooks add the chips). Who does not know what it is for lets it run dry, and does not "
        "see it fail: blue chips or smoke (heat), a squeal (dry lips), crumbs on the lip (metal "
        "welds to it), a torn wall or a hole off size, chips that no longer come out, a tap that "
        "goes heavy."
    ),
    instead=(
        "Give any true reason at a point that speaks of the fluid. Steel: heat, metal that welds "
        "to the lip, size. Aluminium: chips that weld and pack. A blind hole: the chips' only way "
        "out. Reaming: finish and size. Tapping: it lubricates the tap. Cast iron is mostly cut "
        "dry."
    ),
    bad=(
        Sample(
            """
            # Nothing is said about what the fluid does.
            - file: jobs/vg-0010.yml
              find: It keeps the lips cool, and carries the chips away.
              put: Dry steel is hard on the drill.
            """,
            """
            content/jobs/vg-0010.yml:20:8: warning V504 no point that speaks of the fluid
                    says what it is for
                give one true reason there: heat, metal that welds to the lip, size, finish,
                    chips out, or the tap's lubrication
                where it does not fit this job: accept: [{code: V504, reason: ...}]
            """,
        ),
    ),
    good="""
        # Another true reason for steel.
        - file: jobs/vg-0010.yml
          find: It keeps the lips cool, and carries the chips away.
          put: It keeps crumbs of steel from welding to the lips.
    """,
)

_PURPOSE = words(
    r"cool(?:s|ed|ing|er)?|heat(?:s|ed|ing)?|hot|warm|burns?|burnt|blue|smokes?|temper|"
    r"wash(?:es|ed)?|flush(?:es|ed)?|carr(?:y|ies|ied)|rinse[sd]?|float(?:s|ed)?|"
    r"(?:way|lifts?|brings?|comes?|gets?|push(?:es)?|drives?|floats?) (?:\w+ ){0,3}out|"
    r"chips? (?:\w+ ){0,2}(?:out|pack|weld|stick|jam|clog|cling)|pack(?:s|ed)?|"
    r"lubricat\w+|friction|rub(?:s|bing)?|torque|squeals?|"
    r"weld(?:s|ed|ing)?|built-up|builds? up|stick(?:s|ing)?|smears?|cling(?:s)?|crumbs?|"
    r"size|oversize|too (?:large|wide|big|small)|finish(?:es)?|smooth|rough|torn|tears?|shines?|"
    r"score[sd]?|chatters?|dull(?:s|ed)?|blunt(?:s|ed)?"
)
"""What a fluid is for, or what happens where it fails."""
_IN_USE = words(
    r"fluid|oil|oiled|coolant|lubricant|cutting paste|"
    r"(?:drill|cut|ream|tap|run)s? dry|dry (?:lips?|drill|edges?|hole|tap|reamer|cut)"
)
_PUT_AWAY = words(r"close|shut|turn off|mop|floor|spilt|spill|skin|sleeves?|level|top up")
"""Of the fluid too, but not of what it does at the cut."""


def check(case: JobCase) -> Iterator[Finding]:
    """One point that speaks of the fluid in use gives a purpose, in itself or in its reason."""
    if case.job.fluid is None:
        return
    for step in case.job.steps:
        for one in step.key_points:
            text = f"{one.point} {one.reason}"
            if says(text, _IN_USE, _PURPOSE) and not says(one.point, _PUT_AWAY):
                return
    yield from case.practice(
        CODE,
        ("fluid",),
        "no point that speaks of the fluid says what it is for",
        "give one true reason there: heat, metal that welds to the lip, size, finish, chips out, "
        "or the tap's lubrication",
    )


RULE = JobRule(check, (CODE,))
