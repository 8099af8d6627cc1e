"""Set-up operations and work holding: what the engineer enters, nothing computed."""

from __future__ import annotations

import re
from enum import StrEnum
from typing import Annotated, Literal

from pydantic import Field, field_validator, model_validator
from pydantic_core import PydanticCustomError

from benchleaf.formulas.holding import DEFAULT_MARGIN, MAX_FACES, MAX_FRICTION
from benchleaf.formulas.jaw_friction import JAW_FRICTION, MOST_FRICTION
from benchleaf.formulas.spread import SPREAD_RANGE

from .fields import Factor, Feed, Force, Length, ThreadName
from .ids import Id, MachineRef, Text, Title, ToolRef
from .marks import Area, Example, Trait
from .record import Record


class HoldingMethod(StrEnum):
    """Ways of holding work. A hand is none of them."""

    VICE = "vice"
    CLAMPS = "clamps"
    FIXTURE = "fixture"


_BY_HAND = re.compile(r"\bhand(?:s|held)?\b", re.IGNORECASE)


class PositiveStop(Record):
    """A stop that the turning work bears against."""

    rated_force: Annotated[Force, Area.FIGURE, Example("4 kN")]
    """The side load the stop and its bolts are good for."""
    arm: Annotated[Length, Area.FIGURE, Example("60 mm")]
    """From the spindle's axis square to the push of the stop; along the edge that bears on it."""
    source: Annotated[str, Area.FIGURE, Example("reckoned by the production engineer")]
    """Where the rated force comes from."""


class WorkSurface(StrEnum):
    """The surface of the work where it is clamped."""

    GROUND = "ground"
    MACHINED = "machined"
    """Machined, drawn or bright."""
    UNMACHINED = "unmachined"
    """Rolled, cast, sawn or forged."""


class JawSurface(StrEnum):
    """The surface of jaws and clamps."""

    SMOOTH = "smooth"
    DIAMOND = "diamond serrated"
    SERRATED = "serrated"


class Presses(StrEnum):
    """Which way a clamp presses the work."""

    DOWN = "down"
    SIDEWAYS = "sideways"


class ForceKnownBy(StrEnum):
    """How the force of a clamp is known: how far it may fall short."""

    FEEL = "feel"
    """Tightened by hand to a feel."""
    TORQUE = "torque handle"
    """Tightened to a torque, by a handle that clicks or a wrench that shows it."""
    LOWEST = "lowest measured"
    """Measured ten times and more on this holding; the lowest is entered."""


Spread = Annotated[Factor, Field(ge=SPREAD_RANGE[0], le=SPREAD_RANGE[1])]
"""A spread in percent, to the unfavourable side."""


class Clamping(Record):
    """Clamping by friction."""

    force: Annotated[Force, Area.FIGURE, Example("6 kN")]
    """The clamp force of all clamps together."""
    force_known_by: Annotated[ForceKnownBy, Area.FIGURE] = ForceKnownBy.FEEL
    """How that force is known; left out, by feel, which may be a third less."""
    force_spread: Annotated[Spread | None, Area.FIGURE, Example("15")] = None
    """Percent by which the force may be less than entered, where the shop has measured that."""
    force_spread_source: Annotated[
        str | None, Area.FIGURE, Example("twenty pulls by four people on the load cell")
    ] = None
    """How that was measured; without it the published spread is taken where it is wider."""
    friction: Annotated[Annotated[Factor, Field(le=MAX_FRICTION)] | None, Area.FIGURE] = None
    """Coefficient of friction at the clamped faces; left out, that of the published table."""
    friction_source: Annotated[
        str | None, Area.FIGURE, Example("trial with a wet plate, the lowest of ten pulls")
    ] = None
    """Where a friction above the published table comes from, such as a trial with wet work."""
    friction_spread: Annotated[Spread | None, Area.FIGURE, Example("10")] = None
    """Percent by which the friction may be less than counted, where the shop has measured that."""
    friction_spread_source: Annotated[
        str | None, Area.FIGURE, Example("ten pulls with wet plates, greatest and least")
    ] = None
    """How that was measured; without it the published spread is taken where it is wider."""
    work_surface: Annotated[WorkSurface | None, Area.FIGURE, Trait.ASKED] = None
    """The surface of the work where it is clamped."""
    jaw_surface: Annotated[JawSurface, Area.FIGURE] = JawSurface.SMOOTH
    """The surface of jaws and clamps."""
    presses: Annotated[Presses | None, Area.FIGURE] = None
    """Which way they press; left out, vice, fixture and edge clamps sideways, other clamps down."""
    arm: Annotated[Length, Area.FIGURE, Example("20 mm")]
    """From the spindle's axis to the nearest clamped face."""
    faces: Annotated[int, Field(ge=1, le=MAX_FACES), Area.FIGURE, Example("1")] = 1
    """How many faces the friction is counted on; 1 is the safe reading."""
    source: Annotated[str, Area.FIGURE, Example("clamp force measured with the shop's load cell")]
    """Where the clamp force and the friction come from."""

    @model_validator(mode="after")
    def _friction_can_be(self) -> Clamping:
        if self.friction is None and self.work_surface is None:
            raise PydanticCustomError(
                "no_friction",
                "a clamping takes friction, or work_surface for the table's",
                {"field": "force"},
            )
        jaws = self.jaw_surface.value
        if self.friction is not None and self.friction > MOST_FRICTION[jaws]:
            raise PydanticCustomError(
                "too_much_friction",
                "friction {friction} is more than {jaws} jaws give",
                {
                    "field": "friction",
                    "friction": f"{self.friction:g}",
                    "jaws": jaws,
                    "most": f"{MOST_FRICTION[jaws]:g}",
                    "table": f"{JAW_FRICTION[_work(self), jaws]:.2f}",
                    "work": _work(self),
                },
            )
        return self


