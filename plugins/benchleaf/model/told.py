"""What other programs are told of figures: the JSON of `benchleaf reckon`, and its schema.

Each class is one object of that JSON. A key's meaning stands under it and goes into the schema.
"""

from __future__ import annotations

from typing import Any, Literal

from pydantic import BaseModel, ConfigDict

from .schema import DIALECT

Side = Literal["above", "below"]


class Told(BaseModel):
    """The base: frozen, and no key that the schema does not name."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", use_attribute_docstrings=True, allow_inf_nan=False
    )


class Amount(Told):
    """A number or a range in one unit, not rounded."""

    value: float | None
    """The number; null where it is a range."""
    low: float
    """Lower end; the number itself where it is no range."""
    high: float
    """Upper end; the number itself where it is no range."""
    unit: str
    """Unit of the numbers; a count is told by what is counted."""


class ShownAmount(Told):
    """A number or a range as a page shows it: rounded."""

    low: float
    """Lower end, as shown."""
    high: float
    """Upper end, as shown."""
    unit: str
    """Unit of the numbers."""
    shown: str
    """Number and unit as text."""


class Working(Told):
    """A formula with its numbers put in."""

    formula: str
    """The formula, its symbols as words."""
    numbers: dict[str, float]
    """Each symbol with its number, not rounded, in the units of the text."""
    value: float
    """What was reckoned, not rounded."""
    text: str
    """The line as it is printed."""


class Bounds(Told):
    """Between what a figure should lie, in the figure's own unit."""

    at_least: float | None
    """Least value; null where there is none."""
    at_most: float | None
    """Greatest value; null where there is none."""
    side: Side | None
    """On which side of the bounds the figure lies; null where it lies within, or none are given."""


class Limits(Told):
    """Until where a figure holds, and what it is compared with."""

    text: str
    """In words; every limit stands here, also those that are no numbers."""
    do_not_run: Bounds
    """Outside these nobody may run it."""
    advised: Bounds
    """Outside these somebody should look first."""


class Cited(Told):
    """One place that a figure comes from."""

    key: str | None
    """Key of a source of the formulas; null for what the shop's records say."""
    title: str
    """The publication, or the words of the record."""
    where: str
    """Edition, page or table; empty for a record."""
    status: str
    """How the figure was obtained, such as read, second-hand or from memory."""


class ToldFigure(Told):
    """One figure, with everything that lets a reader follow it."""

    key: str
    """Stable name."""
    label: str
    """What it is called on pages."""
    value: float | None
    """The number, not rounded; null where it is a range."""
    low: float
    """Lower end, not rounded."""
    high: float
    """Upper end, not rounded."""
    unit: str
    """Unit of value, low and high, as pages use it."""
    si: Amount
    """The same in coherent SI units, not rounded: m, s, N, W, rad; counts and shares as 1."""
    shown: str
    """Number and unit as pages show it, rounded to what the figure is good for."""
    other: ShownAmount | None
    """The same in a second unit, as pages show it; null where it is told in one unit only."""
    formula: str
    """The formula or rule in words."""
    working: str
    """The formula with its numbers, as printed."""
    sums: tuple[Working, ...]
    """The arithmetic of the working, and of limits that are worked out; empty for a look-up."""
    looked_up: str
    """Why the working is no arithmetic; empty where it is."""
    limits: Limits
    """Until where it holds."""
    note: str
    """How good it is, and what else belongs to it; may be empty."""
    step: float
    """The least difference that counts as another figure."""
    is_set: bool
    """True where the operator sets the machine to it."""
    source: str
    """All sources in one text, as printed."""
    sources: tuple[Cited, ...]
    """The sources one by one."""


class ToldDoubt(Told):
    """A figure outside what is recommended: somebody should look."""

    key: str | None
    """Key of the figure; null where the text alone says which."""
    code: str | None
    """Name of the rule; null for an operation without a job."""
    side: Side | None
    """On which side of what is recommended; null where the text alone says it."""
    text: str
    """The words shown."""


