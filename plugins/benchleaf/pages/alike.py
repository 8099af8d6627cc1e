"""One job on several like machines, side by side: what to set on each, and on which it may run."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from benchleaf.compute import SetUpSheet, reasons_not_to_run
from benchleaf.html.lookup import Lookup
from benchleaf.html.values import Link
from benchleaf.link import address
from benchleaf.model import Job, Machine

SHOWN = ("spindle_speed", "feed", "depth_stop")
"""The figures that are set side by side."""
_LIMITS = ("motor_power", "rated_thrust", "quill_travel", "drill_capacity", "chuck")
"""Limits of a machine that bear on whether a job may run on it."""


@dataclass(frozen=True, slots=True)
class AlikeRow:
    """One set-up on one machine, or a job without set-ups on one machine."""

    machine: Link
    """The page of the job on that machine."""
    is_here: bool
    set_up: str
    figures: tuple[str, ...]
    """One for each heading; empty where it must not run, so that nobody sets it."""
    differs: tuple[str, ...]
    reasons: tuple[str, ...]
    """Why it must not run on this machine; empty where it may."""


@dataclass(frozen=True, slots=True)
class Alike:
    """A job of a group of machines, as its page on one of them shows it."""

    group: str
    """What the machines are called together."""
    machine: str
    """The machine that the page is for."""
    headings: tuple[str, ...]
    has_set_ups: bool
    """True where each row says which set-up it is."""
    rows: tuple[AlikeRow, ...]
    """Empty on a screen that stands at one machine: it shows that machine only."""


def alike_view(lookup: Lookup, job: Job) -> Alike | None:
    """The view; None for a job of one machine."""
    shop = lookup.shop
    jobs = shop.alike(job.id)
    if not jobs:
        return None
    labels = {
        row.key: row.label
        for one in jobs
        for sheet in lookup.sheets(one)
        for row in sheet.rows
        if row.key in SHOWN
    }
    keys = [key for key in SHOWN if key in labels]
    machines = [shop.machines[one.machine] for one in jobs]
    differing = _differing(machines)
    shared = frozenset.intersection(*(_speeds(one) for one in machines))
    rows = (
        row
        for one, machine in zip(jobs, machines, strict=True)
        for row in _rows(lookup, one, job, keys, tuple(_facts(machine, differing, shared)))
    )
    return Alike(
        shop.made[job.id].group_name,
        shop.machines[job.machine].name,
        tuple(labels[key] for key in keys),
        len(job.set_ups) > 1,
        () if lookup.machine else tuple(rows),
    )


def _rows(
    lookup: Lookup, job: Job, here: Job, keys: Sequence[str], differs: tuple[str, ...]
) -> Iterator[AlikeRow]:
    link = Link(address("jobs", job.id), lookup.shop.machines[job.machine].name)
    sheets: Sequence[SetUpSheet | None] = lookup.sheets(job) or (None,)
    for sheet in sheets:
        yield AlikeRow(
            link,
            job is here,
            sheet.title if sheet else "",
            tuple(_figure(sheet, key) for key in keys),
            differs if sheet is sheets[0] else (),
            reasons_not_to_run(lookup.shop, job.id, (sheet,) if sheet else ()),
        )


def _figure(sheet: SetUpSheet | None, key: str) -> str:
    row = sheet.row(key) if sheet is not None and sheet.may_run else None
    if row is None:
        return ""
    return row.figure.text if row.figure else "not known"


def _differing(machines: Sequence[Machine]) -> frozenset[str]:
    """The facts in which the machines are not all alike."""
    said = [{key: value for key, value, _ in _every_fact(one)} for one in machines]
    keys = {key for one in said for key in one}
    return frozenset(key for key in keys if len({one.get(key) for one in said}) > 1)


def _speeds(machine: Machine) -> frozenset[float]:
    return frozenset(one.value for one in machine.spindle_speeds)


def _facts(machine: Machine, differing: frozenset[str], shared: frozenset[float]) -> Iterator[str]:
    """Its own facts in words; of its speeds, those that not each of the machines has."""
    if "speeds" in differing:
        own = ", ".join(f"{one:g}" for one in sorted(_speeds(machine) - shared))
        yield f"turns at {own} rpm{' too' if shared else ''}" if own else "no other speed"
    for key, _, words in _every_fact(machine):
        if key in differing and words:
            yield words


def _every_fact(machine: Machine) -> Iterator[tuple[str, str, str]]:
    """What is compared: a name, what counts, and its words."""
    yield "speeds", str(sorted(_speeds(machine))), ""
    for key in _LIMITS:
        value = getattr(machine, key)
        told = value.text if value else "not known"
        yield key, told, f"{key.replace('_', ' ')} {told}"
    controls = machine.controls
    if controls is not None:
        said = (controls.start, controls.stop, controls.emergency_stop, controls.isolation)
        yield "controls", "\n".join(said), "start, stop and isolator: see its own page"
