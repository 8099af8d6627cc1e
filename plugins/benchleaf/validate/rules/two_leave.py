"""V409: where two jobs leave the state that a job takes, it says which comes before it."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample
from benchleaf.model import work_of

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V409",
    "Two jobs leave the same state",
    why="The job that takes it does not know where its parts come from; the route has a gap.",
    instead=(
        "Give each its own state. Where either job may come before, write `operation_before` in "
        "the job that takes it: the usual one."
    ),
    bad=(
        Sample(
            """
            # A second job drills the plate, and nothing says which is the usual one.
            - file: jobs/vg-0010.yml
              find: |
                operation_after: VG-0020
              put: |
                end_of_route: The plates go to the next bench.
            - file: jobs/vg-0020.yml
              find: |
                operation_before: VG-0010
              put: ""
            - file: jobs/vg-0030.yml
              text: |
                id: VG-0030
                title: Drill the guide hole at the bench
                revision: 1
                effective: 2026-03-02
                approved_by: production engineer
                change_note: First issue.
                makes: One 8 mm hole through a rack plate.
                matters: The toothed bar runs on a pin in this hole.
                machine: bench-drill
                part: vg-r1
                takes: sawn
                leaves: drilled
                end_of_route: The plates go to the next bench.
                wear: [Safety glasses with side shields.]
                take_off: ["Gloves, rings and watch."]
                know_first: [VG-0010]
                steps:
                  - id: drill
                    title: Drill the hole
                    key_points:
                      - point: Hold the lever to the stop.
                        reason: Else the hole does not go through.
                        kind: makes or breaks the job
                if_wrong:
                  - sign: The drill squeals.
                    do: [Press stop and wait until the spindle is still.]
                hand_on: Stack the plates, one edge to the rail, on the trolley for the fitters.
            """,
            """
            content/addresses.yml: warning A602 7 addresses not in the register yet:
                    jobs/vg-0030.html, jobs/vg-0030.html#drill, trainer/vg-0030-breakdown.html and
                    more
                run `benchleaf register`, and commit the file with your change
            content/jobs/vg-0020.yml:11:8: warning V409 VG-0010 and VG-0030 leave 'drilled':
                    nothing says which comes before this job
                give each its own state, or write `operation_before: ID` here for the usual one
                where it does not fit this job: accept: [{code: V409, reason: ...}]
            """,
        ),
    ),
    good="""
        # A job that nobody else leaves the part for.
        - file: jobs/vg-0020.yml
          find: |
            operation_before: VG-0010
          put: ""
    """,
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding at the job that takes the state."""
    job = case.job
    if job.takes is None or job.operation_before is not None:
        return
    before = [
        work_of(case.shop.made, one.id).upper()
        for one in case.shop.jobs.values()
        if one.part == job.part and one.leaves == job.takes and one is not job
    ]
    before = list(dict.fromkeys(before))  # one job on several machines is one
    if len(before) > 1:
        others = f"{', '.join(before[:-1])} and {before[-1]}"
        yield from case.practice(
            CODE,
            ("takes",),
            f"{others} leave '{job.takes}': nothing says which comes before this job",
            "give each its own state, or write `operation_before: ID` here for the usual one",
        )


RULE = JobRule(check, (CODE,))
