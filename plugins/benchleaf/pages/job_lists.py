"""All jobs by part, material, hazard, and by what must be known first."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from benchleaf.html.lookup import Lookup
from benchleaf.html.values import Link
from benchleaf.link import address, job_list_address
from benchleaf.model import Hazard, Job, Shop, hazards_met, workplace

from .home_view import JobTile, job_tile

WORDS = {
    "machine": "By machine",
    "part": "By part",
    "material": "By material",
    "hazard": "By hazard",
    "order": "By what to know first",
}
"""The ways in which jobs are listed, in words."""


@dataclass(frozen=True, slots=True)
class Group:
    """Jobs under one heading."""

    title: str
    link: Link | None
    jobs: tuple[JobTile, ...]
    note: str = ""


@dataclass(frozen=True, slots=True)
class JobListView:
    """All jobs in one way."""

    way: str
    title: str
    groups: tuple[Group, ...]


def ways(place: str) -> tuple[tuple[str, str, str], ...]:
    """Way, words and address of each list of jobs, where `place` is what its places are called."""
    own = {"machine": "jobs/index.html"}
    named = {**WORDS, "machine": f"By {place}"}
    return tuple(
        (way, words, own.get(way) or job_list_address(way)) for way, words in named.items()
    )


def job_list_view(lookup: Lookup, way: str) -> JobListView:
    """The list of all jobs in one of the ways."""
    return JobListView(way, f"Jobs: {WORDS[way].lower()}", tuple(_GROUPERS[way](lookup)))


def _group(lookup: Lookup, link: Link, jobs: list[Job]) -> Group:
    return Group(link.words, link, tuple(job_tile(lookup, job) for job in jobs))


def _by_part(lookup: Lookup) -> Iterator[Group]:
    for route in lookup.routes:
        words = f"{route.part.number} {route.part.name}"
        yield _group(lookup, Link(address("parts", route.id), words), list(route.jobs))
    yield from _rest(lookup, [job for job in lookup.jobs if job.part is None])


def _rest(lookup: Lookup, jobs: list[Job]) -> Iterator[Group]:
    if jobs:
        yield Group("On no part", None, tuple(job_tile(lookup, job) for job in jobs))


def _by_material(lookup: Lookup) -> Iterator[Group]:
    for material_id in lookup.shop.materials:
        material = lookup.shop.materials[material_id]
        jobs = [job for job in lookup.jobs if lookup.shop.material_of(job) is material]
        if jobs:
            yield _group(lookup, lookup.link("materials", material_id), jobs)
    yield from _rest(lookup, [job for job in lookup.jobs if job.part is None])


def _by_hazard(lookup: Lookup) -> Iterator[Group]:
    met: dict[str, list[Job]] = {}
    for job in lookup.jobs:
        for hazard_id in _hazards_of(lookup.shop, job):
            met.setdefault(hazard_id, []).append(job)
    for hazard in sorted(lookup.shop.hazards.values(), key=_gravest_first):
        if hazard.id in met:
            link = lookup.link("hazards", hazard.id)
            tiles = tuple(job_tile(lookup, job) for job in met[hazard.id])
            yield Group(link.words, link, tiles, hazard.signal_word.value)


def _gravest_first(hazard: Hazard) -> tuple[int, str]:
    return hazard.signal_word.rank, hazard.title


def _hazards_of(shop: Shop, job: Job) -> dict[str, None]:
    """Hazards that the job meets, each once."""
    return dict.fromkeys(hazards_met(job, workplace(shop, job)))


def _by_order(lookup: Lookup) -> Iterator[Group]:
    """Jobs that need nothing first, then those that need only those, and so on."""
    left = {job.id: job for job in lookup.jobs}
    known: set[str] = set()
    while left:
        ready = [job for job in left.values() if set(job.know_first) & left.keys() == set()]
        if not ready:  # a ring of prerequisites, which is an error reported elsewhere
            break
        title = "Start here" if not known else "When you can do those"
        note = "" if not known else "Each names the jobs to know first."
        yield Group(title, None, tuple(job_tile(lookup, job) for job in ready), note)
        known |= {job.id for job in ready}
        left = {job_id: job for job_id, job in left.items() if job_id not in known}


_GROUPERS: dict[str, Callable[[Lookup], Iterator[Group]]] = {
    "part": _by_part,
    "material": _by_material,
    "hazard": _by_hazard,
    "order": _by_order,
}
