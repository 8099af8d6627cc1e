"""S507: a figure of a set-up is not computed."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchleaf.compute import AND, OUT_OF_RANGE, SetUpSheet, are_missing
from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.model import KINDS, Record

from ..case import JobCase
from ..classes import class_at, meaning
from ..rule import JobRule

CODE = Code(
    "S507",
    "A figure is not computed",
    why="A factor is unknown, and a guess is not published.",
    instead="Enter the key named, with its source: the machine's plate, the maker's table, a"
    " handbook, a measurement. Without one leave it out: the page says that it is not computed.",
    bad=(
        Sample(
            """
            # The work material factor for thrust is not known.
            - file: materials/mild-steel.yml
              find: |2
                  kd_thrust: 24000
              put: ""
            """,
            """
            content/jobs/vg-0010.yml:22:3: stop S506 do not run VG-0010 (guide-hole): the
                    torque at break-through is not computed, so the holding is not shown to be
                    enough: drilling.kd_thrust in materials/mild-steel is missing
                enter it: drilling.kd_thrust in materials/mild-steel
            content/jobs/vg-0010.yml:43:5: warning S507 guide-hole: 'Thrust along the drill'
                    is not computed: drilling.kd_thrust in materials/mild-steel is missing
                enter it: drilling.kd_thrust in materials/mild-steel
                it holds: The handbook's work-material factor Kd for thrust, by the metal
                    and its hardness.
                until then the page says 'not computed'
            """,
        ),
        Sample(
            """
            # The drill's chisel edge is not known.
            - file: tools/drill-8.yml
              find: |
                chisel_ratio: 0.18
              put: ""
            """,
            """
            content/jobs/vg-0010.yml:22:3: stop S506 do not run VG-0010 (guide-hole): the
                    torque to hold against is not computed, so the holding is not shown to be
                    enough: chisel_ratio in tools/drill-8 is missing
                enter it: chisel_ratio in tools/drill-8
            content/jobs/vg-0010.yml:43:5: warning S507 guide-hole: 'Thrust along the drill' and
                    'Torque on the work' are not computed: chisel_ratio in tools/drill-8 is missing
                enter it: chisel_ratio in tools/drill-8
                it holds: Chisel-edge length over diameter: 0.18 for a standard drill, 0.03 for
                    a split point.
                until then the page says 'not computed'
            """,
        ),
        Sample(
            """
            # Three factors are not known: all are asked for at once, each of them once.
            - file: tools/drill-8.yml
              find: |
                chisel_ratio: 0.18
              put: ""
            - file: tools/drill-8.yml
              find: |
                wear_factor: 1.3
              put: ""
            - file: machines/bench-drill.yml
              find: |
                efficiency: 0.8
              put: ""
            """,
            """
            content/jobs/vg-0010.yml:22:3: stop S506 do not run VG-0010 (guide-hole): the
                    torque to hold against is not computed, so the holding is not shown to be
                    enough: chisel_ratio in tools/drill-8, and wear_factor in tools/drill-8 are
                    missing
                enter it: chisel_ratio in tools/drill-8, and wear_factor in tools/drill-8
            content/jobs/vg-0010.yml:43:5: warning S507 guide-hole: 'Power asked of the
                    motor' is not computed: efficiency in machines/bench-drill is missing
                enter it: efficiency in machines/bench-drill
                it holds: Share of the power that each belt or pair of gears passes on; see
                    `drive_stages`.
                until then the page says 'not computed'
            content/jobs/vg-0010.yml:43:5: warning S507 guide-hole: 'Thrust along the drill'
                    and 'Torque on the work' are not computed: chisel_ratio in tools/drill-8, and
                    wear_factor in tools/drill-8 are missing
                enter it: chisel_ratio in tools/drill-8
                it holds: Chisel-edge length over diameter: 0.18 for a standard drill, 0.03 for
                    a split point.
                enter it: wear_factor in tools/drill-8
                it holds: Thrust and torque against a sharp drill: 1.0 sharp, 1.3 in normal use,
                    1.5 very dull.
                until then the page says 'not computed'
            """,
        ),
        Sample(
            """
            # The machine's efficiency is not known.
            - file: machines/bench-drill.yml
              find: |
                efficiency: 0.8
              put: ""
            """,
            """
            content/jobs/vg-0010.yml:43:5: warning S507 guide-hole: 'Power asked of the
                    motor' is not computed: efficiency in machines/bench-drill is missing
                enter it: efficiency in machines/bench-drill
                it holds: Share of the power that each belt or pair of gears passes on; see
                    `drive_stages`.
                until then the page says 'not computed'
            """,
        ),
        Sample(
            """
            # A through hole without its overtravel.
            - file: jobs/vg-0010.yml
              find: |2
                    overtravel: 1 mm
              put: ""
            """,
            """
            content/jobs/vg-0010.yml:43:5: warning S507 guide-hole: 'Depth stop, from first
                    touch' is not computed: overtravel of set-up guide-hole in jobs/vg-0010 is
                    missing
                enter it: overtravel of set-up guide-hole in jobs/vg-0010
                it holds: How far the full diameter goes beyond the far face of a through hole.
                until then the page says 'not computed'
            """,
        ),
        Sample(
            """
            # An angle outside the range of the formula.
            - file: tools/drill-8.yml
              find: "point_angle: 118 deg"
              put: "point_angle: 59 deg"
            """,
            """
            content/jobs/vg-0010.yml:43:5: warning S507 guide-hole: 'Length of the drill's
                    point' is not computed: a value that the formula covers (point_angle_deg is
                    59.0; it must be a number from 60 to 180) is missing
                enter it: a value that the formula covers (point_angle_deg is 59.0; it must be a
                    number from 60 to 180)
                until then the page says 'not computed'
            """,
        ),
        Sample(
            """
            # The machine's speeds are not entered.
            - file: machines/bench-drill.yml
              find: |
                spindle_speeds:
                  - 400 rpm
                  - 650 rpm
                  - 1000 rpm
                  - 1500 rpm
              put: ""
            """,
            """
            content/jobs/vg-0010.yml:43:5: warning S507 guide-hole: 'Spindle speed to set'
                    is not computed: spindle_speeds in machines/bench-drill is missing
                enter it: spindle_speeds in machines/bench-drill
                it holds: The speeds it really has.
                until then the page says 'not computed'
            """,
        ),
    ),
    good="""
        # Every factor is entered.
        - file: tools/drill-8.yml
          find: "wear_factor: 1.3"
          put: "wear_factor: 1.2"
    """,
)

_STOPPED_ROW = {"S501": "spindle_speed", "S506": "holding"}
"""Rows whose being not computed is the stop itself, told once."""


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each figure that lacks a factor."""
    index_of = {set_up.id: index for index, set_up in enumerate(case.job.set_ups)}
    for sheet in case.sheets:
        yield from _missing(case, sheet, index_of[sheet.id])


