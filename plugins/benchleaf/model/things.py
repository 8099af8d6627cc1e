"""Machines, materials, tools and fluids: what a job is done on, to, with and under."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from .fields import (
    Angle,
    CuttingSpeedRange,
    DrillSize,
    Factor,
    FeedRange,
    Force,
    Length,
    LengthRange,
    Power,
    SpindleSpeed,
)
from .ids import HazardRef, Id, Text
from .record import Record


class MachineControls(Record):
    """How the machine is started, stopped and made safe."""

    start: Text
    stop: Text
    emergency_stop: Text
    """Where it is and what it does."""
    isolation: Text
    """Where the energy is cut off, and by whose procedure."""


class Machine(Record):
    """One machine of the shop, with the limits on its plate and the source of each."""

    id: Id
    name: str
    what: Text
    """What it is and does, in a sentence or two."""
    where: str
    """Where it stands in the shop."""
    controls: MachineControls
    guards: tuple[Text, ...] = ()
    hazards: tuple[HazardRef, ...] = ()
    """Hazards of the machine, whatever the job."""
    spindle_speeds: tuple[SpindleSpeed, ...] = ()
    """The speeds it really has."""
    speed_change: Text | None = None
    """How the speed is changed, and who may."""
    motor_power: Power | None = None
    efficiency: Annotated[Factor, Field(le=1)] | None = None
    """Share of the motor's power that reaches the spindle."""
    rated_thrust: Force | None = None
    """The greatest thrust along the spindle the maker allows."""
    quill_travel: Length | None = None
    drill_capacity: Length | None = None
    """The largest drill the maker allows in steel."""
    chuck: LengthRange | None = None
    """The shank diameters the chuck holds."""
    limits_source: str | None = None
    """Where the limits come from, such as the plate or the maker's book."""
    efficiency_source: str | None = None
    daily_checks: tuple[Text, ...] = ()
    also: tuple[str, ...] = ()
    """Other names people use for it."""


class CuttingSpeed(Record):
    """A published range of cutting speed for one operation and tool material."""

    operation: str
    """The operation, such as `drilling`."""
    tool_material: str
    """Such as `hss`."""
    speed: CuttingSpeedRange
    source: str


class DrillingFactors(Record):
    """The handbook's work material factor for drilling with a sharp drill."""

    kd_thrust: Factor | None = None
    kd_torque: Factor | None = None
    source: str


class Material(Record):
    """One work material: how it cuts, what its chips do, and its published figures."""

    id: Id
    name: str
    what: Text
    how_it_cuts: Text
    chips: Text
    hazards: tuple[HazardRef, ...] = ()
    cutting_speeds: tuple[CuttingSpeed, ...] = ()
    drilling: DrillingFactors | None = None
    also: tuple[str, ...] = ()


class ToolKind(StrEnum):
    """What sort of tool it is; only drills are reckoned with so far."""

    DRILL = "drill"
    COUNTERSINK = "countersink"
    GAUGE = "gauge"
    HOLDING = "holding"
    HAND_TOOL = "hand tool"
    OTHER = "other"


class Tool(Record):
    """One tool, gauge or device: sizes, limits, care."""

    id: Id
    name: str
    kind: ToolKind
    what: Text
    size: DrillSize | None = None
    """The cutting diameter."""
    shank: Length | None = None
    """The shank's diameter, where a chuck holds it."""
    tool_material: str | None = None
    """Such as `hss`; it finds the cutting speed in the work material."""
    point_angle: Angle | None = None
    """The whole angle of the point."""
    chisel_ratio: Factor | None = None
    """Chisel-edge length over diameter: 0.18 for a standard drill, 0.03 for a split point."""
    wear_factor: Factor | None = None
    """Thrust and torque against a sharp drill: 1.0 sharp, 1.3 in normal use, 1.5 very dull."""
    wear_factor_source: str | None = None
    geometry_source: str | None = None
    """Where point angle and chisel ratio come from."""
    feed: FeedRange | None = None
    """The recommended feed."""
    feed_source: str | None = None
    care: tuple[Text, ...] = ()
    regrind: Text | None = None
    """The sign that it needs grinding."""
    hazards: tuple[HazardRef, ...] = ()
    also: tuple[str, ...] = ()


class Fluid(Record):
    """One cutting fluid: use, mixing, hazards and where its safety data sheet is kept."""

    id: Id
    name: str
    what: Text
    use: tuple[Text, ...] = Field(min_length=1)
    safety_data_sheet: Text
    """Where the sheet is kept."""
    hazards: tuple[HazardRef, ...] = ()
    also: tuple[str, ...] = ()
