"""The case a set-up is reckoned for, and the sheet its rows are written on."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from types import MappingProxyType

from benchleaf.formulas.sources import source
from benchleaf.model import DrillingSetUp, Holding, Job, Machine, Material, SetUp, Shop, Tool

from .results import FeelCurve, Figure, Row, SetUpSheet, SpeedStep, Stop


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

    @property
    def drilling(self) -> DrillingSetUp:
        """The operation, where it is drilling: its stages are given no other."""
        if not isinstance(self.operation, DrillingSetUp):
            raise TypeError(f"{self.operation.operation} is no drilling")
        return self.operation

    @property
    def holding(self) -> Holding | None:
        """The operation's own holding, else the job's."""
        return self.operation.holding or self.job.holding

    def path(self, *keys: str | int) -> tuple[str | int, ...]:
        """The path of a field of this set-up inside the job."""
        return ("set_ups", self.index, *keys)

    @property
    def holding_path(self) -> tuple[str | int, ...]:
        """The path of the holding inside the job."""
        return self.path("holding") if self.operation.holding else ("holding",)


def case_of(shop: Shop, job: Job, index: int) -> Case | None:
    """The case, or None where a record it names does not exist (reported elsewhere)."""
    operation = job.set_ups[index]
    machine, tool = shop.machines.get(job.machine), shop.tools.get(operation.tool)
    material = shop.materials.get(job.part.material) if job.part else None
    if machine is None or tool is None or (job.part and material is None):
        return None
    hole_drill = shop.tools.get(getattr(operation, "hole_drill", None) or "")
    return Case(job, index, operation, machine, tool, material, hole_drill)


@dataclass(slots=True)
class Sheet:
    """Rows so far, the values later rows need, and the reasons not to run."""

    case: Case
    rows: list[Row] = field(default_factory=list)
    values: dict[str, float] = field(default_factory=dict)
    steps: tuple[SpeedStep, ...] = ()
    feel: FeelCurve | None = None
    stops: list[Stop] = field(default_factory=list)
    cautions: list[str] = field(default_factory=list)
    """What belongs to this kind of work, for the reader."""
    doubts: list[str] = field(default_factory=list)
    """What somebody should look at; shown to the reader too, and reported."""

    @property
    def hole_drill_mm(self) -> float | None:
        """Diameter of the drill that made the hole, where it is known."""
        drill = self.case.hole_drill
        return drill.size.value if drill is not None and drill.size is not None else None

    def has(self, *names: str) -> bool:
        """True when every value named has been computed."""
        return all(name in self.values for name in names)

    def write(self, key: str, label: str, shown: Figure, **details: object) -> None:
        """Add a computed row; `source` may be a key of the table of sources."""
        self.rows.append(Row(key, label, shown, **details))  # type: ignore[arg-type]

    def lacks(self, key: str, label: str, missing: str) -> None:
        """Add a row that is not computed, naming what is wanted."""
        self.rows.append(Row(key, label, None, missing=missing))

    def stop(self, code: str, reason: str, cure: str, path: tuple[str | int, ...] = ()) -> None:
        """Record a reason not to run."""
        self.stops.append(Stop(code, reason, cure, path))

    def finished(self) -> SetUpSheet:
        """The sheet as a value."""
        operation = self.case.operation
        return SetUpSheet(
            operation.id,
            operation.title,
            operation.operation,
            operation.tool,
            tuple(self.rows),
            self.steps,
            tuple(self.stops),
            tuple(self.cautions),
            tuple(self.doubts),
            MappingProxyType(self.values),
            self.feel,
        )


class Stage:
    """A part of the reckoning: reads the case and values, writes rows."""

    __slots__ = ("rows", "run")

    def __init__(self, run: Callable[[Sheet], None], *rows: tuple[str, str]) -> None:
        self.run = run
        self.rows = rows
        """Key and label of each row it always writes."""


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


def first_missing(*wanted: tuple[object, str]) -> str | None:
    """The first name whose value is None."""
    return next((name for value, name in wanted if value is None), None)
