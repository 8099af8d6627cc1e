"""What a set-up is made of: rows that show their working, and the reasons not to run."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import StrEnum

from benchleaf.formulas.quantities import KINDS, in_unit
from benchleaf.formulas.rounding import Direction, significant, to_step
from benchleaf.formulas.unit_order import Units

from .found import Drilled, Found


@dataclass(frozen=True, slots=True)
class Figure:
    """A value or range in one unit, rounded to what a shop can set or measure."""

    low: float
    high: float
    unit: str
    decimals: int
    """Digits after the point when shown."""

    @property
    def text(self) -> str:
        """Number and unit, such as `850 rpm` or `24 to 30 m/min`.

        Turns are told as a hand counts them: in halves, and never more than were reckoned.

        >>> Figure(14.6, 14.6, "turns", 1).text
        '14 and a half turns'
        """
        if self.unit == "turns":
            halves = int(2 * self.high)
            return f"{halves // 2}{' and a half' if halves % 2 else ''} turns"
        return f"{self.number} {self.unit}"

    @property
    def number(self) -> str:
        """The number or the range alone: what stands beside it says the unit."""
        low, high = (f"{end:.{self.decimals}f}" for end in (self.low, self.high))
        return low if low == high else f"{low} to {high}"


@dataclass(frozen=True, slots=True)
class Sum:
    """A formula with its numbers put in, and what stands behind the digits printed."""

    formula: str
    numbers: tuple[tuple[str, float], ...]
    """Each symbol of the formula with its number, not rounded."""
    value: float
    """What was reckoned, by the function and not by the formula printed; not rounded."""
    text: str
    """As it is printed: `π × 8.5 × 900 ÷ 1000 = 24.0 m/min`."""


class Side(StrEnum):
    """On which side of what is allowed or recommended a figure lies."""

    ABOVE = "above"
    BELOW = "below"


def side_of(value: float, low: float) -> Side:
    """The side of a value that lies outside a range; `low` is its lower end."""
    return Side.BELOW if value < low else Side.ABOVE


@dataclass(frozen=True, slots=True)
class Reach:
    """Between what a figure should lie, in its own unit, not rounded."""

    least: float | None = None
    """Below it nobody may run it."""
    most: float | None = None
    """Above it nobody may run it."""
    advised_least: float | None = None
    """Below it somebody should look first."""
    advised_most: float | None = None


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a set-up: the figure, and everything that lets a reader follow it."""

    key: str
    """A stable name, such as `spindle_speed`."""
    label: str
    figure: Figure | None
    """None where it is not computed."""
    other: Figure | None = None
    """The same in the other system of units."""
    formula: str = ""
    working: str = ""
    """The formula with its numbers put in."""
    source: str = ""
    limits: str = ""
    """Between what, or until what, the figure holds."""
    note: str = ""
    missing: str = ""
    """The key that is wanted, where the figure is not computed."""
    is_optional: bool = False
    """True where few shops have what is missing: the page says so, and no check asks for it."""
    sums: tuple[Sum, ...] = ()
    """The arithmetic of the working, one for each end of a range."""
    looked_up: str = ""
    """Why the working is no arithmetic: the table or rule that the figure comes from."""
    value: tuple[float, float] | None = None
    """What was reckoned, low and high end, not rounded."""
    step: float = 0.0
    """The least difference of the value that is another meaning."""
    is_set: bool = False
    """True where the operator sets the machine to it, in that step."""
    reach: Reach = field(default_factory=Reach)
    """The limits that are numbers."""
    source_keys: tuple[str, ...] = ()
    """Keys of the formulas' sources."""
    entered: tuple[str, ...] = ()
    """Sources that the records say."""
    inches: Figure | None = None
    """The figure as an inch shop reads it, where the set-up is told in inches first."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """A figure outside what is recommended: which rule, on which side, and the words shown."""

    code: str
    side: Side
    text: str


@dataclass(frozen=True, slots=True)
class Stop:
    """A broken limit: the reason not to run, and the field of the job it comes from."""

    code: str
    reason: str
    cure: str
    path: tuple[str | int, ...] = ()
    side: Side = Side.ABOVE
    """Whether the figure is more than is allowed or less."""
    of: str = ""
    """Which limit it is, where one code stands for several."""


@dataclass(frozen=True, slots=True)
class SpeedStep:
    """One spindle speed of the machine against the range wanted."""

    rpm: float
    inside: bool
    chosen: bool


@dataclass(frozen=True, slots=True)
class FeelZone:
    """A stretch of the curve with one feel; keys as in the formulas, wall 2 the far one."""

    key: str
    start: float
    end: float
    wall: int


@dataclass(frozen=True, slots=True)
class FeelCurve:
    """Pull of the hand against swing of the lever, or thrust against travel without a lever."""

    points: tuple[tuple[float, float], ...]
    """Swing and pull."""
    zones: tuple[FeelZone, ...]
    along: str
    """What is counted along the way, such as `degrees of lever`."""
    upward: str
    """What rises, with its unit."""


@dataclass(frozen=True, slots=True)
class SetUpSheet:
    """A computed set-up. Where `stops` holds anything, nobody may run it."""

    id: str
    title: str
    operation: str
    tool: str
    rows: tuple[Row, ...]
    speed_steps: tuple[SpeedStep, ...]
    stops: tuple[Stop, ...]
    cautions: tuple[str, ...]
    """What belongs to this kind of work."""
    doubts: tuple[Doubt, ...] = ()
    """Figures outside a recommended range: somebody should look."""
    found: Found = field(default_factory=Drilled)
    """Values not rounded, for drawings to scale."""
    feel: FeelCurve | None = None
    """What the hand feels along the way through the work."""
    units: Units = Units.METRIC
    """The units that its rows and sentences have first."""
    in_inches: SetUpSheet | None = None
    """The same told in inches first, where the shop reads it so: for pages, never for a meaning."""

    @property
    def as_read(self) -> SetUpSheet:
        """The sheet in the units that its readers have first."""
        return self.in_inches or self

    @property
    def may_run(self) -> bool:
        """False where a limit is broken or the holding is not shown."""
        return not self.stops

    def row(self, key: str) -> Row | None:
        """The row of that key, or None."""
        return next((row for row in self.rows if row.key == key), None)


def figure(value: float, unit: str, decimals: int, high: float | None = None) -> Figure:
    """A figure with a fixed number of decimals; `high` makes it a range."""
    ends = (value, value if high is None else high)
    low, top = (round(end, decimals) for end in ends)
    return Figure(low, top, unit, decimals)


def inside(low: float, high: float, unit: str, decimals: int) -> Figure:
    """A range rounded inwards, so that no end shown lies outside it.

    >>> inside(24.384, 33.528, "m/min", 1).text
    '24.4 to 33.5 m/min'
    """
    step = 10.0**-decimals
    ends = to_step(low, step, direction="up"), to_step(high, step, direction="down")
    if ends[0] > ends[1]:  # narrower than a step: the nearest is the best there is
        ends = to_step(low, step), to_step(high, step)
    return Figure(*ends, unit, decimals)


def rough(value: float, unit: str, digits: int = 2, *, toward: Direction = "nearest") -> Figure:
    """A figure good to a few significant digits only, such as a torque good to a third.

    What resists is rounded down, so that it never looks better than it is.

    >>> rough(8.7312, "N m").text
    '8.7 N m'
    >>> rough(3038.2, "N").text, rough(3099.9, "N", toward="down").text
    ('3000 N', '3000 N')
    """
    if toward != "nearest" and value:
        step = 10.0 ** (math.floor(math.log10(abs(value))) + 1 - digits)
        value = to_step(value, step, direction=toward)
    rounded = significant(value, digits)
    whole_digits = len(str(int(abs(rounded)))) if abs(rounded) >= 1 else 0
    return Figure(rounded, rounded, unit, max(0, digits - whole_digits))


def told_in(shown: Figure, kind: str, unit: str, decimals: int) -> Figure:
    """The same figure in another unit, from the value shown, so that both columns agree."""
    if shown.unit != KINDS[kind].base:
        raise ValueError(f"{shown.unit} is not the base unit of {kind}")
    low, high = (in_unit(end, kind, unit) for end in (shown.low, shown.high))
    return figure(low, unit, decimals, high)
