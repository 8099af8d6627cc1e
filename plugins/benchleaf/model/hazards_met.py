"""Which hazards a job meets, and in which order they are told."""

from __future__ import annotations

from collections import Counter

from .job import Job
from .teaching_aids import NotMet
from .things import Machine


def hazards_met(job: Job, machine: Machine) -> tuple[str, ...]:
    """Ids of hazards of steps, job and machine, each once, the job's own first.

    Those that bite in steps come first: what the job names itself in its own order, then the one
    of most steps before the others. Then come the rest of the job's, and those of the machine
    alone, without what the job says it never meets.
    """
    bites = Counter(one for step in job.steps for one in dict.fromkeys(step.hazards))
    never = {one.hazard for one in not_met(job)}
    named = [one for one in job.hazards if one in bites]
    own = [*named, *(one for one, _ in bites.most_common())]  # of equally many the first met
    rest = (one for one in machine.hazards if one not in never)
    return tuple(dict.fromkeys((*own, *job.hazards, *rest)))


def not_met(job: Job) -> tuple[NotMet, ...]:
    """What the job says it never meets; nothing that the job or a step of it names all the same."""
    named = {*job.hazards, *(one for step in job.steps for one in step.hazards)}
    return tuple(one for one in job.not_met if one.hazard not in named)
