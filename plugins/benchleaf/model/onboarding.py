"""A list for a new person: what to read, learn and do, by day or stage, and who signs."""

from __future__ import annotations

from datetime import date
from enum import StrEnum
from typing import Annotated

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from .ids import FluidRef, HazardRef, Id, JobRef, MachineRef, TermRef, Text, Title, ToolRef
from .marks import Area, Example, Order, Trait
from .record import Record, Revision


class DoneWhen(StrEnum):
    """What counts as done, from the least to the most."""

    READ = "read"
    EXPLAINED_BACK = "explained back"
    SHOWN = "shown"
    TRIED = "tried with the trainer"
    DONE_ALONE = "done alone"
    DONE = "done"
    """For something to do that is not learned, such as fetching safety shoes."""


TARGETS = ("job", "page", "machine", "hazard", "tool", "fluid", "term")
"""The keys by which an item leads to a page; one at most."""


class Item(Record):
    """One line of the list: a page of the manual, something to do, or both."""

    job: JobRef | None = None
    """A job, such as TR-0140; an item leads to one of job, page, machine, hazard and so on."""
    step: Id | None = None
    """One step of that job."""
    page: Annotated[str | None, Example("safety.md")] = None
    """A free page, such as safety.md."""
    machine: MachineRef | None = None
    """A machine's page, by id."""
    hazard: HazardRef | None = None
    """A hazard's page, by id."""
    tool: ToolRef | None = None
    """A tool's page, by id."""
    fluid: FluidRef | None = None
    """A fluid's page, by id."""
    term: TermRef | None = None
    """A word of the trade, by id."""
    do: Annotated[
        Text | None, Trait.ASKED, Example("Fetch safety glasses and safety shoes from the store.")
    ] = None
    """What to do, in words; links such as [[TR-0140]] may stand in it."""
    done_when: DoneWhen
    """One of: read, explained back, shown, tried with the trainer, done alone, done."""
    signed_by: Annotated[tuple[str, ...], Order.COUNTS, Example("trainer")] = ()
    """Roles that sign, such as trainer; left out where a tick is enough."""

    @model_validator(mode="after")
    def _says_one_thing(self) -> Item:
        named = [key for key in TARGETS if getattr(self, key) is not None]
        if len(named) > 1 or not (named or self.do):
            raise PydanticCustomError("one_target", "", {"keys": ", ".join(TARGETS)})
        if self.step and not self.job:
            raise PydanticCustomError("step_of_job", "", {"field": "step"})
        return self


class Stage(Record):
    """Items that belong together: a day, or a stage."""

    title: Annotated[str, Example("Day 1")]
    """Such as Day 1."""
    day: Annotated[int | None, Field(ge=1, le=400), Example("1")] = None
    """The working day, counted from the first one of whoever follows the list; left out, the
    training timetable decides."""
    note: Annotated[Text | None, Example("Nobody starts a machine today.")] = None
    """A sentence before the items."""
    items: Annotated[tuple[Item, ...], Order.COUNTS] = Field(min_length=1)
    """What to read, learn and do, in order."""


class Onboarding(Record):
    """One list."""

    about = Area.LIST

    id: Id
    """Such as first-week; the file has the same name."""
    title: Annotated[Title, Example("First week at the pillar drill")]
    """What the list is called."""
    revision: Annotated[Revision, Area.REVISION]
    """Number or letters; it goes on with every change."""
    effective: Annotated[date, Area.REVISION, Example("2026-11-23")]
    """The day this revision came into force."""
    approved_by: Annotated[str, Area.REVISION, Example("training lead")]
    """A role, not a name."""
    for_whom: Annotated[Text, Example("A new operator of the pillar drill.")]
    """Who the list is for, in a sentence."""
    already: Annotated[tuple[JobRef, ...], Order.COUNTS] = ()
    """Jobs that these people can do alone before they begin."""
    stages: Annotated[tuple[Stage, ...], Order.COUNTS] = Field(min_length=1)
    """Days or stages, in order."""

    @model_validator(mode="after")
    def _days_go_on(self) -> Onboarding:
        days = [one.day for one in self.stages if one.day is not None]
        if days != sorted(days):
            raise PydanticCustomError("days_go_back", "", {"field": "stages"})
        return self

    def items(self) -> tuple[tuple[int, int, Item], ...]:
        """Every item in order, with its place: stage and line."""
        return tuple(
            (at, line, item)
            for at, stage in enumerate(self.stages)
            for line, item in enumerate(stage.items)
        )
