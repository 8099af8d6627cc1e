"""A job: one breakdown, the important steps with their key points and reasons."""

from __future__ import annotations

import re
from datetime import date
from enum import StrEnum

from pydantic import Field, field_validator, model_validator
from pydantic_core import PydanticCustomError

from .accepted import Accepted
from .fields import Length, Limits, Mass, ToleranceClass
from .ids import FluidRef, HazardRef, Id, JobRef, MachineRef, MaterialRef, Text, ToolRef
from .operations import SetUp
from .picture import Picture
from .piece_rate import PieceRate
from .record import Record, Revision
from .setup import Holding
from .teaching_aids import HandsInside, NotMet, PlantedFault, Tray


class KeyPointKind(StrEnum):
    """The trade's three tests of a key point."""

    MAKES_OR_BREAKS = "makes or breaks the job"
    CAN_INJURE = "can injure"
    EASIER = "makes it easier"


class KeyPoint(Record):
    """Something in a step that must be so, and why."""

    point: Text
    """What must be so, one thing only, as a command."""
    reason: Text
    """Why it must be so: what happens otherwise."""
    kind: KeyPointKind
    """Which of the three tests it meets."""


class Check(Record):
    """What good looks like: the thing checked, its limits, and the gauge."""

    what: Text
    """What is checked."""
    limits: Limits | None = None
    """Size with its limits, or a range."""
    size: Length | None = None
    """Nominal size, with `fit` instead of `limits`."""
    fit: ToleranceClass | None = None
    """The class of ISO 286 that gives the limits of that size, such as H7."""
    gauge: ToolRef | None = None
    """The gauge it is checked with, by id."""
    how: Text | None = None
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


TRAINER_KEYS = ("trainer", "planted", "props", "hand_contact")
"""Keys of a step that are for the trainer alone: no page of the kiosk shows them."""


class Step(Record):
    """One important step: after it, the piece is nearer to done than before."""

    id: Id
    """Never changes; it is the step's address."""
    title: str
    """Starts with a verb."""
    key_points: tuple[KeyPoint, ...] = Field(min_length=1)
    """What makes or breaks the step, can injure, or makes it easier."""
    hazards: tuple[HazardRef, ...] = ()
    """The hazards that bite in this step, by id; shown before it."""
    stand: Text | None = None
    """Where to stand."""
    right: Text | None = None
    """What it feels, sounds or looks like when right."""
    checks: tuple[Check, ...] = ()
    """What is measured or looked at here."""
    set_up: Id | None = None
    """The id of the job's set-up whose values belong to this step."""
    picture: Picture | None = None
    """A picture of the one thing that words show badly."""
    lockout: LockoutStage | None = None
    """The stage of lockout that this step carries out, in a servicing job."""
    hands_inside: HandsInside | None = None
    """Where hands go inside the machine: what they do, and what protects them."""
    trainer: Text | None = None
    """What the trainer does here while teaching."""
    planted: PlantedFault | None = None
    """One thing that the trainer sets wrong on purpose here, and puts right again."""
    props: tuple[Text, ...] = ()
    """What the trainer needs here for the lesson: samples, scrap, a bad part."""
    hand_contact: Text | None = None
    """Where and why the trainer touches the learner's hand; left out, it means never."""


class Part(Record):
    """The part a job works on."""

    number: str
    """The part number, as on the drawing."""
    name: str
    """What the part is called."""
    drawing: str
    """The drawing and its issue."""
    material: MaterialRef
    """The material, by id."""
    stock: str
    """The form it arrives in."""
    mass: Mass | None = None
    """Mass of one piece."""

    @field_validator("number")
    @classmethod
    def _has_a_letter_or_digit(cls, value: str) -> str:
        if not part_id(value):
            raise PydanticCustomError(
                "part_number", "'{value}' is no part number", {"value": value}
            )
        return value

    @property
    def id(self) -> str:
        """The number as an id."""
        return part_id(self.number)


def part_id(number: str) -> str:
    """A part number as an id: lower case, single hyphens for all other signs.

    >>> part_id("TRW 204/B")
    'trw-204-b'
    """
    return re.sub(r"[^a-z0-9]+", "-", number.lower()).strip("-")


class Trouble(Record):
    """Something that can go wrong, and what to do."""

    sign: Text
    """What the operator sees, hears or feels."""
    do: tuple[Text, ...] = Field(min_length=1)
    """What to do, in order, the stop first."""


class Revised(Record):
    """A former revision, and what it changed."""

    revision: Revision
    """The former revision."""
    effective: date
    """The day it came into force."""
    note: Text
    """What it changed."""


class Job(Record):
    """One breakdown."""

    id: Id
    """Such as TR-0140; shown in capitals."""
    title: str
    """What is done to what, starting with a verb."""
    revision: Revision
    """Number or letters; it goes on with every change of meaning."""
    effective: date
    """The day this revision came into force."""
    approved_by: str
    """A role, not a name."""
    change_note: Text
    """What this revision changed."""
    history: tuple[Revised, ...] = ()
    """Former revisions, the newest first."""
    reviewed: date | None = None
    """The day on which somebody last read it all at the machine and found it right."""
    picture: Picture | None = None
    """The finished work."""
    makes: Text
    """What the job makes."""
    matters: Text
    """Why it matters in the assembly."""
    machine: MachineRef
    """The machine that it is done at, by id."""
    part: Part | None = None
    """Left out for a job that works on no part, such as a speed change."""
    tools: tuple[ToolRef, ...] = ()
    """Every tool and gauge of the job, by id."""
    fluid: FluidRef | None = None
    """The cutting fluid, by id; left out for dry work."""
    holding: Holding | None = None
    """How the work is held; a set-up may hold it otherwise."""
    know_first: tuple[JobRef, ...] = ()
    """Jobs the learner must be able to do before."""
    must_know: tuple[Text, ...] = ()
    """Other things the learner must know before."""
    operation_before: JobRef | None = None
    """The job that hands the part on to this one."""
    operation_after: JobRef | None = None
    """The job that takes the part next."""
    end_of_route: Text | None = None
    """Where the part goes after this job, where no operation follows."""
    authorised_only: Text | None = None
    """Who alone may do it; everybody else is told whom to call."""
    wear: tuple[Text, ...] = Field(min_length=1)
    """Protective equipment for this job."""
    take_off: tuple[Text, ...] = Field(min_length=1)
    """What must come off or be tied back."""
    hazards: tuple[HazardRef, ...] = ()
    """Hazards of the whole job; the machine's own are added."""
    not_met: tuple[NotMet, ...] = ()
    """Hazards of the machine that this job never meets, each with the reason."""
    have_ready: tuple[Text, ...] = ()
    """What to have ready besides tools and fluid."""
    set_ups: tuple[SetUp, ...] = ()
    """The operations whose figures are worked out, in order."""
    steps: tuple[Step, ...] = Field(min_length=1)
    """The important steps, in the order in which they are done."""
    if_wrong: tuple[Trouble, ...] = Field(min_length=1)
    """What can go wrong, and what to do then."""
    call: Text | None = None
    """Whom to call, where it is not the manual's usual person."""
    hand_on: Text
    """How to leave the finished part, and how the next tells good, bad and missing apart."""
    tray: Tray | None = None
    """The tray or board that the parts are handed on in, drawn from its numbers."""
    piece_rate: PieceRate | None = None
    """How long a piece takes somebody who knows the job."""
    accept: tuple[Accepted, ...] = ()
    """Warnings that do not fit this job, each with the reason."""
