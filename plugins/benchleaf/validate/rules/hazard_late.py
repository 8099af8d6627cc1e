"""V520: a hazard's message stands no later than the first step that it bites in."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchleaf.diagnose import Finding
from benchleaf.model import Hazard
from benchleaf.model.textlinks import text_links

from ..case import JobCase


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
                "V520",
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
