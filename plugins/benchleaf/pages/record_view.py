"""Pages of machines, materials, tools, fluids, hazards and terms as plain data."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from benchleaf.html.lookup import Lookup, UsedBy, panels
from benchleaf.html.values import HazardPanel, Link, PictureView
from benchleaf.model import (
    DRIVEN,
    Controls,
    Hazard,
    Machine,
    Record,
    SignalWord,
    hazards_at,
    stations_of,
)

from .home_view import JobTile, job_tile
from .made_safe import MadeSafe, made_safe, safe_title


@dataclass(frozen=True, slots=True)
class RecordView:
    """A record with what its page adds: its hazards, its jobs, and where it is used."""

    kind: str
    record: Any
    hazards: tuple[HazardPanel, ...]
    used_by: tuple[UsedBy, ...]
    jobs: tuple[JobTile, ...] = ()
    """The jobs of a machine."""
    stations: tuple[Link, ...] = ()
    """Those of a cell."""
    made_safe: tuple[MadeSafe, ...] = ()
    """How a station is made safe; a cell with each of its stations."""
    places: str = ""
    """What the places of the shop are called together."""
    panel: HazardPanel | None = None
    """A hazard's own message."""
    controls: tuple[tuple[str, tuple[str, ...]], ...] = ()
    """A hazard's controls by kind, in the published order, empty kinds left out."""
    see_also: tuple[Link, ...] = ()
    picture: PictureView | None = None

    @property
    def safe_title(self) -> str:
        """What stands above how a station is made safe."""
        return safe_title(self.made_safe)

    @property
    def has_limits(self) -> bool:
        """False at a bench, say, that has no limit of its own."""
        kind = self.record.kind
        of_any = (self.record.rated_force, self.record.clean_down_air, self.record.limits_source)
        return kind in DRIVEN or any(one is not None for one in of_any)


CONTROL_WORDS = {
    "design_out": "Built in",
    "guard": "Guarded or clamped",
    "warn": "Warned of",
    "procedure": "Way of working",
    "wear": "Worn, last of all",
}
"""Kinds of control in the published order (MIL-STD-882E 4.3.4)."""


def record_view(lookup: Lookup, kind: str, record: Record) -> RecordView:
    """The view of one record."""
    return RecordView(
        kind,
        record,
        lookup.panels(_hazards(lookup, record)),
        lookup.used_by(kind, record),
        jobs=_jobs(lookup, record),
        stations=lookup.links("machines", getattr(record, "stations", ())),
        made_safe=made_safe(lookup.shop, record.id) if isinstance(record, Machine) else (),
        places=lookup.kind_words("machines"),
        panel=panels([record])[0] if isinstance(record, Hazard) else None,
        controls=_controls(record.controls) if isinstance(record, Hazard) else (),
        picture=lookup.picture(getattr(record, "picture", None)),
        see_also=lookup.links("terms", getattr(record, "see_also", ())),
    )


def _hazards(lookup: Lookup, record: Record) -> tuple[str, ...]:
    if isinstance(record, Machine):
        return hazards_at(lookup.shop, record.id)
    found: tuple[str, ...] = getattr(record, "hazards", ())
    return found


def hazards_by_word(
    lookup: Lookup,
) -> Iterator[tuple[SignalWord, tuple[tuple[Link, Hazard], ...]]]:
    """Every hazard under its signal word, gravest word first."""
    for word in SignalWord:
        found = [one for one in lookup.shop.hazards.values() if one.signal_word is word]
        in_order = sorted(found, key=lambda one: one.title.lower())
        if found:
            yield word, tuple((lookup.link("hazards", one.id), one) for one in in_order)


def _jobs(lookup: Lookup, record: Record) -> tuple[JobTile, ...]:
    if not isinstance(record, Machine):
        return ()
    shop = lookup.shop  # a job at a cell is done at each of its stations
    jobs = (
        job
        for job in lookup.jobs
        if record.id in {one.id for one in stations_of(shop, job.machine)}
    )
    return tuple(job_tile(lookup, job) for job in jobs)


def _controls(controls: Controls) -> tuple[tuple[str, tuple[str, ...]], ...]:
    named = ((words, getattr(controls, key)) for key, words in CONTROL_WORDS.items())
    return tuple((words, entries) for words, entries in named if entries)