def _work(clamping: Clamping) -> str:
    return (clamping.work_surface or WorkSurface.UNMACHINED).value


class Holding(Record):
    """How the work is held against the drill's torque."""

    method: HoldingMethod
    """What holds the work. A hand is none of them."""
    how: Annotated[Text, Example("The plate lies on parallels in the vice.")]
    """What is done, in a sentence."""
    bolted_down: Annotated[Text, Example("Two bolts hold the vice to the table.")]
    """How the vice, clamps or fixture are fixed to the table."""
    borne_by: Annotated[Text | None, Example("Two parallels, clear of the hole.")] = None
    """What bears the work from below against the push of the tool, where `how` does not say it."""
    clamping: Clamping | None = None
    """Holding by friction under clamps or jaws."""
    positive_stop: PositiveStop | None = None
    """Holding by a stop that the work bears against."""
    margin: Annotated[Factor, Field(ge=1), Area.FIGURE, Example("2")] = DEFAULT_MARGIN
    """Capacity wanted over reckoned torque, 1 at least."""
    margin_reason: Annotated[str | None, Example("The stop takes the torque as well.")] = None
    """Why, where the margin is less than the usual 2."""

    @field_validator("method", mode="before")
    @classmethod
    def _never_a_hand(cls, value: object) -> object:
        if isinstance(value, str) and _BY_HAND.search(value):
            raise PydanticCustomError(
                "held_by_hand", "'{value}' is no way of holding work", {"value": value}
            )
        return value

    @model_validator(mode="after")
    def _less_needs_a_reason(self) -> Holding:
        if self.margin < DEFAULT_MARGIN and self.margin_reason is None:
            raise PydanticCustomError(
                "small_margin",
                "a margin below {usual} needs a margin_reason",
                {"usual": f"{DEFAULT_MARGIN:g}", "field": "margin"},
            )
        return self

    @model_validator(mode="after")
    def _a_vice_presses_sideways(self) -> Holding:
        presses = self.clamping.presses if self.clamping is not None else None
        if self.method is HoldingMethod.VICE and presses is Presses.DOWN:
            raise PydanticCustomError(
                "vice_presses_down", "the jaws of a vice press sideways", {"field": "clamping"}
            )
        return self


class FeedStop(Record):
    """What keeps a tool from drawing itself in as it comes through, such as a feed by power."""

    how: Annotated[Text, Example("The feed runs by power, and its clutch is tried each morning.")]
    """What holds the feed back, and how it is proved."""
    feed: Feed
    """The coarsest feed a turn that it lets through, at the set-up's spindle speed."""
    source: Annotated[str, Area.FIGURE, Example("the plate of the feed gear")]
    """Where that feed comes from."""


class HoleKind(StrEnum):
    """Whether the drill comes out on the other side."""

    THROUGH = "through"
    BLIND = "blind"


class WorkShape(StrEnum):
    """The shape of the work where the drill goes in."""

    FLAT = "flat"
    ROUND_BAR = "round bar"
    ROUND_TUBE = "round tube"


class Walls(StrEnum):
    """Which walls of a tube the hole goes through."""

    ONE = "one"
    BOTH = "both"


class ClearanceSeries(StrEnum):
    """How close a clearance hole is, by ISO 273."""

    FINE = "fine"
    MEDIUM = "medium"
    COARSE = "coarse"


