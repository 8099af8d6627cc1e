"""A job: one breakdown, the important steps with their key points and reasons."""

from __future__ import annotations

from datetime import date
from enum import StrEnum
from typing import Annotated

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from .accepted import Accepted
from .fields import Length, Limits, ToleranceClass
from .ids import FluidRef, HazardRef, Id, JobRef, MachineRef, PartRef, Text, Title, ToolRef
from .made_from import GROUP_KEY
from .marks import Area, Each, Example, Instead, Order, Trait
from .operations import SetUp
from .picture import Picture
from .piece_rate import PieceRate
from .record import Record, Revision
from .scene import Act, SoNotSo
from .setup import Holding
from .still_open import StillOpen
from .teaching_aids import HandsInside, NotMet, PlantedFault, Tray


class KeyPointKind(StrEnum):
    """The trade's three tests of a key point."""

    MAKES_OR_BREAKS = "makes or breaks the job"
    CAN_INJURE = "can injure"
    EASIER = "makes it easier"


class KeyPoint(Record):
    """Something in a step that must be so, and why."""

    point: Annotated[Text, Example("Push the plate against the stop before you tighten.")]
    """What must be so, one thing only, as a command."""
    reason: Annotated[Text, Area.REASON, Example("The stop sets where the hole comes.")]
    """Why it must be so: what happens otherwise."""
    kind: KeyPointKind
    """Which of the three tests it meets."""
    so: Annotated[SoNotSo | None, Area.PICTURE, Trait.LATER] = None
    """Two drawn pictures beside it: how it is done, and, crossed, how it is not."""


class Check(Record):
    """What good looks like: the thing checked, its limits, and the gauge."""

    what: Annotated[Text, Example("Both fixing holes")]
    """What is checked."""
    limits: Limits | None = None
    """Size with its limits, or a range."""
    size: Annotated[Length | None, Example("15 mm")] = None
    """Nominal size, with `fit` instead of `limits`."""
    fit: ToleranceClass | None = None
    """The class of ISO 286 that gives the limits of that size, such as H7."""
    gauge: ToolRef | None = None
    """The gauge it is checked with, by id."""
    how: Annotated[
        Text | None, Example("The GO end drops through. The NO-GO end does not enter.")
    ] = None
    """How the gauge is used, and what it shows when right."""

    @model_validator(mode="after")
    def _size_and_fit_together(self) -> Check:
        if (self.size is None) != (self.fit is None) or (self.fit and self.limits):
            raise PydanticCustomError(
                "size_and_fit", "a check takes limits, or size and fit together", {"field": "what"}
            )
        return self


class LockoutStage(StrEnum):
    """The stages of servicing under lock, in order (29 CFR 1910.147(d) and (e))."""

    PREPARE = "prepare"
    SHUT_DOWN = "shut down"
    ISOLATE = "isolate"
    APPLY_LOCK = "apply lock"
    RELEASE_ENERGY = "release stored energy"
    VERIFY = "verify"
    CLEAR_PEOPLE = "clear people"
    """All is whole and shut; everybody is told, and seen clear ((e)(1) and (e)(2)(i))."""
    REMOVE_LOCK = "remove lock"
    """By the one who put it on ((e)(3))."""
    TELL_PEOPLE = "tell people"
    """Once more, after the lock is off and before the machine is started ((e)(2)(ii))."""


