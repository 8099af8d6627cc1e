"""One job as the rules look at it: with its shop, machine and set-ups, its words read once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from benchleaf.compute import SetUpSheet
from benchleaf.diagnose import Finding, Place, Severity
from benchleaf.model import Job, Machine, Shop, Step, ToolKind

from .places import Places


@dataclass(frozen=True)
class JobCase:
    """A job and what a rule about it may need."""

    shop: Shop
    places: Places
    job: Job
    sheets: Sequence[SetUpSheet] = ()
    """The computed set-ups."""

    def place(self, *path: str | int) -> Place:
        """The place of a value of the job."""
        return self.places.of("jobs", self.job.id, path)

    def practice(
        self, code: str, path: tuple[str | int, ...], text: str, cure: str
    ) -> Iterator[Finding]:
        """A warning of common practice, unless the job accepts it."""
        if not self.job.accepts(code):
            yield Finding(
                code,
                Severity.WARNING,
                self.place(*path),
                text,
                (cure, f"where it does not fit this job: accept: [{{code: {code}, reason: ...}}]"),
            )

    @cached_property
    def machine(self) -> Machine | None:
        """The job's machine, where there is such a record."""
        return self.shop.machines.get(self.job.machine)

    @cached_property
    def drills(self) -> bool:
        """True for a job that drills: it has a set-up, and a drill among its tools."""
        tools = (self.shop.tools.get(tool_id) for tool_id in self.job.tools)
        has_drill = any(tool is not None and tool.kind is ToolKind.DRILL for tool in tools)
        return has_drill and bool(self.job.set_ups)

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
