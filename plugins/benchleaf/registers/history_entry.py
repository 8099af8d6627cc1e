"""What the registers of a shop hold beside fingerprints: its history, and how much there is."""

from __future__ import annotations

from datetime import date
from typing import Annotated

from pydantic import Field, StringConstraints

from benchleaf.model.ids import Id, Text
from benchleaf.model.marks import Example, Order
from benchleaf.model.record import Record, Revision

Link = Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{16}$")]


class Released(Record):
    """One change of one job as it was released: its number, its day, and its note."""

    job: Id
    """The job's id."""
    revision: Revision
    """The revision that the change led to."""
    effective: Annotated[date, Example("2026-12-15")]
    """The day from which it is in force."""
    approved_by: Annotated[str | None, Example("production engineer")] = None
    """Who approved it, by role; left out where the former files did not say."""
    note: Annotated[Text, Example("The check now names the plug gauge.")]
    """What changed."""
    wording_only: Annotated[bool, Example("true")] = False
    """True where only the wording changed, and the revision stayed."""
    link: Annotated[Link | None, Example("0123456789abcdef")] = None
    """Binds the entry to those before it."""


class Count(Record):
    """How much a register holds."""

    count: Annotated[int, Field(ge=0), Example("42")]
    """How many entries."""
    last: Annotated[Link, Example("0123456789abcdef")]
    """The link of the last one."""


class Kept(Count):
    """How much the record of what a job's revisions changed holds."""

    job: Id
    """The job's id."""


class Tally(Record):
    """How much each register holds: a register that lost its end is found by it."""

    addresses: Count
    """Of addresses.yml."""
    revisions: Count
    """Of revisions.yml."""
    history: Count
    """Of history.yml."""
    changed: Annotated[tuple[Kept, ...] | None, Order.COUNTS] = None
    """Of each file in changed/; left out where there was none, or none was counted yet."""