class Step(Record):
    """One important step: after it, the piece is nearer to done than before."""

    id: Id
    """Never changes; it is the step's address."""
    title: Annotated[Title, Example("Clamp the plate")]
    """Starts with a verb."""
    key_points: Annotated[tuple[KeyPoint, ...], Area.KEY_POINT, Order.COUNTS, Each("key point")] = (
        Field(min_length=1)
    )
    """What makes or breaks the step, can injure, or makes it easier."""
    hazards: Annotated[tuple[HazardRef, ...], Area.HAZARD, Order.FREE, Each("hazard")] = ()
    """The hazards that bite in this step, by id; shown before it."""
    station: Annotated[MachineRef | None, Area.MACHINE, Example("pillar-drill")] = None
    """The station of a cell at which it is done, by id; left out where its set-up says it."""
    stand: Annotated[Text | None, Example("In front of the table, feet apart.")] = None
    """Where to stand."""
    right: Annotated[Text | None, Area.HELP, Example("The plate touches the stop.")] = None
    """What it feels, sounds or looks like when right."""
    checks: Annotated[tuple[Check, ...], Area.CHECK, Order.COUNTS, Each("check")] = ()
    """What is measured or looked at here."""
    set_up: Annotated[Id | None, Example("fixing-holes")] = None
    """The id of the job's set-up whose values belong to this step."""
    picture: Annotated[Picture | None, Area.PICTURE] = None
    """A picture of the one thing that words show badly."""
    scene: Annotated[Act | None, Area.PICTURE, Trait.LATER] = None
    """The act that is drawn for the step from the records; its own picture comes before it."""
    lockout: LockoutStage | None = None
    """The stage of lockout that this step carries out, in a servicing job."""
    hands_inside: Annotated[HandsInside | None, Area.HAZARD] = None
    """Where hands go inside the machine: what they do, and what protects them."""
    trainer: Annotated[
        Text | None, Area.TRAINER, Example("Let the learner push against the plate.")
    ] = None
    """What the trainer does here while teaching."""
    planted: Annotated[PlantedFault | None, Area.TRAINER] = None
    """One thing that the trainer sets wrong on purpose here, and puts right again."""
    props: Annotated[
        tuple[Text, ...], Area.TRAINER, Order.COUNTS, Example("A scrap plate drilled on a chip")
    ] = ()
    """What the trainer needs here for the lesson: samples, scrap, a bad part."""
    hand_contact: Annotated[
        Text | None,
        Area.TRAINER,
        Example("On the shoulder only, to stop somebody who cannot hear."),
    ] = None
    """Where and why the trainer touches the learner's hand; left out, it means never."""


class Wrong(StrEnum):
    """What is wrong, as somebody sees it who must choose at once."""

    HURT = "somebody is hurt"
    DOES_NOT_STOP = "does not stop"
    """Or starts by itself."""
    FEELS_WRONG = "sounds or feels wrong"
    SIZE_OUT = "size is out"
    UNSURE = "do not know"
    """What comes next is not clear, or something needed is missing."""


class Trouble(Record):
    """Something that can go wrong, and what to do."""

    sign: Annotated[Text, Example("The drill squeals.")]
    """What the operator sees, hears or feels."""
    do: Annotated[
        tuple[Text, ...], Order.COUNTS, Example("Press stop and wait until the spindle is still.")
    ] = Field(min_length=1)
    """What to do, in order, the stop first."""
    kind: Annotated[Wrong, Trait.NOT_TAUGHT] = Wrong.FEELS_WRONG
    """Under which of the choices of *Something is wrong* it stands."""


class Revised(Record):
    """A former revision, and what it changed."""

    revision: Revision
    """The former revision."""
    effective: Annotated[date, Example("2026-03-02")]
    """The day it came into force."""
    note: Annotated[Text, Example("First issue.")]
    """What it changed."""


