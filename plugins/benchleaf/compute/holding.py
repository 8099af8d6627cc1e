"""Whether the work is held: capacity of clamps or stop against torque, with a margin."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from benchleaf.diagnose import Code, Sample
from benchleaf.formulas import holding, spread
from benchleaf.model import ForceKnownBy, Holding

from . import figures_feel as held_figures
from .declaration import Declaration, ends
from .figures_worst import HELD, HELD_DULL
from .grip import grip_note, grip_of
from .results import Side, Sum
from .sheet import Case, Sheet, are_missing, cited
from .worst import Compared, Way, clamp_offs, compare, cut_offs, no_less, no_more, told_times

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
              find: "    force: 20 kN"
              put: "    force: 2 kN"
            """,
            """
            content/jobs/vg-0010.yml:22:3: stop S505 do not run VG-0010 (guide-hole): the
                    holding resists 10 N m, which is 1.2 times the torque; 2 times is wanted (16 N
                    m)
                clamp harder, further from the drill, or against a positive stop
            """,
        ),
        Sample(
            """
            # Twice the torque as entered, by a vice that is tightened by feel.
            - file: jobs/vg-0010.yml
              find: "    force: 20 kN"
              put: "    force: 3.3 kN"
            """,
            """
            content/jobs/vg-0010.yml:22:3: stop S505 do not run VG-0010 (guide-hole): the
                    holding resists 2.1 times the torque, and at worst 0.9 times: most of the doubt
                    is the clamp force
                clamp harder, further from the drill, or against a positive stop; or measure the
                    clamp force ten times, and enter the lowest
            """,
        ),
        Sample(
            """
            # A stop that is too weak.
            - file: jobs/vg-0010.yml
              find: |2
                  clamping:
                    force: 20 kN
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
                    holding resists 4.0 N m, which is 0.5 times the torque; 2 times is wanted (16 N
                    m)
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
          find: "    force: 20 kN"
          put: "    force: 19.5 kN"
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
                    force: 20 kN
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
                    force: 20 kN
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
          find: "method: vice"
          put: "method: clamps"
        - file: jobs/vg-0010.yml
          find: |2
              clamping:
                force: 20 kN
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
    limits = f"at least {held.margin:g} times the torque"
    beside: tuple[Sum, ...] = ()
    found = _compared(sheet, torque)
    if torque is not None and found is not None:
        wanted = no_less(torque * held.margin, "N m")
        limits = f"{limits}, {wanted}: {found.words}"
        beside = (*_wanted_sums(sheet, torque, held), *found.sums)
    write_capacity(sheet, held, held_figures.HOLDING, limits, note, beside)
    if torque is not None and found is not None:
        # The row shows the way that resists most; at worst another may hold best.
        sheet.reach(least=max(torque * held.margin, capacity / found.worst))
    if torque is None or found is None:
        missing = next((row.missing for row in sheet.rows if row.key == "torque"), "the torque")
        _unknown(
            sheet,
            "the torque to hold against is not computed, so the holding is not shown to be "
            f"enough: {are_missing(missing)}",
            f"enter it: {missing}",
        )
        return
    _judge(sheet, held, capacity, torque, found)


def capacity_of(held: Holding | None) -> float | None:
    """Torque in N m that the better of clamping and stop resists; None where neither is known."""
    return max(_resists(held), default=None) if held is not None else None


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


def _entered(held: Holding) -> Iterator[tuple[Declaration, tuple[Any, ...]]]:
    """Each way of holding that was entered: its figure, and the figure's inputs."""
    if held.clamping is not None:
        one = held.clamping
        yield held_figures.CLAMPS, (one.force.value, one.friction, one.arm.value, one.faces)
    if held.positive_stop is not None:
        stop = held.positive_stop
        yield held_figures.STOP, (stop.rated_force.value, stop.arm.value)


def _resists(held: Holding) -> list[float]:
    """What each way of holding that was entered resists, in N m."""
    return [ends(figure.run(*sizes))[0] for figure, sizes in _entered(held)]


def write_capacity(
    sheet: Sheet,
    held: Holding,
    one: Declaration,
    limits: str,
    note: str = "",
    beside: tuple[Sum, ...] = (),
) -> None:
    """The row of the holding: each way that was entered, and the better of them."""
    entered = [part.source for part in (held.clamping, held.positive_stop) if part is not None]
    sources = (cited("margin"), *entered) if one is held_figures.HOLDING else ()
    told, tables = _grip_told(sheet)
    note = "; ".join(filter(None, (note, told)))
    sources = (*sources, *tables, *_spread_sources(held))
    sums = [each for figure, sizes in _entered(held) for each in figure.sums(*sizes)]
    sheet.best(one, sums, beside, limits=limits, note=note, also="; ".join(sources))


def _spread_sources(held: Holding) -> tuple[str, ...]:
    """Where the spreads of the shop's own come from."""
    one = held.clamping
    if one is None:
        return ()
    told = {
        "spread of the clamp force": one.force_spread_source if one.force_spread else None,
        "spread of the friction": one.friction_spread_source if one.friction_spread else None,
    }
    return tuple(f"{what}: {source}" for what, source in told.items() if source)


def _grip_told(sheet: Sheet) -> tuple[str, tuple[str, ...]]:
    """What was done with the friction that was entered, and the sources of that."""
    held = sheet.case.operation.holding or sheet.case.job.holding
    if held is None or held.clamping is None:
        return "", ()
    grip = grip_of(held, sheet.case.job, sheet.case.material)
    wet = ("jaw-wet",) if grip.is_less_for_fluid else ()
    tables = (*(() if grip.is_entered else ("jaw-table",)), *wet)
    return grip_note(held.clamping, grip), (cited(*tables),) if tables else ()


def _wanted_sums(sheet: Sheet, torque: float, held: Holding) -> tuple[Sum, ...]:
    """The torque that must be resisted, with its working."""
    one = held_figures.WANTED if sheet.found.worst is None else held_figures.WANTED_DULL
    return one.sums(torque, held.margin)


def ways_of(case: Case) -> list[Way]:
    """Each way of holding that was entered, and what it may fall by; a rating falls by nothing."""
    held = case.holding
    if held is None:
        return []
    offs = [clamp_offs(case) or ()] if held.clamping is not None else []
    return [Way(*one) for one in zip(_resists(held), [*offs, ()], strict=False)]


_MODEL = {"drilling": "torque", "tapping": "tapping"}


def _compared(sheet: Sheet, torque: float | None) -> Compared | None:
    """The holding against the torque of the cut; None where no torque is known."""
    if torque is None:
        return None
    operation, is_dull = sheet.case.operation.operation, sheet.found.worst is not None
    offs = cut_offs(sheet, _MODEL.get(operation, "enlarging"), is_worn=not is_dull)
    return compare(HELD_DULL if is_dull else HELD, ways_of(sheet.case), torque, offs)


def _judge(sheet: Sheet, held: Holding, capacity: float, torque: float, found: Compared) -> None:
    wanted = torque * held.margin
    needed = max(wanted, torque * found.load * found.hold)
    sheet.found = replace(sheet.found, wanted=wanted, needed=needed, held=found.words)
    ratio, cure = holding.holding_ratio(capacity, torque), HARDER
    dull = "" if sheet.found.worst is None else " of a dull tap"
    path = sheet.case.holding_path
    if ratio < held.margin:
        reason = (
            f"the holding resists {no_more(capacity, 'N m')}, which is {told_times(ratio)} the "
            f"torque{dull}; {held.margin:g} times is wanted ({no_less(wanted, 'N m')})"
        )
        sheet.stop(TOO_WEAK, reason, cure, path, side=Side.BELOW)
    elif found.worst < 1:
        reason = (
            f"the holding resists {told_times(ratio)} the torque{dull}, and at worst "
            f"{told_times(found.worst)}: {found.told_most}"
        )
        sheet.stop(
            TOO_WEAK,
            reason,
            f"{cure}; or {KNOW_IT}" if measuring_helps(sheet, found) else cure,
            path,
            side=Side.BELOW,
        )
    else:
        barely_held(sheet, found, f"the torque{dull}")


HARDER = "clamp harder, further from the drill, or against a positive stop"
KNOW_IT = "measure the clamp force ten times, and enter the lowest"
BARELY_HELD = "barely-held"


def measuring_helps(sheet: Sheet, found: Compared) -> bool:
    """Whether the work would be held if the force entered were the lowest measured."""
    off = next((one.times for one in found.offs if one.name == "clamp"), 1.0)
    gained = off / spread.clamp_times(ForceKnownBy.LOWEST.value)
    return found.times >= 1 and found.worst * gained >= 1


def barely_held(sheet: Sheet, found: Compared, what: str) -> None:
    """A doubt where the worst case is only just held."""
    if found.worst < spread.BARELY:
        sheet.doubt(
            BARELY_HELD,
            Side.BELOW,
            f"At worst the work is held {told_times(found.worst)} {what}, and no more: "
            f"{found.told_most}.",
        )
