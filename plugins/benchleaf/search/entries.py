"""Search entries straight from records: one for a page, one for each step and term."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from benchleaf.html.values import HANDING_ON, Found, SearchEntry, found_of
from benchleaf.link import Route, address
from benchleaf.model import (
    Area,
    Hazard,
    Job,
    Machine,
    Record,
    Shop,
    Step,
    Tool,
    area_at,
    name_of,
    texts,
)

Plain = Callable[[str], str]


def record_entry(kind: str, record: Record, plain: Plain) -> SearchEntry:
    """One entry for the page of a record that is no job."""
    record_id = str(getattr(record, "id", ""))
    also = getattr(record, "also", ()) or getattr(record, "variants", ())
    return SearchEntry(
        address(kind, record_id),
        name_of(record),
        found_of(kind, record),
        lines=(*(plain(text) for _, text in texts(record)), *_controls(record)),
        names=(record_id, *also),  # the id too: a scanner types it
        under=_under(record),
        around=record.kind.value if isinstance(record, Tool) else "",
    )


def _under(record: Record) -> str:
    """The few words that tell a record from its like."""
    if isinstance(record, Hazard):
        return record.signal_word.value
    return record.where if isinstance(record, Machine) else ""


def _controls(record: Record) -> tuple[str, ...]:
    """Levers, wheels and locks by name: what a newcomer reads on the machine and asks about."""
    if not isinstance(record, Machine):
        return ()
    others = record.controls.others if record.controls is not None else ()
    return (", ".join(one.name for one in (*others, *record.parts)),)


def part_entry(route: Route) -> SearchEntry:
    """The entry of a part's page."""
    part = route.part
    jobs = ", ".join(f"{job.id.upper()} {job.title}" for job in route.jobs)
    states = dict.fromkeys(one.looks_like for one in part.states)
    return SearchEntry(
        address("parts", route.id),
        f"{part.number} {part.name}",
        Found.PART,
        lines=(f"Drawing {part.drawing}", *states, jobs),
        number=part.number,
    )


def job_entries(shop: Shop, job: Job, plain: Plain, *, may_run: bool) -> Iterator[SearchEntry]:
    """One entry for the job itself, one for each step. The trainer's notes are in none."""
    number = job.id.upper()
    machine = shop.machines[job.machine].name
    own = (
        f"{HANDING_ON}. {plain(text)}" if path[0] == "hand_on" else plain(text)
        for path, text in texts(job)
        if path[0] not in ("steps", "makes")
    )
    yield SearchEntry(
        address("jobs", job.id),
        f"{number} {job.title}",
        Found.JOB,
        lines=(plain(job.makes), *own, *_uses(shop, job)),
        number=job.id,
        under=machine if may_run else f"Do not run · {machine}",
    )
    piece = shop.piece(job)
    part = f"{piece.part.number} {piece.part.name}" if piece else ""
    for count, step in enumerate(job.steps, 1):
        yield SearchEntry(
            address("jobs", job.id, step.id),
            step.title,
            Found.STEP,
            lines=tuple(_step_lines(shop, step, plain)),
            points=tuple(_points(step, plain)),
            under=f"{number} step {count} · {job.title}",
            around=f"{machine} {part}",
        )


def _uses(shop: Shop, job: Job) -> Iterator[str]:
    """What the job is done on, to, with and under, by name."""
    piece = shop.piece(job)
    if piece:
        part = piece.part
        yield f"Part {part.number} {part.name}, drawing {part.drawing}, {piece.arrives_as}"
        yield shop.materials[part.material].name
    yield shop.machines[job.machine].name
    yield ", ".join(shop.tools[one].name for one in job.tools)
    if job.fluid:
        yield shop.fluids[job.fluid].name
    yield ", ".join(shop.hazards[one].title for one in job.hazards)


def _points(step: Step, plain: Plain) -> Iterator[str]:
    for point in step.key_points:
        yield plain(point.point)
        yield plain(point.reason)


_SAID_ELSEWHERE = (Area.TRAINER, Area.KEY_POINT, Area.REASON)
"""Not for the learner, or an entry of its own."""


def _step_lines(shop: Shop, step: Step, plain: Plain) -> Iterator[str]:
    for path, text in texts(step):
        if area_at(Step, path) not in _SAID_ELSEWHERE and path[-1] != "minor_servicing":
            yield plain(text)
    yield from (shop.tools[check.gauge].name for check in step.checks if check.gauge)
    yield from (shop.hazards[one].title for one in step.hazards)
