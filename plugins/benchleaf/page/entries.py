"""Search entries straight from records: one for a page, one for each step and term."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from benchleaf.link import address
from benchleaf.model import Job, Record, Step, name_of, texts

from .values import SearchEntry

Plain = Callable[[str], str]


def record_entry(kind: str, record: Record, plain: Plain) -> SearchEntry:
    """One entry for the page of a record that is no job."""
    record_id = str(getattr(record, "id", ""))
    also = getattr(record, "also", ()) or getattr(record, "variants", ())
    # The id too: a scanner types it.
    words = " ".join((record_id, *also, *(plain(text) for _, text in texts(record))))
    return SearchEntry(address(kind, record_id), name_of(record), words)


def job_entries(job: Job, plain: Plain) -> Iterator[SearchEntry]:
    """One entry for the job itself, one for each step."""
    number = job.id.upper()
    part = (job.part.number, job.part.name, job.part.drawing) if job.part else ()
    own = (plain(text) for path, text in texts(job) if path[0] != "steps")
    yield SearchEntry(address("jobs", job.id), f"{number} {job.title}", " ".join((*part, *own)))
    for count, step in enumerate(job.steps, 1):
        yield SearchEntry(
            address("jobs", job.id, step.id),
            f"{number} step {count}: {step.title}",
            " ".join(_step_words(step, plain)),
        )


def _step_words(step: Step, plain: Plain) -> Iterator[str]:
    for path, text in texts(step):
        if path[0] not in ("trainer", "steady"):
            yield plain(text)
