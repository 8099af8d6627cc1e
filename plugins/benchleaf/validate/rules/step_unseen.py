"""V537: where a job draws scenes, each of its steps has one, or a picture. A house rule."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V537",
    "Steps have neither picture nor scene",
    why=(
        "A new hire looks before reading. A step without a picture, among steps that have one, "
        "looks like one in which nothing happens."
    ),
    instead="Name the act of the step under `scene`, or give it a picture of its own.",
    bad=(
        Sample(
            """
            # The step after it is left out.
            - file: jobs/vg-0010.yml
              find: "    title: Drill the hole"
              put: "    title: Drill the hole\\n    scene: cut"
            """,
            """
            content/jobs/vg-0010.yml:53:3: note V537 1 step has neither picture nor scene:
                    gauge
                name its act under scene, or give it a picture
            """,
        ),
    ),
    good="""
        # Each step that has no picture has a scene.
        - file: jobs/vg-0010.yml
          find: "    title: Drill the hole"
          put: "    title: Drill the hole\\n    scene: cut"
        - file: jobs/vg-0010.yml
          find: "    title: Gauge the first hole"
          put: "    title: Gauge the first hole\\n    scene: gauge"
    """,
)


def check(case: JobCase) -> Iterator[Finding]:
    """One note for a job that draws some of its steps and leaves others without."""
    steps = case.job.steps
    unseen = [one.id for one in steps if one.scene is None and one.picture is None]
    if not unseen or all(one.scene is None for one in steps) or case.accepts(CODE, ("steps",)):
        return
    many = "step has" if len(unseen) == 1 else "steps have"
    yield Finding(
        CODE.id,
        Severity.NOTE,
        case.place("steps"),
        f"{len(unseen)} {many} neither picture nor scene: {', '.join(unseen)}",
        ("name its act under scene, or give it a picture",),
    )


RULE = JobRule(check, (CODE,))
