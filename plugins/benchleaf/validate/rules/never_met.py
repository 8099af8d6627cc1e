"""V533: a hazard is called never met only where the machine has it, and no part of the job does."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding, Severity

from ..case import JobCase


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each entry that hides a hazard of the job, or one that no machine has."""
    for index, one in enumerate(case.job.not_met):
        found = _met_at(case, one.hazard) or _no_machines(case, one.hazard)
        if found:
            text, cure = found
            yield Finding(
                "V533",
                Severity.ERROR,
                case.place("not_met", index, "hazard"),
                f"'{one.hazard}' is called never met, {text}",
                (cure,),
            )


def _met_at(case: JobCase, hazard: str) -> tuple[str, str] | None:
    steps = [f"'{step.id}'" for step in case.job.steps if hazard in step.hazards]
    where = ["the job's own hazards"] if hazard in case.job.hazards else []
    if steps:
        where.append(f"step {', '.join(steps)}" if len(steps) == 1 else f"steps {', '.join(steps)}")
    if not where:
        return None
    return (
        f"and stands in {' and in '.join(where)}",
        "take it out of not_met, or out of the places named where it truly never bites",
    )


def _no_machines(case: JobCase, hazard: str) -> tuple[str, str] | None:
    """Nothing where the machine, or the hazard, is not known: that is told elsewhere."""
    machine = case.machine
    if machine is None or hazard not in case.shop.hazards or hazard in machine.hazards:
        return None
    known = ", ".join(machine.hazards) or "none"
    return (
        f"and is no hazard of the machine '{machine.id}'",
        f"take it out; hazards of the machine: {known}",
    )
