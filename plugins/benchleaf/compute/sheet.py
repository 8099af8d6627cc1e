"""The case a set-up is reckoned for, and the sheet its rows are written on."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from benchleaf.diagnose import Code
from benchleaf.formulas.sources import source
from benchleaf.model import (
    DrillingSetUp,
    Holding,
    Job,
    Machine,
    Material,
    SetUp,
    Shop,
    Tool,
    Units,
    units_at,
    worked_at,
)

from .amounts import in_inches, told
from .declaration import Declaration, Value, ends, working
from .found import NOTHING_YET, Drilled, Found
from .grip import gripped
from .results import (
    Doubt,
    FeelCurve,
    Figure,
    Reach,
    Row,
    SetUpSheet,
    Side,
    SpeedStep,
    Stop,
    Sum,
)
from .told_sheet import told_curve, told_row


@dataclass(frozen=True, slots=True)
class Case:
    """A job's set-up operation with the records it uses."""

    job: Job
    index: int
    """Position in the job's list of set-ups."""
    operation: SetUp
    machine: Machine
    tool: Tool
    material: Material | None
    hole_drill: Tool | None = None
    """The drill that made the hole, where the operation names one."""
    units: Units = Units.METRIC
    """The units that the job's readers have first."""

    @property
    def drilling(self) -> DrillingSetUp:
        """The operation, where it is drilling: its stages are given no other."""
        if not isinstance(self.operation, DrillingSetUp):
            raise TypeError(f"{self.operation.operation} is no drilling")
        return self.operation

    @property
    def holding(self) -> Holding | None:
        """The operation's own holding, else the job's, with the friction that may be counted."""
        return gripped(self.operation.holding or self.job.holding, self.job, self.material)

    def path(self, *keys: str | int) -> tuple[str | int, ...]:
        """The path of a field of this set-up inside the job."""
        return ("set_ups", self.index, *keys)

    @property
    def holding_path(self) -> tuple[str | int, ...]:
        """The path of the holding inside the job."""
        return self.path("holding") if self.operation.holding else ("holding",)


def case_of(shop: Shop, job: Job, index: int, units: Units | None = None) -> Case | None:
    """The case, or None where a record it names does not exist (reported elsewhere)."""
    operation = job.set_ups[index]
    machine, tool = worked_at(shop, job, operation), shop.tools.get(operation.tool)
    material = shop.material_of(job)
    if machine is None or tool is None or (job.part and material is None):
        return None
    hole_drill = shop.tools.get(getattr(operation, "hole_drill", None) or "")
    units = units or units_at(shop, job)
    return Case(job, index, operation, machine, tool, material, hole_drill, units)


