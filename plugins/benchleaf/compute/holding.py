"""Whether the work is held: capacity of clamps or stop against torque, with a margin."""

from __future__ import annotations

from dataclasses import replace

from benchleaf.diagnose import Code, Sample
from benchleaf.formulas import holding
from benchleaf.model import Holding

from . import figures_feel as held_figures
from .declaration import Declaration, working
from .grip import grip_note, grip_of
from .results import Side, Sum
from .sheet import Sheet, are_missing, cited

TOO_WEAK = Code(
    "S505",
    "The holding is too weak",
    why="Work that comes loose is swung round by the drill and strikes the operator.",
    instead="Clamp harder, further from the drill, or against a positive stop.",
    bad=(
        Sample(
            """
            # A vice pulled up too lightly.
            - file: jobs/vg-0010.yml
              find: "    force: 6 kN"
              put: "    force: 2 kN"
            """,
            """
            content/jobs/vg-0010.yml:22:3: stop S505 do not run VG-0010 (guide-hole): the
                    holding resists 10.1 N m, which is 1.3 times the torque; 2 times is wanted (15.7
                    N m)
                clamp harder, further from the drill, or against a positive stop
            """,
        ),
        Sample(
            """
            # A stop that is too weak.
            - file: jobs/vg-0010.yml
              find: |2
                  clamping:
                    force: 6 kN
                    friction: 0.15
                    arm: 40 mm
                    faces: 1
                    source: jaw force entered for the tests, not measured
              put: |2
                  positive_stop:
                    rated_force: 100 N
                    arm: 40 mm
                    source: entered for the tests
            """,
            """
            content/jobs/vg-0010.yml:22:3: stop S505 do not run VG-0010 (guide-hole): the
                    holding resists 4.0 N m, which is 0.5 times the torque; 2 times is wanted (15.7
                    N m)
                clamp harder, further from the drill, or against a positive stop
            content/jobs/vg-0010.yml:22:3: stop S521 do not run VG-0010 (guide-hole): the
                    stop keeps the work from turning, and nothing holds it down: the drill can lift
                    it where it comes out
                clamp it down, or hold it in a vice, and enter the clamping
            """,
        ),
    ),
    good="""
        # A vice pulled up hard enough.
        - file: jobs/vg-0010.yml
          find: "    force: 6 kN"
          put: "    force: 5.5 kN"
    """,
)

NOT_SHOWN = Code(
    "S506",
    "The holding is not shown to be strong enough",
    why="Nobody may stand at a spindle on a guess about the clamp.",
    instead="Enter clamp force, friction and arm, or a positive stop with its rated force. Have the"
    " force measured, or take it from the maker of the vice or clamp.",
    bad=(
        Sample(
            """
            # Holding in words, with no figures.
            - file: jobs/vg-0010.yml
              find: |2
                  clamping:
                    force: 6 kN
                    friction: 0.15
                    arm: 40 mm
                    faces: 1
                    source: jaw force entered for the tests, not measured
              put: ""
            """,
            """
            content/jobs/vg-0010.yml:22:3: stop S506 do not run VG-0010 (guide-hole): the
                    holding is not known: holding.clamping or holding.positive_stop in jobs/vg-0010
                    is missing
                write below holding: clamping: with force, work_surface, arm and source; or
                        positive_stop: with rated_force, arm and source
            """,
        ),
        Sample(
            """
            # No holding at all.
            - file: jobs/vg-0010.yml
              find: |
                holding:
                  method: vice
                  how: The plate lies on parallels in the drill vice, long edges in the jaws.
                  bolted_down: Two bolts hold the vice to the table.
                  clamping:
                    force: 6 kN
                    friction: 0.15
                    arm: 40 mm
                    faces: 1
                    source: jaw force entered for the tests, not measured
              put: ""
            """,
            """
            content/jobs/vg-0010.yml:33:5: stop S506 do not run VG-0010 (guide-hole): the
                    holding is not known: holding in jobs/vg-0010 is missing
                write below holding: clamping: with force, work_surface, arm and source; or
                        positive_stop: with rated_force, arm and source
            """,
        ),
        Sample(
            """
            # The torque to hold against is not known.
            - file: materials/mild-steel.yml
              find: |2
                  kd_torque: 24000
              put: ""
            """,
            """
            content/jobs/vg-0010.yml:22:3: stop S506 do not run VG-0010 (guide-hole): the
                    torque to hold against is not computed, so the holding is not shown to be
                    enough: drilling.kd_torque in materials/mild-steel is missing
                enter it: drilling.kd_torque in materials/mild-steel
            content/jobs/vg-0010.yml:43:5: warning S507 guide-hole: 'Torque on the work' is
                    not computed: drilling.kd_torque in materials/mild-steel is missing
                enter it: drilling.kd_torque in materials/mild-steel
                it holds: The handbook's work-material factor Kd for torque, by the metal and
                        its hardness.
                until then the page says 'not computed'
            """,
        ),
    ),
    good="""
        # Holding by a stop that is known.
        - file: jobs/vg-0010.yml
          find: |2
              clamping:
                force: 6 kN
                friction: 0.15
                arm: 40 mm
                faces: 1
                source: jaw force entered for the tests, not measured
          put: |2
              positive_stop:
                rated_force: 1 kN
                arm: 40 mm
                source: entered for the tests
              clamping:
                force: 2 kN
                presses: down
                work_surface: unmachined
                arm: 40 mm
                source: entered for the tests
    """,
)


