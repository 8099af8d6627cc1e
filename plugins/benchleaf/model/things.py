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
    Pressure,
    SpindleSpeed,
)
from .ids import FileIn, HazardRef, Id, Text
from .picture import Picture
from .record import Record


class ControlPart(Record):
    """A lever, wheel, lock or scale that the operator uses."""

    name: str
    """The name on the machine."""
    what: Text
    """What it does, and which way it goes."""


class MachineControls(Record):
    """How the machine is started, stopped and made safe."""

    start: Text
    """Where the start button is, and what it looks like."""
    stop: Text
    """Where the stop button is, and what it looks like."""
    emergency_stop: Text
    """Where it is and what it does."""
    isolation: Text
    """Where the energy is cut off, and by whose procedure."""
    others: tuple[ControlPart, ...] = ()
    """Levers, wheels, locks and scales."""


class FeedLever(Record):
    """The down-feed lever of a drilling machine and the pinion it turns."""

    radius: Length
    """From the pinion's axis to the middle of the knob."""
    pinion_radius: Length
    """Pitch radius of the pinion that drives the quill's rack."""
    efficiency: Annotated[Factor, Field(le=1)]
    """Share of the hand's work that reaches the quill."""
    source: str
    """Where the lever's sizes come from."""


class GrindingWheel(Record):
    """What a bench or pedestal grinder must keep."""

    work_rest_gap: Length
    """The widest gap between work rest and wheel that this manual allows."""
    tongue_gap: Length
    """The widest gap between upper tongue and wheel that this manual allows."""
    wheel_rated_speed: SpindleSpeed
    """The speed the wheel is marked for."""
    source: str
    """Where the wheel's figures come from."""


class Machine(Record):
    """One machine of the shop, with the limits on its plate and the source of each."""

    id: Id
    """The machine's id, such as `pillar-drill`."""
    name: str
    """What the machine is called in the shop."""
    what: Text
    """What it is and does, in a sentence or two."""
    where: str
    """Where it stands in the shop."""
    controls: MachineControls
    """Where start, stop and isolator are."""
    guards: tuple[Text, ...] = ()
    """The guards there are, and how each stands while the machine runs."""
    hazards: tuple[HazardRef, ...] = ()
    """Hazards of the machine, whatever the job."""
    spindle_speeds: tuple[SpindleSpeed, ...] = ()
    """The speeds it really has."""
    speed_change: Text | None = None
    """How the speed is changed, and who may."""
    motor_power: Power | None = None
    """Rated power of the motor, from its plate."""
    efficiency: Annotated[Factor, Field(le=1)] | None = None
    """Share of the motor's power that reaches the spindle."""
    rated_thrust: Force | None = None
    """The greatest thrust along the spindle the maker allows."""
    quill_travel: Length | None = None
    """The longest stroke of the quill."""
    drill_capacity: Length | None = None
    """The largest drill the maker allows in steel."""
    chuck: LengthRange | None = None
    """The shank diameters the chuck holds."""
    limits_source: str | None = None
    """Where the limits come from, such as the plate or the maker's book."""
    efficiency_source: str | None = None
    """Where the efficiency comes from."""
    lever: FeedLever | None = None
    """The feed lever, for the pull that a hand must give."""
    grinding: GrindingWheel | None = None
    """The wheel and its gaps, on a grinder."""
    clean_down_air: Pressure | None = None
    """Pressure of the air used to clean it, at the nozzle when blocked; left out for none."""
    daily_checks: tuple[Text, ...] = ()
    """What is checked before the first start of a shift."""
    picture: Picture | None = None
    """The machine, its controls named."""
    also: tuple[str, ...] = ()
    """Other names people use for it."""


class CuttingSpeed(Record):
    """A published range of cutting speed for one operation and tool material."""

    operation: str
    """The operation, such as `drilling`."""
    tool_material: str
    """Such as `hss`."""
    speed: CuttingSpeedRange
    """The range, with its unit."""
    source: str
    """Where the speeds come from."""


class DrillingFactors(Record):
    """The handbook's work material factor for drilling with a sharp drill."""

    kd_thrust: Factor | None = None
    """Work-material factor for thrust."""
    kd_torque: Factor | None = None
    """Work-material factor for torque."""
    source: str
    """Where the factors come from."""


