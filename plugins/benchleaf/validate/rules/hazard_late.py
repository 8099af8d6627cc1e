"""V520: a hazard's message stands no later than the first step that it bites in."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample
from benchleaf.model import Hazard
from benchleaf.model.textlinks import text_links

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V520",
    "A hazard is shown later than it bites",
    why="The learner has met the danger before reading of it.",
    instead="Add the hazard to the step named.",
    bad=(
        Sample(
            """
            # The key is thrown at the start, and the message stands at the gauging.
            - file: hazards/key-in-chuck.yml
              text: |
                id: key-in-chuck
                title: Key left in the chuck
                severity: death or serious injury
                accident_if_not_avoided: could
                harm_if_accident: could
                what: A key left in the chuck is thrown out.
                avoid:
                  - Hang the key on its hook.
                bites_at:
                  - press start
                controls:
                  guard:
                    - A spring in the tip pushes the key out.
                  procedure:
                    - The key hangs on its hook.
            - file: addresses.yml
              find: |2
                  - hazards/work-turns.html
              put: |2
                  - hazards/work-turns.html
                  - hazards/key-in-chuck.html
            - file: jobs/vg-0010.yml
              find: |2
                  - id: gauge
                    title: Gauge the first hole
              put: |2
                  - id: gauge
                    title: Gauge the first hole
                    hazards:
                      - key-in-chuck
            """,
            """
            content/jobs/vg-0010.yml:69:5: warning V520 'key-in-chuck' bites in the step
                    'drill' already, and is shown first in the step 'gauge'
                add 'key-in-chuck' to the hazards of this step
                where it does not fit this job: accept: [{code: V520, reason: ...}]
            """,
        ),
    ),
    good="""
        # The message stands where the start is.
        - file: hazards/key-in-chuck.yml
          text: |
            id: key-in-chuck
            title: Key left in the chuck
            severity: death or serious injury
            accident_if_not_avoided: could
            harm_if_accident: could
            what: A key left in the chuck is thrown out.
            avoid:
              - Hang the key on its hook.
            bites_at:
              - press start
            controls:
              procedure:
                - The key hangs on its hook.
        - file: addresses.yml
          find: |2
              - hazards/work-turns.html
          put: |2
              - hazards/work-turns.html
              - hazards/key-in-chuck.html
        - file: jobs/vg-0010.yml
          find: |2-
                hazards:
                  - work-turns
                right: A steady
          put: |2-
                hazards:
                  - key-in-chuck
                right: A steady
    """,
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each hazard that the learner meets after it could hurt."""
    job, shop = case.job, case.shop
    everywhere = {*job.hazards, *(case.machine.hazards if case.machine else ())}
    first_shown: dict[str, int] = {}
    for index, step in enumerate(job.steps):
        for hazard_id in step.hazards:
            first_shown.setdefault(hazard_id, index)
    for hazard_id, shown in first_shown.items():
        hazard = shop.hazards.get(hazard_id)
        if hazard is None or hazard_id in everywhere:
            continue
        bites = next((at for at in range(shown) if _bites(hazard, case.asked[at])), None)
        if bites is not None:
            yield from case.practice(
                CODE,
                ("steps", bites),
                f"'{hazard_id}' bites in the step '{job.steps[bites].id}' already, and is shown "
                f"first in the step '{job.steps[shown].id}'",
                f"add '{hazard_id}' to the hazards of this step",
            )


def _bites(hazard: Hazard, asked: str) -> bool:
    """The step asks for something the hazard names as its sign, or speaks of the hazard itself."""
    if any(link.kind == "hazards" and link.id == hazard.id for link in text_links(asked)):
        return True
    return any(re.search(rf"\b{re.escape(sign)}\b", asked, re.I) for sign in hazard.bites_at)


RULE = JobRule(check, (CODE,))