def work_holding(sheet: Sheet) -> None:
    """Capacity of the holding against the torque times the margin."""
    held = sheet.case.holding
    capacity = capacity_of(held)
    if held is None or capacity is None:
        holding_unknown(sheet, held)
        return
    sheet.found = replace(sheet.found, capacity=capacity)
    torque = sheet.found.torque if sheet.found.worst is None else sheet.found.worst
    note = held.margin_reason or held_figures.HOLDING.note
    judged = _wanted_sums(sheet, torque, held)
    limits = f"at least {held.margin:g} times the torque{': ' if judged else ''}{working(judged)}"
    write_capacity(sheet, held, held_figures.HOLDING, limits, note, judged)
    if torque is None:
        missing = next((row.missing for row in sheet.rows if row.key == "torque"), "the torque")
        _unknown(
            sheet,
            "the torque to hold against is not computed, so the holding is not shown to be "
            f"enough: {are_missing(missing)}",
            f"enter it: {missing}",
        )
        return
    _judge(sheet, held, capacity, torque)


def capacity_of(held: Holding | None) -> float | None:
    """Torque in N m that the better of clamping and stop resists; None where neither is known."""
    parts = _capacities(held) if held is not None else []
    return max((part.value for part in parts), default=None)


def holding_unknown(sheet: Sheet, held: Holding | None) -> None:
    """A row that is not computed, and the reason not to run."""
    wanted = _wanted(sheet, held)
    sheet.lacks(held_figures.HOLDING, wanted)
    _unknown(sheet, f"the holding is not known: {wanted} is missing", _ENTER)


def _wanted(sheet: Sheet, held: Holding | None) -> str:
    where = f"jobs/{sheet.case.job.id}"
    if held is None:
        return f"holding in {where}"
    return f"holding.clamping or holding.positive_stop in {where}"


_ENTER = (
    "write below holding: clamping: with force, work_surface, arm and source; or positive_stop: "
    "with rated_force, arm and source"
)


def _unknown(sheet: Sheet, reason: str, cure: str) -> None:
    path = sheet.case.holding_path if sheet.case.holding else sheet.case.path()
    sheet.stop(NOT_SHOWN, reason, cure, path)


def _capacities(held: Holding) -> list[Sum]:
    """What each way of holding that was entered resists, in N m, with its working."""
    parts: list[Sum] = []
    if held.clamping is not None:
        one = held.clamping
        sizes = (one.force.value, one.friction, one.arm.value, one.faces)
        held_figures.CLAMPS.run(*sizes)  # refuses what the formula does not cover
        parts += held_figures.CLAMPS.sums(*sizes)
    if held.positive_stop is not None:
        stop = held.positive_stop
        held_figures.STOP.run(stop.rated_force.value, stop.arm.value)
        parts += held_figures.STOP.sums(stop.rated_force.value, stop.arm.value)
    return parts


def write_capacity(
    sheet: Sheet,
    held: Holding,
    one: Declaration,
    limits: str,
    note: str = "",
    judged: tuple[Sum, ...] = (),
) -> None:
    """The row of the holding: each way that was entered, and the better of them."""
    entered = [part.source for part in (held.clamping, held.positive_stop) if part is not None]
    sources = (cited("margin"), *entered) if one is held_figures.HOLDING else ()
    told, tables = _grip_told(sheet)
    note, sources = "; ".join(filter(None, (note, told))), (*sources, *tables)
    sums = _capacities(held)
    sheet.best(one, sums, judged, limits=limits, note=note, also="; ".join(sources))
    sheet.reach(least=judged[0].value if judged else None)


def _grip_told(sheet: Sheet) -> tuple[str, tuple[str, ...]]:
    """What was done with the friction that was entered, and the sources of that."""
    held = sheet.case.operation.holding or sheet.case.job.holding
    if held is None or held.clamping is None:
        return "", ()
    grip = grip_of(held.clamping, sheet.case.job, sheet.case.material)
    tables = (*(() if grip.is_entered else ("jaw-table",)), *(("jaw-wet",) if grip.is_wet else ()))
    return grip_note(held.clamping, grip), (cited(*tables),) if tables else ()


def _wanted_sums(sheet: Sheet, torque: float | None, held: Holding) -> tuple[Sum, ...]:
    """The torque that must be resisted, with its working; none where no torque is known."""
    one = held_figures.WANTED if sheet.found.worst is None else held_figures.WANTED_DULL
    return () if torque is None else one.sums(torque, held.margin)


def _judge(sheet: Sheet, held: Holding, capacity: float, torque: float) -> None:
    sheet.found = replace(sheet.found, wanted=torque * held.margin)
    ratio = holding.holding_ratio(capacity, torque)
    if ratio < held.margin:
        sheet.stop(
            TOO_WEAK,
            f"the holding resists {capacity:.1f} N m, which is {ratio:.1f} times the torque"
            f"{'' if sheet.found.worst is None else ' of a dull tap'}; "
            f"{held.margin:g} times is wanted ({torque * held.margin:.1f} N m)",
            "clamp harder, further from the drill, or against a positive stop",
            sheet.case.holding_path,
            side=Side.BELOW,
        )
