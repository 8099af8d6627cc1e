"""V536: a drawn scene fits its step: station, hands, set-up. A house rule."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.model import pair_fits, why_no_scene

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V536",
    "A scene does not fit its step",
    why=(
        "A scene shows where the hands are, whether the guard is up and whether the machine runs. "
        "One that does not fit would show a hand, or an open guard, where the step says otherwise."
    ),
    instead="Name the act of the step itself, or leave `scene` or `so` out: none is drawn then.",
    bad=(
        Sample(
            """
            # Nobody said that hands go in.
            - file: jobs/vg-0010.yml
              find: "    title: Drill the hole"
              put: "    title: Drill the hole\\n    scene: clear chips"
            - file: jobs/vg-0010.yml
              find: "    title: Gauge the first hole"
              put: "    title: Gauge the first hole\\n    scene: gauge"
            """,
            """
            content/jobs/vg-0010.yml:71:12: error V536 the scene 'clear chips' does not fit:
                    hands go in there, and the step has no hands_inside
                name the act of the step itself, or leave the key out
            """,
        ),
        Sample(
            """
            # A drill has no wheel to stand beside.
            - file: jobs/vg-0010.yml
              find: "A key left in the chuck is thrown out."
              put: "A key left in the chuck is thrown out.\\n        so: stand aside"
            """,
            """
            content/jobs/vg-0010.yml:74:13: error V536 the pair 'stand aside' belongs to
                    another machine
                name the act of the step itself, or leave the key out
            """,
        ),
    ),
    good="""
        # It drills there.
        - file: jobs/vg-0010.yml
          find: "    title: Drill the hole"
          put: "    title: Drill the hole\\n    scene: cut"
        - file: jobs/vg-0010.yml
          find: "    title: Gauge the first hole"
          put: "    title: Gauge the first hole\\n    scene: gauge"
    """,
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each scene, and each pair of pictures, that would be untrue."""
    for index, step in enumerate(case.job.steps):
        machine = case.shop.machines.get(step.station or case.job.machine)
        if machine is None:
            continue
        why = why_no_scene(step, machine)
        if why:
            yield _finding(
                case, ("steps", index, "scene"), f"the scene '{step.scene}' does not fit: {why}"
            )
        for number, point in enumerate(step.key_points):
            if not pair_fits(step, number, machine):
                path = ("steps", index, "key_points", number, "so")
                yield _finding(case, path, f"the pair '{point.so}' belongs to another machine")


def _finding(case: JobCase, path: tuple[str | int, ...], text: str) -> Finding:
    return Finding(
        CODE.id,
        Severity.ERROR,
        case.place(*path),
        text,
        ("name the act of the step itself, or leave the key out",),
    )


RULE = JobRule(check, (CODE,))
