"""V535: a step says what keeps away the hazard that bites in it, or a guard does."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.model import Hazard, SignalWord, speaks_of

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V535",
    "A step names no control of a hazard that bites in it",
    why=(
        "Once its whole text was read, the step view shows a hazard with the control of the step. "
        "With none, and no guard, it shows the first line of the hazard, which may not fit here."
    ),
    instead="Say in a key point how it is avoided here, in words of the hazard's own lines.",
    bad=(
        Sample(
            """
            # Neither step speaks of the noise, and nothing guards against it.
            - file: hazards/work-turns.yml
              text: |
                id: work-turns
                title: Noise of the drill
                severity: minor or moderate injury
                accident_if_not_avoided: could
                harm_if_accident: could
                what: The drill is loud.
                avoid:
                  - Put ear muffs on.
                controls:
                  procedure:
                    - Nobody works beside it for more than an hour.
                source: Shop rule.
            """,
            """
            content/jobs/vg-0010.yml:63:9: note V535 the step 'clamp' names no control of
                    the hazard 'work-turns', and it has no guard
                say in a key point how it is avoided here
            content/jobs/vg-0010.yml:85:9: note V535 the step 'drill' names no control of
                    the hazard 'work-turns', and it has no guard
                say in a key point how it is avoided here
            """,
        ),
    ),
    good="""
        # A guard stands between.
        - file: hazards/work-turns.yml
          text: |
            id: work-turns
            title: Noise of the drill
            severity: minor or moderate injury
            accident_if_not_avoided: could
            harm_if_accident: could
            what: The drill is loud.
            avoid:
              - Put ear muffs on.
            controls:
              guard:
                - A lined cover stands round it.
            source: Shop rule.
    """,
)


def check(case: JobCase) -> Iterator[Finding]:
    """A note for each hazard that can injure in a step which says nothing against it."""
    for index, step in enumerate(case.job.steps):
        for place, hazard_id in enumerate(step.hazards):
            hazard = case.shop.hazards.get(hazard_id)
            if hazard is None or not _stands_open(hazard) or speaks_of(step, hazard):
                continue
            path = ("steps", index, "hazards", place)
            if not case.accepts(CODE, path):
                yield Finding(
                    CODE.id,
                    Severity.NOTE,
                    case.place(*path),
                    f"the step '{step.id}' names no control of the hazard '{hazard_id}', and it "
                    "has no guard",
                    ("say in a key point how it is avoided here",),
                )


def _stands_open(hazard: Hazard) -> bool:
    """True where it can injure, and nothing built keeps it away."""
    built = hazard.controls.design_out or hazard.controls.guard or hazard.controls.warn
    return hazard.signal_word is not SignalWord.NOTICE and not built


RULE = JobRule(check, (CODE,))