class DrillingSetUp(Record):
    """Drilling one hole, or several alike; in round work the hole crosses the axis."""

    operation: Literal["drilling"]
    """Which operation this is."""
    id: Annotated[Id, Example("fixing-holes")]
    """A name for the set-up, for steps to point to."""
    title: Annotated[Title, Example("Drill two fixing holes, 6.5 mm through")]
    """The operation and its size, in a few words."""
    tool: Annotated[ToolRef, Area.TOOL, Example("drill-6-5")]
    """The drill, by id; one of the job's tools."""
    hole: HoleKind
    """Whether the drill comes out on the other side."""
    work: WorkShape = WorkShape.FLAT
    """The shape of the work where the drill goes in."""
    thickness: Annotated[Length | None, Area.FIGURE, Example("6 mm"), Trait.ASKED] = None
    """Thickness of flat work under the drill."""
    work_diameter: Annotated[Length | None, Area.FIGURE, Example("20 mm")] = None
    """Outside diameter of round work."""
    wall: Annotated[Length | None, Area.FIGURE, Example("2 mm")] = None
    """Wall thickness of a tube."""
    walls: Walls | None = None
    """Which walls of a tube the hole goes through."""
    depth: Annotated[Length | None, Example("15 mm")] = None
    """Full-diameter depth of a blind hole."""
    feed: Annotated[Feed, Area.FIGURE, Example("0.12 mm/rev")]
    """Feed for one turn of the drill."""
    clearance_for: ThreadName | None = None
    """The screw that the hole lets through; its size is checked against ISO 273."""
    clearance: ClearanceSeries = ClearanceSeries.MEDIUM
    """How close a clearance hole is, by ISO 273."""
    pilot: Annotated[Length | None, Area.FIGURE, Example("4 mm")] = None
    """Diameter of a pilot hole that is there already."""
    feed_stop: Annotated[FeedStop | None, Area.HOLDING] = None
    """What keeps the feed from growing at break-through; left out where the hand alone does."""
    start_clearance: Annotated[Length, Area.FIGURE, Example("2 mm")]
    """Height of the point above the work when the feed begins."""
    overtravel: Annotated[Length | None, Area.FIGURE, Example("2 mm")] = None
    """How far the full diameter goes beyond the far face of a through hole."""
    holes: Annotated[int, Field(ge=1), Area.FIGURE, Example("2")] = 1
    """How many holes alike are drilled in one piece."""
    holding: Annotated[Holding | None, Area.HOLDING] = None
    """Where it differs from the job's."""
    station: Annotated[MachineRef | None, Area.MACHINE, Example("pillar-drill")] = None
    """The station of a cell at which it is done, by id; left out where the job is at no cell."""
    spindle: Annotated[Id | None, Area.SET_UP, Example("left")] = None
    """The spindle of a machine with several, by id; left out where there is only one."""

    @model_validator(mode="after")
    def _shape_has_its_sizes(self) -> DrillingSetUp:
        wanted = _SIZES[self.work]
        missing = [key for key in wanted if getattr(self, key) is None]
        extra = [key for key in _ALL_SIZES if key not in wanted and getattr(self, key) is not None]
        if missing or extra:
            raise PydanticCustomError(
                "shape_sizes",
                "'work: {shape}' takes {wanted}{problem}",
                {
                    "shape": self.work.value,
                    "wanted": ", ".join(wanted),
                    "problem": f"; missing: {', '.join(missing)}"
                    if missing
                    else f"; not: {', '.join(extra)}",
                },
            )
        return self

    @model_validator(mode="after")
    def _no_key_says_nothing(self) -> DrillingSetUp:
        if self.depth is not None and self.hole is HoleKind.THROUGH:
            raise PydanticCustomError("depth_of_through", "depth", {"field": "depth"})
        if self.clearance is not ClearanceSeries.MEDIUM and self.clearance_for is None:
            raise PydanticCustomError("clearance_of_none", "clearance", {"field": "clearance"})
        return self

    @model_validator(mode="after")
    def _feed_stop_lets_the_feed_through(self) -> DrillingSetUp:
        if self.feed_stop is not None and self.feed_stop.feed.value < self.feed.value:
            raise PydanticCustomError(
                "feed_stop",
                "a feed stop at {stop} lets no feed of {feed} through",
                {"stop": self.feed_stop.feed.text, "feed": self.feed.text, "field": "feed_stop"},
            )
        return self


_SIZES = {
    WorkShape.FLAT: ("thickness",),
    WorkShape.ROUND_BAR: ("work_diameter",),
    WorkShape.ROUND_TUBE: ("work_diameter", "wall", "walls"),
}
_ALL_SIZES = ("thickness", "work_diameter", "wall", "walls")
