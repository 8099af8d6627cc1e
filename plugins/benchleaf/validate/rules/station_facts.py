"""V606: what a station's record says of stops, spindles and stations can be relied on.

House rule: a reader looks for a stop in danger, so that the word None has no place there.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.model import KeyPath, Machine, Shop, StationKind

from ..places import Places
from ..rule import ShopRule

CODE = Code(
    "V606",
    "A station says of its stops, spindles or stations what nobody can use",
    why=(
        "Who needs an emergency stop reads the word None there. Two spindles of one name mix "
        "up their limits. A cell inside a cell hides whose stop is meant."
    ),
    instead=(
        "Say what does stop it and cut it off. Where nothing drives it, write its kind, and leave "
        "controls out. Give each spindle a name of its own, and list single stations in a cell."
    ),
    bad=(
        Sample(
            """
            # A word that stops nothing.
            - file: machines/bench-drill.yml
              find: The red mushroom button on the front of the head cuts the power.
              put: None.
            """,
            """
            content/machines/bench-drill.yml:8:19: error V606 'emergency_stop' says only
                    'None.', to somebody who looks for it in danger
                say what does stop it and cut it off
                where nothing drives it: kind: bench (or assembly place, inspection table, hand
                    press), and no controls
            """,
        ),
        Sample(
            """
            # Two spindles of one name, and a cell in a cell.
            - file: machines/twin.yml
              text: |
                id: twin
                name: Twin drill
                kind: machine with several spindles
                what: A drill with two spindles.
                where: Bay 3
                controls:
                  start: The green button.
                  stop: The red button.
                  emergency_stop: The red mushroom.
                  isolation: The red handle.
                spindles:
                  - id: left
                    name: Left spindle
                  - id: left
                    name: Right spindle
            - file: machines/cell-a.yml
              text: |
                id: cell-a
                name: Cell A
                kind: cell
                what: The drill and the cell around it.
                where: Bay 3
                stations: [bench-drill, cell-a]
            - file: addresses.yml
              find: |2
                  - machines/bench-drill.html
              put: |2
                  - machines/bench-drill.html
                  - machines/cell-a.html
                  - machines/twin.html
            """,
            """
            content/machines/cell-a.yml:6:25: error V606 'cell-a' is a cell, and a cell
                    holds single stations
                name the stations of that cell instead
            content/machines/twin.yml:14:9: error V606 two spindles of 'twin' have the id
                    'left'
                give one of the two another id
            """,
        ),
    ),
    good="""
        # No emergency stop, and what to do instead.
        - file: machines/bench-drill.yml
          find: The red mushroom button on the front of the head cuts the power.
          put: None is fitted. Press stop, and turn the red handle to off.
    """,
)

_NOTHING = re.compile(
    r"(?:none|no|nil|nothing|n/?a|not (?:applicable|fitted|there|needed)|[-\N{EN DASH}?]+|"
    r"(?:there is |it has )?(?:no|none)(?: (?:start|stop|emergency stop|isolat(?:or|ion)))?)\W*",
    re.IGNORECASE,
)
_ASKED = ("start", "stop", "emergency_stop", "isolation")


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """A finding for each thing that a reader in danger could not use."""
    for machine in shop.machines.values():
        yield from _said(machine, places)
        yield from _twice(machine, places)
        yield from _cells(shop, machine, places)


def _error(places: Places, machine: Machine, path: KeyPath, text: str, *cure: str) -> Finding:
    return Finding(CODE.id, Severity.ERROR, places.of("machines", machine.id, path), text, cure)


def _said(machine: Machine, places: Places) -> Iterator[Finding]:
    told: list[tuple[KeyPath, str]] = [
        (("controls", key), getattr(machine.controls, key, "")) for key in _ASKED
    ]
    told.append((("supply",), machine.supply or ""))
    for path, text in told:
        if text and _NOTHING.fullmatch(text.strip()):
            yield _error(
                places,
                machine,
                path,
                f"'{path[-1]}' says only '{text}', to somebody who looks for it in danger",
                "say what does stop it and cut it off",
                "where nothing drives it: kind: bench (or assembly place, inspection table, hand "
                "press), and no controls"
                if path[0] == "controls"
                else "where nothing is to be cut off, take it out",
            )


def _twice(machine: Machine, places: Places) -> Iterator[Finding]:
    named = sorted((one.id, at) for at, one in enumerate(machine.spindles))
    for (former, _), (again, at) in pairwise(named):
        if former == again:
            text = f"two spindles of '{machine.id}' have the id '{again}'"
            path = ("spindles", at, "id")
            yield _error(places, machine, path, text, "give one of the two another id")


def _cells(shop: Shop, machine: Machine, places: Places) -> Iterator[Finding]:
    for at, name in enumerate(machine.stations):
        inside = shop.machines.get(name)
        if inside is not None and inside.kind is StationKind.CELL:
            text = f"'{name}' is a cell, and a cell holds single stations"
            cure = "name the stations of that cell instead"
            yield _error(places, machine, ("stations", at), text, cure)


RULE = ShopRule(check, (CODE,))
