"""How long a piece takes somebody who knows the job, from its elements and allowances."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from .fields import Duration, Factor
from .ids import Id, Text
from .marks import Example, Order
from .record import Record


class Element(Record):
    """A part of the work that is timed by itself."""

    what: Annotated[Text, Example("Clamp the plate")]
    """What is done, in a few words."""
    time: Annotated[Duration | None, Example("12 s")] = None
    """Time it takes once."""
    set_up: Annotated[Id | None, Example("fixing-holes")] = None
    """The id of a set-up of the job, instead of a time: its reckoned time under feed."""
    times_a_piece: Factor = 1.0
    """How often it comes in one piece; 0.1 for one piece in ten."""

    @model_validator(mode="after")
    def _one_of_the_two(self) -> Element:
        if (self.time is None) == (self.set_up is None):
            raise PydanticCustomError(
                "time_or_set_up", "an element has a time or a set-up", {"field": "what"}
            )
        return self


class Allowance(Record):
    """Time added for what every worker needs."""

    what: Annotated[str, Example("rest")]
    """What for, such as rest."""
    percent: Annotated[Factor, Field(le=100), Example("5")]
    """Percent of the elements' time."""


class PieceRate(Record):
    """The standard of a job; it says nothing of how the job is done."""

    elements: Annotated[tuple[Element, ...], Order.COUNTS] = Field(min_length=1)
    """The parts that are timed, in the order of the work."""
    allowances: Annotated[tuple[Allowance, ...], Order.COUNTS] = ()
    """What is added for rest and the like."""
    source: Annotated[str, Example("timed by the production engineer on 20 pieces")]
    """Who timed it, when, and on how many pieces."""
