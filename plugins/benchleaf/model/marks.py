"""Marks on a field: what it is about, whether its order counts, an example, and the like.

They stand in the annotation, such as `Annotated[Text, Area.REASON, Example("...")]`; the meaning in
words stands beneath the field. Whoever asks what a field means reads both there, by `declared.py`:
no other place lists keys by name.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum, StrEnum, auto


class Area(StrEnum):
    """What a change of a field is about; `diff/consequence.py` says what follows from it.

    A field without one is about what the field that holds its record is about, and that is taught
    again unless said otherwise.
    """

    JOB = "job"
    ROUTE = "route"
    STEP = "step"
    KEY_POINT = "key point"
    REASON = "reason"
    HAZARD = "hazard"
    WORN = "equipment worn"
    CHECK = "check"
    TOOL = "tool"
    MATERIAL = "material"
    MACHINE = "machine"
    FLUID = "fluid"
    PART = "part"
    HOLDING = "holding"
    SET_UP = "set-up"
    FIGURE = "figure put in"
    """A number or source that only the reckoning of set-ups reads."""
    BREAKDOWN = "breakdown"
    """Other texts of a breakdown."""
    TROUBLE = "what to do when something goes wrong"
    HELP = "help text"
    """It only helps; where one is added, what was taught stays true."""
    PICTURE = "picture"
    TERM = "trade term"
    NAMES = "other names"
    """Spellings and pointers."""
    SHOP = "shop's facts"
    EMERGENCY = "call, emergency and cautions"
    PREFACE = "safety preface"
    PAGE = "free page"
    LIST = "list for new people"
    RULE = "rule for training"
    RATE = "rate of the job"
    SCREEN = "settings of screen and paper"
    TRAINER = "trainer's note"
    """For the trainer alone: no page of the kiosk shows it."""
    REVISION = "facts of the revision"
    CHECKS_ONLY = "for the checks only"


class Order(Enum):
    """Whether the order of a list's entries carries a meaning. Every list says so."""

    COUNTS = auto()
    FREE = auto()


class Trait(Enum):
    """What else may be said of a field."""

    NOT_TAUGHT = auto()
    """It may change while what is taught stays the same, whatever its area."""
    KEEPS_FROM_HARM = auto()
    """A text that keeps somebody from harm: no change of it is one of wording only."""
    GIVES_SIGNAL_WORD = auto()
    """One of the three inputs of a hazard's signal word."""
    LATER = auto()
    """A new record does not need it yet."""
    ISSUED = auto()
    """`benchleaf release` gives it: in a shop with change notices no file says it."""
    ASKED = auto()
    """Of several keys of which one is needed, the one that a new record asks for."""
    ONLY_RECKONED = auto()
    """A job learns of it only by the figures, limits and words that are reckoned from it."""
    ON_ITS_OWN_PAGE = auto()
    """It stands on the page of its own record only: no page of a job shows it."""
    NAME = auto()
    """What people call the thing."""
    PLACE = auto()
    """Where a thing stands or is kept."""
    REACHED_FOR_IN_DANGER = auto()
    """A place that a hand must find at once: a stop, an isolator."""
    RATING = auto()
    """A number that people compare with, or must not pass."""
    CONTROL = auto()
    """What keeps harm away."""
    DOCUMENT = auto()
    """A paper that says what the thing is, such as a drawing with its issue."""


@dataclass(frozen=True, slots=True)
class Example:
    """What may stand there, just as it is written in a file; for a type that brings none."""

    text: str


@dataclass(frozen=True, slots=True)
class Each:
    """What one entry of a list is called in words, where that is not the key itself."""

    name: str


@dataclass(frozen=True, slots=True)
class At:
    """The kinds of station at which a key may stand, and those that need it."""

    kinds: tuple[str, ...]
    needed_at: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Instead:
    """A key that may stand in a file in place of this one: jobs are made of it when it is read."""

    key: str
    meaning: str
    example: str


HANDBOOK = Example("handbook, with edition, page and table")
"""For the source of a published figure."""
