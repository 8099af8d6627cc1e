"""The down-feed lever: travel for a swing, and the pull of the hand against published limits."""

from __future__ import annotations

from dataclasses import replace

from benchleaf.diagnose import Code, Sample
from benchleaf.formulas import lever
from benchleaf.model import FeedLever

from . import figures_cutting as cut
from .amounts import WAYS, amount
from .figures_worst import LEVER
from .results import Figure, Side, rough
from .sheet import Sheet
from .worst import Compared, Way, compare, cut_offs, drive_off, no_less

TOO_MUCH_PULL = Code(
    "S510",
    "The lever asks more of a hand than it can give",
    why="Whoever leans on the lever falls into the work when the drill breaks through.",
    instead="Use a smaller feed, a pilot hole, a longer lever or another machine.",
    bad=(
        Sample(
            """
            # A lever that asks too much.
            - file: machines/bench-drill.yml
              find: "  pinion_radius: 10 mm"
              put: "  pinion_radius: 25 mm"
            """,
            """
            content/jobs/vg-0010.yml:49:11: stop S510 do not run VG-0010 (guide-hole): the
                    lever asks 230 N of one hand; 216 N is the most
                use a smaller feed, a pilot hole or a longer lever
            """,
        ),
    ),
    good="""
        # A lever that asks little.
        - file: machines/bench-drill.yml
          find: "  radius: 350 mm"
          put: "  radius: 360 mm"
    """,
)


def feed_lever(sheet: Sheet) -> None:
    """Travel per turn and quarter-turn, and the force at the knob."""
    machine = sheet.case.machine
    if machine.lever is None:
        sheet.lacks(cut.LEVER_FORCE, f"lever in machines/{machine.id}")
        return
    _travel(sheet, machine.lever)
    thrust = sheet.drilled.thrust
    if thrust is None:
        sheet.lacks(cut.LEVER_FORCE, "the thrust above")
        return
    _force(sheet, machine.lever, thrust)


def _travel(sheet: Sheet, entered: FeedLever) -> None:
    for one in (cut.TRAVEL_PER_TURN, cut.TRAVEL_PER_QUARTER):
        also = f"pinion: {entered.source}"
        radius = entered.pinion_radius.value
        sheet.work(one, radius, limits="as far as the quill goes", also=also)


def eased_pull(full: Figure, share: Figure) -> tuple[Figure, Figure]:
    """The pull to ease to at break-through, from the figures of the two rows.

    In newtons and kgf; in pounds-force and newtons where the full pull is told so.

    >>> from .results import figure
    >>> [one.text for one in eased_pull(figure(91, "N", 0), figure(51, "% of the pull", 0))]
    ['46 N', '4.7 kgf']
    >>> [one.text for one in eased_pull(figure(20, "lbf", 0), figure(51, "% of the pull", 0))]
    ['10 lbf', '45 N']
    """
    part = full.high * share.high / 100
    if full.unit == WAYS["N"].unit:
        return rough(part, full.unit), rough(part * WAYS["N"].each, "N")
    return rough(part, "N"), rough(part / lever.NEWTONS_PER_KGF, "kgf")


def _force(sheet: Sheet, entered: FeedLever, thrust: float) -> None:
    by = (thrust, entered.pinion_radius.value, entered.radius.value, entered.efficiency)
    pull = lever.lever_force_n(*by)
    offs = (*cut_offs(sheet, "thrust"), *drive_off(entered.efficiency))
    found = compare(LEVER, [Way(lever.ONE_HAND_MOST_N)], pull, offs)
    limits = f"{cut.HAND_LIMITS}: {found.words}; {cut.who_reaches(pull)}"
    also = f"lever: {entered.source}"
    sheet.work(cut.LEVER_FORCE, *by, beside=found.sums, limits=limits, also=also)
    advised = min(lever.STANDING_LIMIT_N, pull * found.worst)
    sheet.reach(most=lever.ONE_HAND_MOST_N, advised=(None, advised))
    sheet.found = replace(sheet.drilled, lever_force=pull)
    _judge(sheet, pull, found, cut.pull_doubt(*by))


def _judge(sheet: Sheet, pull: float, found: Compared, doubt: str) -> None:
    most = lever.ONE_HAND_MOST_N
    most_told = amount(most, "N", 0, "down")
    at_worst = f"At worst it is above {most_told}, the most of one hand: {found.told_most}."
    if pull > most:
        sheet.stop(
            TOO_MUCH_PULL,
            f"the lever asks {no_less(pull, 'N')} of one hand; {most_told} is the most",
            "use a smaller feed, a pilot hole or a longer lever",
            sheet.case.path("feed"),
        )
    elif doubt:
        sheet.doubt("hand-pull", Side.ABOVE, f"{doubt} {at_worst}" if found.worst < 1 else doubt)
    elif found.worst < 1:
        told = f"The pull at the lever is {amount(pull, 'N', -2)}."
        sheet.doubt("pull-at-worst", Side.ABOVE, f"{told} {at_worst}")
