"""What a tap, or the clutch of its holder, stands."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from .fields import Torque
from .marks import Example
from .record import Record


class TorqueLimitKind(StrEnum):
    """What a torque does to a tap."""

    BREAKING = "breaking"
    CLUTCH = "clutch"


class TorqueLimit(Record):
    """The torque that a tap, or the clutch of its holder, stands, by its maker."""

    torque: Torque
    """The maker's figure."""
    kind: TorqueLimitKind
    """Whether the tap breaks there, or a clutch slips."""
    source: Annotated[str, Example("the maker's catalogue, with its page")]
    """Where the figure comes from."""
