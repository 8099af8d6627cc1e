"""What a relation between quantities is, for reckoning without content files.

A relation gives one quantity from others. Which can be had from what was given is found by
going round until nothing new comes.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from types import MappingProxyType

from benchleaf.formulas import speeds
from benchleaf.formulas.threads import Thread


@dataclass(frozen=True, slots=True)
class Observed:
    """Pieces that were timed."""

    name: str
    """As it was written."""
    pieces: tuple[int, ...]
    times_s: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Elements:
    """Times of the elements of a piece, and how often each comes in one."""

    name: str
    """As it was written."""
    times_s: tuple[float, ...]
    times_a_piece: tuple[float, ...]


Value = float | Thread | str | Observed | Elements


@dataclass(frozen=True, slots=True)
class Input:
    """Something that may be given: a kind of quantity, `thread`, `class` and so on."""

    kind: str
    what: str


@dataclass(frozen=True, slots=True)
class Relation:
    """One quantity from others. Where several ways lead to it, the first that can goes."""

    key: str
    label: str
    unit: str
    decimals: int
    """Digits after the point; -2 for two significant digits."""
    inputs: tuple[str, ...]
    run: Callable[..., float | tuple[float, float]]
    formula: str
    sources: tuple[str, ...]
    limits: str = ""
    least: float | None = None
    """Below it the result is shown as broken: do not run."""
    most: float | None = None
    """Above it likewise."""


@dataclass(frozen=True, slots=True)
class Operation:
    """What may be given, and what follows."""

    name: str
    what: str
    inputs: MappingProxyType[str, Input]
    relations: tuple[Relation, ...]
    zero_unless_given: tuple[str, ...] = ()
    """Lengths taken as 0 where they are not given; the result says so."""


def operation(
    name: str,
    what: str,
    inputs: dict[str, Input],
    *relations: Relation,
    zero_unless_given: tuple[str, ...] = (),
) -> Operation:
    return Operation(name, what, MappingProxyType(inputs), relations, zero_unless_given)


SPEED_RELATIONS = (
    Relation("speed", "Spindle speed", "rpm", 0, ("cutting_speed", "diameter"),
             speeds.spindle_speed_rpm, "n = 1000 × cutting speed ÷ (π × diameter)",
             ("groover5-ex-21.2",)),
    Relation("cutting_speed", "Cutting speed", "m/min", 1, ("speed", "diameter"),
             speeds.cutting_speed_m_min, "cutting speed = π × diameter × n ÷ 1000",
             ("groover5-ex-21.2",)),
    Relation("feed_rate", "Feed a minute", "mm/min", 1, ("feed", "speed"),
             speeds.feed_rate_mm_min, "feed a minute = feed × n", ("groover5-ex-21.2",)),
    Relation("seconds_for_10_mm", "Time for 10 mm of travel", "s", 1, ("feed_rate",),
             lambda rate: speeds.seconds_for_travel(10, rate), "60 × 10 ÷ feed a minute",
             ("groover5-ex-21.2",)),
)  # fmt: skip
DIAMETER = Input("drill", "diameter of the tool: 8.5 mm, 7/8 in, #7, F")
SPEED_INPUTS = {
    "diameter": DIAMETER,
    "speed": Input("spindle speed", "spindle speed"),
    "cutting_speed": Input("cutting speed", "cutting speed, instead of speed"),
    "feed": Input("feed", "feed per turn"),
}
