"""How many times enough a comparison leaves, as entered and with every input at its bad end."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import prod

from benchleaf.formulas.worst_case import Off

from .declaration import Declaration, Symbol

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
