"""Every code of a broken limit, gathered from the stages that find it."""

from __future__ import annotations

from .break_through import GIVES_WAY
from .capacity import BEYOND_CAPACITY
from .forces import TOO_LITTLE_POWER, TOO_MUCH_THRUST
from .held_down import NOT_HELD_DOWN
from .holding import NOT_SHOWN, TOO_WEAK
from .lever import TOO_MUCH_PULL
from .shape import WRONG_SHAPE
from .spindle import TOO_FAST
from .tapping import TOO_MUCH_FOR_TAP
from .travel import QUILL_TOO_SHORT

CODES = (
    TOO_FAST,
    TOO_LITTLE_POWER,
    TOO_MUCH_THRUST,
    QUILL_TOO_SHORT,
    TOO_WEAK,
    NOT_SHOWN,
    BEYOND_CAPACITY,
    TOO_MUCH_PULL,
    WRONG_SHAPE,
    GIVES_WAY,
    TOO_MUCH_FOR_TAP,
    NOT_HELD_DOWN,
)
