"""V505: the feed is eased at break-through. Shop rules of universities (LSU, NCSU ISE)."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample
from benchleaf.model import DrillingSetUp, HoleKind

from ..case import JobCase
from ..rule import JobRule
from .wording import says, words

CODE = Code(
    "V505",
    "Nothing says to ease the feed at break-through",
    why=(
        "Shop rules of universities (LSU, NCSU ISE): ease the feed at break-through. There the "
        "drill grabs, and the work turns."
    ),
    instead="Add a key point to the drilling step: ease at break-through.",
    bad=(
        Sample(
            """
            # Nothing is said about break-through.
            - file: jobs/vg-0010.yml
              find: Ease the lever when it begins to go light.
              put: Watch the lever.
            """,
            """
            content/jobs/vg-0010.yml:43:5: warning V505 no step with the set-up 'guide-hole'
                    says to ease at break-through
                add the key point, and name the set-up in that step
                where it does not fit this job: accept: [{code: V505, reason: ...}]
            """,
        ),
    ),
    good="""
        # Fed gently at break-through.
        - file: jobs/vg-0010.yml
          find: Ease the lever when it begins to go light.
          put: Feed gently when the drill breaks through.
    """,
)

_THROUGH = r"(?:break|com)(?:s|es|ing|e)? (?:out|through)"
_GENTLY = r"(?:feed|pull|press)(?: \w+){0,3} (?:gently|slowly|lightly|softly)"
_EASE = words(
    r"ease|easing|lighten|let up|less (?:pull|pressure|feed)|hold (?:the lever )?back|"
    rf"{_GENTLY}\b[^.]*\b{_THROUGH}|{_THROUGH}\b[^.]*\b{_GENTLY}"
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each through hole that no step eases out of."""
    if not case.drills:
        return
    steps = tuple(zip(case.job.steps, case.said, strict=True))
    for index, set_up in enumerate(case.job.set_ups):
        eased = any(says(said, _EASE) for step, said in steps if step.set_up == set_up.id)
        is_through = isinstance(set_up, DrillingSetUp) and set_up.hole is HoleKind.THROUGH
        if is_through and not eased:
            yield from case.practice(
                CODE,
                ("set_ups", index),
                f"no step with the set-up '{set_up.id}' says to ease at break-through",
                "add the key point, and name the set-up in that step",
            )


RULE = JobRule(check, (CODE,))
