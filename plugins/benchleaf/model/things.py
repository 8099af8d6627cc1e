"""Machines, materials and tools: what a job is done on, to and with."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from benchleaf.formulas.enlarging import EDGES_RANGE

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
    Torque,
)
from .ids import HazardRef, Id, Text, Title
from .marks import HANDBOOK, Area, Each, Example, Order, Trait
from .picture import Picture
from .record import Record
from .still_open import StillOpen


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


class Machine(Record):
    """One machine of the shop, with the limits on its plate and the source of each."""

    about = Area.MACHINE

    id: Id
    """The machine's id, such as `pillar-drill`."""
    name: Annotated[Title, Trait.NAME, Example("Pillar drill")]
    """What the machine is called in the shop."""
    what: Annotated[
        Text, Trait.ON_ITS_OWN_PAGE, Example("It turns a drill and feeds it down by a lever.")
    ]
    """What it is and does, in a sentence or two."""
    where: Annotated[str, Trait.PLACE, Example("Bay 2, beside the saw")]
    """Where it stands in the shop."""
    controls: MachineControls
    """Where start, stop and isolator are."""
    guards: Annotated[
        tuple[Text, ...],
        Order.FREE,
        Trait.CONTROL,
        Example("The chuck guard is down while the spindle turns."),
    ] = ()
    """The guards there are, and how each stands while the machine runs."""
    hazards: Annotated[tuple[HazardRef, ...], Area.HAZARD, Order.FREE, Each("hazard")] = ()
    """Hazards of the machine, whatever the job."""
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
    """Rated power of the motor, from its plate."""
    efficiency: Annotated[Annotated[Factor, Field(le=1)] | None, Area.FIGURE, Example("0.85")] = (
        None
    )
    """Share of the power that each belt or pair of gears passes on; see `drive_stages`."""
    drive_stages: Annotated[int, Field(ge=1, le=6), Area.FIGURE, Example("2")] = 1
    """Belts or pairs of gears between motor and spindle, one after another; two lose twice."""
    rated_thrust: Annotated[Force | None, Trait.ONLY_RECKONED, Example("6 kN")] = None
    """The greatest thrust along the spindle the maker allows."""
    quill_travel: Annotated[Length | None, Trait.ONLY_RECKONED, Example("130 mm")] = None
    """The longest stroke of the quill."""
    drill_capacity: Annotated[Length | None, Trait.ONLY_RECKONED, Example("16 mm")] = None
    """The largest drill the maker allows in steel."""
    chuck: Annotated[LengthRange | None, Trait.ONLY_RECKONED, Example("1 to 13 mm")] = None
    """The shank diameters the chuck holds."""
    limits_source: Annotated[str | None, Area.FIGURE, Example("the machine's plate")] = None
    """Where the limits come from, such as the plate or the maker's book."""
    efficiency_source: Annotated[
        str | None, Area.FIGURE, Example("estimate of the production engineer")
    ] = None
    """Where the efficiency comes from."""
    lever: Annotated[FeedLever | None, Area.FIGURE] = None
    """The feed lever, for the pull that a hand must give."""
    grinding: Annotated[GrindingWheel | None, Trait.RATING] = None
    """The wheel and its gaps, on a grinder."""
    clean_down_air: Annotated[Pressure | None, Trait.RATING] = None
    """Pressure of the air used to clean it, at the nozzle when blocked; left out for none."""
    daily_checks: Annotated[
        tuple[Text, ...], Order.COUNTS, Example("The emergency stop stops the spindle.")
    ] = ()
    """What is checked before the first start of a shift."""
    picture: Annotated[Picture | None, Area.PICTURE] = None
    """The machine, its controls named."""
    also: Annotated[
        tuple[str, ...], Area.NAMES, Order.FREE, Trait.LATER, Example("bench press")
    ] = ()
    """Other names people use for it."""
    still_open: StillOpen = ()
    """What is still to be given, a line each; while one is left, nobody is taught from it."""


