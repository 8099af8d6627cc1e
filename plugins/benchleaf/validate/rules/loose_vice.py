"""V509: vice, clamps or fixture are fixed to the table."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity

from ..case import JobCase
from ..rule import JobRule
from .wording import says, told, words

CODE = Code(
    "V509",
    "The vice or fixture is not fixed",
    why="A loose vice is swung round with the work in it.",
    instead="Say how vice, clamps or fixture are bolted to the table.",
    bad=(
        Sample(
            """
            # A loose vice goes round with the work.
            - file: jobs/vg-0010.yml
              find: "bolted_down: Two bolts hold the vice to the table."
              put: "bolted_down: The vice stands loose on the table."
            """,
            """
            content/jobs/vg-0010.yml:24:16: error V509 the vice, clamps or fixture are not
                    fixed to the table
                a loose vice is swung round with the work in it: say how it is bolted down
            """,
        ),
        Sample(
            """
            # A magnet lets go without a sign.
            - file: jobs/vg-0010.yml
              find: "bolted_down: Two bolts hold the vice to the table."
              put: "bolted_down: A magnet holds the vice on the table."
            """,
            """
            content/jobs/vg-0010.yml:24:16: error V509 the vice, clamps or fixture are not
                    fixed to the table
                a loose vice is swung round with the work in it: say how it is bolted down
            """,
        ),
        Sample(
            """
            # The vice's own jaw and screw hold it to nothing.
            - file: jobs/vg-0010.yml
              find: "bolted_down: Two bolts hold the vice to the table."
              put: "bolted_down: The vice stands with its fixed jaw and its screw to the left."
            """,
            """
            content/jobs/vg-0010.yml:24:16: warning V509 nothing says what fixes the vice,
                    clamps or fixture to the table
                name the bolts, studs or clamps that hold it down
                where it does not fit this job: accept: [{code: V509, reason: ...}]
            """,
        ),
        Sample(
            """
            # Nothing that holds is named.
            - file: jobs/vg-0010.yml
              find: "bolted_down: Two bolts hold the vice to the table."
              put: "bolted_down: The vice is heavy and stays where it is."
            """,
            """
            content/jobs/vg-0010.yml:24:16: warning V509 nothing says what fixes the vice,
                    clamps or fixture to the table
                name the bolts, studs or clamps that hold it down
                where it does not fit this job: accept: [{code: V509, reason: ...}]
            """,
        ),
    ),
    good="""
        # The vice is no loose piece.
        - file: jobs/vg-0010.yml
          find: "bolted_down: Two bolts hold the vice to the table."
          put: "bolted_down: The vice is part of the table."
    """,
)

_LOOSE = words(
    r"(?:stands?|lies?|sits?|is|are|left) (?:loose|free)|(?:loose|free) on|floats?|magnet\w*|tape|"
    r"tap(?:ed|es) down|glued?|(?:by|under) its (?:own )?weight|(?:finger|hand)[- ]tight"
)
"""What lets go without a sign."""
_FIXED = words(
    r"bolt(?:s|ed|ing)?|screw(?:s|ed) (?:it |the (?:vice|fixture|block|jig) )?(?:down|to|on|into)|"
    r"clamp(?:s|ed) (?:it |the (?:vice|fixture|block|jig) )?(?:down|to|on)|studs?|(?:t-)?nuts?|"
    r"dogs?|clamped(?! in)|(?:table|toe|hold-down|strap|step) clamps?|straps?|weld\w*|"
    r"fixed (?:to|on|in)|fastened|mounted (?:to|on the table)|"
    r"(?:is|are) (?:a )?part of the (?:machine|saw|table|bed|frame|press)|built into|"
    r"(?:in )?one piece with"
)
"""What holds it down, or that it is no loose piece: its own jaws, keys and weight do not."""
_NEVER_LOOSE = words(
    r"(?:(?:never|not|cannot) (?:works?|comes?|gets?|is)|no \w+ (?:is|are|works?|comes?)) loose"
)
"""What forbids the bolts to come loose is no word against them."""
_UNFIXED = words(
    r"unbolted|not (?:bolted|fixed|clamped)|(?:no|without(?: any)?) (?:bolts?|clamps?|screws?)|"
    r"bolts? (?:are|is) (?:not|left)"
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each holding that is said to stand loose, or that nothing fixes."""
    for path, held in case.holdings:
        text = _NEVER_LOOSE.sub("", held.bolted_down)
        if told(text, _LOOSE) or says(text, _UNFIXED):
            yield Finding(
                CODE.id,
                Severity.ERROR,
                case.place(*path, "bolted_down"),
                "the vice, clamps or fixture are not fixed to the table",
                ("a loose vice is swung round with the work in it: say how it is bolted down",),
            )
        elif not told(text, _FIXED):
            yield from case.practice(
                CODE,
                (*path, "bolted_down"),
                "nothing says what fixes the vice, clamps or fixture to the table",
                "name the bolts, studs or clamps that hold it down",
            )


RULE = JobRule(check, (CODE,))