class ToldStop(Told):
    """A reason not to run."""

    code: str
    """Code of the finding: `benchleaf explain` tells more."""
    side: Side
    """Whether the figure is more than is allowed or less."""
    reason: str
    """What is wrong."""
    cure: str
    """What to do about it."""
    path: tuple[str | int, ...]
    """Field of the job that it comes from."""


class ToldSpeed(Told):
    """One spindle speed of the machine."""

    rpm: float
    """Turns a minute."""
    inside: bool
    """True inside the range wanted."""
    chosen: bool
    """True for the speed to set."""


class ToldZone(Told):
    """A stretch of the way with one feel."""

    key: str
    """Name of the feel."""
    start: float
    """Where it begins."""
    end: float
    """Where it ends."""
    wall: int
    """1 for the first wall, 2 for the far one of a tube."""


class ToldFeel(Told):
    """What the hand feels along the way."""

    along: str
    """What is counted along the way."""
    upward: str
    """What rises, with its unit."""
    points: tuple[tuple[float, float], ...]
    """Way and force, point after point."""
    zones: tuple[ToldZone, ...]
    """Stretches with one feel."""


class ToldMissing(Told):
    """A figure of a set-up that is not computed."""

    key: str
    """Stable name."""
    label: str
    """What it is called on pages."""
    missing: str
    """The key or value that is wanted."""
    is_optional: bool
    """True where few shops have what is missing, so that no check asks for it."""


class ToldSetUp(Told):
    """One set-up of a job."""

    id: str
    """Id of the set-up."""
    title: str
    """What it does."""
    operation: str
    """Kind of cut."""
    tool: str
    """Id of the tool."""
    may_run: bool
    """False where a limit is broken or the holding is not shown."""
    do_not_run: tuple[ToldStop, ...]
    """The reasons not to run; empty where it may run."""
    results: tuple[ToldFigure, ...]
    """Every figure, in the order of the page."""
    not_computed: tuple[ToldMissing, ...]
    """Figures that are not computed, and what is wanted."""
    doubts: tuple[ToldDoubt, ...]
    """Figures outside a recommended range."""
    cautions: tuple[str, ...]
    """What belongs to this kind of work."""
    spindle_speeds: tuple[ToldSpeed, ...]
    """The machine's speeds against the range wanted."""
    feel: ToldFeel | None
    """What the hand feels; null where it is not computed."""


class ToldJob(Told):
    """The set-ups of one job: `benchleaf reckon JOB --format json`."""

    format: Literal["benchleaf set-ups 1"]
    """Name and version of this shape: a key that goes or changes its meaning raises it."""
    job: str
    """Number of the job."""
    title: str
    """What the job does."""
    revision: str
    """Its revision."""
    may_run: bool
    """False where one of the set-ups must not be run, or the job is on hold."""
    set_ups: tuple[ToldSetUp, ...]
    """The set-ups in their order."""


class ToldUnknown(Told):
    """A figure of an operation that cannot be had."""

    key: str
    """Stable name."""
    label: str
    """What it is called on pages."""
    why: str
    """What to give, or why no formula covers it."""


class ToldReckoning(Told):
    """What follows from inputs: `benchleaf reckon OPERATION ... --format json`."""

    format: Literal["benchleaf reckoning 1"]
    """Name and version of this shape: a key that goes or changes its meaning raises it."""
    operation: str
    """Name of the operation."""
    what: str
    """What the operation gives."""
    given: dict[str, str]
    """The inputs as they were written."""
    within_limits: bool
    """False where a result says do not run."""
    results: tuple[ToldFigure, ...]
    """Every figure that follows."""
    not_computed: tuple[ToldUnknown, ...]
    """Figures that do not follow, and why."""
    doubts: tuple[ToldDoubt, ...]
    """Figures that somebody should look at."""
    cautions: tuple[str, ...]
    """What belongs to this kind of work; a job has more."""


TOLD: dict[str, type[Told]] = {"set-ups": ToldJob, "reckoning": ToldReckoning}
"""The documents by the name of their schema."""


def told_schema(name: str) -> dict[str, Any]:
    """The JSON Schema of one document."""
    return {"$schema": DIALECT, **TOLD[name].model_json_schema(mode="serialization")}
