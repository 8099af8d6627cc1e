"""Whether the work is held down where the drill comes out and may lift it."""

from __future__ import annotations

from benchleaf.diagnose import Code, Sample
from benchleaf.formulas.jaw_friction import RUBBING_SHARE, STANDARD_HELIX_DEG
from benchleaf.formulas.worst_case import Off
from benchleaf.model import Clamping, Holding

from . import figures_feel as held_figures
from .break_through import GIVES_WAY, comes_through
from .declaration import ends
from .figures_worst import HELD_DOWN
from .grip import presses_down
from .holding import TOO_WEAK
from .results import Side, Sum
from .sheet import Sheet
from .worst import Compared, Way, clamp_offs, compare, cut_offs, no_less, no_more

NOT_HELD_DOWN = Code(
    "S521",
    "Nothing holds the work down",
    why=(
        "Where the drill comes out, its flutes screw into the last of the metal. Work that a stop "
        "keeps from turning, and nothing holds down, climbs the drill and is thrown off it. A tap "
        "turns back, too, and a stop holds one way."
    ),
    instead="Clamp the work down, or hold it in a vice, and enter the clamping.",
    bad=(
        Sample(
            """
            # A stop alone: the plate cannot turn, and it can climb.
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
            """,
            """
            content/jobs/vg-0010.yml:22:3: stop S521 do not run VG-0010 (guide-hole): the
                    stop keeps the work from turning, and nothing holds it down: the drill can lift
                    it where it comes out
                clamp it down, or hold it in a vice, and enter the clamping
            """,
        ),
    ),
    good="""
        # A stop against turning, and a light clamp against climbing.
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


def held_down(sheet: Sheet) -> None:
    """What holds the work down in a through hole, against the pull of the drill."""
    held = sheet.case.holding
    if held is None:
        return
    if not comes_through(sheet):
        drawn_out(sheet)
        return
    if held.clamping is not None:
        _compare(sheet, held, held.clamping)
    elif held.positive_stop is not None:
        sheet.stop(
            NOT_HELD_DOWN,
            "the stop keeps the work from turning, and nothing holds it down: the drill can lift "
            "it where it comes out",
            "clamp it down, or hold it in a vice, and enter the clamping",
            sheet.case.holding_path,
        )


def drawn_out(sheet: Sheet) -> None:
    """A caution where only a stop holds the work, and nothing comes through."""
    if _is_stop_only(sheet.case.holding):
        sheet.cautions.append(
            "Only a stop holds the work, and nothing holds it down. Draw the tool out slowly: "
            "packed chips can lift the work clear of the stop, and it is swung round."
        )


def turned_back(sheet: Sheet) -> None:
    """A tap that the machine turns: it turns back, and a stop resists one way only."""
    if _is_stop_only(sheet.case.holding):
        sheet.stop(
            NOT_HELD_DOWN,
            "the stop keeps the work from turning one way, and nothing holds it down: the tap "
            "turns back, and it can lift the work and swing it round",
            "clamp it down, or hold it in a vice, and enter the clamping",
            sheet.case.holding_path,
        )


def _is_stop_only(held: Holding | None) -> bool:
    return held is not None and held.positive_stop is not None and held.clamping is None


LIFTS = "lifts-the-work"
_LOOSE = (TOO_WEAK.id, GIVES_WAY.id)
"""Stops after which a doubt about lifting says nothing more."""


def _compare(sheet: Sheet, held: Holding, clamping: Clamping) -> None:
    force, friction = clamping.force.value, clamping.friction
    if friction is None:
        raise TypeError("a clamping is reckoned with no friction")
    offs: tuple[Off, ...] = clamp_offs(sheet.case) or ()
    one, sizes = held_figures.HELD_DOWN, [force, friction]
    if presses_down(held, clamping):
        one, sizes, offs = held_figures.PRESSED_DOWN, [force], offs[:1]
    pull, kept = _pulls(sheet)
    wanted, down = "at least the pull of the drill", ends(one.run(*sizes))[0]
    if not pull:
        sheet.work(one, *sizes, limits=f"not compared: {wanted} is not known")
        return
    found = compare(HELD_DOWN, [Way(down, offs)], pull[0].value, cut_offs(sheet, "torque"))
    limits = f"{wanted}, {_told(pull)}: {found.words}"
    if kept:
        limits = f"{limits}; if the hand keeps its pull, {_told(kept)}"
    sheet.work(one, *sizes, beside=(*pull, *kept, *found.sums), limits=limits)
    if not any(stop.code in _LOOSE for stop in sheet.stops):
        _judge(sheet, down, found, pull, kept)


def _told(pull: tuple[Sum, ...]) -> str:
    return no_less(pull[0].value, "N")


def _pulls(sheet: Sheet) -> tuple[tuple[Sum, ...], tuple[Sum, ...]]:
    """What the drill can lift with at the torque of the cut, and at that of a kept pull."""
    found, drill = sheet.drilled, sheet.drilled.drill_mm
    one, grab = held_figures.PULL_UP, held_figures.PULL_UP_KEPT
    if found.torque is None or drill is None:
        return (), ()
    pull = one.sums(found.torque, drill, STANDARD_HELIX_DEG)
    if found.exit_torque is None:
        return pull, ()
    return pull, grab.sums(found.exit_torque, drill, STANDARD_HELIX_DEG)


def _judge(
    sheet: Sheet, down: float, found: Compared, pull: tuple[Sum, ...], kept: tuple[Sum, ...]
) -> None:
    """Stopped where it lifts even a flute that rubs, doubted where one without friction lifts.

    Told to the hand where only a kept pull lifts, or the worst case.

    A kept pull itself presses the work down, and the flute is reckoned without friction: to doubt
    each vice by it would be a false alarm.
    """
    if found.times < RUBBING_SHARE:
        sheet.stop(
            NOT_HELD_DOWN,
            f"the holding keeps the work down with {no_more(down, 'N')}, and the drill can lift it "
            f"with up to {no_less(pull[0].value, 'N')} where it comes out",
            "clamp harder, or press the work down",
            sheet.case.holding_path,
        )
    elif found.times < 1:
        sheet.doubt(
            LIFTS,
            Side.BELOW,
            f"Where the drill comes out it may lift the work with up to "
            f"{no_less(pull[0].value, 'N')}, and the holding keeps {no_more(down, 'N')}. "
            "Clamp harder, or press the work down.",
        )
    elif kept and down < kept[0].value:
        sheet.cautions.append(
            "Ease the pull before the drill comes out, and never jerk the lever back: the drill "
            "may lift the work harder than the holding keeps it down."
        )
    elif found.worst < 1:
        sheet.cautions.append(
            "At worst the drill may lift the work where it comes out. Press it down, or clamp "
            "harder, wherever the work allows it."
        )
