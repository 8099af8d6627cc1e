"""Kinds of station, and what a station is worked by: controls, spindles, levers, wheels."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field
from pydantic_core import PydanticCustomError

from .fields import Factor, Force, Length, LengthRange, Power, SpindleSpeed
from .ids import Id, Text
from .marks import Area, At, Each, Example, Order, Trait
from .record import Record


class StationKind(StrEnum):
    """What sort of place a job is done at; each kind asks only for what it has."""

    MACHINE = "machine"
    SPINDLES = "machine with several spindles"
    CELL = "cell"
    """Several stations that one person works together."""
    BENCH = "bench"
    ASSEMBLY = "assembly place"
    INSPECTION = "inspection table"
    HAND_PRESS = "hand press"
    """A press that an arm moves; one with a motor or air is a machine."""

    @property
    def noun(self) -> str:
        """What it is called in a sentence.

        >>> StationKind.SPINDLES.noun, StationKind.BENCH.noun
        ('machine', 'bench')
        """
        return "machine" if self is StationKind.SPINDLES else self.value

    @property
    def word(self) -> str:
        """What stands before its name: `Machine: Pillar drill`, `Station: Bench 2`."""
        return "Machine" if self.noun == "machine" else "Station"

    @property
    def at(self) -> str:
        """The word before it in a heading: jobs *on* a machine, and *at* a bench."""
        return "on" if self.noun == "machine" else "at"


DRIVEN = (StationKind.MACHINE, StationKind.SPINDLES)
"""What a motor drives: it is started, stopped and cut off."""
UNDRIVEN = tuple(one for one in StationKind if one not in DRIVEN and one is not StationKind.CELL)
"""What nothing but a hand moves: it has no start, no stop and no emergency stop."""
ONE_SPINDLE = (StationKind.MACHINE,)
"""What says the limits of its spindle on the record itself."""


def fits_kind(key: str, value: object, asked: At, kind: StationKind) -> None:
    """Nothing, where a key stands as its kind of station wants it.

    Raises:
        PydanticCustomError: it is missing there, or such a station has nothing of the sort
    """
    is_given = value not in (None, ())
    if not is_given and kind in asked.needed_at:
        raise PydanticCustomError("missing", "needed")
    if is_given and kind not in asked.kinds:
        raise PydanticCustomError(
            "not_at_kind",
            "no such key at this kind",
            {"kind": str(kind), "has": ", ".join(asked.kinds)},
        )


class ControlPart(Record):
    """A lever, wheel, lock or scale that the operator uses."""

    name: Annotated[str, Example("Quill lock")]
    """The name on the machine."""
    what: Annotated[Text, Example("Turn it to the right to lock the quill.")]
    """What it does, and which way it goes."""


class MachineControls(Record):
    """How the machine is started, stopped and made safe."""

    start: Annotated[Text, Example("The green button at the right.")]
    """Where the start button is, and what it looks like."""
    stop: Annotated[Text, Trait.REACHED_FOR_IN_DANGER, Example("The black button beneath it.")]
    """Where the stop button is, and what it looks like."""
    emergency_stop: Annotated[
        Text,
        Trait.REACHED_FOR_IN_DANGER,
        Example("The red mushroom at the left stops everything."),
    ]
    """Where it is and what it does."""
    isolation: Annotated[
        Text,
        Trait.REACHED_FOR_IN_DANGER,
        Example("The red switch on the column, by the lockout procedure."),
    ]
    """Where the energy is cut off, and by whose procedure."""
    others: Annotated[
        tuple[ControlPart, ...], Order.COUNTS, Each("control"), Trait.ON_ITS_OWN_PAGE
    ] = ()
    """Levers, wheels, locks and scales."""


class FeedLever(Record):
    """The down-feed lever of a drilling machine and the pinion it turns."""

    radius: Annotated[Length, Example("320 mm")]
    """From the pinion's axis to the middle of the knob."""
    pinion_radius: Annotated[Length, Example("13 mm")]
    """Pitch radius of the pinion that drives the quill's rack."""
    efficiency: Annotated[Factor, Field(le=1), Example("0.9")]
    """Share of the hand's work that reaches the quill."""
    source: Annotated[str, Example("measured on the machine")]
    """Where the lever's sizes come from."""


class GrindingWheel(Record):
    """What a bench or pedestal grinder must keep."""

    work_rest_gap: Annotated[Length, Example("3 mm")]
    """The widest gap between work rest and wheel that this manual allows."""
    tongue_gap: Annotated[Length, Example("6 mm")]
    """The widest gap between upper tongue and wheel that this manual allows."""
    wheel_rated_speed: Annotated[SpindleSpeed, Example("4450 rpm")]
    """The speed the wheel is marked for."""
    source: Annotated[str, Trait.ON_ITS_OWN_PAGE, Example("the wheel's label")]
    """Where the wheel's figures come from."""


class Spindle(Record):
    """One spindle of a machine with several: what it has of its own."""

    id: Annotated[Id, Example("left")]
    """A name for the spindle, for set-ups to point to."""
    name: Annotated[str, Trait.NAME, Example("Left spindle")]
    """What it is called, as marked on the machine."""
    spindle_speeds: Annotated[
        tuple[SpindleSpeed, ...],
        Area.FIGURE,
        Order.FREE,
        Each("spindle speed"),
        Example("980 rpm"),
    ] = ()
    """The speeds it really has."""
    speed_change: Annotated[
        Text | None, Example("By a belt under the cover. Only a setter opens it.")
    ] = None
    """How the speed is changed, and who may."""
    motor_power: Annotated[Power | None, Trait.ONLY_RECKONED, Example("1.1 kW")] = None
    """Rated power of its motor; left out where it is that of the machine."""
    efficiency: Annotated[Annotated[Factor, Field(le=1)] | None, Area.FIGURE, Example("0.85")] = (
        None
    )
    """Share of the motor's power that reaches it; left out where it is that of the machine."""
    efficiency_source: Annotated[
        str | None, Area.FIGURE, Example("estimate of the production engineer")
    ] = None
    """Where the efficiency comes from."""
    rated_thrust: Annotated[Force | None, Trait.ONLY_RECKONED, Example("6 kN")] = None
    """The greatest thrust along the spindle the maker allows."""
    quill_travel: Annotated[Length | None, Trait.ONLY_RECKONED, Example("130 mm")] = None
    """The longest stroke of its quill."""
    drill_capacity: Annotated[Length | None, Trait.ONLY_RECKONED, Example("16 mm")] = None
    """The largest drill the maker allows in steel."""
    chuck: Annotated[LengthRange | None, Trait.ONLY_RECKONED, Example("1 to 13 mm")] = None
    """The shank diameters its chuck holds."""
    limits_source: Annotated[str | None, Area.FIGURE, Example("the machine's plate")] = None
    """Where its limits come from; left out where it is that of the machine."""
    lever: Annotated[FeedLever | None, Area.FIGURE] = None
    """Its feed lever, for the pull that a hand must give."""
