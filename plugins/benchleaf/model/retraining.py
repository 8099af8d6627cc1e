"""The shop's own settings of the rule on retraining; the rule is in `diff/consequence.py`."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from .fields import Factor
from .marks import Example, Order
from .record import Record


class Told(StrEnum):
    """Changes that people are told of, unless the shop teaches them again too."""

    FIGURES = "figures within tolerance"
    PICTURES = "pictures"
    HELP = "added help texts"
    TERMS = "trade terms"
    NAMES = "other names"
    PAGES = "free pages"


class Taught(StrEnum):
    """Changes that are taught again, unless the shop only tells of them."""

    EASIER = "key points that make it easier"
    TROUBLE = "what to do when something goes wrong"
    PART = "part and stock"


class Retraining(Record):
    """When a change asks for new teaching, and by when."""

    figure_tolerance: Annotated[Factor, Field(le=20)] = 5.0
    """How far a set-up figure may move in percent, no limit touched, to be told only.

    A house rule: the published models for one cut differ by more.
    """
    teach_within_days: Annotated[int, Field(ge=0, le=365), Example("0")] = 0
    """Days from the change until the last day to teach it; nobody runs the job untaught."""
    tell_within_days: Annotated[int, Field(ge=0, le=365), Example("7")] = 7
    """Days from the change until everybody has been told."""
    teach_again_for: Annotated[tuple[Told, ...], Order.COUNTS] = ()
    """Changes of the milder sort that this shop teaches again."""
    tell_only_for: Annotated[tuple[Taught, ...], Order.COUNTS] = ()
    """Changes of the graver sort that this shop only tells."""
    reason: Annotated[str | None, Example("Every operator is on the floor in any week.")] = None
    """Why the shop departs from the usual."""
