"""One job as the rules look at it: with its shop, machine and set-ups, its words read once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property

from benchleaf.compute import SetUpSheet, told
from benchleaf.diagnose import Code, Finding, Place, Severity
from benchleaf.model import (
    Holding,
    Job,
    KeyPath,
    Machine,
    Shop,
    Step,
    ToolKind,
    Units,
    is_driven,
    open_in,
    stations_of,
    units_at,
    workplace,
)

from .places import Places


@dataclass(frozen=True)
class JobCase:
    """A job and what a rule about it may need."""

    shop: Shop
    places: Places
    job: Job
    sheets: Sequence[SetUpSheet]
    """The computed set-ups."""
    today: date
    """The day on which reviews are looked at."""
    used: set[int] = field(default_factory=set)
    """Which of the job's acceptances were needed, as the rules come upon them."""

    def place(self, *path: str | int) -> Place:
        """The place of a value of the job."""
        return self.places.of("jobs", self.job.id, path)

    def practice(self, code: Code, path: KeyPath, text: str, cure: str) -> Iterator[Finding]:
        """A warning of common practice, unless the job accepts it, or it is to be written."""
        is_open = not self._unwritten.isdisjoint((path[:1], path[:2]))
        if not self.accepts(code, path) and not is_open:
            yield Finding(
                code.id,
                Severity.WARNING,
                self.place(*path),
                self.told(text),
                (
                    cure,
                    f"where it does not fit this job: accept: [{{code: {code.id}, reason: ...}}]",
                ),
            )

    def accepts(self, code: Code, path: KeyPath = ()) -> bool:
        """True where the job accepts a warning of that code there; remembers that it was needed."""
        for index, one in enumerate(self.job.accept):
            if one.code.upper() == code.id and (
                one.step is None or one.step == self._step_at(path)
            ):
                self.used.add(index)
                return True
        return False

    @cached_property
    def _unwritten(self) -> frozenset[KeyPath]:
        """The steps and keys with something open: V901 names that, and all else comes after it."""
        return frozenset(
            one.path[: 2 if one.path[0] == "steps" else 1] for one in open_in(self.job)
        )

    def _step_at(self, path: KeyPath) -> str | None:
        in_step = len(path) > 1 and path[0] == "steps" and isinstance(path[1], int)
        return self.job.steps[int(path[1])].id if in_step else None

    @cached_property
    def units(self) -> Units:
        """The units that the job's readers have first."""
        return units_at(self.shop, self.job)

    def told(self, text: str) -> str:
        """A sentence with its amounts in the units that the job's readers have first."""
        return told(text, self.units)

    @cached_property
    def machine(self) -> Machine | None:
        """The job's station, where there is such a record; with the hazards of all in a cell."""
        return workplace(self.shop, self.job) if self.job.machine in self.shop.machines else None

    @cached_property
    def turns(self) -> tuple[Machine, ...]:
        """Each spindle at the job's station whose speeds are known, as a machine of its own."""
        here = stations_of(self.shop, self.job.machine)
        each = (spindle for one in here for spindle in one.each_spindle)
        return tuple(one for one in each if one.spindle_speeds)

    @cached_property
    def is_driven(self) -> bool:
        """True where anything at the job's station starts and stops."""
        return is_driven(self.shop, self.job)

    @cached_property
    def drills(self) -> bool:
        """True for a job that drills: it has a set-up, and a drill among its tools."""
        tools = (self.shop.tools.get(tool_id) for tool_id in self.job.tools)
        has_drill = any(tool is not None and tool.kind is ToolKind.DRILL for tool in tools)
        return has_drill and bool(self.job.set_ups)

    @cached_property
    def holdings(self) -> tuple[tuple[KeyPath, Holding], ...]:
        """Every holding that the job states, its own and those of its set-ups, with its path."""
        set_ups = enumerate(self.job.set_ups)
        named = ((("set_ups", index, "holding"), one.holding) for index, one in set_ups)
        every: tuple[tuple[KeyPath, Holding | None], ...] = (
            (("holding",), self.job.holding),
            *named,
        )
        return tuple((path, held) for path, held in every if held is not None)

    @cached_property
    def asked(self) -> tuple[str, ...]:
        """Title and key points of each step: what is to be done, without the reasons."""
        return tuple(_asked_in(step) for step in self.job.steps)

    @cached_property
    def said(self) -> tuple[str, ...]:
        """Title, key points and reasons of each step."""
        return tuple(_said_in(step) for step in self.job.steps)


def _said_in(step: Step) -> str:
    points = (f"{one.point} {one.reason}" for one in step.key_points)
    return " ".join((f"{step.title}.", *points))


def _asked_in(step: Step) -> str:
    return " ".join((f"{step.title}.", *(one.point for one in step.key_points)))