class TappingFactors(Record):
    """Figures for the torque of a cutting tap in this material."""

    kc: Factor
    """Specific cutting resistance in N/mm2, of the model named in the source."""
    tap_factor: Factor
    """K of that model, for the usual tap."""
    source: str
    """Where the factor comes from."""


class TaylorConstants(Record):
    """Constants of Taylor's equation for this tool, v T^n = C, from the shop's own trials."""

    exponent: Annotated[Factor, Field(le=1)]
    """n, without a unit."""
    c: CuttingSpeedRange
    """C: the cutting speed for a life of one minute."""
    source: str
    """Where the constants come from."""


class Metal(StrEnum):
    """Metals that tables of jaw friction tell apart."""

    STEEL = "steel"
    ALUMINIUM = "aluminium alloy"
    BRASS = "brass"
    CAST_IRON = "grey cast iron"


class Material(Record):
    """One work material: how it cuts, what its chips do, and its published figures."""

    id: Id
    """The material's id, such as `mild-steel`."""
    name: str
    """What the material is called, with its grade."""
    what: Text
    """What it is and how to tell it apart."""
    how_it_cuts: Text
    """How it behaves under the tool."""
    chips: Text
    """What its chips look like when all is right."""
    hazards: tuple[HazardRef, ...] = ()
    """Hazards of the material itself, by id."""
    cutting_speeds: tuple[CuttingSpeed, ...] = ()
    """Published cutting speeds, each with its source."""
    drilling: DrillingFactors | None = None
    """Factors for thrust and torque of a drill."""
    tapping: TappingFactors | None = None
    """Factors for the torque of a tap."""
    metal: Metal | None = None
    """Which metal the tables of jaw friction take it for; left out, steel."""
    when_drilled: tuple[Text, ...] = ()
    """What to take care of when it is drilled; shown beside every set-up that drills it."""
    also: tuple[str, ...] = ()
    """Other names people use for it."""


class ToolKind(StrEnum):
    """What sort of tool it is."""

    DRILL = "drill"
    COUNTERSINK = "countersink"
    REAMER = "reamer"
    TAP = "tap"
    COUNTERBORE = "counterbore"
    GRINDING_WHEEL = "grinding wheel"
    GAUGE = "gauge"
    HOLDING = "holding"
    HAND_TOOL = "hand tool"
    OTHER = "other"


class Tool(Record):
    """One tool, gauge or device: sizes, limits, care."""

    id: Id
    """The tool's id, such as `drill-8-5`."""
    name: str
    """What the tool is called, with its size."""
    kind: ToolKind
    """What sort of tool it is."""
    what: Text
    """What it is for."""
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
    """Where the wear factor comes from."""
    geometry_source: str | None = None
    """Where point angle and chisel ratio come from."""
    feed: FeedRange | None = None
    """The recommended feed."""
    feed_source: str | None = None
    """Where the recommended feed comes from."""
    limits: tuple[Text, ...] = ()
    """What it must not be used for, or beyond."""
    care: tuple[Text, ...] = ()
    """How it is kept, and when it is handed back."""
    regrind: Text | None = None
    """The sign that it needs grinding."""
    taylor: TaylorConstants | None = None
    """Constants of the drill's life, where they are known."""
    picture: Picture | None = None
    """The tool, its parts named."""
    hazards: tuple[HazardRef, ...] = ()
    """Hazards of the tool itself, by id."""
    also: tuple[str, ...] = ()
    """Other names people use for it."""


class Fluid(Record):
    """One cutting fluid: use, mixing, hazards and where its safety data sheet is kept."""

    id: Id
    """The fluid's id, such as `soluble-oil`."""
    name: str
    """What the fluid is called in the shop."""
    what: Text
    """What it is."""
    use: tuple[Text, ...] = Field(min_length=1)
    """How and where it is put on."""
    mixing: Text | None = None
    """How it is mixed and tested, and by whom."""
    safety_data_sheet: Text
    """Where the sheet is kept."""
    safety_data_sheet_file: Annotated[str, FileIn("sheets")] | None = None
    """The sheet itself, a PDF or text file below content/sheets/; it goes with the manual."""
    hazards: tuple[HazardRef, ...] = ()
    """Hazards of the fluid itself, by id."""
    also: tuple[str, ...] = ()
    """Other names people use for it."""
