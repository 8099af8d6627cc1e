"""The checks of a sign-off's record: how grave each was, and what the next one begins with."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from benchleaf.model import Checked, CheckResult, Job, KeyPointKind, Missed, key_point

from .cadence import Looked, Miss


@dataclass(frozen=True, slots=True)
class Revisit:
    """Something that was missed, with which the next check begins."""

    step: str
    """The step's number and title, or its id where the breakdown has it no more."""
    point: str | None
    """The key point as the breakdown has it now, else as it was written down; None for a step."""
    reason: str
    """Why it must be so; empty where the breakdown does not have it."""
    day: date
    """When it was missed last."""
    by: str
    """Who saw it."""

    @property
    def says(self) -> str:
        """In a line.

        >>> Revisit("step 2, Clamp the plate", None, "", date(2026, 12, 18), "tr-01").says
        'step 2, Clamp the plate: the step itself'
        """
        return f"{self.step}: {self.point or 'the step itself'}"


def looked(job: Job, checks: Sequence[Checked]) -> tuple[Looked, ...]:
    """Each check with how grave it was."""
    return tuple(Looked(one.day, _miss(job, one)) for one in checks)


def _miss(job: Job, one: Checked) -> Miss:
    if one.result is CheckResult.STOPPED:
        return Miss.GRAVE
    return max((_grave(job, each) for each in one.missed), default=Miss.NONE)


def _grave(job: Job, missed: Missed) -> Miss:
    found = key_point(job, missed)
    if found is None or found.kind is KeyPointKind.CAN_INJURE:
        return Miss.GRAVE
    return Miss.SOME


def revisit(job: Job, checks: Sequence[Checked]) -> tuple[Revisit, ...]:
    """What was missed since the last check that found nothing, each once, first what can injure."""
    since: list[Checked] = []
    for one in checks:
        since = [] if one.result is CheckResult.NOTHING_MISSED else [*since, one]
    found: dict[tuple[str, str], tuple[Miss, Revisit]] = {}
    for one in reversed(since):
        for each in one.missed:
            row = _revisit(job, one, each)
            found.setdefault((row.step, row.point or ""), (_grave(job, each), row))
    return tuple(row for _, row in sorted(found.values(), key=lambda pair: -pair[0]))


def _revisit(job: Job, one: Checked, missed: Missed) -> Revisit:
    number = next((n for n, step in enumerate(job.steps, 1) if step.id == missed.step), None)
    step = missed.step if number is None else f"step {number}, {job.steps[number - 1].title}"
    point = key_point(job, missed)
    return Revisit(
        step,
        point.point if point else missed.point,
        point.reason if point else "",
        one.day,
        one.by,
    )
