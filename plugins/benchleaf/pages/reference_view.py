"""Pages of operations (formula, limits, sources) and of charts for the wall, as plain data."""

from __future__ import annotations

from dataclasses import dataclass

from benchleaf.compute import set_up_operations
from benchleaf.compute import told as in_words
from benchleaf.compute.charts import Chart
from benchleaf.compute.operation import Operation
from benchleaf.compute.operations import OPERATIONS
from benchleaf.compute.sheet import cited
from benchleaf.html.lookup import Lookup
from benchleaf.html.values import Link
from benchleaf.model import Units

from .home_view import IndexRow, JobTile, job_tile


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
    jobs = (
        job_tile(lookup, job) for job in lookup.jobs if operation.name in set_up_operations(job)
    )
    formulas = formulas_of(operation, lookup.shop.manual.units)
    return OperationView(told(operation), operation.what, formulas, tuple(jobs))


def formulas_of(operation: Operation, units: Units = Units.METRIC) -> tuple[FormulaView, ...]:
    """The formulas of an operation, as its page prints them."""
    return tuple(
        FormulaView(
            in_words(one.label, units), one.unit, one.formula, in_words(one.limits, units),
            cited(*one.sources),
        )
        for one in operation.figures
    )  # fmt: skip


def operation_rows() -> tuple[IndexRow, ...]:
    """Every operation for the list."""
    return tuple(
        IndexRow(Link(f"operations/{one.name}.html", told(one).capitalize()), one.what)
        for one in OPERATIONS.values()
    )


def told(operation: Operation) -> str:
    """An operation's name as it is said."""
    return operation.name.replace("-", " ")


_BLOCK_ROWS = 45
"""Rows that stand under one another on a printed sheet; more go beside them."""


def blocks_of(chart: Chart) -> tuple[tuple[tuple[str, ...], ...], ...]:
    """A chart's rows in blocks of equal length, so that it prints on one sheet."""
    count = -(-len(chart.rows) // _BLOCK_ROWS)
    length = -(-len(chart.rows) // count)
    return tuple(chart.rows[start : start + length] for start in range(0, len(chart.rows), length))
