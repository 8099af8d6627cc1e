"""The down-feed lever: travel for a swing, and the pull of the hand against published limits."""

from __future__ import annotations

from benchleaf.formulas import lever
from benchleaf.model import FeedLever

from .results import Figure, figure, rough, told_in
from .sheet import Sheet, cited

_FORCE = "Pull at the feed lever"


def feed_lever(sheet: Sheet) -> None:
    """Travel per turn and quarter-turn, and the force at the knob."""
    machine = sheet.case.machine
    if machine.lever is None:
        sheet.lacks("lever_force", _FORCE, f"lever in machines/{machine.id}")
        return
    _travel(sheet, machine.lever)
    if not sheet.has("thrust"):
        sheet.lacks("lever_force", _FORCE, "the thrust above")
        return
    _force(sheet, machine.lever)


def _travel(sheet: Sheet, entered: FeedLever) -> None:
    radius = entered.pinion_radius.value
    turn = lever.travel_per_turn_mm(radius)
    for key, label, share, words in (
        ("travel_per_turn", "Travel for one turn of the lever", 1.0, ""),
        ("travel_per_quarter", "Travel for a quarter-turn of the lever", 0.25, " ÷ 4"),
    ):
        shown = figure(turn * share, "mm", 0)
        sheet.write(
            key,
            label,
            shown,
            other=told_in(shown, "length", "in", 2),
            formula=f"travel = 2 × π × pinion radius{words}",
            working=f"2 × π × {radius:g}{words} = {turn * share:.1f} mm",
            source=f"{cited('geometry')}; pinion: {entered.source}",
            limits="as far as the quill goes",
        )


def eased_pull(full: Figure, share: Figure) -> tuple[Figure, Figure]:
    """The pull to ease to at break-through, in newtons and kgf, from the figures of the two rows.

    >>> [one.text for one in eased_pull(figure(91, "N", 0), figure(51, "% of the pull", 0))]
    ['46 N', '4.7 kgf']
    """
    part = full.high * share.high / 100
    return rough(part, "N"), rough(part / lever.NEWTONS_PER_KGF, "kgf")


def _force(sheet: Sheet, entered: FeedLever) -> None:
    thrust, pinion = sheet.values["thrust"], entered.pinion_radius.value
    knob, share = entered.radius.value, entered.efficiency
    pull = lever.lever_force_n(thrust, pinion, knob, share)
    sheet.values["lever_force"] = pull
    easy, most = lever.ONE_HAND_EASY_N, lever.ONE_HAND_MOST_N
    shown = rough(pull, "N")
    sheet.write(
        "lever_force",
        _FORCE,
        shown,
        other=rough(pull / lever.NEWTONS_PER_KGF, "kgf"),
        formula="pull = thrust × pinion radius ÷ (lever radius × efficiency)",
        working=f"{thrust:.0f} × {pinion:g} ÷ ({knob:g} × {share:g}) = {pull:.0f} N",
        source=f"{cited('statics', 'ilo-levers')}; lever: {entered.source}",
        limits=f"one hand: up to {easy:.0f} N (12 kgf) is easy, {most:.0f} N (22 kgf) is the most",
        note="as good as the thrust: two digits at best; the return spring is not in it",
    )
    if pull > most:
        sheet.stop(
            "S510",
            f"the lever asks {pull:.0f} N of one hand; {most:.0f} N is the most",
            "use a smaller feed, a pilot hole or a longer lever",
            sheet.case.path("feed"),
        )
    elif pull > easy:
        sheet.doubts.append(
            f"The pull at the lever, {shown.text}, is more than the easy {easy:.0f} N for one hand."
        )