@dataclass(slots=True)
class Sheet:
    """Rows so far, the values later rows need, and the reasons not to run."""

    case: Case
    rows: list[Row] = field(default_factory=list)
    found: Found = field(init=False)
    range_by_ratio: bool = False
    """True where the range of cutting speed is a share of that of drilling."""
    steps: tuple[SpeedStep, ...] = ()
    feel: FeelCurve | None = None
    stops: list[Stop] = field(default_factory=list)
    cautions: list[str] = field(default_factory=list)
    """What belongs to this kind of work, for the reader."""
    doubts: list[Doubt] = field(default_factory=list)
    """What somebody should look at; shown to the reader too, and reported."""

    def __post_init__(self) -> None:
        self.found = NOTHING_YET[self.case.operation.operation]

    @property
    def drilled(self) -> Drilled:
        """What is found, where the operation is drilling: its stages are given no other."""
        if not isinstance(self.found, Drilled):
            raise TypeError(f"{self.case.operation.operation} is no drilling")
        return self.found

    @property
    def hole_drill_mm(self) -> float | None:
        """Diameter of the drill that made the hole, where it is known."""
        drill = self.case.hole_drill
        return drill.size.value if drill is not None and drill.size is not None else None

    def work(
        self,
        one: Declaration,
        *inputs: Any,
        after: str = "",
        beside: tuple[Sum, ...] = (),
        other: Figure | None = None,
        **details: str,
    ) -> Any:
        """Add a row that is worked out, and hand back its value, not rounded.

        `details` are what this row alone says: key, label, limits, note, first and also (further
        sources, before and after its own). `after` and the sums `beside` follow the arithmetic.
        """
        worked = one.work(*inputs)
        value, sums = worked.value, (*worked.sums, *beside)
        told = f"{working(sums)}{after}"
        other = other or one.in_other(value)
        self._add(one, value, one.figure(value), other, told, sums, details)
        return value

    def best(
        self,
        one: Declaration,
        sums: Sequence[Sum],
        beside: tuple[Sum, ...] = (),
        **details: str,
    ) -> None:
        """Add a row that is the greatest of several sums, each by a formula of its own."""
        value = max(part.value for part in sums)
        formulas = (part.formula.partition(" = ")[2] for part in sums)
        whole = replace(one, formula=f"{one.formula} = {', or '.join(formulas)}")
        shown, other = one.figure(value), one.in_other(value)
        told = working((*sums, *beside))
        self._add(whole, value, shown, other, told, (*sums, *beside), details)

    def tell(
        self,
        one: Declaration,
        value: Value,
        told: str,
        *,
        shown: Figure | None = None,
        other: Figure | None = None,
        sums: tuple[Sum, ...] = (),
        **details: str,
    ) -> None:
        """Add a row that is looked up or entered; `told` stands where a working would.

        `shown` and `other` are left out where they are as declared.
        """
        shown, other = shown or one.figure(value), other or one.in_other(value)
        self._add(one, value, shown, other, told, sums, details)

    def _add(
        self,
        one: Declaration,
        value: Value,
        shown: Figure,
        other: Figure | None,
        told: str,
        sums: tuple[Sum, ...],
        details: Mapping[str, str],
    ) -> None:
        entered = tuple(filter(None, (details.get(key, "") for key in ("first", "also"))))
        by = (details.get("first", ""), cited(*one.sources), details.get("also", ""))
        self.rows.append(
            Row(
                details.get("key", one.key),
                details.get("label", one.label),
                shown,
                other=other,
                formula=one.formula,
                working=told,
                source="; ".join(part for part in by if part),
                limits=details.get("limits", one.limits),
                note=details.get("note", one.note),
                sums=sums,
                looked_up=one.looked_up,
                value=ends(value),
                step=one.meant_step,
                is_set=one.is_set,
                reach=one.reach,
                source_keys=one.sources,
                entered=entered,
                inches=_inches(one, value, shown) if self.case.units is Units.INCH else None,
            )
        )

    def reach(
        self,
        *,
        least: float | None = None,
        most: float | None = None,
        advised: tuple[float | None, float | None] | None = None,
    ) -> None:
        """Say of the row just written between what it should lie, in its unit."""
        row = self.rows[-1]
        low, high = advised or (row.reach.advised_least, row.reach.advised_most)
        self.rows[-1] = replace(row, reach=Reach(least, most, low, high))

    def lacks(self, one: Declaration, missing: str, *, optional: bool = False) -> None:
        """Add a row that is not computed, naming what is wanted; or what few have, `optional`."""
        self.rows.append(Row(one.key, one.label, None, missing=missing, is_optional=optional))

    def doubt(self, code: str, side: Side, text: str) -> None:
        """Record that a figure lies outside what is recommended, and on which side."""
        self.doubts.append(Doubt(code, side, text))

    def stop(
        self,
        code: Code,
        reason: str,
        cure: str,
        path: tuple[str | int, ...] = (),
        *,
        side: Side = Side.ABOVE,
        of: str = "",
    ) -> None:
        """Record a reason not to run; `of` says which limit, where the code stands for several."""
        self.stops.append(Stop(code.id, reason, cure, path, side, of))

    def finished(self) -> SetUpSheet:
        """The sheet as a value; where the job is read in inches, with the sheet for its readers."""
        units = self.case.units
        other = self._told(units) if units is Units.INCH else None
        return replace(self._told(Units.METRIC), in_inches=other)

    def _told(self, units: Units) -> SetUpSheet:
        operation = self.case.operation
        return SetUpSheet(
            operation.id,
            operation.title,
            operation.operation,
            operation.tool,
            tuple(told_row(one, units) for one in self.rows),
            self.steps,
            tuple(
                replace(one, reason=told(one.reason, units), cure=told(one.cure, units))
                for one in self.stops
            ),
            tuple(told(one, units) for one in self.cautions),
            tuple(replace(one, text=told(one.text, units)) for one in self.doubts),
            self.found,
            told_curve(self.feel, units),
            units,
        )


def _inches(one: Declaration, value: Value, shown: Figure) -> Figure | None:
    """With as many digits as the figure is good for: an entered feed may have more than usual."""
    if one.shown < 0:
        return one.in_inches(value)
    return in_inches(*ends(value), one.unit, shown.decimals, one.toward)


class Stage:
    """A part of the reckoning: reads the case and values, writes rows."""

    __slots__ = ("rows", "run")

    def __init__(self, run: Callable[[Sheet], None], *rows: Declaration) -> None:
        self.run = run
        self.rows = rows
        """The rows that it always writes."""


def when(
    condition: Callable[[Sheet], bool], run: Callable[[Sheet], None]
) -> Callable[[Sheet], None]:
    """A stage's function that does nothing where the condition does not hold."""

    def guarded(sheet: Sheet) -> None:
        if condition(sheet):
            run(sheet)

    return guarded


def cited(*keys: str) -> str:
    """Citations of formulas, one for each title and status."""
    grouped: dict[tuple[str, str], list[str]] = {}
    for key in keys:
        one = source(key)
        grouped.setdefault((one.title, one.status.value), []).append(one.where)
    return "; ".join(
        f"{title}, {', '.join(places)} ({status})" for (title, status), places in grouped.items()
    )


def known(value: float | None) -> float:
    """A value that an earlier stage has made sure of.

    Raises:
        TypeError: it is not known after all, which is a fault of the stages' order
    """
    if value is None:
        raise TypeError("a value is used before it is found")
    return value


AND = ", and "
"""Between the names of what is missing, where a figure lacks more than one."""


def are_missing(names: str) -> str:
    """What a figure lacks, as a clause.

    >>> are_missing("size in tools/a"), are_missing("size in tools/a, and edges in tools/a")
    ('size in tools/a is missing', 'size in tools/a, and edges in tools/a are missing')
    """
    return f"{names} {'are' if AND in names else 'is'} missing"


def every_missing(*wanted: tuple[object, str]) -> tuple[str, ...]:
    """Each name whose value is None: all are told at once."""
    return tuple(name for value, name in wanted if value is None)


def first_missing(*wanted: tuple[object, str]) -> str | None:
    """The first name whose value is None."""
    return next((name for value, name in wanted if value is None), None)