class Job(Record):
    """One breakdown."""

    about_all = Area.JOB

    id: Id
    """Such as TR-0140; shown in capitals."""
    title: Annotated[Title, Trait.NAME, Example("Drill the pivot hole of the hinge plate")]
    """What is done to what, starting with a verb."""
    revision: Annotated[Revision, Area.REVISION, Trait.ISSUED]
    """Number or letters; it goes on with every change of meaning."""
    effective: Annotated[date, Area.REVISION, Trait.ISSUED, Example("2026-11-02")]
    """The day this revision came into force."""
    approved_by: Annotated[str, Area.REVISION, Trait.ISSUED, Example("production engineer")]
    """A role, not a name."""
    change_note: Annotated[
        Text, Area.REVISION, Trait.ISSUED, Example("The check now names the plug gauge.")
    ]
    """What this revision changed."""
    history: Annotated[
        tuple[Revised, ...], Area.REVISION, Order.COUNTS, Trait.LATER, Trait.ISSUED
    ] = ()
    """Former revisions, the newest first."""
    reviewed: Annotated[date | None, Area.REVISION, Example("2026-11-02")] = None
    """The day on which somebody last read it all at the machine and found it right."""
    picture: Annotated[Picture | None, Area.PICTURE] = None
    """The finished work."""
    makes: Annotated[Text, Example("One hole of 8.5 mm through the plate.")]
    """What the job makes."""
    matters: Annotated[Text, Example("The vent hangs on a pin in this hole.")]
    """Why it matters in the assembly."""
    machine: Annotated[
        MachineRef,
        Area.MACHINE,
        Instead(
            GROUP_KEY,
            "In place of `machine`: a group of like machines, by id. The job is made for each.",
            "pillar-drills",
        ),
    ]
    """The machine that it is done at, by id."""
    part: Annotated[PartRef | None, Area.PART, Trait.NOT_TAUGHT] = None
    """The part, by id; left out for a job that works on no part, such as a speed change."""
    takes: Annotated[Id | None, Area.PART, Trait.NOT_TAUGHT, Example("blank")] = None
    """The state in which the job takes the part, by its id in the part's record."""
    leaves: Annotated[Id | None, Area.PART, Trait.NOT_TAUGHT, Example("drilled")] = None
    """The state in which the job leaves it; the job that takes it comes next."""
    tools: Annotated[tuple[ToolRef, ...], Area.TOOL, Order.FREE, Each("tool")] = ()
    """Every tool and gauge of the job, by id."""
    fluid: Annotated[FluidRef | None, Area.FLUID] = None
    """The cutting fluid, by id; left out for dry work."""
    holding: Annotated[Holding | None, Area.HOLDING] = None
    """How the work is held; a set-up may hold it otherwise."""
    know_first: Annotated[tuple[JobRef, ...], Order.FREE, Each("job to know first")] = ()
    """Jobs the learner must be able to do before."""
    must_know: Annotated[
        tuple[Text, ...], Order.FREE, Each("to know first"), Example("Where the emergency stop is.")
    ] = ()
    """Other things the learner must know before."""
    operation_before: Annotated[JobRef | None, Area.ROUTE] = None
    """The job that hands the part on to this one, where the states do not tell."""
    operation_after: Annotated[JobRef | None, Area.ROUTE] = None
    """The job that takes the part next, where the states do not tell."""
    end_of_route: Annotated[
        Text | None, Area.ROUTE, Example("The finished plate goes to the store.")
    ] = None
    """Where the part goes after this job, where no operation follows."""
    authorised_only: Annotated[
        Text | None, Trait.KEEPS_FROM_HARM, Example("Only a setter opens the belt cover.")
    ] = None
    """Who alone may do it; everybody else is told whom to call."""
    wear: Annotated[
        tuple[Text, ...],
        Area.WORN,
        Order.FREE,
        Each("to wear"),
        Trait.KEEPS_FROM_HARM,
        Example("Safety glasses with side shields"),
    ] = Field(min_length=1)
    """Protective equipment for this job."""
    take_off: Annotated[
        tuple[Text, ...],
        Area.WORN,
        Order.FREE,
        Each("to take off"),
        Trait.KEEPS_FROM_HARM,
        Example("Gloves, rings and watch."),
    ] = Field(min_length=1)
    """What must come off or be tied back."""
    hazards: Annotated[tuple[HazardRef, ...], Area.HAZARD, Order.FREE, Each("hazard")] = ()
    """Hazards of the whole job; the machine's own are added."""
    not_met: Annotated[tuple[NotMet, ...], Area.HAZARD, Order.FREE, Trait.LATER] = ()
    """Hazards of the machine that this job never meets, each with the reason."""
    have_ready: Annotated[tuple[Text, ...], Order.FREE, Example("One tote of sawn plates")] = ()
    """What to have ready besides tools and fluid."""
    set_ups: Annotated[tuple[SetUp, ...], Area.SET_UP, Order.COUNTS, Each("set-up")] = ()
    """The operations whose figures are worked out, in order."""
    steps: Annotated[tuple[Step, ...], Area.STEP, Order.COUNTS, Each("step")] = Field(min_length=1)
    """The important steps, in the order in which they are done."""
    if_wrong: Annotated[
        tuple[Trouble, ...],
        Area.TROUBLE,
        Order.COUNTS,
        Each("trouble"),
        Trait.KEEPS_FROM_HARM,
    ] = Field(min_length=1)
    """What can go wrong, and what to do then."""
    call: Annotated[Text | None, Example("Call the setter.")] = None
    """Whom to call, where it is not the manual's usual person."""
    hand_on: Annotated[Text, Example("Lay the plates in the tote, all the same way round.")]
    """How to leave the finished part, and how the next tells good, bad and missing apart."""
    tray: Annotated[Tray | None, Trait.LATER] = None
    """The tray or board that the parts are handed on in, drawn from its numbers."""
    piece_rate: Annotated[PieceRate | None, Area.RATE, Trait.LATER] = None
    """How long a piece takes somebody who knows the job."""
    accept: Annotated[tuple[Accepted, ...], Area.CHECKS_ONLY, Order.FREE, Trait.LATER] = ()
    """Warnings that do not fit this job, each with the reason."""
    still_open: StillOpen = ()
    """What is still to be given, a line each; while one is left, nobody is taught from it."""

    @property
    def is_under_lock(self) -> bool:
        """True where one of its steps is a stage of lockout."""
        return any(step.lockout is not None for step in self.steps)

    def in_force_since(self, revision: str) -> date | None:
        """The day on which a revision came into force, or None where that is not known."""
        former = {one.revision: one.effective for one in self.history}
        return self.effective if revision == self.revision else former.get(revision)