class CuttingSpeed(Record):
    """A published range of cutting speed for one operation and tool material."""

    operation: Annotated[str, Example("drilling")]
    """The operation, such as `drilling`."""
    tool_material: Annotated[str, Example("hss")]
    """Such as `hss`."""
    speed: CuttingSpeedRange
    """The range, with its unit."""
    source: Annotated[str, HANDBOOK]
    """Where the speeds come from."""


class DrillingFactors(Record):
    """The handbook's work material factor for drilling with a sharp drill."""

    kd_thrust: Annotated[Factor | None, Example("24000")] = None
    """The handbook's work-material factor Kd for thrust, by the metal and its hardness."""
    kd_torque: Annotated[Factor | None, Example("24000")] = None
    """The handbook's work-material factor Kd for torque, by the metal and its hardness."""
    source: Annotated[str, HANDBOOK]
    """Where the factors come from."""


class TappingFactors(Record):
    """Figures for the torque of a cutting tap in this material."""

    kc: Annotated[Factor, Example("3700")]
    """Specific cutting resistance in N/mm2, of the model named in the source."""
    tap_factor: Annotated[Factor, Example("1.35")]
    """K of that model, for the usual tap."""
    source: Annotated[str, HANDBOOK]
    """Where the factor comes from."""


class TaylorConstants(Record):
    """Constants of Taylor's equation for this tool, v T^n = C, from the shop's own trials."""

    exponent: Annotated[Factor, Field(le=1), Example("0.125")]
    """n, without a unit."""
    c: Annotated[CuttingSpeedRange, Example("45 m/min")]
    """C: the cutting speed for a life of one minute."""
    source: Annotated[str, Example("the shop's own trials")]
    """Where the constants come from."""


class Metal(StrEnum):
    """Metals that tables of jaw friction tell apart."""

    STEEL = "steel"
    ALUMINIUM = "aluminium alloy"
    BRASS = "brass"
    CAST_IRON = "grey cast iron"


class Material(Record):
    """One work material: how it cuts, what its chips do, and its published figures."""

    about = Area.MATERIAL

    id: Id
    """The material's id, such as `mild-steel`."""
    name: Annotated[Title, Trait.NAME, Example("Mild steel")]
    """What the material is called, with its grade."""
    what: Annotated[
        Text,
        Trait.ON_ITS_OWN_PAGE,
        Example("Steel with little carbon. It bends before it breaks."),
    ]
    """What it is and how to tell it apart."""
    how_it_cuts: Annotated[Text, Trait.ON_ITS_OWN_PAGE, Example("It cuts easily with fluid.")]
    """How it behaves under the tool."""
    chips: Annotated[Text, Trait.ON_ITS_OWN_PAGE, Example("Two even curls.")]
    """What its chips look like when all is right."""
    hazards: Annotated[tuple[HazardRef, ...], Area.HAZARD, Order.FREE, Each("hazard")] = ()
    """Hazards of the material itself, by id."""
    cutting_speeds: Annotated[
        tuple[CuttingSpeed, ...], Area.FIGURE, Order.FREE, Each("cutting speed")
    ] = ()
    """Published cutting speeds, each with its source."""
    drilling: Annotated[DrillingFactors | None, Area.FIGURE] = None
    """Factors for thrust and torque of a drill."""
    tapping: Annotated[TappingFactors | None, Area.FIGURE] = None
    """Factors for the torque of a tap."""
    metal: Annotated[Metal | None, Area.FIGURE] = None
    """Which metal the tables of jaw friction take it for; left out, steel."""
    when_drilled: Annotated[
        tuple[Text, ...], Order.COUNTS, Trait.ONLY_RECKONED, Example("Keep the fluid running.")
    ] = ()
    """What to take care of when it is drilled; shown beside every set-up that drills it."""
    also: Annotated[tuple[str, ...], Area.NAMES, Order.FREE, Trait.LATER, Example("black bar")] = ()
    """Other names people use for it."""
    still_open: StillOpen = ()
    """What is still to be given, a line each; while one is left, nobody is taught from it."""


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


class TorqueLimitKind(StrEnum):
    """What a torque does to a tap."""

    BREAKING = "breaking"
    CLUTCH = "clutch"


