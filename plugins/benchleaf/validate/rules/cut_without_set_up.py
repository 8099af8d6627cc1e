"""V562: a job that drills or sinks by a machine has a set-up for it."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample
from benchleaf.model import ToolKind

from ..case import JobCase
from ..rule import JobRule
from .wording import says, seen

CODE = Code(
    "V562",
    "A step cuts a hole by machine, and the job has no set-up",
    why=(
        "Speed, thrust and torque are reckoned for set-ups. Without one nothing shows whether the "
        "work is held, and the page is silent about it."
    ),
    instead="Enter the set-up under set_ups, with its tool and sizes, and name it in the step.",
    bad=(
        Sample(
            """
            # Nothing is reckoned, and nobody is told.
            - file: jobs/vg-0020.yml
              find: "title: Take off the burr on both sides"
              put: "title: Drill the guide hole again"
            - file: jobs/vg-0020.yml
              find: "wear:"
              put: |-
                tools:
                  - drill-8
                wear:
            """,
            """
            content/jobs/vg-0020.yml:27:12: warning V562 the step 'Drill the guide hole
                    again' cuts by machine, and the job has no set-up: nothing shows whether the
                    work is held
                enter set_ups with its tool, sizes and feed, and name it in the step: set_up: ID
                where it does not fit this job: accept: [{code: V562, reason: ...}]
            """,
        ),
    ),
    good="""
        # The drill is only carried there.
        - file: jobs/vg-0020.yml
          find: "wear:"
          put: |-
            tools:
              - drill-8
            wear:
    """,
)

_BEGINS = {
    ToolKind.DRILL: seen(r"^drill\b"),
    ToolKind.COUNTERSINK: seen(r"^countersink\b"),
    ToolKind.COUNTERBORE: seen(r"^counterbore\b"),
}
"""How the title of a step begins that cuts with such a tool; taps and reamers go by hand, too."""


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for the first step that cuts in a job without set-ups."""
    if case.job.set_ups or not case.is_driven:
        return
    tools = (case.shop.tools.get(one) for one in case.job.tools)
    begins = [_BEGINS[one.kind] for one in tools if one is not None and one.kind in _BEGINS]
    for index, step in enumerate(case.job.steps):
        if any(says(step.title, one) for one in begins):
            yield from case.practice(
                CODE,
                ("steps", index, "title"),
                f"the step '{step.title}' cuts by machine, and the job has no set-up: nothing "
                "shows whether the work is held",
                "enter set_ups with its tool, sizes and feed, and name it in the step: set_up: ID",
            )
            return


RULE = JobRule(check, (CODE,))
