"""What a job brings that is new to a learner, by all they have proved or will have been taught."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from benchleaf.model import DrillingSetUp, Job, Person, Shop, hazards_met, workplace

Feature = tuple[str, str]
"""A heading and what stands under it: an id, or words."""

HEADINGS = (
    "machine",
    "material",
    "shape of work",
    "operation",
    "holding",
    "tool",
    "fluid",
    "hazard",
    "to wear",
    "kind of key point",
    "lockout",
    "word",
)
"""What jobs are compared by, in the order in which a trainer meets them."""


@dataclass(frozen=True, slots=True)
class NewStep:
    """A step of the job."""

    id: str
    number: int
    title: str
    known_from: str | None
    """The job in which the learner knows a step of the same title, or None."""


@dataclass(frozen=True, slots=True)
class Novelty:
    """A job against all that a learner has proved."""

    new: Mapping[str, tuple[str, ...]]
    """By heading, what is new; headings with nothing new are left out."""
    known: Mapping[str, tuple[str, ...]]
    """By heading, what they have met."""
    nearest: str | None
    """The known job with the most in common, to start from; None where none is proved."""
    shared: int
    """How many of this job's features that job has."""
    of: int
    """How many features this job has."""
    steps: tuple[NewStep, ...]
    by_then: tuple[str, ...] = ()
    """Jobs counted as known that the plan teaches before this one."""


def novelty(
    shop: Shop,
    person: Person,
    job: Job,
    words: Mapping[str, frozenset[str]],
    by_then: Sequence[str] = (),
) -> Novelty:
    """What is new; `words` are the trade words met on each job's page, by job.

    `by_then` are the jobs that they are planned to have been taught before this one.
    """
    known = dict.fromkeys(one.job for one in person.can_do if one.job != job.id)
    planned = tuple(one for one in by_then if one not in known and one != job.id)
    proved = [shop.jobs[one] for one in (*known, *planned)]
    mine = tuple(dict.fromkeys(features(shop, job, words)))
    met = {one for each in proved for one in features(shop, each, words)}
    nearest, shared = _nearest(shop, proved, frozenset(mine), words)
    return Novelty(
        _grouped(one for one in mine if one not in met),
        _grouped(one for one in mine if one in met),
        nearest,
        shared,
        len(mine),
        tuple(_steps(job, proved)),
        planned,
    )


def features(shop: Shop, job: Job, words: Mapping[str, frozenset[str]]) -> Iterator[Feature]:
    """Everything a job is compared by."""
    yield "machine", job.machine
    piece = shop.piece(job)
    if piece:
        yield "material", piece.part.material
    for set_up in job.set_ups:
        yield "operation", set_up.operation
        if isinstance(set_up, DrillingSetUp):
            yield "shape of work", set_up.work.value
            yield "shape of work", f"{set_up.hole.value} hole"
        if set_up.holding:
            yield "holding", set_up.holding.method.value
    if job.holding:
        yield "holding", job.holding.method.value
    yield from (("tool", tool) for tool in job.tools)
    if job.fluid:
        yield "fluid", job.fluid
    hazards = hazards_met(job, workplace(shop, job))
    yield from (("hazard", one) for one in hazards)
    yield from (("to wear", " ".join(one.split())) for one in job.wear)
    points = (point for step in job.steps for point in step.key_points)
    yield from (("kind of key point", point.kind.value) for point in points)
    if job.is_under_lock:
        yield "lockout", "making the machine safe with a lock"
    yield from (("word", term) for term in sorted(words.get(job.id, ())))


def _grouped(found: Iterator[Feature]) -> Mapping[str, tuple[str, ...]]:
    listed: dict[str, list[str]] = {heading: [] for heading in HEADINGS}
    for heading, what in found:
        listed[heading].append(what)
    return {heading: tuple(those) for heading, those in listed.items() if those}


def _nearest(
    shop: Shop,
    proved: list[Job],
    mine: frozenset[Feature],
    words: Mapping[str, frozenset[str]],
) -> tuple[str | None, int]:
    """The proved job that shares most; of several the first by its number."""
    best, most = None, 0
    for job in sorted(proved, key=lambda one: one.id):
        shared = len(mine & frozenset(features(shop, job, words)))
        if shared > most:
            best, most = job.id, shared
    return best, most


def _steps(job: Job, proved: list[Job]) -> Iterator[NewStep]:
    known = {step.title.casefold(): each.id for each in reversed(proved) for step in each.steps}
    for number, step in enumerate(job.steps, 1):
        yield NewStep(step.id, number, step.title, known.get(step.title.casefold()))
