"""Set-up operations besides drilling: what the engineer enters, nothing computed."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Literal

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from .fields import Factor, Feed, Length, ThreadName, ToleranceClass
from .ids import Id, MachineRef, Title, ToolRef
from .marks import Area, Example
from .record import Record
from .setup import DrillingSetUp, Holding, HoleKind


class ThreadBasis(StrEnum):
    """What 100 % of thread means: two bases are in use."""

    FULL = "full thread height"
    """1.299 P, as in charts for inch threads."""
    ISO = "ISO thread height"
    """1.0825 P."""


class TapKind(StrEnum):
    """Kinds of tap by chamfer and flute."""

    TAPER = "taper"
    PLUG = "plug"
    BOTTOMING = "bottoming"


class TappedBy(StrEnum):
    """How the tap is turned. The work is held by a vice or clamps in either case."""

    HAND_WRENCH = "tap wrench"
    MACHINE = "machine"


class _HoleOperation(Record):
    """What every operation on a hole says."""

    id: Id
    """A name for the set-up, for steps to point to."""
    title: Title
    """The operation and its size, in a few words."""
    tool: Annotated[ToolRef, Area.TOOL]
    """The tool, by id; one of the job's tools."""
    holding: Annotated[Holding | None, Area.HOLDING] = None
    """Where it differs from the job's."""
    station: Annotated[MachineRef | None, Area.MACHINE, Example("pillar-drill")] = None
    """The station of a cell at which it is done, by id; left out where the job is at no cell."""
    spindle: Annotated[Id | None, Area.SET_UP, Example("left")] = None
    """The spindle of a machine with several, by id; left out where there is only one."""


class TappingSetUp(_HoleOperation):
    """Cutting an internal thread."""

    operation: Literal["tapping"]
    """Which operation this is."""
    title: Annotated[Title, Example("Tap the hole, M6")]
    """The operation and its size, in a few words."""
    thread: Annotated[ThreadName, Example("M6")]
    """The thread to be cut."""
    hole: HoleKind
    """Whether the tap comes out on the other side."""
    thread_length: Annotated[Length, Example("10 mm")]
    """Length of full thread wanted; the thickness where it goes through."""
    percent: Annotated[Factor, Field(le=100), Area.FIGURE, Example("75")] = 75.0
    """Percentage of thread wanted."""
    basis: ThreadBasis = ThreadBasis.FULL
    """What 100 percent of thread means."""
    tap: TapKind = TapKind.PLUG
    """The kind of tap, by its chamfer."""
    turned_by: TappedBy
    """What turns the tap."""
    hole_drill: Annotated[ToolRef | None, Example("drill-5")] = None
    """The drill that made the hole; checked against the thread."""


class ReamingSetUp(_HoleOperation):
    """Bringing a drilled hole to its fit."""

    operation: Literal["reaming"]
    """Which operation this is."""
    title: Annotated[Title, Example("Ream the bore, 10 mm H7")]
    """The operation and its size, in a few words."""
    tolerance: ToleranceClass
    """The hole's class, such as H7."""
    depth: Annotated[Length, Example("20 mm")]
    """How deep the reamed size goes."""
    feed: Annotated[Feed | None, Area.FIGURE, Example("0.2 mm/rev")] = None
    """Left out for a reamer turned by hand."""
    start_clearance: Annotated[Length | None, Area.FIGURE, Example("2 mm")] = None
    """Height of the reamer above the work when the feed begins; with it the travel is reckoned."""
    overtravel: Annotated[Length | None, Area.FIGURE, Example("5 mm")] = None
    """How far the reamer goes beyond the far face of a through hole."""
    light_metal: Annotated[bool, Example("false")] = False
    """True for aluminium and the like, which take a larger allowance."""
    hole_drill: Annotated[ToolRef | None, Example("drill-9-8")] = None
    """The drill before it; checked against the reamer's allowance."""


class CountersinkingSetUp(_HoleOperation):
    """A cone at the mouth of a hole, for a screw head or to break the edge."""

    operation: Literal["countersinking"]
    """Which operation this is."""
    title: Annotated[Title, Example("Countersink the hole, 10 mm wide")]
    """The operation and its size, in a few words."""
    hole_diameter: Annotated[Length, Example("6.5 mm")]
    """Diameter of the hole that is sunk."""
    mouth: Annotated[Length | None, Example("10 mm")] = None
    """Diameter at the surface."""
    head: Annotated[Length | None, Example("10 mm")] = None
    """Head diameter of a flat-head screw, instead of the mouth."""
    below_flush: Annotated[Length | None, Example("0.2 mm")] = None
    """How far the head lies below the surface."""
    feed: Annotated[Feed | None, Area.FIGURE, Example("0.1 mm/rev")] = None
    """Feed for one turn; left out where the hand feels it."""

    @model_validator(mode="after")
    def _one_of_two_sizes(self) -> CountersinkingSetUp:
        """A key beside another one that decides would be taught and change nothing."""
        if self.mouth is not None and self.head is not None:
            raise PydanticCustomError("head_and_mouth", "mouth", {"field": "mouth"})
        if self.below_flush is not None and self.head is None:
            raise PydanticCustomError("flush_of_none", "below_flush", {"field": "below_flush"})
        return self


class CounterboringSetUp(_HoleOperation):
    """A flat-bottomed seat for a socket head cap screw."""

    operation: Literal["counterboring"]
    """Which operation this is."""
    title: Annotated[Title, Example("Counterbore the seat, M6")]
    """The operation and its size, in a few words."""
    screw: Annotated[ThreadName, Example("M6")]
    """The socket head cap screw that sits in it."""
    below_flush: Annotated[Length | None, Example("0.5 mm")] = None
    """How far the head lies below the surface."""
    feed: Annotated[Feed | None, Area.FIGURE, Example("0.1 mm/rev")] = None
    """Feed for one turn; left out where the hand feels it."""


SetUp = Annotated[
    DrillingSetUp | TappingSetUp | ReamingSetUp | CountersinkingSetUp | CounterboringSetUp,
    Field(discriminator="operation"),
]
"""Every operation that a job's set-up list may hold."""
