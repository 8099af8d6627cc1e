"""S509, S530: a figure of a set-up is outside its recommended range; the work is held only just."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.compute import HELD_ONLY_JUST
from benchleaf.diagnose import Code, Finding, Sample, Severity

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "S509",
    "A figure is outside its recommended range",
    why="It may be right for this job, but somebody should have a reason.",
    instead="Change the value, or say in the change note why.",
    bad=(
        Sample(
            """
            # A feed above the range.
            - file: machines/bench-drill.yml
              find: "rated_thrust: 4 kN"
              put: "rated_thrust: 6 kN"
            - file: jobs/vg-0010.yml
              find: "    feed: 0.15 mm/rev"
              put: "    feed: 0.2 mm/rev"
            - file: machines/bench-drill.yml
              find: "  radius: 350 mm"
              put: "  radius: 400 mm"
            """,
            """
            content/jobs/vg-0010.yml:43:5: warning S509 guide-hole: The feed 0.20 mm/rev is
                    outside the range recommended for this tool.
                change the value, or write accept: [{code: S509, reason: ...}] in the job
            """,
        ),
        Sample(
            """
            # A pull that a standing hand should not be asked for.
            - file: machines/bench-drill.yml
              find: "  radius: 350 mm"
              put: "  radius: 284 mm"
            """,
            """
            content/jobs/vg-0010.yml:43:5: warning S509 guide-hole: The pull at the lever is
                    above 110 N: by arm alone, once, about 4 of 10 women press this hard straight
                    down, and about 9 of 10 pull this hard towards themselves. Use a finer feed, a
                    pilot hole, a split point or a power feed.
                change the value, or write accept: [{code: S509, reason: ...}] in the job
            """,
        ),
        Sample(
            """
            # The point comes through a blind hole.
            - file: jobs/vg-0010.yml
              find: |2
                    hole: through
              put: |2
                    hole: blind
                    depth: 4 mm
            - file: jobs/vg-0010.yml
              find: |2
                    overtravel: 1 mm
              put: ""
            """,
            """
            content/jobs/vg-0010.yml:43:5: warning S509 guide-hole: The point of the drill
                    comes through the far side of this blind hole.
                change the value, or write accept: [{code: S509, reason: ...}] in the job
            """,
        ),
        Sample(
            """
            # No speed inside the range.
            - file: machines/bench-drill.yml
              find: |2
                  - 1000 rpm
              put: ""
            """,
            """
            content/jobs/vg-0010.yml:43:5: warning S509 guide-hole: No speed of the machine
                    lies inside the range of 970 to 1334 rpm: the next slower one, 650 rpm, is used.
                    Slower is the safe side.
                change the value, or write accept: [{code: S509, reason: ...}] in the job
            """,
        ),
        Sample(
            """
            # One speed is recommended, and the machine has not that one.
            - file: materials/mild-steel.yml
              find: "speed: 80 to 110 ft/min"
              put: "speed: 80 ft/min"
            """,
            """
            content/jobs/vg-0010.yml:43:5: warning S509 guide-hole: No speed of the machine
                    is the recommended 970 rpm: the next slower one, 650 rpm, is used. Slower is
                    the safe side.
                change the value, or write accept: [{code: S509, reason: ...}] in the job
            """,
        ),
    ),
    good="""
        # A feed at the end of the range.
        - file: machines/bench-drill.yml
          find: "rated_thrust: 4 kN"
          put: "rated_thrust: 6 kN"
        - file: jobs/vg-0010.yml
          find: "    feed: 0.15 mm/rev"
          put: "    feed: 0.178 mm/rev"
    """,
)


ONLY_JUST = Code(
    "S530",
    "The work is held only just, or by one thing alone",
    why="It may be right for this job, but somebody should have a reason that is about holding.",
    instead="Hold the work harder, or say in accept why it is held well enough.",
    bad=(
        Sample(
            """
            # A reason for the feed is none for the holding.
            - file: jobs/vg-0010.yml
              find: "    force: 20 kN"
              put: "    force: 9 kN"
            - file: jobs/vg-0010.yml
              find: "    friction: 0.15"
              put: "    work_surface: unmachined"
            - file: jobs/vg-0010.yml
              find: "    feed: 0.15 mm/rev"
              put: "    feed: 0.09 mm/rev"
            - file: jobs/vg-0010.yml
              find: 'hand_on: Lay'
              put: |-
                accept: [{code: S509, reason: A finer feed leaves less of a burr}]
                hand_on: Lay
            """,
            """
            content/jobs/vg-0010.yml:43:5: warning S530 guide-hole: At worst the work is
                    held 1.0 times the torque of a drill that comes through with no easing, and no
                    more: most of the doubt is the clamp force.
                hold the work harder, or write accept: [{code: S530, reason: ...}] in the job
            """,
        ),
    ),
    good="""
        # Held harder.
        - file: jobs/vg-0010.yml
          find: "    force: 20 kN"
          put: "    force: 19 kN"
    """,
)

_CURE = {CODE.id: "change the value", ONLY_JUST.id: "hold the work harder"}


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each doubt about a set-up, unless the job accepts those of its code."""
    index_of = {set_up.id: index for index, set_up in enumerate(case.job.set_ups)}
    for sheet in case.sheets:
        for code in (CODE, ONLY_JUST):
            doubts = [
                one
                for one in sheet.as_read.doubts
                if (one.code in HELD_ONLY_JUST) is (code is ONLY_JUST)
            ]
            for doubt in () if doubts and case.accepts(code) else doubts:
                yield Finding(
                    code.id,
                    Severity.WARNING,
                    case.place("set_ups", index_of[sheet.id]),
                    f"{sheet.id}: {doubt.text}",
                    (
                        f"{_CURE[code.id]}, or write accept: [{{code: {code.id}, reason: ...}}] in "
                        "the job",
                    ),
                )


RULE = JobRule(check, (CODE, ONLY_JUST))
