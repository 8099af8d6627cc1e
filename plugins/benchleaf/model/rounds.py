"""How a job is taught: shown first, uncounted, then rounds in which the learner does it.

The one list of them: step view, try-out record, timetable, lengths of lessons and the records of
people read it. Names and order are a house rule of this manual.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Hides(StrEnum):
    """What the step view keeps back until it is touched. Hazards are never kept back."""

    NOTHING = "nothing"
    STEP = "step"
    """Its title and what comes after; figures to set stay, as nobody sets from memory."""
    POINTS = "points"
    REASONS = "reasons"


@dataclass(frozen=True, slots=True)
class TeachingRound:
    """One turn through the whole job."""

    number: int
    """As it is recorded; 0 is the showing, which does not count."""
    name: str
    learner: str
    """What the learner does, for the trainer's sheets."""
    ask: str
    """What the learner is asked, on the screen."""
    card: str
    """What stands where something is kept back."""
    hides: Hides
    counts_points: bool = False
    """Whether key points are counted on the try-out record, rather than steps ticked."""

    @property
    def label(self) -> str:
        """Number and name, such as `2 Name it`."""
        return f"{self.number} {self.name}"


WATCH_FIRST = TeachingRound(
    0,
    "Watch first",
    "watches",
    "Watch your trainer do each step, or read it. Everything is shown, and it does not count.",
    "",
    Hides.NOTHING,
)

ROUNDS = (
    TeachingRound(
        1,
        "Hands only",
        "does it, silent",
        "Do each step yourself, in silence. Your trainer watches, and stops you at any error.",
        "Do this step now, in silence. Touch here to see it.",
        Hides.STEP,
    ),
    TeachingRound(
        2,
        "Name it",
        "does it, and names each step",
        "Do it again. Say aloud what each step is, before you do it.",
        "Say what this step is. Then touch here.",
        Hides.STEP,
    ),
    TeachingRound(
        3,
        "Key points",
        "does it, and says the key points",
        "Do it again. At each step, say its key points.",
        "Say this key point. Then touch here.",
        Hides.POINTS,
        counts_points=True,
    ),
    TeachingRound(
        4,
        "Reasons",
        "does it, and gives the reasons",
        "Do it again. For each key point, say why it matters.",
        "Say why. Then touch here.",
        Hides.REASONS,
        counts_points=True,
    ),
)

IN_WORDS = "four rounds"
"""How many count, for running text."""
