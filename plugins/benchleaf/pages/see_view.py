"""Everything that can be seen in the shop by its picture, for who does not know its name."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from benchleaf.html.lookup import Lookup
from benchleaf.html.values import Link, PictureView
from benchleaf.link import address
from benchleaf.model import Machine, Part, Tool, ToolKind


@dataclass(frozen=True, slots=True)
class Seen:
    """One thing: its photograph, for a part its drawing too, else its symbol."""

    link: Link
    picture: PictureView | None
    record: Machine | Part | Tool


@dataclass(frozen=True, slots=True)
class SeenGroup:
    """Things of one kind, those alike beside each other."""

    anchor: str
    title: str
    things: tuple[Seen, ...]

    @property
    def sign(self) -> Machine | Part | Tool:
        """What stands for the kind itself: among tools a drill, as everybody knows one."""
        records = [one.record for one in self.things]
        drills = (one for one in records if isinstance(one, Tool) and one.kind is ToolKind.DRILL)
        return next(drills, records[0])


def see_view(lookup: Lookup) -> tuple[SeenGroup, ...]:
    """Parts first, then stations and tools; a kind that the shop has none of is left out."""
    place = lookup.place
    groups = (
        SeenGroup("parts", "A part", tuple(_parts(lookup))),
        SeenGroup("stations", f"A {place}", tuple(_of(lookup, "machines"))),
        SeenGroup("tools", "A tool or gauge", tuple(_of(lookup, "tools"))),
    )
    return tuple(one for one in groups if one.things)


def _parts(lookup: Lookup) -> Iterator[Seen]:
    """Each by the picture of the finished part, else by the first of a state or of its job."""
    for route in lookup.routes:
        part = route.part
        of_jobs = (job.picture for job in route.jobs)
        pictures = (part.picture, *(one.picture for one in reversed(part.states)), *of_jobs)
        picture = lookup.picture(next((one for one in pictures if one), None))
        yield Seen(Link(address("parts", route.id), f"{part.number} {part.name}"), picture, part)


def _of(lookup: Lookup, kind: str) -> Iterator[Seen]:
    records = lookup.shop.of_kind(kind).values()
    found = [one for one in records if isinstance(one, Machine | Tool)]
    for record in sorted(found, key=lambda one: (str(one.kind), one.name)):
        picture = lookup.picture(record.picture)
        photograph = picture if picture and picture.copies else None
        yield Seen(lookup.link(kind, record.id), photograph, record)
