"""Which line of a hazard belongs to a step: the one whose words the step itself uses.

Whatever is chosen is a line of the hazard's own record, so a poor choice is still a true control.
"""

from __future__ import annotations

import re
from functools import lru_cache
from math import sqrt

from .hazard import Hazard
from .job import KeyPointKind, Step

SHARED_LEAST = 2
"""Words that a step and a line must share: one alone, such as *hand*, is in nearly every step."""
OF_THE_WORK = 0.5
"""What a word counts that only stands in key points on the work, and not on what can injure."""

_COMMON_WORDS = """
all and any are but can could does each every for from has have his its itself may more must never
not nor off once one only onto other out over same shall some such than that the their them then
there these they this those two under until upon was were what when where which while who whom will
with would you your yours after again before both comes come goes into take takes stay stays drill
"""
_COMMON = frozenset(_COMMON_WORDS.split())
_ENDINGS = re.compile(r"(?<=[a-z]{3})(?:ings?|ed|es|s|e)$")


def control_here(hazard: Hazard, step: Step) -> str | None:
    """The line of a hazard that a step's words name best; None where they name none of them.

    A long line shares more words by chance, so its length counts against it. Of equally good ones
    the first: what to do, then the controls in their published order.
    """
    injures, work = _words_of(step)
    best, most = None, 0.0
    for line in lines_of(hazard):
        telling = stems(line)
        shared = telling & (injures | work)
        if len(shared) < SHARED_LEAST:
            continue
        near = sum(1.0 if stem in injures else OF_THE_WORK for stem in shared) / sqrt(len(telling))
        if near > most:
            best, most = line, near
    return best


def speaks_of(step: Step, hazard: Hazard) -> bool:
    """True where a step uses any word of a hazard's lines: less than it takes to choose one."""
    injures, work = _words_of(step)
    return any(stems(line) & (injures | work) for line in lines_of(hazard))


def control_shown(hazard: Hazard, step: Step | None = None) -> str:
    """What stands beside a hazard's name where its whole text is not shown.

    The control that the step names; else the first guard, or, where nothing guards, the first
    thing to do.
    """
    here = control_here(hazard, step) if step else None
    if here:
        return here
    return next(iter((*hazard.controls.guard, *lines_of(hazard))), "")


def lines_of(hazard: Hazard) -> tuple[str, ...]:
    """Everything that keeps a hazard away: what to do, then the controls, strongest first."""
    kept = hazard.controls
    built = (*kept.design_out, *kept.guard, *kept.warn)
    return (*hazard.avoid, *built, *kept.procedure, *kept.wear)


def _words_of(step: Step) -> tuple[frozenset[str], frozenset[str]]:
    """The words about what can injure, title and stance among them, and those about the work."""
    hands = step.hands_inside.how if step.hands_inside else ""
    points: dict[bool, list[str]] = {True: [step.title, step.stand or "", hands], False: []}
    for one in step.key_points:
        points[one.kind is KeyPointKind.CAN_INJURE].append(one.point)
    return stems(" ".join(points[True])), stems(" ".join(points[False]))


@lru_cache(maxsize=4096)
def stems(text: str) -> frozenset[str]:
    """The telling words of a text, without their endings."""
    words = re.findall(r"[a-z]{3,}", text.lower())
    return frozenset(_ENDINGS.sub("", word) for word in words if word not in _COMMON)
