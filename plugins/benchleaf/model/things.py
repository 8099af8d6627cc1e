"""Machines, materials and tools: what a job is done on, to and with."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field, ValidationInfo, field_validator

from benchleaf.formulas.enlarging import EDGES_RANGE
from benchleaf.formulas.unit_order import Units

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
from .ids import HazardRef, Id, MachineRef, Text, Title
from .looks import Looks
from .marks import HANDBOOK, Area, At, Each, Example, Order, Trait
from .picture import Picture
from .record import Record
from .scene import Side
from .stations import (
    DRIVEN,
    ONE_SPINDLE,
    UNDRIVEN,
    ControlPart,
    FeedLever,
    GrindingWheel,
    MachineControls,
    Spindle,
    StationKind,
    fits_kind,
)
from .still_open import StillOpen
from .torque_limit import TorqueLimit


class Machine(Record):
    """One station of the shop: a machine, a bench, a cell; with its limits and their source."""

    about = Area.MACHINE

    id: Id
    """The machine's id, such as `pillar-drill`."""
    name: Annotated[Title, Trait.NAME, Example("Pillar drill")]
    """What it is called in the shop."""
    kind: StationKind = StationKind.MACHINE
    """What sort of station it is; each kind asks only for what it has. Left out, a machine."""
    what: Annotated[
        Text, Trait.ON_ITS_OWN_PAGE, Example("It turns a drill and feeds it down by a lever.")
    ]
    """What it is and does, in a sentence or two."""
    where: Annotated[str, Trait.PLACE, Example("Bay 2, beside the saw")]
    """Where it stands in the shop."""
    controls: Annotated[
        MachineControls | None, At((*DRIVEN, StationKind.CELL), needed_at=DRIVEN)
    ] = Field(default=None, validate_default=True)
    """Where start, stop and isolator are. A cell has its own only where one stops all of it."""
    stations: Annotated[
        tuple[MachineRef, ...],
        At((StationKind.CELL,), needed_at=(StationKind.CELL,)),
        Order.COUNTS,
        Each("station"),
    ] = Field(default=(), validate_default=True)
    """The stations of the cell, by id, in the order in which they stand."""
    supply: Annotated[
        Text | None,
        At(UNDRIVEN),
        Trait.REACHED_FOR_IN_DANGER,
        Example("The blue valve under the bench cuts off the air."),
    ] = None
    """Where air or current for hand tools is cut off; left out where there is none."""
    parts: Annotated[
        tuple[ControlPart, ...], At(UNDRIVEN), Order.COUNTS, Each("part"), Trait.ON_ITS_OWN_PAGE
    ] = ()
    """Levers, handles, stops and lamps that people use there."""
    spindles: Annotated[
        tuple[Spindle, ...],
        At((StationKind.SPINDLES,), needed_at=(StationKind.SPINDLES,)),
        Order.FREE,
        Each("spindle"),
    ] = Field(default=(), validate_default=True)
    """Each spindle with its own speeds, chuck, thrust and quill."""
    guards: Annotated[
        tuple[Text, ...],
        Order.FREE,
        Trait.CONTROL,
        Example("The chuck guard is down while the spindle turns."),
    ] = ()
    """The guards there are, and how each stands while it runs."""
    hazards: Annotated[tuple[HazardRef, ...], Area.HAZARD, Order.FREE, Each("hazard")] = ()
    """Its hazards, whatever the job."""
    spindle_speeds: Annotated[
        tuple[SpindleSpeed, ...],
        At(ONE_SPINDLE),
        Area.FIGURE,
        Order.FREE,
        Each("spindle speed"),
        Example("980 rpm"),
    ] = ()
    """The speeds it really has."""
    speed_change: Annotated[
        Text | None, At(DRIVEN), Example("By a belt under the cover. Only a setter opens it.")
    ] = None
    """How the speed is changed, and who may."""
    motor_power: Annotated[Power | None, At(DRIVEN), Trait.ONLY_RECKONED, Example("1.1 kW")] = None
    """Rated power of the motor, from its plate."""
    efficiency: Annotated[
        Annotated[Factor, Field(le=1)] | None, At(DRIVEN), Area.FIGURE, Example("0.85")
    ] = None
    """Share of the power that each belt or pair of gears passes on; see `drive_stages`."""
    drive_stages: Annotated[int, Field(ge=1, le=6), At(DRIVEN), Area.FIGURE, Example("2")] = 1
    """Belts or pairs of gears between motor and spindle, one after another; two lose twice."""
    rated_thrust: Annotated[Force | None, At(ONE_SPINDLE), Trait.ONLY_RECKONED, Example("6 kN")] = (
        None
    )
    """The greatest thrust along the spindle the maker allows."""
    quill_travel: Annotated[
        Length | None, At(ONE_SPINDLE), Trait.ONLY_RECKONED, Example("130 mm")
    ] = None
    """The longest stroke of the quill."""
    drill_capacity: Annotated[
        Length | None, At(ONE_SPINDLE), Trait.ONLY_RECKONED, Example("16 mm")
    ] = None
    """The largest drill the maker allows in steel."""
    chuck: Annotated[
        LengthRange | None, At(ONE_SPINDLE), Trait.ONLY_RECKONED, Example("1 to 13 mm")
    ] = None
    """The shank diameters the chuck holds."""
    rated_force: Annotated[
        Force | None, At((StationKind.HAND_PRESS,)), Trait.RATING, Example("10 kN")
    ] = None
    """The greatest force at the ram that the maker allows."""
    limits_source: Annotated[str | None, Area.FIGURE, Example("the machine's plate")] = None
    """Where the limits come from, such as the plate or the maker's book."""
    efficiency_source: Annotated[
        str | None, At(DRIVEN), Area.FIGURE, Example("estimate of the production engineer")
    ] = None
    """Where the efficiency comes from."""
    lever: Annotated[FeedLever | None, At(ONE_SPINDLE), Area.FIGURE] = None
    """The feed lever, for the pull that a hand must give."""
    grinding: Annotated[GrindingWheel | None, At(ONE_SPINDLE), Trait.RATING] = None
    """The wheel and its gaps, on a grinder."""
    clean_down_air: Annotated[Pressure | None, Trait.RATING] = None
    """Pressure of the air used to clean it, at the nozzle when blocked; left out for none."""
    units: Annotated[Units | None, Area.SCREEN, Trait.LATER, Example("inch")] = None
    """The units of its dials and scales, first on its jobs' pages; left out, those of the shop."""
    daily_checks: Annotated[
        tuple[Text, ...], Order.COUNTS, Example("The emergency stop stops the spindle.")
    ] = ()
    """What is checked before the first start of a shift."""
    picture: Annotated[Picture | None, Area.PICTURE] = None
    """What it looks like, its controls named."""
    drawn_as: Annotated[Looks | None, Area.PICTURE, Trait.LATER] = None
    """The outline that stands for it in lists; left out, taken from its kind and its name."""
    lever_at: Annotated[Side | None, At(ONE_SPINDLE), Area.PICTURE, Trait.LATER] = None
    """The side of the feed lever, seen from the front, for drawings; stop and start are opposite.
    Left out, the lever is drawn at the right."""
    also: Annotated[
        tuple[str, ...], Area.NAMES, Order.FREE, Trait.LATER, Example("bench press")
    ] = ()
    """Other names people use for it."""
    still_open: StillOpen = ()
    """What is still to be given, a line each; while one is left, nobody is taught from it."""

    @field_validator("*", mode="before")
    @classmethod
    def _as_its_kind_has(cls, value: object, info: ValidationInfo) -> object:
        """Field by field, so that one mistake hides no other."""
        key, kind = str(info.field_name), info.data.get("kind")
        asked = next((one for one in cls.model_fields[key].metadata if isinstance(one, At)), None)
        if kind is not None and asked is not None:
            fits_kind(key, value, asked, kind)
        return value

    def at(self, spindle: str | None) -> Machine:
        """The machine with the limits of one of its spindles; itself where it has no such."""
        one = next((one for one in self.spindles if one.id == spindle), None)
        if one is None:
            return self
        own = {key: value for key, value in dict(one).items() if value not in (None, ())}
        return self.model_copy(
            update={**own, "id": self.id, "name": f"{self.name}, {one.name}", "spindles": ()}
        )

    @property
    def each_spindle(self) -> tuple[Machine, ...]:
        """The machine, once with the limits of each spindle."""
        return tuple(self.at(one.id) for one in self.spindles) or (self,)


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
    """Which metal tables take it for; left out, steel by its name, else what grips least."""
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
    drawn_as: Annotated[Looks | None, Area.PICTURE, Trait.LATER] = None
    """The outline that stands for it in lists; left out, taken from its kind and its name."""
    height: Annotated[Length | None, Area.PICTURE, Trait.LATER, Example("35 mm")] = None
    """Of a vice the height of its jaws above its bed, of parallels their height; for drawings."""
    stick_out: Annotated[Length | None, Area.PICTURE, Trait.LATER, Example("60 mm")] = None
    """How far a cutting tool stands out of the chuck; for drawings."""
    hazards: Annotated[tuple[HazardRef, ...], Area.HAZARD, Order.FREE, Each("hazard")] = ()
    """Hazards of the tool itself, by id."""
    also: Annotated[
        tuple[str, ...], Area.NAMES, Order.FREE, Trait.LATER, Example("jobber drill")
    ] = ()
    """Other names people use for it."""
    still_open: StillOpen = ()
    """What is still to be given, a line each; while one is left, nobody is taught from it."""