def _missing(case: JobCase, sheet: SetUpSheet, index: int) -> Iterator[Finding]:
    stopped = {_STOPPED_ROW.get(stop.code) for stop in sheet.stops}
    lacking: dict[str, list[str]] = {}
    for row in sheet.rows:
        if row.is_optional or (sheet.stops and row.missing.startswith(OUT_OF_RANGE)):
            continue  # few have it; or the stop says what is out of range
        if row.figure is None and not row.missing.endswith(" above") and row.key not in stopped:
            lacking.setdefault(row.missing, []).append(f"'{row.label}'")
    for missing, labels in lacking.items():  # one finding for one thing to enter
        yield Finding(
            CODE.id,
            Severity.WARNING,
            case.place("set_ups", index),
            f"{sheet.id}: {' and '.join(labels)} {'is' if len(labels) == 1 else 'are'} not "
            f"computed: {are_missing(missing)}",
            (
                *_cures(type(case.job.set_ups[index]), missing),
                "until then the page says 'not computed'",
            ),
        )


def _cures(set_up: type[Record], missing: str) -> Iterator[str]:
    for one in missing.split(AND):
        yield f"enter it: {one}"
        yield from _meaning(set_up, one)


_KEY = re.compile(r"([a-z_.]+)(?: of set-up \S+)?(?: in|$)(?: ([a-z]+)/)?")


def _meaning(set_up: type[Record], missing: str) -> Iterator[str]:
    """What the key that is wanted holds, where it is one of a record."""
    match = _KEY.match(missing)
    if match is None:
        return
    keys = match[1].split(".")
    cls = set_up if "of set-up" in missing else KINDS.get(match[2] or "")
    owner = class_at(cls, keys[:-1]) if cls else None
    text = meaning(owner, keys[-1]) if owner else None
    if owner and text:
        yield f"it holds: {' '.join(text.split())}"


RULE = JobRule(check, (CODE,))
