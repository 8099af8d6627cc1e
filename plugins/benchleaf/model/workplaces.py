"""Where a job is done: its station, the stations of a cell, the spindle of a set-up."""

from __future__ import annotations

from benchleaf.formulas.unit_order import Units

from .job import Job
from .operations import SetUp, TappedBy
from .record import Record
from .shop import Shop
from .stations import DRIVEN, UNDRIVEN, StationKind
from .things import Machine


def stations_of(shop: Shop, machine_id: str) -> tuple[Machine, ...]:
    """A station, and after a cell each of its stations; empty where there is no such record."""
    machine = shop.machines.get(machine_id)
    if machine is None:
        return ()
    inside = (shop.machines.get(one) for one in machine.stations)
    return (machine, *(one for one in inside if one is not None))


def station_ids(shop: Shop, machine_id: str) -> tuple[str, ...]:
    """The ids of `stations_of`; the one that was asked for where there is no such record."""
    return tuple(one.id for one in stations_of(shop, machine_id)) or (machine_id,)


def workplace(shop: Shop, job: Job) -> Machine:
    """The station of a job; a cell has the hazards of its stations, too.

    Raises:
        KeyError: there is no such record
    """
    found = stations_of(shop, job.machine)
    if not found or found[0].kind is not StationKind.CELL:
        return shop.machines[job.machine]
    return found[0].model_copy(update={"hazards": hazards_at(shop, job.machine)})


def hazards_at(shop: Shop, machine_id: str) -> tuple[str, ...]:
    """The hazards of a station, whatever the job; of a cell, those of each station too."""
    found = stations_of(shop, machine_id)
    return tuple(dict.fromkeys(hazard for one in found for hazard in one.hazards))


def worked_at(shop: Shop, job: Job, set_up: SetUp) -> Machine | None:
    """The machine whose limits count for a set-up, with the spindle that it names.

    None where that is not known, or where no spindle is: no figure is made up (V605 tells of it).
    """
    here = stations_of(shop, job.machine)
    if here and here[0].kind is StationKind.CELL:
        here = tuple(one for one in here[1:] if one.id == set_up.station)
    if not here or (here[0].kind in UNDRIVEN and not is_by_hand(set_up)):
        return None
    machine = here[0]
    if set_up.spindle is None and len(machine.spindles) != 1:
        is_known = not machine.spindles or is_by_hand(set_up)
        return machine if is_known else None
    wanted = set_up.spindle or machine.spindles[0].id
    return machine.at(wanted) if wanted in {one.id for one in machine.spindles} else None


def units_at(shop: Shop, job: Job) -> Units:
    """The units that the pages of a job have first: of its station, else of the shop.

    A cell that says nothing has those of its stations where they agree: no page mixes the order.
    """
    here = stations_of(shop, job.machine)
    own = {one.units for one in here if one.units is not None}
    if here and here[0].units is not None:
        return here[0].units
    usual = shop.manual.units
    inside = {one.units or usual for one in here[1:]}
    return inside.pop() if len(inside) == 1 and own else usual


def units_of(shop: Shop, record: Record) -> Units:
    """The units that the page of a record has first."""
    if isinstance(record, Job):
        return units_at(shop, record)
    own = record.units if isinstance(record, Machine) else None
    return own or shop.manual.units


def is_by_hand(set_up: SetUp) -> bool:
    """True for what a wrench turns: such a tap, and a reamer without a feed."""
    if set_up.operation == "tapping":
        return set_up.turned_by is TappedBy.HAND_WRENCH
    return set_up.operation == "reaming" and set_up.feed is None


def place_word(shop: Shop) -> str:
    """What the places of the shop are called together: machines, or stations of any kind."""
    nouns = {one.kind.noun for one in shop.machines.values()}
    return "machine" if nouns <= {"machine"} else "station"


def is_driven(shop: Shop, job: Job) -> bool:
    """True where anything at the job's station starts and stops; of what is not known, too."""
    found = stations_of(shop, job.machine)
    return not found or any(one.kind in DRIVEN or one.controls for one in found)
