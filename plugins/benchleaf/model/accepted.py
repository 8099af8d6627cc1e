"""A warning that a record may carry, and why."""

from __future__ import annotations

from typing import Annotated

from .ids import Id
from .marks import Example
from .record import Record


class Accepted(Record):
    """A warning that this record may carry, and why."""

    code: Annotated[str, Example("V505")]
    """The code of the warning, such as V505."""
    step: Id | None = None
    """The one step that it is accepted in; left out where it holds for the whole job."""
    reason: Annotated[
        str, Example("The plate lies on a sacrificial board, so the drill never comes free.")
    ]
    """Why the warning does not fit this record."""
