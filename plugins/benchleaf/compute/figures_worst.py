"""How many times enough a comparison leaves, as entered and with every input at its bad end."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import prod
from typing import NamedTuple

from benchleaf.formulas import spread, worst_case
from benchleaf.formulas.domain import within
from benchleaf.formulas.drilling_limits import WEAR_RANGE
from benchleaf.formulas.jaw_friction import table_friction
from benchleaf.formulas.worst_case import Off

from .declaration import Declaration, Symbol
from .grip import is_wet_trial

_SOURCES = ("statics", "worst-case")


@dataclass(frozen=True, slots=True)
class Pair:
    """What is compared: as it is told, and the symbols of what is there and what is asked."""

    name: str
    """What its formula gives: held, or enough."""
    told: str
    """How it begins in a sentence."""
    there: Symbol
    asked: Symbol
    this: str = ""
    """What follows the times as entered."""

    def times(self) -> Declaration:
        """What is there over what is asked, both as entered."""
        return Declaration(
            "times_enough", "Times enough", "times", 2, 2, (self.there.name, self.asked.name),
            lambda there, asked: there / asked,
            f"{self.name} = {self.there.name} ÷ {self.asked.name}",
            (self.there, self.asked), _SOURCES, lead=f"{self.name} ",
        )  # fmt: skip

    def at_worst(self, offs: Sequence[Off]) -> Declaration:
        """The same with every input at its bad end; those that cannot get worse are left out."""
        names = tuple(one.name for one in offs)
        asked = " × ".join((self.asked.name, *names))
        return replace(
            self.times(),
            key="times_at_worst",
            inputs=(self.there.name, self.asked.name, *names),
            run=_over_all(len(names)),
            formula=f"at worst = {self.there.name} ÷ ({asked})",
            symbols=(self.there, self.asked, *(Symbol(one, "", 2) for one in names)),
            lead="at worst ",
        )


def _over_all(count: int) -> Callable[..., float]:
    def run(there: float, asked: float, *times: float) -> float:
        if len(times) != count:
            raise ValueError(f"{len(times)} inputs are given for {count}")
        return there / (asked * prod(times))

    return run


_CAPACITY = Symbol("capacity", "N m", 1)
_THIS = ("that is", " this")
HELD = Pair("held", "held", _CAPACITY, Symbol("torque", "N m", 1))
HELD_DULL = Pair("held", "held", _CAPACITY, Symbol("torque of a dull tap", "N m", 1))
HELD_KEPT = Pair("held", "held", _CAPACITY, Symbol("torque if the pull is kept", "N m", 1))
HELD_DOWN = Pair("held", "held", Symbol("hold down", "N", 0), Symbol("pull of the drill", "N", 0))
POWER = Pair("enough", _THIS[0], Symbol("plate", "kW", 2), Symbol("Pm", "kW", 2), _THIS[1])
THRUST = Pair("enough", _THIS[0], Symbol("rated thrust", "N", 0), Symbol("T", "N", 0), _THIS[1])
LEVER = Pair("enough", _THIS[0], Symbol("most", "N", 0), Symbol("pull", "N", 0), _THIS[1])
TAP = Pair(
    "enough",
    _THIS[0],
    Symbol("limit", "N m", 1),
    Symbol("torque of a dull tap", "N m", 1),
    _THIS[1],
)


WORST_SYMBOL, HOLD_SYMBOL = Symbol("worst", "", 2), Symbol("hold", "", 3)


def _wear_factors(wear: float, metal: str | None) -> dict[str, float]:
    return {
        "metal": spread.hardest_times(metal or "steel"), "worn": spread.dullest_times(wear),
    }  # fmt: skip


WORST = Declaration(
    "worst", "Load at its worst over the load reckoned", "times", 2, 2, ("wear",),
    lambda wear, metal: worst_case.load_at_worst(wear, metal or "steel", "torque"),
    "worst = metal × worn",
    (Symbol("metal", "", 2), Symbol("worn", "", 3)),
    ("worst-case", "mh31-table-3", "mh31-table-6", "force-spread"),
    "of a drill; metal is a harder bar, of steel unless metal is given; worn is a very dull edge, "
    f"{spread.DULLEST:g}, over the wear factor, 1 at least; no published torque is higher",
    numbers=_wear_factors, regards=("metal",), is_stand_in=True, missed_with=("capacity",),
)  # fmt: skip


def _cut_factors(cut: str, wear: float | None, metal: str | None) -> dict[str, float]:
    sharp = within("wear", wear or 1.0, *WEAR_RANGE)
    worn = 1.0 if cut == "tapping" else spread.dullest_times(sharp)
    hard, model = spread.hardest_times(metal or "steel"), spread.MODEL[spread.CUTS[cut]]
    return {"metal": hard, "worn": worn, "model": model}


WORST_OF_CUT = replace(
    WORST, inputs=("cut",), regards=("wear", "metal"), suits=lambda values: "cut" in values,
    run=lambda *given: prod(_cut_factors(*given).values()), numbers=_cut_factors,
    formula="worst = metal × worn × model",
    symbols=(*WORST.symbols, Symbol("model", "", 2)), sources=(*WORST.sources, "lubero"),
    limits="metal is a harder bar, of steel unless metal is given; worn is a very dull edge, "
    f"{spread.DULLEST:g}, over the wear factor, 1 unless given, and 1 for a tap that is dull; "
    "model is how much higher another published model of such a cut may be",
)  # fmt: skip


def _of_sharp(load: str) -> Declaration:
    return replace(
        WORST, inputs=(load,), label=f"{WORST.label}, of a sharp tool",
        run=lambda _, metal: worst_case.load_at_worst(1.0, metal or "steel", "torque"),
        limits=f"{WORST.limits}; the load is taken for a sharp one's, as no wear is given",
        numbers=lambda _, metal: _wear_factors(1.0, metal),
    )  # fmt: skip


WORST_OF_TORQUE, WORST_OF_EXIT = _of_sharp("torque"), _of_sharp("exit_torque")


class _Held(NamedTuple):
    """How the force and the friction of a clamp are known."""

    known_by: str
    work: str
    jaws: str
    is_measured: bool
    is_wet: bool


def _held(
    friction: float, known_by: str | None, work: str | None, jaws: str | None, metal: str | None,
    source: str | None, fluid: str | None,
) -> _Held:  # fmt: skip
    surface, jaw = work or "unmachined", jaws or "smooth"
    # A friction that is the table's was not tried, whatever is told of a trial.
    is_tables = math.isclose(friction, table_friction(surface, jaw, metal or "steel"))
    is_measured = source is not None and not is_tables
    is_wet = fluid == "wet" or (is_measured and is_wet_trial(source))
    return _Held(known_by or "feel", surface, jaw, is_measured, is_wet)


def _hold(friction: float, *known: str | None) -> float:
    return prod(_hold_factors(friction, *known).values())


def _hold_factors(friction: float, *known: str | None) -> dict[str, float]:
    known_by, work, jaws, is_measured, is_wet = _held(friction, *known)
    rubs = spread.friction_times(work, jaws, is_measured=is_measured, is_wet=is_wet)
    if known[1] is None and not is_measured:
        rubs = max(rubs, spread.unknown_times(friction, jaws, known[3] or "steel", is_wet=is_wet))
    return {"clamp": spread.clamp_times(known_by), "grip": rubs}


HOLD = Declaration(
    "hold", "Holding reckoned over the holding at worst", "times", 3, 3, ("friction",),
    _hold, "hold = clamp × grip", (Symbol("clamp", "", 3), Symbol("grip", "", 3)),
    ("worst-case", "clamp-spread", "jaw-table", "jaw-table-second", "jaw-wet"),
    "of a clamp; clamp is how much less it may press, by feel unless force_known_by is given; "
    "grip how much less the jaws may rub, of dry work with an oily film, and of a surface that is "
    "not given as if it were machined",
    numbers=_hold_factors,
    regards=("force_known_by", "work", "jaws", "metal", "friction_source", "fluid"),
    is_stand_in=True, missed_with=("force_known_by",),
)  # fmt: skip
HOLD_BY_FEEL = replace(
    HOLD, inputs=("capacity",), label=f"{HOLD.label}, clamped by feel",
    run=lambda _: worst_case.hold_at_worst("feel", "unmachined", "smooth", is_measured=False),
    limits="of a clamp by feel in smooth jaws; else give hold: holding tells it, and a stop has 1",
    numbers=lambda _: {
        "clamp": spread.clamp_times("feel"),
        "grip": spread.friction_times("unmachined", "smooth", is_measured=False, is_wet=False)},
    regards=(), missed_with=("capacity",),
)  # fmt: skip
