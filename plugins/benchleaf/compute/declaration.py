"""What a figure is, declared once: a job's row, an operation's page and `reckon` come of it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import radians
from types import MappingProxyType
from typing import Any

from benchleaf.formulas.quantities import in_unit
from benchleaf.formulas.rounding import Direction

from .amounts import in_inches
from .arithmetic import Term, places, reading
from .results import Figure, Reach, Sum, figure, inside, rough, told_in

Value = float | tuple[float, float]
IN_INCHES = ("length", "in", 3)
"""For `other`: a length is told in inches, too."""
STEPS = MappingProxyType(
    {
        "rpm": 1.0, "m/min": 0.1, "mm/rev": 0.001, "mm/min": 1.0, "mm3/min": 10.0, "mm": 0.01,
        "N": 1.0, "N m": 0.01, "kW": 0.001, "s": 0.1, "min": 0.1, "h": 0.01, "%": 0.1,
        "deg": 0.1, "° of lever": 1.0, "% of the pull": 1.0, "times": 0.01,
        "times the torque": 0.01, "turns": 0.5, "holes": 1.0, "pecks": 1.0, "pieces": 0.1,
        "threads an inch": 1.0, "turn forward": 0.25, "diameters": 0.1,
        "times the lips' thrust": 0.01,
    }
)  # fmt: skip
"""The least difference of a figure that is another meaning, by its unit. A house rule.

