"""V605: a job asks of its station only what is there. House rule."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity, suggestion
from benchleaf.model import (
    UNDRIVEN,
    KeyPath,
    Machine,
    Protection,
    SetUp,
    StationKind,
    is_by_hand,
    stations_of,
)

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V605",
    "A job asks of its station what is not there, or does not say where it is done",
    why=(
        "Each spindle and each station has limits of its own: figures of another one are wrong. "
        "A bench has no spindle to set and no stop to press."
    ),
    instead=(
        "Name the spindle where a machine has several, and the station where the job is at a "
        "cell. Put what a spindle does into a job at a machine."
    ),
    bad=(
        Sample(
            """
            # Two spindles, and the set-up names none.
            - file: machines/bench-drill.yml
              find: |-
                spindle_speeds:
                  - 400 rpm
                  - 650 rpm
                  - 1000 rpm
                  - 1500 rpm
              put: |-
                kind: machine with several spindles
                spindles:
                  - id: left
                    name: Left spindle
                    chuck: 1 to 13 mm
                    spindle_speeds:
                      - 650 rpm
                      - 1000 rpm
                    rated_thrust: 4 kN
                    quill_travel: 60 mm
                    lever:
                      radius: 350 mm
                      pinion_radius: 10 mm
                      efficiency: 0.9
                      source: entered for the tests, not measured
                  - id: right
                    name: Right spindle
                    chuck: 1 to 6 mm
            - file: machines/bench-drill.yml
              find: |
                rated_thrust: 4 kN
                quill_travel: 60 mm
                drill_capacity: 13 mm
                chuck: 1 to 13 mm
              put: ""
            - file: machines/bench-drill.yml
              find: |
                lever:
                  radius: 350 mm
                  pinion_radius: 10 mm
                  efficiency: 0.9
                  source: entered for the tests, not measured
              put: ""
            - file: addresses.yml
              find: |2
                  - charts/speeds-bench-drill.html
              put: |2
                  - charts/speeds-bench-drill.html
                  - charts/speeds-bench-drill--left.html
            """,
            """
            content/jobs/vg-0010.yml:43:5: error V605 set-up 'guide-hole' does not say which
                    spindle of 'bench-drill' it uses
                write spindle: with one of: left, right
            """,
        ),
        Sample(
            """
            # One spindle, and the set-up names another.
            - file: jobs/vg-0010.yml
              find: "    overtravel: 1 mm"
              put: |2-
                    overtravel: 1 mm
                    spindle: left
            """,
            """
            content/jobs/vg-0010.yml:52:14: error V605 'bench-drill' has no spindle 'left'
                take it out
            """,
        ),
        Sample(
            """
            # No cell, and the set-up names a station.
            - file: jobs/vg-0010.yml
              find: "    overtravel: 1 mm"
              put: |2-
                    overtravel: 1 mm
                    station: bench-drill
            """,
            """
            content/jobs/vg-0010.yml:52:14: error V605 set-up 'guide-hole' names a station,
                    and 'bench-drill' is no cell
                take it out
            """,
        ),
        Sample(
            """
            # A bench with a stop button.
            - file: machines/bench-2.yml
              text: |
                id: bench-2
                name: Bench 2
                kind: bench
                what: A bench with a vice.
                where: Beside the window
            - file: addresses.yml
              find: |2
                  - machines/bench-drill.html
              put: |2
                  - machines/bench-drill.html
                  - machines/bench-2.html
            - file: jobs/vg-0020.yml
              find: "machine: bench-drill"
              put: "machine: bench-2"
            - file: jobs/vg-0020.yml
              find: "  - id: deburr\\n"
              put: |2
                  - id: deburr
                    hands_inside:
                      doing: loading
                      protected_by: stop button
                      how: You alone work there.
            """,
            """
            content/jobs/vg-0020.yml:27:21: error V605 a bench has no stop button
                say what keeps it still, or write its kind as a machine
            """,
        ),
    ),
    good="""
        # The machine has one spindle, which needs no naming.
        - file: jobs/vg-0010.yml
          find: "    overtravel: 1 mm"
          put: "    overtravel: 1.5 mm"
    """,
)

_BUTTONS = (Protection.STOP_BUTTON, Protection.EMERGENCY_STOP)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each set-up with no place, and for each button that is not there."""
    here = stations_of(case.shop, case.job.machine)
    if not here:
        return
    for index, set_up in enumerate(case.job.set_ups):
        yield from _placed(case, here, set_up, ("set_ups", index))
    yield from _steps_placed(case, here[0])
    if not case.is_driven:
        yield from _no_button(case, here[0])


