"""V511: a step that cuts has a hazard message."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V511",
    "A step that cuts has no hazard message",
    why="The message belongs before the step in which the hazard bites.",
    instead="Name the hazards in the step's `hazards`.",
    bad=(
        Sample(
            """
            # The step that drills warns of nothing.
            - file: jobs/vg-0010.yml
              find: |2-
                        kind: can injure
                    hazards:
                      - work-turns
                    right:
              put: |2-
                        kind: can injure
                    right:
            """,
            """
            content/jobs/vg-0010.yml:69:5: warning V511 step 'drill' uses the set-up and has
                    no hazard message
                name the hazards that bite in this step
                where it does not fit this job: accept: [{code: V511, reason: ...}]
            """,
        ),
    ),
    good="""
        # It does not fit the job, and the job says why.
        - file: jobs/vg-0010.yml
          find: |2-
                    kind: can injure
                hazards:
                  - work-turns
                right:
          put: |2-
                    kind: can injure
                right:
        - file: jobs/vg-0010.yml
          find: |
            operation_after: VG-0020
          put: |
            operation_after: VG-0020
            accept:
              - code: V511
                reason: The machine feeds behind a closed door.
    """,
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each step with a set-up and no hazard."""
    if not case.drills:
        return
    cutting = {set_up.id for set_up in case.job.set_ups}
    for number, step in enumerate(case.job.steps):
        if step.set_up in cutting and not step.hazards:
            yield from case.practice(
                CODE,
                ("steps", number),
                f"step '{step.id}' uses the set-up and has no hazard message",
                "name the hazards that bite in this step",
            )


RULE = JobRule(check, (CODE,))