class TorqueLimit(Record):
    """The torque that a tap, or the clutch of its holder, stands, by its maker."""

    torque: Torque
    """The maker's figure."""
    kind: TorqueLimitKind
    """Whether the tap breaks there, or a clutch slips."""
    source: Annotated[str, Example("the maker's catalogue, with its page")]
    """Where the figure comes from."""


class Tool(Record):
    """One tool, gauge or device: sizes, limits, care."""

    about = Area.TOOL

    id: Id
    """The tool's id, such as `drill-8-5`."""
    name: Annotated[Title, Trait.NAME, Example("Twist drill 8.5 mm")]
    """What the tool is called, with its size."""
    kind: Annotated[ToolKind, Trait.ON_ITS_OWN_PAGE]
    """What sort of tool it is."""
    what: Annotated[Text, Trait.ON_ITS_OWN_PAGE, Example("Drills the pivot hole.")]
    """What it is for."""
    size: Annotated[DrillSize | None, Trait.ONLY_RECKONED] = None
    """The cutting diameter."""
    shank: Annotated[DrillSize | None, Trait.ONLY_RECKONED] = None
    """The shank's diameter, where a chuck holds it."""
    tool_material: Annotated[str | None, Trait.ONLY_RECKONED, Example("hss")] = None
    """Such as `hss`; it finds the cutting speed in the work material."""
    point_angle: Annotated[Angle | None, Trait.ONLY_RECKONED] = None
    """The whole angle of the point."""
    chisel_ratio: Annotated[Factor | None, Area.FIGURE, Example("0.18")] = None
    """Chisel-edge length over diameter: 0.18 for a standard drill, 0.03 for a split point."""
    edges: Annotated[
        int | None,
        Field(ge=EDGES_RANGE[0], le=EDGES_RANGE[1]),
        Area.FIGURE,
        Example("3"),
    ] = None
    """Cutting edges of a reamer, countersink or counterbore; more of them cut thinner chips."""
    torque_limit: Annotated[TorqueLimit | None, Area.FIGURE] = None
    """What a tap or its clutch stands, where its maker says so."""
    wear_factor: Annotated[Factor | None, Area.FIGURE, Example("1.3")] = None
    """Thrust and torque against a sharp drill: 1.0 sharp, 1.3 in normal use, 1.5 very dull."""
    wear_factor_source: Annotated[
        str | None, Area.FIGURE, Example("handbook, for drills in normal use")
    ] = None
    """Where the wear factor comes from."""
    geometry_source: Annotated[
        str | None, Area.FIGURE, Example("measured with the shop's gauge")
    ] = None
    """Where point angle and chisel ratio come from."""
    feed: Annotated[FeedRange | None, Area.FIGURE, Example("0.1 to 0.18 mm/rev")] = None
    """The recommended feed."""
    feed_source: Annotated[str | None, Area.FIGURE, HANDBOOK] = None
    """Where the recommended feed comes from."""
    limits: Annotated[tuple[Text, ...], Order.COUNTS, Example("Never in hardened steel.")] = ()
    """What it must not be used for, or beyond."""
    care: Annotated[
        tuple[Text, ...],
        Order.COUNTS,
        Trait.ON_ITS_OWN_PAGE,
        Example("Wipe it, and put it back in its place."),
    ] = ()
    """How it is kept, and when it is handed back."""
    regrind: Annotated[
        Text | None, Trait.ON_ITS_OWN_PAGE, Example("It squeals, or needs a harder push.")
    ] = None
    """The sign that it needs grinding."""
    taylor: Annotated[TaylorConstants | None, Area.FIGURE] = None
    """Constants of the drill's life, where they are known."""
    picture: Annotated[Picture | None, Area.PICTURE] = None
    """The tool, its parts named."""
    hazards: Annotated[tuple[HazardRef, ...], Area.HAZARD, Order.FREE, Each("hazard")] = ()
    """Hazards of the tool itself, by id."""
    also: Annotated[
        tuple[str, ...], Area.NAMES, Order.FREE, Trait.LATER, Example("jobber drill")
    ] = ()
    """Other names people use for it."""
    still_open: StillOpen = ()
    """What is still to be given, a line each; while one is left, nobody is taught from it."""
