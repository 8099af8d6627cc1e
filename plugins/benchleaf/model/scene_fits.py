"""Whether the act that a step draws fits the step and its station."""

from __future__ import annotations

from .job import Step
from .looks import Looks, by_words
from .scene import FITS, pair_belongs_to
from .stations import StationKind
from .things import Machine

_STATIONS = {
    StationKind.SPINDLES: Looks.PILLAR_DRILL,
    StationKind.CELL: Looks.CELL,
    StationKind.BENCH: Looks.BENCH,
    StationKind.ASSEMBLY: Looks.BENCH,
    StationKind.INSPECTION: Looks.INSPECTION_TABLE,
    StationKind.HAND_PRESS: Looks.HAND_PRESS,
}


def machine_looks(machine: Machine) -> Looks:
    """What a station is drawn as: what it says itself, else what it has, its kind, its words."""
    if machine.drawn_as:
        return machine.drawn_as
    if machine.grinding:
        return Looks.BENCH_GRINDER
    if machine.kind in _STATIONS:
        return _STATIONS[machine.kind]
    if machine.lever or machine.drill_capacity or machine.quill_travel:
        return Looks.PILLAR_DRILL
    said = by_words("machines", machine.name, machine.id.replace("-", " "), machine.what)
    return said or Looks.OTHER_MACHINE


def why_no_scene(step: Step, machine: Machine) -> str:
    """Why the act of a step cannot be drawn there; empty where it can, or where it names none."""
    fits = FITS.get(step.scene) if step.scene else None
    if fits is None:
        return ""
    if not _is_at(fits.at, machine):
        return f"it belongs to a {'drill or grinder' if fits.at == 'driven' else fits.at}"
    if fits.hands_in is True and step.hands_inside is None:
        return "hands go in there, and the step has no hands_inside"
    if fits.hands_in is False and step.hands_inside is not None:
        return "the machine may run there, and the step lets hands inside"
    if fits.cuts and step.set_up is None:
        return "the step names no set_up"
    return ""


def pair_fits(step: Step, number: int, machine: Machine) -> bool:
    """False where a key point's pair of pictures belongs to another machine."""
    pair = step.key_points[number].so
    where = pair_belongs_to(pair) if pair else ""
    return not where or _is_at(where, machine)


def _is_at(where: str, machine: Machine) -> bool:
    looks = machine_looks(machine)
    is_drill, is_grinder = looks is Looks.PILLAR_DRILL, machine.grinding is not None
    return {
        "drill": is_drill,
        "grinder": is_grinder,
        "driven": is_drill or is_grinder,
    }.get(where, True)
