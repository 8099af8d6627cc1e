"""A part's page as plain data: its states, and the operations that lead from one to the next."""

from __future__ import annotations

from dataclasses import dataclass

from benchleaf.html.lookup import Lookup
from benchleaf.html.values import Link, PictureView
from benchleaf.link import Route, address
from benchleaf.model import Job, Part, PartState, work_of

from .home_view import IndexRow, JobTile, job_tile


@dataclass(frozen=True, slots=True)
class StateView:
    """One state of a part, and the jobs on either side of it."""

    state: PartState
    picture: PictureView | None
    on_either_side: str
    """Which jobs leave it and take it; they are links in the route."""


@dataclass(frozen=True, slots=True)
class Operation:
    """One operation of a route."""

    number: int
    tile: JobTile
    machine: Link
    makes: str
    hand_on: str
    takes: PartState | None
    leaves: PartState | None


@dataclass(frozen=True, slots=True)
class PartView:
    """Everything on a part's page."""

    part: Part
    material: Link
    picture: PictureView | None
    arrives: PartState
    """The first state."""
    states: tuple[StateView, ...]
    """Told one by one where there are several."""
    operations: tuple[Operation, ...]


def part_view(lookup: Lookup, route: Route) -> PartView:
    """The view of one part."""
    part = route.part
    works = _works(lookup, route)
    operations = tuple(
        _operation(lookup, works.index(work_of(lookup.shop.made, job.id)) + 1, job)
        for job in route.jobs
    )
    states = tuple(_state(lookup, route, one) for one in part.states)
    return PartView(
        part,
        lookup.link("materials", part.material),
        lookup.picture(part.picture),
        part.states[0],
        states if len(states) > 1 else (),
        operations,
    )


def _works(lookup: Lookup, route: Route) -> tuple[str, ...]:
    """The operations of a route; one job on several machines of a group is one."""
    return tuple(dict.fromkeys(work_of(lookup.shop.made, job.id) for job in route.jobs))


def _state(lookup: Lookup, route: Route, state: PartState) -> StateView:
    left_by = [job.id.upper() for job in route.jobs if job.leaves == state.id]
    taken_by = [job.id.upper() for job in route.jobs if job.takes == state.id]
    said = [f"{words} {', '.join(ids)}" for words, ids in
            (("left by", left_by), ("taken by", taken_by)) if ids]  # fmt: skip
    sides = ", ".join(said)
    return StateView(state, lookup.picture(state.picture), sides[:1].upper() + sides[1:])


def _operation(lookup: Lookup, number: int, job: Job) -> Operation:
    machine, piece = lookup.link("machines", job.machine), lookup.shop.piece(job)
    takes, leaves = (piece.takes, piece.leaves) if piece else (None, None)
    tile = job_tile(lookup, job)
    return Operation(number, tile, machine, job.makes, job.hand_on, takes, leaves)


def part_rows(lookup: Lookup) -> tuple[IndexRow, ...]:
    """Every part for the list of parts."""
    return tuple(
        IndexRow(
            Link(address("parts", route.id), f"{route.part.number} {route.part.name}"),
            f"{count} operation{'' if count == 1 else 's'}",
        )
        for route in lookup.routes
        for count in (len(_works(lookup, route)),)
    )
