"""Pages of operations (formula, limits, sources) and of charts for the wall, as plain data."""

from __future__ import annotations

from dataclasses import dataclass

from benchleaf.compute import set_up_operations
from benchleaf.compute.relation import Operation
from benchleaf.compute.relations import OPERATIONS
from benchleaf.compute.sheet import cited

from .home_view import IndexRow, JobTile, job_tile
from .lookup import Lookup
from .values import Link


@dataclass(frozen=True, slots=True)
class FormulaView:
    """One formula of an operation."""

    label: str
    unit: str
    formula: str
    limits: str
    source: str


@dataclass(frozen=True, slots=True)
class OperationView:
    """Everything on an operation's page."""

    name: str
    what: str
    formulas: tuple[FormulaView, ...]
    jobs: tuple[JobTile, ...]


def operation_view(lookup: Lookup, operation: Operation) -> OperationView:
    """The view of one operation."""
    formulas = tuple(
        FormulaView(one.label, one.unit, one.formula, one.limits, cited(*one.sources))
        for one in operation.relations
    )
    jobs = (
        job_tile(lookup, job)
        for job in lookup.shop.jobs.values()
        if operation.name in set_up_operations(job)
    )
    return OperationView(_told(operation), operation.what, formulas, tuple(jobs))


def operation_rows() -> tuple[IndexRow, ...]:
    """Every operation for the list."""
    return tuple(
        IndexRow(Link(f"operations/{one.name}.html", _told(one).capitalize()), one.what)
        for one in OPERATIONS.values()
    )


def _told(operation: Operation) -> str:
    return operation.name.replace("-", " ")
