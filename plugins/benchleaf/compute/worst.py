"""The worst case of each comparison on a set-up sheet: how it is told, and when it stops the job.

The rule, for all of them: a job stops where what is entered falls short of its margin, as ever; and
where the work would come loose with every input at its bad end at once. A machine or a hand that
falls short at worst only is a doubt: nothing flies.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from math import prod

from benchleaf.formulas import spread
from benchleaf.formulas.jaw_friction import WET_FACTOR
from benchleaf.formulas.worst_case import Off, at_worst

from .amounts import safe
from .figures_worst import Pair
from .grip import grip_of, is_wet_trial, metal_of
from .results import Sum
from .sheet import Case, Sheet

IN_WORDS = {
    "metal": "a harder bar",
    "wear": "a dull tool",
    "model": "the formula itself",
    "clamp": "the clamp force",
    "grip": "the friction at the jaws",
    "drive": "what the drive loses",
}
"""Each input as a setter calls it."""


@dataclass(frozen=True, slots=True)
class Way:
    """One thing that resists, and what it may fall by."""

    value: float
    offs: tuple[Off, ...] = ()


@dataclass(frozen=True, slots=True)
class Compared:
    """A comparison as entered and at worst."""

    times: float
    worst: float
    words: str
    """`held 2.6 times, at worst 1.1 times`, both rounded down."""
    sums: tuple[Sum, ...]
    offs: tuple[Off, ...]
    hold: float
    """How many times less the way that holds best at worst may hold."""
    load: float
    """How many times more may be asked."""

    @property
    def told_most(self) -> str:
        """The input that most of the doubt comes from, in words."""
        if not self.offs:
            return "nothing is in doubt"
        most = max(self.offs, key=lambda one: one.times)
        return f"most of the doubt is {IN_WORDS[most.name]}"


def compare(pair: Pair, ways: Sequence[Way], asked: float, offs: Sequence[Off]) -> Compared:
    """The best of several ways against what is asked."""
    best = max(ways, key=lambda way: way.value / prod(off.times for off in way.offs))
    every = tuple(off for off in (*offs, *best.offs) if off.times > 1)
    most = max(way.value for way in ways)
    times = most / asked
    worst = at_worst(best.value / asked, [off.times for off in every])
    sums = (
        *pair.times().sums(most, asked),
        *pair.at_worst(every).sums(best.value, asked, *(off.times for off in every)),
    )
    words = f"{pair.told} {told_times(times)}{pair.this}, at worst {told_times(worst)}"
    hold = prod(off.times for off in best.offs)
    return Compared(times, worst, words, sums, every, hold, prod(off.times for off in offs))


def told_times(value: float) -> str:
    """Times enough, rounded down: it never looks better than it is.

    >>> told_times(0.999), told_times(12.7)
    ('0.9 times', '12 times')
    """
    if value >= 10:
        return f"{math.floor(value)} times"
    return f"{math.floor(round(10 * value, 9)) / 10:.1f} times"


def cut_offs(sheet: Sheet, model: str, *, is_worn: bool = True) -> tuple[Off, ...]:
    """What may make the cut ask for more: the metal, the edge, the formula."""
    material, wear = sheet.case.material, sheet.case.tool.wear_factor
    offs = [
        Off("metal", spread.hardest_times(metal_of(material))),
        Off("model", spread.MODEL[model]),
    ]
    if is_worn and wear is not None:
        offs.insert(1, Off("wear", spread.dullest_times(wear)))
    return tuple(offs)


def clamp_offs(case: Case) -> tuple[Off, Off] | None:
    """What may make the clamps hold less: their force, and the friction under them."""
    held = case.operation.holding or case.job.holding
    if held is None or held.clamping is None:
        return None
    one, grip = held.clamping, grip_of(held, case.job, case.material)
    rubs = spread.friction_times(
        grip.work, grip.jaws, is_measured=grip.is_measured, is_wet=grip.is_wet
    )
    presses = spread.clamp_times(one.force_known_by.value)
    if one.force_spread is not None:
        told = one.force_spread_source is not None
        presses = spread.own_times(one.force_spread, presses, has_source=told)
    if one.friction_spread is not None:
        source = one.friction_spread_source
        rubs = spread.own_times(one.friction_spread, rubs, has_source=source is not None)
        if source is not None and not grip.is_wet and not is_wet_trial(source):
            rubs *= WET_FACTOR[grip.jaws]  # measured dry: an oily film is enough
    return Off("clamp", presses), Off("grip", rubs)


def drive_off(efficiency: float) -> tuple[Off, ...]:
    """What a drive or a lever may lose beyond its share."""
    return (Off("drive", spread.drive_times(efficiency)),)


def no_less(value: float, unit: str) -> str:
    """A load to two digits, rounded up, so that it never looks smaller than it is.

    >>> from .amounts import Units, told
    >>> told(no_less(26.46, "N m"), Units.METRIC)
    '27 N m'
    """
    return safe(value, unit, "up")


def no_more(value: float, unit: str) -> str:
    """What resists to two digits, rounded down.

    >>> from .amounts import Units, told
    >>> told(no_more(17.64, "N m"), Units.METRIC)
    '17 N m'
    """
    return safe(value, unit, "down")
