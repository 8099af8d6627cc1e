"""V533: a hazard is called never met only where the machine has it, and no part of the job does."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V533",
    "A hazard is called never met that the job meets, or that its machine does not have",
    why=(
        "The page would leave out a warning that is needed at a step, or take away one that was "
        "never there."
    ),
    instead="Take it out of `not_met`, or out of the job and its steps where it truly never bites.",
    bad=(
        Sample(
            """
            # Called never met, and shown at two steps.
            - file: jobs/vg-0010.yml
              find: |
                have_ready:
              put: |
                not_met:
                  - hazard: work-turns
                    reason: The plate cannot turn.
                have_ready:
            """,
            """
            content/jobs/vg-0010.yml:41:13: error V533 'work-turns' is called never met, and
                    stands in the job's own hazards and in steps 'clamp', 'drill'
                take it out of not_met, or out of the places named where it truly never bites
            """,
        ),
        Sample(
            """
            # No hazard of that machine.
            - file: hazards/hot-oil.yml
              text: |
                id: hot-oil
                title: Hot oil
                severity: minor or moderate injury
                accident_if_not_avoided: could
                harm_if_accident: could
                what: Oil in the bath is hot.
                consequence: It burns the skin.
                avoid:
                  - Keep hands out of the bath.
                controls:
                  procedure:
                    - Let the bath cool.
            - file: addresses.yml
              find: |2
                  - hazards/work-turns.html
              put: |2
                  - hazards/hot-oil.html
                  - hazards/work-turns.html
            - file: jobs/vg-0010.yml
              find: |
                have_ready:
              put: |
                not_met:
                  - hazard: hot-oil
                    reason: No bath is used here.
                have_ready:
            """,
            """
            content/jobs/vg-0010.yml:41:13: error V533 'hot-oil' is called never met, and is
                    no hazard of the machine 'bench-drill'
                take it out; hazards of the machine: work-turns
            """,
        ),
    ),
    good="""
        # A hazard of the machine that the job does not meet.
        - file: hazards/hot-oil.yml
          text: |
            id: hot-oil
            title: Hot oil
            severity: minor or moderate injury
            accident_if_not_avoided: could
            harm_if_accident: could
            what: Oil in the bath is hot.
            consequence: It burns the skin.
            avoid:
              - Keep hands out of the bath.
            controls:
              procedure:
                - Let the bath cool.
        - file: addresses.yml
          find: |2
              - hazards/work-turns.html
          put: |2
              - hazards/hot-oil.html
              - hazards/work-turns.html
        - file: jobs/vg-0010.yml
          find: |
            have_ready:
          put: |
            not_met:
              - hazard: hot-oil
                reason: No bath is used here.
            have_ready:
        - file: machines/bench-drill.yml
          find: |
            hazards:
              - work-turns
          put: |
            hazards:
              - work-turns
              - hot-oil
    """,
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each entry that hides a hazard of the job, or one that no machine has."""
    for index, one in enumerate(case.job.not_met):
        found = _met_at(case, one.hazard) or _no_machines(case, one.hazard)
        if found:
            text, cure = found
            yield Finding(
                CODE.id,
                Severity.ERROR,
                case.place("not_met", index, "hazard"),
                f"'{one.hazard}' is called never met, {text}",
                (cure,),
            )


def _met_at(case: JobCase, hazard: str) -> tuple[str, str] | None:
    steps = [f"'{step.id}'" for step in case.job.steps if hazard in step.hazards]
    where = ["the job's own hazards"] if hazard in case.job.hazards else []
    if steps:
        where.append(f"step {', '.join(steps)}" if len(steps) == 1 else f"steps {', '.join(steps)}")
    if not where:
        return None
    return (
        f"and stands in {' and in '.join(where)}",
        "take it out of not_met, or out of the places named where it truly never bites",
    )


def _no_machines(case: JobCase, hazard: str) -> tuple[str, str] | None:
    """Nothing where the machine, or the hazard, is not known: that is told elsewhere."""
    machine = case.machine
    if machine is None or hazard not in case.shop.hazards or hazard in machine.hazards:
        return None
    known = ", ".join(machine.hazards) or "none"
    return (
        f"and is no hazard of the machine '{machine.id}'",
        f"take it out; hazards of the machine: {known}",
    )


RULE = JobRule(check, (CODE,))
