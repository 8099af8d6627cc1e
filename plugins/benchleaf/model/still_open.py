"""The key under which a record says what is still to be given; `unfinished.py` looks for it."""

from __future__ import annotations

from typing import Annotated

from .marks import Area, Each, Example, Order, Trait

StillOpen = Annotated[
    tuple[str, ...],
    Area.CHECKS_ONLY,
    Order.FREE,
    Each("open point"),
    Trait.LATER,
    Example("The speeds on the plate of the machine."),
]
"""Numbers and answers to come. While one is left, a job that uses the record is a draft."""
