"""A part: one record with its drawing and its states, from the blank to the finished piece."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Annotated

from pydantic import Field, field_validator
from pydantic_core import PydanticCustomError

from .fields import Mass
from .ids import Id, MaterialRef
from .looks import Looks
from .marks import Area, Each, Example, Order, Trait
from .picture import Picture
from .record import Record
from .scene import Feature, PartForm

_STOCK = Example("Sawn flat bar, 40 x 6 mm, paint dot at one end")


def part_id(number: str) -> str:
    """A part number as an id: lower case, single hyphens for all other signs.

    >>> part_id("TRW 204/B")
    'trw-204-b'
    """
    return re.sub(r"[^a-z0-9]+", "-", number.lower()).strip("-")


def _with_a_letter_or_digit(value: str) -> str:
    if part_id(value) in ("", "index"):
        raise PydanticCustomError("part_number", "'{value}' is no part number", {"value": value})
    return value


class PartState(Record):
    """One state of a part on its way through the shop."""

    about = Area.PART

    id: Annotated[Id, Example("blank")]
    """One word of the trade, such as `blank`, `drilled` or `reamed`; jobs take and leave it."""
    name: Annotated[str, Trait.ON_ITS_OWN_PAGE, Example("Sawn blank")]
    """What people call the part in this state."""
    looks_like: Annotated[str, _STOCK]
    """What is in the hand then: the stock, or what has been made so far."""
    mass: Mass | None = None
    """Mass of one piece in this state, where it is not that of the part."""
    picture: Annotated[Picture | None, Area.PICTURE] = None
    """One piece in this state."""
    features: Annotated[tuple[Feature, ...], Area.PICTURE, Trait.LATER, Order.COUNTS] = ()
    """What the job before it made: the strong line of the part's drawing."""


class Part(Record):
    """A part that is made here: what all jobs on it share."""

    about = Area.PART

    id: Id
    """The part number as an id; its page keeps it."""
    number: Annotated[str, Trait.NAME, Example("TRW-204")]
    """The part number, as on the drawing."""
    name: Annotated[str, Trait.NAME, Example("Vent hinge plate")]
    """What the part is called."""
    drawing: Annotated[str, Trait.DOCUMENT, Example("TRW-204, issue B")]
    """The drawing and its issue."""
    material: Annotated[MaterialRef, Area.MATERIAL]
    """The material, by id."""
    mass: Mass | None = None
    """Mass of one piece."""
    picture: Annotated[Picture | None, Area.PICTURE] = None
    """The finished part."""
    form: Annotated[PartForm | None, Area.PICTURE, Trait.LATER] = None
    """Its outer sizes, for drawings; left out, they are drawn to fit."""
    drawn_as: Annotated[Looks | None, Area.PICTURE, Trait.LATER] = None
    """The outline that stands for it in lists; left out, taken from its kind and its name."""
    states: Annotated[tuple[PartState, ...], Trait.ON_ITS_OWN_PAGE, Order.COUNTS, Each("state")] = (
        Field(min_length=1)
    )
    """Its states along the route, in order: the first as it arrives, the last as it is finished."""

    _number = field_validator("number")(_with_a_letter_or_digit)

    def state(self, state_id: str | None) -> PartState | None:
        """The state of that id."""
        return next((one for one in self.states if one.id == state_id), None)


class PartCopy(Record):
    """What a job says of its part where the part has no record of its own: the former way."""

    number: Annotated[str, Example("TRW-204")]
    """The part number, as on the drawing."""
    name: Annotated[str, Example("Vent hinge plate")]
    """What the part is called."""
    drawing: Annotated[str, Example("TRW-204, issue B")]
    """The drawing and its issue."""
    material: Annotated[MaterialRef, Area.MATERIAL]
    """The material, by id."""
    stock: Annotated[str, _STOCK]
    """The form it arrives in."""
    mass: Mass | None = None
    """Mass of one piece."""

    _number = field_validator("number")(_with_a_letter_or_digit)

    @property
    def id(self) -> str:
        """The number as an id."""
        return part_id(self.number)


@dataclass(frozen=True, slots=True)
class WorkPiece:
    """A part as one job meets it."""

    part: Part
    takes: PartState | None
    """The state in which the job takes it."""
    leaves: PartState | None
    """The state in which the job leaves it, where that is told."""

    @property
    def arrives_as(self) -> str:
        """What the job is handed."""
        return self.takes.looks_like if self.takes else ""

    @property
    def mass(self) -> Mass | None:
        """Mass of one piece as the job takes it."""
        own = self.takes.mass if self.takes else None
        return own or self.part.mass
