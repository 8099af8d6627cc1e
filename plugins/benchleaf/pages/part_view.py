"""A part's page as plain data: the route of operations, and what each hands on."""

from __future__ import annotations

from dataclasses import dataclass

from benchleaf.html.lookup import Lookup
from benchleaf.html.values import Link
from benchleaf.link import Route, address, routes
from benchleaf.model import Job, Part

from .home_view import IndexRow, JobTile, job_tile


@dataclass(frozen=True, slots=True)
class Operation:
    """One operation of a route."""

    number: int
    tile: JobTile
    machine: Link
    makes: str
    hand_on: str


@dataclass(frozen=True, slots=True)
class PartView:
    """Everything on a part's page."""

    part: Part
    material: Link
    operations: tuple[Operation, ...]


def part_view(lookup: Lookup, route: Route) -> PartView:
    """The view of one part."""
    operations = tuple(_operation(lookup, n, job) for n, job in enumerate(route.jobs, 1))
    return PartView(route.part, lookup.link("materials", route.part.material), operations)


def _operation(lookup: Lookup, number: int, job: Job) -> Operation:
    machine = lookup.link("machines", job.machine)
    return Operation(number, job_tile(lookup, job), machine, job.makes, job.hand_on)


def part_rows(lookup: Lookup) -> tuple[IndexRow, ...]:
    """Every part for the list of parts."""
    return tuple(
        IndexRow(
            Link(address("parts", route.id), f"{route.part.number} {route.part.name}"),
            f"{len(route.jobs)} operation{'' if len(route.jobs) == 1 else 's'}",
        )
        for route in routes(lookup.shop)
    )
