"""What a step declares about hands inside the machine, and about the faults a trainer plants."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from .fields import Length
from .ids import HazardRef, Text
from .marks import Example
from .record import Record


class InsideWork(StrEnum):
    """What hands do inside the guard or at a part that can move."""

    LOADING = "loading"
    """Putting work in and taking it out, at rest, in normal production."""
    CLEANING = "cleaning"
    """Brushing chips away, wiping, clearing a jam."""
    GAUGING = "gauging"
    """Measuring or looking closely at work or tool where it stands in the machine."""
    TURNING_BY_HAND = "turning by hand"
    """Turning a spindle, chuck or wheel with a hand."""
    TOOL_CHANGE = "tool change"
    """Fitting or taking out a tool, where that is routine and part of production."""
    SERVICING = "servicing"
    """Setting, adjusting, mending, and every other work on the machine itself."""


class Protection(StrEnum):
    """What keeps the machine from moving while hands are inside."""

    INTERLOCK = "guard with interlock"
    """The open guard itself keeps the drive off."""
    OWN_CONTROL = "own control of the start"
    """Isolator off or plug out, in reach and in sight of the one whose hands are inside."""
    LOCK = "lock"
    """The isolator is off and locked by the one whose hands are inside."""
    STOP_BUTTON = "stop button"
    """No isolation: it only works through the control circuit."""
    EMERGENCY_STOP = "emergency stop"
    """No isolation: it only works through the control circuit."""
    NOTHING = "nothing"
    """Nothing but a machine that stands still."""


class HandsInside(Record):
    """That hands go inside the machine at this step, and what protects them."""

    doing: InsideWork
    """What the hands do there."""
    protected_by: Protection
    """What keeps the machine from moving meanwhile."""
    how: Annotated[
        Text, Example("The isolator is off, in your reach, and you alone work at this drill.")
    ]
    """The same in words for the operator: what is switched, plugged or locked, and where."""
    minor_servicing: Annotated[
        Text | None, Example("It is small, done each shift as part of the work.")
    ] = None
    """Why servicing here is minor, routine and part of production, where no lock is used."""


class PlantedFault(Record):
    """One thing that the trainer sets wrong on purpose, and puts right again.

    Pages say by themselves that the trainer tells the learner beforehand that one thing will be
    wrong, and stands in reach of the stop.
    """

    what: Annotated[Text, Example("The speed card shows a wrong speed.")]
    """What is wrong, and what the learner must find."""
    put_right: Annotated[Text, Example("Turn the speed card back, and read it together.")]
    """What is put right at the end; a line to tick."""


class NotMet(Record):
    """A hazard of the machine that this job never meets."""

    hazard: HazardRef
    """The hazard of the machine, by id."""
    reason: Annotated[Text, Example("The spindle never turns in this job.")]
    """Why nobody meets it in this job."""


MOST_PLACES = 40
"""In a row, and rows in a tray: a drawing of more is no longer read at the kiosk."""


class TrayKind(StrEnum):
    """What the parts are handed on in."""

    SLOTTED_TRAY = "slotted tray"
    DRILLED_BOARD = "drilled board"
    PEGGED_BOARD = "pegged board"
    TOTE = "tote"


class Tray(Record):
    """A tray or board with a place for every piece, drawn from above from these numbers."""

    kind: TrayKind
    """What kind of tray or board."""
    rows: Annotated[int, Field(ge=1, le=MOST_PLACES), Example("1")]
    """Rows of places, 1 to 40."""
    in_a_row: Annotated[int, Field(ge=1, le=MOST_PLACES), Example("20")]
    """Places in one row, 1 to 40."""
    length: Annotated[Length | None, Example("120 mm")] = None
    """The longer side of a piece as it stands there, seen from above."""
    width: Annotated[Length | None, Example("6 mm")] = None
    """The shorter side of a piece as it stands there, seen from above."""
    diameter: Annotated[Length | None, Example("20 mm")] = None
    """Of a round piece that stands upright, instead of length and width."""
    gap: Annotated[Length, Example("3 mm")]
    """Free room between one piece and the next."""
    tells: Annotated[Text, Example("An empty slot shows a missing plate.")]
    """How it shows a missing, a bent or a bad piece."""

    @model_validator(mode="after")
    def _one_shape(self) -> Tray:
        sides = self.length is not None and self.width is not None
        partly = self.length is not None or self.width is not None
        if (self.diameter is None) != sides or (self.diameter is not None and partly):
            raise PydanticCustomError(
                "tray_shape",
                "a tray takes length and width of its pieces, or their diameter",
                {"field": "kind"},
            )
        return self

    @property
    def holds(self) -> int:
        """How many pieces it holds."""
        return self.rows * self.in_a_row
