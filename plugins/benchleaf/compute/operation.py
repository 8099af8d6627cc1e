"""What may be given to reckon an operation without content files, and what follows from it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from types import MappingProxyType

from benchleaf.formulas.threads import Thread

from .declaration import Declaration


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


@dataclass(frozen=True, slots=True)
class Trials:
    """Cutting speeds that were tried, and how long the edge lasted at each."""

    name: str
    """As it was written."""
    speeds_m_min: tuple[float, ...]
    lives_min: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Feeds:
    """Feeds that a machine can be set to."""

    name: str
    """As it was written."""
    feeds_mm_rev: tuple[float, ...]


Given = float | Thread | str | Observed | Elements | Trials | Feeds


@dataclass(frozen=True, slots=True)
class Between:
    """Inputs that can contradict one another, whatever else is known."""

    names: tuple[str, ...]
    broken: Callable[..., str]
    """From their values, in their order, then those of `also`: what is wrong; empty: nothing."""
    cure: str
    also: tuple[str, ...] = ()
    """What is looked at too; None where it is not known."""


@dataclass(frozen=True, slots=True)
class Input:
    """Something that may be given: a kind of quantity, `thread`, `class` and so on."""

    kind: str
    what: str


@dataclass(frozen=True, slots=True)
class Operation:
    """What may be given, and what follows."""

    name: str
    what: str
    inputs: MappingProxyType[str, Input]
    figures: tuple[Declaration, ...]
    """Where several lead to one name, the first that can goes."""
    zero_unless_given: tuple[str, ...] = ()
    """Lengths taken as 0 where they are not given; the result says so."""
    between: tuple[Between, ...] = ()
    """What else must agree, where no figure leads from one to the other."""


def operation(
    name: str,
    what: str,
    inputs: dict[str, Input],
    *figures: Declaration,
    zero_unless_given: tuple[str, ...] = (),
    between: tuple[Between, ...] = (),
) -> Operation:
    """An operation, its inputs in the order in which they are asked."""
    return Operation(name, what, MappingProxyType(inputs), figures, zero_unless_given, between)
