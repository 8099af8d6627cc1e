"""A warning that a record may carry, and why."""

from __future__ import annotations

from .ids import Id
from .record import Record


class Accepted(Record):
    """A warning that this record may carry, and why."""

    code: str
    """The code of the warning, such as V505."""
    step: Id | None = None
    """The one step that it is accepted in; left out where it holds for the whole job."""
    reason: str
    """Why the warning does not fit this record."""