It is never taken from the digits shown: a page may show more or fewer, and mean the same.
"""
MOST_MORE = 8
"""Digits more than usual that a number may be put in with."""


@dataclass(frozen=True, slots=True)
class Symbol:
    """A word of a printed formula, and how its number is put in."""

    name: str
    """A number stands for itself, printed rounded: 1.299."""
    unit: str = ""
    """None: a pure number. An angle, `°`, is put in with its sign."""
    decimals: int | None = None
    """Digits after the point at least; None: as it was entered."""

    def text(self, value: float, more: int) -> str:
        """The number put in, with so many digits more where it has them."""
        if self.decimals is None:
            bare = f"{value:.{6 + more}g}"
            bare = bare if "e" not in bare else f"{value:.{6 + more}f}".rstrip("0").rstrip(".")
        else:
            exact = (d for d in range(self.decimals, self.decimals + more)
                     if abs(round(value, d) - value) < 1e-12)  # fmt: skip
            bare = f"{value:.{next(exact, self.decimals + more)}f}"
        bare = bare.replace("-", "−")
        if self.unit == "°":
            return f"{bare}°"
        return f"({bare})" if bare.startswith("−") else bare


@dataclass(frozen=True, slots=True)
class Worked:
    """A value, not rounded, with the arithmetic that gives it; none where it is looked up."""

    value: Value
    sums: tuple[Sum, ...]


@dataclass(frozen=True, slots=True)
class Declaration:
    """A figure: what it is called, how it is worked out and printed, and what it rests on."""

    key: str
    label: str
    unit: str
    shown: int
    """Digits after the point on a job's page; -2 for two significant digits."""
    worked: int
    """Digits after the point in a working."""
    inputs: tuple[str, ...]
    """What it is reckoned from, as `benchleaf reckon` calls it."""
    run: Callable[..., Value]
    """From the inputs, in their order; two numbers are a range."""
    formula: str
    """`name = arithmetic, words of rounding`; or words alone, where `looked_up` says why."""
    symbols: tuple[Symbol, ...]
    """The words of the arithmetic, in the order of `inputs` unless `numbers` gives them."""
    sources: tuple[str, ...]
    limits: str = ""
    note: str = ""
    other: tuple[str, str, int] | None = None
    """Kind of quantity, the other unit, digits after its point (-2: two significant)."""
    numbers: Callable[..., Mapping[str, Any]] | None = None
    """The symbols' numbers from the inputs; for a range, pairs."""
    gives: Callable[..., Value] | None = None
    """What the arithmetic gives, where `run` goes on from it as the words of the formula say."""
    looked_up: str = ""
    """Why it is no arithmetic: the table or rule that it comes from."""
    name: str = ""
    """Its name in `benchleaf reckon`, where it is not the key."""
    asked: int | None = None
    """Digits after the point in `reckon`, where they are not those of a working."""
    lead: str = ""
    """Words before the arithmetic, where it stands beside another."""
    inward: bool = False
    """True for a range whose ends, as shown, must not lie outside it."""
    toward: Direction = "nearest"
    """To which side it is rounded where it is a limit or rough: what is wanted up, in inches; what
    resists down, in both."""
    least: float | None = None
    """Below it the result is shown as broken: do not run."""
    most: float | None = None
    advised_most: float | None = None
    """Above it somebody should look first."""
    doubt: Callable[..., str] | None = None
    """From the inputs: what somebody should look at before it is used; empty where nothing."""
    told: Callable[..., str] | None = None
    """From the inputs: what a figure from them says beside the number, such as a drill's name."""
    step: float | None = None
    """The least difference that is another meaning, where it is not that of its unit."""
    is_set: bool = False
    """True where the operator sets the machine to it: another number is taught again."""
    suits: Callable[[Mapping[str, Any]], bool] | None = None
    """From all that is known: whether this way is the one; else the next of its name goes."""
    missed_with: tuple[str, ...] = ()
    """Where none of these is given nobody asks for it, and it is not told as missing."""
    regards: tuple[str, ...] = ()
    """What it takes into account where it is known, after `inputs`; None where it is not."""
    is_stand_in: bool = False
    """True where it goes only for want of the input: what is given is not held against it."""

    def note_of(self, *inputs: Any) -> str:
        """What is said beside the figure, for these inputs and always."""
        told = self.told(*inputs) if self.told else ""
        return "; ".join(part for part in (told, self.note) if part)

    @property
    def reach(self) -> Reach:
        """Between what it should lie wherever it is reckoned."""
        return Reach(self.least, self.most, None, self.advised_most)

    @property
    def meant_step(self) -> float:
        """The least difference that is another meaning, whatever is shown of it."""
        return STEPS[self.unit] if self.step is None else self.step

    @property
    def asked_as(self) -> str:
        """Its name in `benchleaf reckon`."""
        return self.name or self.key

    @property
    def arithmetic(self) -> str:
        """The formula without the name it gives and without words of rounding."""
        return self.formula.partition(" = ")[2].partition(", ")[0]

    def figure(self, value: Value) -> Figure:
        """The value as it is shown on a job's page."""
        low, high = ends(value)
        if self.inward:
            return inside(low, high, self.unit, self.shown)
        if self.shown < 0:
            return rough(low, self.unit, -self.shown, toward=self.rough_toward)
        return figure(low, self.unit, self.shown, high)

    def in_inches(self, value: Value) -> Figure | None:
        """As an inch shop reads it; None where the unit is the same there."""
        return in_inches(*ends(value), self.unit, self.shown, self.toward)

    def in_other(self, value: Value) -> Figure | None:
        """The same in the other unit."""
        if self.other is None:
            return None
        kind, unit, decimals = self.other
        low, high = (in_unit(end, kind, unit) for end in ends(value))
        if self.inward:
            return inside(low, high, unit, decimals)
        if decimals < 0:
            return rough(low, unit, -decimals, toward=self.rough_toward)
        return told_in(self.figure(value), kind, unit, decimals)

    @property
    def rough_toward(self) -> Direction:
        """To which side a rough figure is rounded: what resists never looks better than it is."""
        return "down" if self.toward == "down" else "nearest"

    @property
    def asked_digits(self) -> int:
        """Digits after the point in `reckon`; -2 for two significant digits."""
        if self.shown < 0:
            return self.shown
        return self.worked if self.asked is None else self.asked

    def work(self, *inputs: Any, digits: int | None = None) -> Worked:
        """The value, and the arithmetic with its numbers put in: one sum for each end."""
        value = self.run(*inputs)
        if self.looked_up:
            return Worked(value, ())
        names = [one.name for one in self.symbols]
        numbers = self.numbers(*inputs) if self.numbers else dict(zip(names, inputs, strict=True))
        gives = ends(self.gives(*inputs) if self.gives else value)
        places = self.worked if digits is None else max(digits, self.worked)
        is_range = any(isinstance(one, tuple) for one in numbers.values())
        return Worked(
            value,
            tuple(
                self._sum(_end(numbers, at), places, gives[at])
                for at in range(2 if is_range else 1)
            ),
        )

    def sums(self, *inputs: Any) -> tuple[Sum, ...]:
        """The arithmetic alone."""
        return self.work(*inputs).sums

    def _sum(self, numbers: Mapping[str, float], digits: int, gives: float) -> Sum:
        """Put in as few digits as give the result that is printed."""
        term = reading(self.arithmetic, tuple(one.name for one in self.symbols))
        result = f"{term(self._radians(numbers)):.{digits}f}"
        for more in range(MOST_MORE):
            texts = {one.name: one.text(numbers[one.name], more) for one in self.symbols}
            if _comes_to(term, self._radians(_read(texts)), digits) == result:
                break
        put_in = places(tuple(texts)).sub(lambda found: texts[found.group()], self.arithmetic)
        _, comma, words = self.formula.partition(", ")
        result = result.replace("-", "−")
        text = f"{self.lead}{put_in} = {result} {self.unit}{comma}{words}"
        return Sum(self.formula, tuple(numbers.items()), gives, text)

    def _radians(self, numbers: Mapping[str, float]) -> dict[str, float]:
        return {
            one.name: radians(numbers[one.name]) if one.unit == "°" else numbers[one.name]
            for one in self.symbols
        }


def _comes_to(term: Term, numbers: Mapping[str, float], digits: int) -> str:
    """What the numbers as printed give; empty where one of them is printed as nothing."""
    try:
        return f"{term(numbers):.{digits}f}"
    except (ArithmeticError, ValueError):
        return ""


def _read(texts: Mapping[str, str]) -> dict[str, float]:
    return {name: float(text.strip("()°").replace("−", "-")) for name, text in texts.items()}


def _end(numbers: Mapping[str, Any], at: int) -> dict[str, float]:
    return {name: one[at] if isinstance(one, tuple) else one for name, one in numbers.items()}


def ends(value: Value) -> tuple[float, float]:
    """Low and high end; the same where it is no range."""
    return value if isinstance(value, tuple) else (value, value)


def working(sums: Sequence[Sum]) -> str:
    """Sums one after another."""
    return "; ".join(one.text for one in sums)
