"""Pages of the full edition: for people who train, and for those who look after the breakdowns."""

from __future__ import annotations

from dataclasses import dataclass

from benchleaf.compute import SetUpSheet
from benchleaf.html.lookup import Lookup
from benchleaf.html.values import Link
from benchleaf.model import Job, Step, is_driven, stations_of

from .changed_pages import lesson_links
from .job_lists import Group, job_list_view
from .pull_lesson import PullLesson, pull_lesson
from .sheets import sheet_links


@dataclass(frozen=True, slots=True)
class Lesson:
    """A job as a trainer prepares it."""

    job: Job
    link: Link
    know_first: tuple[Link, ...]
    key_points: int
    can_injure: int
    notes: tuple[tuple[int, Step], ...]
    """Steps with something for the trainer, and their numbers."""
    sheets: tuple[Link, ...]
    """What to print."""
    pull: PullLesson | None
    isolations: tuple[tuple[str, str], ...]
    """Each machine of its station, and how it is made safe."""
    is_driven: bool


@dataclass(frozen=True, slots=True)
class TrainerView:
    """The page of people who train."""

    order: tuple[Group, ...]
    lessons: tuple[Lesson, ...]

    @property
    def with_pull(self) -> tuple[Lesson, ...]:
        """Lessons in which the pull is taught by number: their method is told once."""
        return tuple(one for one in self.lessons if one.pull and one.pull.can_be_found)

    @property
    def isolations(self) -> tuple[tuple[str, str], ...]:
        """Each machine of those lessons, and how it is made safe."""
        return tuple(dict.fromkeys(each for one in self.with_pull for each in one.isolations))


@dataclass(frozen=True, slots=True)
class Source:
    """A job as somebody who looks after the breakdowns sees it."""

    link: Link
    job: Job
    file: str
    sheets: tuple[SetUpSheet, ...]
    fingerprint: str
    """Of the job's meaning, whole."""


@dataclass(frozen=True, slots=True)
class EngineerView:
    """The page of those who look after the breakdowns."""

    sources: tuple[Source, ...]


def trainer_view(lookup: Lookup) -> TrainerView:
    """Lessons in the order in which they can be learned."""
    order = job_list_view(lookup, "order").groups
    jobs = (lookup.shop.jobs[tile.number.lower()] for group in order for tile in group.jobs)
    return TrainerView(order, tuple(_lesson(lookup, job) for job in jobs))


def _lesson(lookup: Lookup, job: Job) -> Lesson:
    points = [point for step in job.steps for point in step.key_points]
    notes = tuple(
        (n, step)
        for n, step in enumerate(job.steps, 1)
        if step.trainer or step.planted or step.props
    )
    return Lesson(
        job,
        lookup.link("jobs", job.id),
        lookup.links("jobs", job.know_first),
        len(points),
        sum(point.kind == "can injure" for point in points),
        notes,
        (*sheet_links(lookup, job), *lesson_links(lookup, job)),
        pull_lesson(job, lookup.sheets(job)),
        tuple(
            (one.name, one.controls.isolation)
            for one in stations_of(lookup.shop, job.machine)
            if one.controls is not None
        ),
        is_driven(lookup.shop, job),
    )


def engineer_view(lookup: Lookup, content_name: str) -> EngineerView:
    """Every job with its file, revision and set-ups."""
    return EngineerView(
        tuple(
            Source(
                lookup.link("jobs", job.id),
                job,
                f"{content_name}/{lookup.shop.source_file('jobs', job.id)}",
                lookup.sheets(job),
                lookup.fingerprints.get(job.id, ""),
            )
            for job in lookup.shop.jobs.values()
        )
    )
