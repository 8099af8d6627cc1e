"""Whether an answer that is offered as wrong says what truly keeps somebody from harm.

A learner must never be told that a control is wrong. So an answer is held against every line that
keeps somebody from harm in the hazard, in each job that meets it, and at its machine; what shares
most of its words with such a line is refused too, also where only a *never* tells them apart: who
reads in a second language, or in haste, reads past it.
"""

from __future__ import annotations

from collections.abc import Iterator

from .control_here import lines_of, stems
from .hazards_met import hazards_met
from .job import Job
from .shop import Shop
from .textlinks import TEXT_LINK, read_link
from .things import Machine

ALIKE, HELD = 0.6, 0.75
"""Share of all words that two texts have in common, and share of an answer's words that stand in a
longer line, from which they say the same. Our own judgement, tried on the pairs in
`tests/model/test_wrong_answers.py`."""
_LIGHT = stems("wear use keep hold make sure always never put set have let get your")
"""What a command may do without: `Wear safety glasses` is `Safety glasses`."""


def says_the_same(answer: str, line: str) -> bool:
    """True where an answer is a line, or one edited, or a part of it.

    >>> line = "Wait until the spindle is still before you raise the guard."
    >>> says_the_same("Wait for the spindle to be still.", line)
    True
    >>> says_the_same("Raise the coolant tap first.", line)
    False
    """
    if folded(answer) == folded(line):
        return True
    one, other = stems(folded(answer)) - _LIGHT, stems(folded(line)) - _LIGHT
    both = len(one & other)
    if both == 0 or (both == 1 and one != other):
        return False
    return 2 * both / (len(one) + len(other)) >= ALIKE or both / len(one) >= HELD


def folded(text: str) -> str:
    """One space between words, links by the words of their ids, small letters, no end stop."""
    linked = TEXT_LINK.sub(lambda found: read_link(found[1]).id.replace("-", " "), text)
    return " ".join(linked.split()).casefold().rstrip(".!")


def what_controls(shop: Shop, job: Job, machine: Machine) -> Iterator[tuple[str, str]]:
    """Every line that keeps somebody from harm in a job, and where it stands, in words."""
    number = job.id.upper()
    for hazard_id in dict.fromkeys((*hazards_met(job, machine), *machine.hazards)):
        hazard = shop.hazards.get(hazard_id)
        for line in lines_of(hazard) if hazard else ():
            yield line, f"the hazard '{hazard_id}', met in {number}"
    for line in (*job.wear, *job.take_off):
        yield line, f"what is worn and taken off in {number}"
    if job.holding:
        yield job.holding.how, f"the holding of {number}"
    for step in job.steps:
        where = f"step '{step.id}' of {number}"
        hands = step.hands_inside.how if step.hands_inside else ""
        points = (one.point for one in step.key_points)
        told = (step.title, step.stand or "", hands, *points)
        yield from ((line, where) for line in told if line)
    yield from ((line, f"the guards of the machine '{machine.id}'") for line in machine.guards)
