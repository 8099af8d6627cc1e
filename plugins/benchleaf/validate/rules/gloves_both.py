"""V522: one step never asks for gloves and forbids them."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample
from benchleaf.model import Step

from ..case import JobCase
from ..rule import JobRule
from .wording import says, words

CODE = Code(
    "V522",
    "Gloves are asked for and forbidden in one step",
    why="Who is told both does what is easier, and a spindle catches gloves.",
    instead="Split the step where gloves go on or off, or correct one of the two.",
    bad=(
        Sample(
            """
            # The point says no gloves, the hazard says gloves.
            - file: hazards/cut-hands.yml
              text: |
                id: cut-hands
                title: Sharp edges
                severity: minor or moderate injury
                accident_if_not_avoided: could
                harm_if_accident: could
                what: A sawn edge cuts.
                avoid:
                  - Wear cut-proof gloves while you lift plates.
                controls:
                  procedure:
                    - The plates are lifted by their faces.
            - file: addresses.yml
              find: |2
                  - hazards/work-turns.html
              put: |2
                  - hazards/work-turns.html
                  - hazards/cut-hands.html
            - file: jobs/vg-0010.yml
              find: Push the plate down on both parallels.
              put: Take off your gloves. Push the plate down on both parallels.
            - file: jobs/vg-0010.yml
              find: |2-
                        kind: can injure
                    hazards:
                      - work-turns
                    stand
              put: |2-
                        kind: can injure
                    hazards:
                      - work-turns
                      - cut-hands
                    stand
            """,
            """
            content/jobs/vg-0010.yml:53:5: warning V522 the step 'clamp' asks for gloves
                    ('Wear cut-proof gloves while you lift plates.') and forbids them ('Take off
                    your gloves. Push the plate down on both parallels.')
                split the step where the gloves go on or off, or correct one of the two
                where it does not fit this job: accept: [{code: V522, reason: ...}]
            """,
        ),
    ),
    good="""
        # The hazard alone speaks of gloves.
        - file: hazards/cut-hands.yml
          text: |
            id: cut-hands
            title: Sharp edges
            severity: minor or moderate injury
            accident_if_not_avoided: could
            harm_if_accident: could
            what: A sawn edge cuts.
            avoid:
              - Wear cut-proof gloves while you lift plates.
            controls:
              procedure:
                - The plates are lifted by their faces.
        - file: addresses.yml
          find: |2
              - hazards/work-turns.html
          put: |2
              - hazards/work-turns.html
              - hazards/cut-hands.html
        - file: jobs/vg-0010.yml
          find: |2-
                    kind: can injure
                hazards:
                  - work-turns
                stand
          put: |2-
                    kind: can injure
                hazards:
                  - work-turns
                  - cut-hands
                stand
    """,
)

_ON = words(r"(?:wear|put on|pull on|with|in) (?:\w+[ -]){0,2}gloves?")
_OFF = words(
    r"(?:no|never|without|take off|remove|do not wear) (?:\w+[ -]){0,3}gloves?|gloves? off|"
    r"gloves? (?:come|comes|are|stay) off"
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each step in which the learner would not know what to do."""
    for index, step in enumerate(case.job.steps):
        texts = [text for text in _asks(case, step) if "glove" in text.lower()]
        on = next((text for text in texts if _wants(text)), None)
        off = next((text for text in texts if says(text, _OFF)), None)
        if on and off:
            yield from case.practice(
                CODE,
                ("steps", index),
                f"the step '{step.id}' asks for gloves ('{on}') and forbids them ('{off}')",
                "split the step where the gloves go on or off, or correct one of the two",
            )


def _wants(text: str) -> bool:
    return says(text, _ON) and not says(text, _OFF)


def _asks(case: JobCase, step: Step) -> Iterator[str]:
    """Points, and what the hazards of the step say about avoiding and wearing."""
    for one in step.key_points:
        yield one.point
    for hazard_id in step.hazards:
        hazard = case.shop.hazards.get(hazard_id)
        if hazard is not None:
            yield from hazard.avoid
            yield from (f"Wear {line[:1].lower()}{line[1:]}" for line in hazard.controls.wear)


RULE = JobRule(check, (CODE,))
