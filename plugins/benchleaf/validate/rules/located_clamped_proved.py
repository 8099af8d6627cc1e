"""V501: work is located, clamped and proved, in that order.

Locating before clamping is trade teaching, the three together a house rule.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample
from benchleaf.model import InsideWork

from ..case import JobCase
from ..rule import JobRule
from .wording import says, words

CODE = Code(
    "V501",
    "Work is not located, clamped and proved, in that order",
    why=(
        "Located first and clamped second is taught in fixture texts of the trade: a clamp holds "
        "the work where it happens to lie. The three together are a house rule; no published text "
        "was found that names them so. What is located and clamped can still be wrong."
    ),
    instead=(
        "Say how the work is located (against a stop, seated, lined up) before the point that "
        "clamps it. Then prove it: push at it by hand with the machine off, turn the tool through "
        "by hand, or gauge the first piece before the second."
    ),
    bad=(
        Sample(
            """
            # The clamp comes first.
            - file: jobs/vg-0010.yml
              find: Push the plate down on both parallels.
              put: Clamp the plate in the jaws.
            """,
            """
            content/jobs/vg-0010.yml:56:16: warning V501 the work is clamped here before any
                    point says how it is located
                say first how it is located: against a stop, seated, lined up
                where it does not fit this job: accept: [{code: V501, reason: ...}]
            """,
        ),
        Sample(
            """
            # Nobody pushes at the clamped plate, and no first hole is gauged.
            - file: jobs/vg-0010.yml
              find: Push the plate down on both parallels.
              put: Push the plate down on both parallels, and tighten the jaws.
            - file: jobs/vg-0010.yml
              find: Push against the clamped plate before you go on.
              put: Look at the jaws before you go on.
            - file: jobs/vg-0010.yml
              find: Gauge the first hole
              put: Gauge the hole
            """,
            """
            content/jobs/vg-0010.yml:53:3: warning V501 the work is clamped, and no step
                    proves that it lies right and holds
                prove it: push at it by hand with the machine off, turn the tool through by
                    hand, or gauge the first piece before the second
                where it does not fit this job: accept: [{code: V501, reason: ...}]
            """,
        ),
    ),
    good="""
        # The stop comes before the clamp, and a tug proves both.
        - file: jobs/vg-0010.yml
          find: Push the plate down on both parallels.
          put: Push the plate against the stop, then clamp it.
        - file: jobs/vg-0010.yml
          find: Push against the clamped plate before you go on.
          put: Tug at the plate before you go on.
    """,
)

_CLAMP = words(r"clamp|tighten|wind the vice tight|nip up")
_DRILL_CHUCK = words(r"chuck|key holes?|shank")
_LOCATE = words(
    r"locates?|seats?|lines? up|down on|sits? on|in(?:to)? the v|work stop|"
    r"against (?:the |both |its )?(?:\w+ )?(?:stop|fence|jaws?|parallels?|shoulder|face)"
)
_PIECE = (
    r"(?:plate|work|workpiece|pin|bar|tube|block|bracket|stay|angle|leg|casting|part|piece|"
    r"parallels?|end|it)"
)
# Pushed at by hand with the machine off, the tool turned through by hand, the first piece gauged.
_PROVED = words(
    r"(?:push|pull|press|lean|tug|try|knock|rap)(?:es|s)? "
    r"(?:(?:hard|once|firmly|well|by hand|at|on|against|to move|to shift|to turn) )+"
    rf"(?:(?:the|it|its|both|each|your) )?(?:(?:clamped|tight|long|free|far|high) )*{_PIECE}|"
    r"tugs?|shake (?:it|the)|cannot be (?:moved|pushed|shifted|turned)|"
    r"(?:does not|must not|may not) (?:move|shift|rock|give|tip)|rocks?|"
    r"(?:move|nudge|wiggle)s? (?:both|the|each|neither) parallels?|"
    r"turn the (?:drill|tool|chuck|spindle) (?:through )?by hand|"
    rf"first[- ](?:off|(?:(?:good|drilled|finished) )?(?:hole|one|{_PIECE}))|prove[sd]?|proof"
)


def check(case: JobCase) -> Iterator[Finding]:
    """Findings about a job that drills."""
    if case.drills:
        yield from _locate_first(case)
        yield from _proved(case)


def _locate_first(case: JobCase) -> Iterator[Finding]:
    """The first point that clamps must not come before every word about locating."""
    for number, step in enumerate(case.job.steps):
        if step.hands_inside is not None and step.hands_inside.doing is InsideWork.TOOL_CHANGE:
            continue  # what is tightened there is the tool
        for index, point in enumerate(step.key_points):
            if says(point.point, _LOCATE):
                return
            if says(point.point, _CLAMP) and not says(point.point, _DRILL_CHUCK):
                yield from case.practice(
                    CODE,
                    ("steps", number, "key_points", index, "point"),
                    "the work is clamped here before any point says how it is located",
                    "say first how it is located: against a stop, seated, lined up",
                )
                return


def _proved(case: JobCase) -> Iterator[Finding]:
    """Once in the whole job: what is located and clamped can still be wrong."""
    looked_at = (one for step in case.job.steps for one in step.checks)
    told = (*case.asked, *(f"{one.what} {one.how or ''}" for one in looked_at))
    if any(says(text, _CLAMP) for text in told) and not any(says(text, _PROVED) for text in told):
        yield from case.practice(
            CODE,
            ("steps",),
            "the work is clamped, and no step proves that it lies right and holds",
            "prove it: push at it by hand with the machine off, turn the tool through by hand, or "
            "gauge the first piece before the second",
        )


RULE = JobRule(check, (CODE,))
