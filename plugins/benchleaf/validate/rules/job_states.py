"""V407: a job takes one state of its part and leaves another, and the part has both."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Related, Sample, Severity, suggestion

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V407",
    "A job takes or leaves a state that its part has not",
    why="What arrives, and which job comes next, is known by the states of the part.",
    instead="Name two states of the part's record: `takes: blank`, `leaves: drilled`.",
    bad=(
        Sample(
            """
            # A state that is spelt otherwise in the record.
            - file: jobs/vg-0010.yml
              find: "leaves: drilled"
              put: "leaves: driled"
            """,
            """
            content/jobs/vg-0010.yml:12:9: error V407 part VG-R1 has no state 'driled'
                did you mean 'drilled'?
                its states: deburred, drilled, sawn
                see also content/parts/vg-r1.yml:8:3: the states
            """,
        ),
        Sample(
            """
            # What arrives is not told.
            - file: jobs/vg-0010.yml
              find: |
                takes: sawn
              put: ""
            """,
            """
            content/jobs/vg-0010.yml:10:7: error V407 the job does not say in which state it
                    takes the part
                write 'takes: ...' with one of its states
                there are: sawn, drilled, deburred
            """,
        ),
        Sample(
            """
            # A state of no part.
            - file: jobs/vg-0020.yml
              find: |
                part: vg-r1
              put: ""
            """,
            """
            content/jobs/vg-0020.yml:10:8: error V407 'takes' names a state, and the job has
                    no part
                write `part:` with the id of its part, or take the key out
            content/jobs/vg-0020.yml:11:9: error V407 'leaves' names a state, and the job
                    has no part
                write `part:` with the id of its part, or take the key out
            content/parts/vg-r1.yml:11:9: note V410 no job takes the state 'drilled' of part
                    VG-R1
                write that job, or take the state out
            content/parts/vg-r1.yml:14:9: note V410 no job leaves the state 'deburred' of
                    part VG-R1
                write that job, or take the state out
            """,
        ),
        Sample(
            """
            # The job leaves the part as it takes it.
            - file: jobs/vg-0020.yml
              find: "leaves: deburred"
              put: "leaves: drilled"
            """,
            """
            content/jobs/vg-0020.yml:12:9: error V407 the job leaves the part as it takes
                    it: 'drilled'
                give what it leaves a state of its own, such as 'checked'
            """,
        ),
    ),
    good="""
        # Capitals do not count.
        - file: jobs/vg-0020.yml
          find: "takes: drilled"
          put: "takes: Drilled"
    """,
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each state that is missing, unknown, or the same on both sides."""
    job, part = case.job, case.shop.parts.get(case.job.part or "")
    if job.id in case.shop.copied:  # told by V406
        return
    for key in ("takes", "leaves"):
        state = getattr(job, key)
        if state and job.part is None:
            yield _error(
                case,
                key,
                f"'{key}' names a state, and the job has no part",
                "write `part:` with the id of its part, or take the key out",
            )
        elif state and part and part.state(state) is None:
            yield Finding(
                CODE.id,
                Severity.ERROR,
                case.place(key),
                f"part {part.number} has no state '{state}'",
                suggestion(state, [one.id for one in part.states], what="its states"),
                (Related(case.places.of("parts", part.id, ("states",)), "the states"),),
            )
    if part and job.takes is None:
        known = ", ".join(one.id for one in part.states)
        yield _error(
            case,
            "part",
            "the job does not say in which state it takes the part",
            "write 'takes: ...' with one of its states",
            f"there are: {known}",
        )
    if part and job.takes and job.takes == job.leaves:
        yield _error(
            case,
            "leaves",
            f"the job leaves the part as it takes it: '{job.takes}'",
            "give what it leaves a state of its own, such as 'checked'",
        )


def _error(case: JobCase, key: str, text: str, *cures: str) -> Finding:
    return Finding(CODE.id, Severity.ERROR, case.place(key), text, cures)


RULE = JobRule(check, (CODE,))
