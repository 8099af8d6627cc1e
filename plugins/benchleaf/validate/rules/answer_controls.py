"""V538: no answer that is offered as wrong is a control of a hazard, step, job or machine."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.model import (
    Hazard,
    Shop,
    hazards_met,
    lines_of,
    says_the_same,
    what_controls,
    workplace,
)

from ..places import Places
from ..rule import ShopRule

CODE = Code(
    "V538",
    "A wrong answer is a control",
    why=(
        "The step view asks what keeps a hazard away. A learner who is told that a control is "
        "wrong may leave it out. An answer that only nearly says the same is misread."
    ),
    instead="Take an act that keeps nobody from harm, in words of its own.",
    bad=(
        Sample(
            """
            # A line of the hazard itself, and a key point of a job that meets it.
            - file: hazards/work-turns.yml
              find: "source: US OSHA"
              put: |-
                wrong_answers:
                  answers:
                    - Wear your safety glasses.
                    - Push against the clamped plate, then start.
                    - Let the fluid run on the drill.
                  approved_by: production engineer
                  approved: 2026-03-02
                source: US OSHA
            """,
            """
            content/hazards/work-turns.yml:20:7: error V538 the wrong answer 'Wear your safety
                    glasses.' is a control: 'Safety glasses with side shields.', in this
                    hazard itself
                take another act, in words that it does not share with that line
            content/hazards/work-turns.yml:21:7: error V538 the wrong answer 'Push against
                    the clamped plate, then start.' is a control: 'Push against the clamped
                    plate before each start.', in this hazard itself
                take another act, in words that it does not share with that line
            content/hazards/work-turns.yml:22:7: error V538 the wrong answer 'Let the fluid
                    run on the drill.' is a control: 'Let fluid run on the drill.', in step
                    'drill' of VG-0010
                take another act, in words that it does not share with that line
            """,
        ),
    ),
    good="""
        # Acts that keep nobody from it.
        - file: hazards/work-turns.yml
          find: "source: US OSHA"
          put: |-
            wrong_answers:
              answers:
                - Count the plates once more.
                - Wipe the label of the tote.
              approved_by: production engineer
              approved: 2026-03-02
            source: US OSHA
    """,
)


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """A finding for each answer that says what keeps somebody from harm where it may be offered."""
    asked = [one for one in shop.hazards.values() if one.wrong_answers]
    if not asked:
        return
    lines = {one.id: list(_beside(shop, one)) for one in asked}
    for hazard in asked:
        for index, answer in enumerate(
            hazard.wrong_answers.answers if hazard.wrong_answers else ()
        ):
            found = next((one for one in lines[hazard.id] if says_the_same(answer, one[0])), None)
            if found:
                path = ("wrong_answers", "answers", index)
                yield Finding(
                    CODE.id,
                    Severity.ERROR,
                    places.of("hazards", hazard.id, path),
                    f"the wrong answer '{answer}' is a control: '{found[0]}', in {found[1]}",
                    ("take another act, in words that it does not share with that line",),
                )


def _beside(shop: Shop, hazard: Hazard) -> Iterator[tuple[str, str]]:
    """Its own lines, then those of each job and machine that meets it."""
    yield from ((line, "this hazard itself") for line in lines_of(hazard))
    for job in shop.jobs.values():
        if job.machine in shop.machines:
            machine = workplace(shop, job)
            if hazard.id in hazards_met(job, machine):
                yield from what_controls(shop, job, machine)


RULE = ShopRule(check, (CODE,))