def _error(case: JobCase, path: KeyPath, text: str, *cure: str) -> Finding:
    return Finding(CODE.id, Severity.ERROR, case.place(*path), text, cure)


def _steps_placed(case: JobCase, machine: Machine) -> Iterator[Finding]:
    """A finding for each step that names a place which is not of its cell, or of its set-up."""
    of_set_up = {one.id: one.station for one in case.job.set_ups}
    for index, step in enumerate(case.job.steps):
        if step.station is None:
            continue
        path: KeyPath = ("steps", index, "station")
        stated = of_set_up.get(step.set_up or "")
        if machine.kind is not StationKind.CELL:
            text = f"step '{step.id}' names a station, and '{machine.id}' is no cell"
            yield _error(case, path, text, "take it out")
        elif step.station not in machine.stations:
            text = f"step '{step.id}' names '{step.station}', which is no station of the cell"
            known = ", ".join(machine.stations)
            yield _error(case, path, text, f"write station: with one of: {known}")
        elif stated not in (None, step.station):
            text = f"step '{step.id}' is done at '{step.station}', and its set-up at '{stated}'"
            yield _error(case, path, text, "correct one of the two")


def _placed(
    case: JobCase, here: tuple[Machine, ...], set_up: SetUp, path: KeyPath
) -> Iterator[Finding]:
    machine, *inside = here
    if machine.kind is not StationKind.CELL:
        if set_up.station is not None:
            text = f"set-up '{set_up.id}' names a station, and '{machine.id}' is no cell"
            yield _error(case, (*path, "station"), text, "take it out")
    elif set_up.station is None or set_up.station not in machine.stations:
        named = set_up.station is not None
        known = ", ".join(machine.stations)
        yield _error(
            case,
            (*path, "station") if named else path,
            f"set-up '{set_up.id}' names '{set_up.station}', which is no station of the cell"
            if named
            else f"set-up '{set_up.id}' does not say at which station of the cell it is done",
            f"write station: with one of: {known}",
        )
        return
    else:
        found = [one for one in inside if one.id == set_up.station]
        if not found:
            return  # its file is wrong, and is told of elsewhere
        machine = found[0]
    yield from _spindle(case, machine, set_up, path)


def _spindle(case: JobCase, machine: Machine, set_up: SetUp, path: KeyPath) -> Iterator[Finding]:
    known = [one.id for one in machine.spindles]
    if machine.kind in UNDRIVEN and not is_by_hand(set_up):
        text = f"set-up '{set_up.id}' turns its tool by a spindle, and '{machine.id}' has none"
        cure = "name the machine at which it is done, or take the set-up out"
        yield _error(case, path, text, cure)
    elif set_up.spindle is None and len(known) > 1 and not is_by_hand(set_up):
        text = f"set-up '{set_up.id}' does not say which spindle of '{machine.id}' it uses"
        yield _error(case, path, text, f"write spindle: with one of: {', '.join(known)}")
    elif set_up.spindle is not None and set_up.spindle not in known:
        text = f"'{machine.id}' has no spindle '{set_up.spindle}'"
        cures = (
            suggestion(set_up.spindle, known, what="its spindles") if known else ("take it out",)
        )
        yield _error(case, (*path, "spindle"), text, *cures)


def _no_button(case: JobCase, machine: Machine) -> Iterator[Finding]:
    for number, step in enumerate(case.job.steps):
        inside = step.hands_inside
        if inside is not None and inside.protected_by in _BUTTONS:
            yield _error(
                case,
                ("steps", number, "hands_inside", "protected_by"),
                f"a {machine.kind.noun} has no {inside.protected_by.value}",
                "say what keeps it still, or write its kind as a machine",
            )


RULE = JobRule(check, (CODE,))
