"""V402: a set-up uses a tool of its job, and a step names a set-up of its job; L303: ids once."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Related, Sample, Severity, suggestion

from ..case import JobCase
from ..codes import USED_TWICE
from ..rule import JobRule

CODE = Code(
    "V402",
    "A set-up names something that does not fit the job",
    why="The figures would belong to another tool or set-up.",
    instead="Name a tool of the job, and a set-up of the job.",
    bad=(
        Sample(
            """
            # A set-up with a drill that the job has not.
            - file: jobs/vg-0010.yml
              find: |
                tools:
                  - drill-8
              put: |
                tools:
            """,
            """
            content/jobs/vg-0010.yml:45:11: error V402 the set-up uses 'drill-8', which is
                    no tool of this job
                add it to the job's tools, or name one of them
                tools of this job: plug-gauge-8
            """,
        ),
        Sample(
            """
            # An element of the piece that names another set-up.
            - file: jobs/vg-0010.yml
              find: "hand_on: Lay"
              put: |-
                piece_rate:
                  source: timed for the tests
                  elements:
                    - what: Drill
                      set_up: guide-holes
                    - what: Clamp
                      time: 12 s
                hand_on: Lay
            """,
            """
            content/jobs/vg-0010.yml:108:15: error V402 an element of the piece names set-up
                    'guide-holes', which this job has not
                did you mean 'guide-hole'?
                set-ups of this job: guide-hole
            """,
        ),
        Sample(
            """
            # A step that names a set-up where the job has none.
            - file: jobs/vg-0020.yml
              find: |
                title: Take off the burr on both sides
              put: |
                title: Take off the burr on both sides
                    set_up: guide-hole
            """,
            """
            content/jobs/vg-0020.yml:26:13: error V402 the step names the set-up
                    'guide-hole', which this job has not
                set-ups of this job: nothing yet
            """,
        ),
        Sample(
            """
            # A step that names another set-up.
            - file: jobs/vg-0010.yml
              find: |2
                    set_up: guide-hole
              put: |2
                    set_up: guide-holes
            """,
            """
            content/jobs/vg-0010.yml:43:5: warning V505 no step with the set-up 'guide-hole'
                    says to ease at break-through
                add the key point, and name the set-up in that step
                where it does not fit this job: accept: [{code: V505, reason: ...}]
            content/jobs/vg-0010.yml:87:13: error V402 the step names the set-up
                    'guide-holes', which this job has not
                did you mean 'guide-hole'?
                set-ups of this job: guide-hole
            """,
        ),
    ),
    good="""
        # A set-up named in capitals.
        - file: jobs/vg-0010.yml
          find: |2
                set_up: guide-hole
          put: |2
                set_up: Guide-Hole
    """,
)


def check(case: JobCase) -> Iterator[Finding]:
    """Findings about the inside of a case.job."""
    yield from _tools(case)
    yield from _steps(case)
    yield from _elements(case)
    yield from _anchors(case)


def _tools(case: JobCase) -> Iterator[Finding]:
    for index, set_up in enumerate(case.job.set_ups):
        dangling = any(tool not in case.shop.tools for tool in (set_up.tool, *case.job.tools))
        if not dangling and set_up.tool not in case.job.tools:
            yield Finding(
                CODE.id,
                Severity.ERROR,
                case.place("set_ups", index, "tool"),
                f"the set-up uses '{set_up.tool}', which is no tool of this job",
                (
                    "add it to the job's tools, or name one of them",
                    *suggestion(set_up.tool, case.job.tools, what="tools of this job"),
                ),
            )


def _elements(case: JobCase) -> Iterator[Finding]:
    known = [set_up.id for set_up in case.job.set_ups]
    rate = case.job.piece_rate
    for index, element in enumerate(rate.elements if rate else ()):
        if element.set_up is not None and element.set_up not in known:
            yield Finding(
                CODE.id,
                Severity.ERROR,
                case.place("piece_rate", "elements", index, "set_up"),
                f"an element of the piece names set-up '{element.set_up}', which this job has not",
                suggestion(element.set_up, known, what="set-ups of this job"),
            )


def _steps(case: JobCase) -> Iterator[Finding]:
    known = [set_up.id for set_up in case.job.set_ups]
    for index, step in enumerate(case.job.steps):
        if step.set_up is not None and step.set_up not in known:
            yield Finding(
                CODE.id,
                Severity.ERROR,
                case.place("steps", index, "set_up"),
                f"the step names the set-up '{step.set_up}', which this job has not",
                suggestion(step.set_up, known, what="set-ups of this job"),
            )


def _anchors(case: JobCase) -> Iterator[Finding]:
    """Steps and set-ups share the page, so their ids are told apart together."""
    job = case.job
    named = [(step.id, ("steps", index, "id")) for index, step in enumerate(job.steps)]
    named += [(set_up.id, ("set_ups", index, "id")) for index, set_up in enumerate(job.set_ups)]
    if len({anchor for anchor, _ in named}) == len(named):
        return  # so it is nearly always: no place needs to be found
    named.sort(key=lambda one: case.place(*one[1]))
    first: dict[str, tuple[str | int, ...]] = {}
    for anchor, path in named:
        if anchor in first:
            yield Finding(
                USED_TWICE.id,
                Severity.ERROR,
                case.place(*path),
                f"the id '{anchor}' is used twice in this job",
                ("give one of the two another id",),
                (Related(case.place(*first[anchor]), "used first here"),),
            )
        else:
            first[anchor] = path


RULE = JobRule(check, (CODE, USED_TWICE))
