"""*Something is wrong*: who is called, four choices, and what to do at each, as plain data."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from benchleaf.html.lookup import Lookup
from benchleaf.model import Shop, Trouble, Wrong, stations_of

from .made_safe import MadeSafe, made_safe

_CHOICES = (
    (Wrong.DOES_NOT_STOP, "bl-wrong-stop", "It does not stop, or starts by itself"),
    (Wrong.FEELS_WRONG, "bl-wrong-feel", "It sounds, feels or looks wrong"),
    (Wrong.SIZE_OUT, "bl-wrong-size", "A size is out, or a part is spoiled"),
    (Wrong.UNSURE, "bl-wrong-unsure", "I do not know what to do next"),
)


@dataclass(frozen=True, slots=True)
class Choice:
    """One of the four choices, and what a job says of it."""

    kind: Wrong
    anchor: str
    title: str
    troubles: tuple[Trouble, ...] = ()


@dataclass(frozen=True, slots=True)
class WrongView:
    """What is done when something is wrong."""

    choices: tuple[Choice, ...]
    stops: tuple[MadeSafe, ...]
    """What is hit, and what is cut off, where something does not stop."""
    hurt: tuple[Trouble, ...] = ()
    """What a job adds for the case that somebody is hurt."""
    driven: bool = field(default=True)
    """False where no motor turns anything, so that nothing is there to be stopped."""


def wrong_view(troubles: Sequence[Trouble], stops: Sequence[MadeSafe]) -> WrongView:
    """The view of one job, from what may go wrong in it and how its station is stopped."""
    choices = tuple(
        Choice(kind, anchor, title, tuple(one for one in troubles if one.kind is kind))
        for kind, anchor, title in _CHOICES
    )
    hurt = tuple(one for one in troubles if one.kind is Wrong.HURT)
    return WrongView(choices, tuple(stops), hurt, any(one.controls for one in stops))


def wrong_in_shop(lookup: Lookup) -> WrongView:
    """The view of the whole shop: no job is open, so that each station's stop is told."""
    return wrong_view((), tuple(_every_stop(lookup.shop)))


def _every_stop(shop: Shop) -> list[MadeSafe]:
    """Of every station once, by its name: a cell's stations tell their own."""
    found = {
        station.id: MadeSafe(f", {station.name}", one.controls, one.supply)
        for machine in shop.machines
        for station in stations_of(shop, machine)
        for one in made_safe(shop, station.id)
    }
    return list(found.values())
