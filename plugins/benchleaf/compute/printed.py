"""Set-ups and operations as plain values for the command line: text lines and JSON."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any

from .reckon import OPERATIONS, Reckoning, Result
from .results import Figure, Row, SetUpSheet


def sheet_lines(job_number: str, sheet: SetUpSheet) -> Iterator[str]:
    """A set-up's workings as text; where it must not be run, the reasons first."""
    yield f"{job_number} {sheet.id}: {sheet.title} ({sheet.operation})"
    for stop in sheet.stops:
        yield f"  DO NOT RUN: {stop.reason}"
        yield f"    {stop.cure}"
    for row in sheet.rows:
        yield from _row_lines(row)
    for caution in (*(one.text for one in sheet.doubts), *sheet.cautions):
        yield f"  take care: {caution}"


def _row_lines(row: Row) -> Iterator[str]:
    if row.figure is None:
        yield f"  {row.label}: not computed; missing: {row.missing}"
        return
    other = f" ({row.other.text})" if row.other else ""
    yield f"  {row.label}: {row.figure.text}{other}"
    yield f"    {row.formula}"
    yield f"    {row.working}"
    yield f"    limits: {row.limits}"
    if row.note:
        yield f"    {row.note}"
    yield f"    source: {row.source}"


def reckoning_lines(reckoning: Reckoning) -> Iterator[str]:
    """What follows from the inputs, as text, and what is missing for the rest."""
    given = ", ".join(f"{name} {text}" for name, text in reckoning.given.items())
    yield f"{reckoning.operation}: {given}"
    for one in reckoning.results:
        other = f" ({one.other.text})" if one.other else ""
        broken = "; DO NOT RUN: outside its limits" if one.is_broken else ""
        yield f"  {one.label}: {one.figure.text}{other}{broken}"
        yield f"    {one.formula}"
        yield f"    {one.working}"
        if one.limits:
            yield f"    limits: {one.limits}"
        if one.note:
            yield f"    {one.note}"
        if one.doubt:
            yield f"    take care: {one.doubt}"
        yield f"    source: {one.source}"
    for missing in reckoning.not_computed:
        yield f"  {missing.label}: not computed; {missing.why}"


def sheets_json(sheets: Mapping[str, SetUpSheet]) -> str:
    """Set-ups by id, with stable keys."""
    return json.dumps({name: _sheet(sheet) for name, sheet in sheets.items()}, indent=2)


def _sheet(sheet: SetUpSheet) -> dict[str, Any]:
    return {
        "title": sheet.title,
        "operation": sheet.operation,
        "may_run": sheet.may_run,
        "do_not_run": [stop.reason for stop in sheet.stops],
        "results": [_row(row) for row in sheet.rows if row.figure is not None],
        "not_computed": [
            {"key": row.key, "label": row.label, "missing": row.missing}
            for row in sheet.rows
            if row.figure is None
        ],
    }


def _row(row: Row) -> dict[str, Any]:
    assert row.figure is not None
    return {
        "key": row.key,
        "label": row.label,
        **_figure(row.figure),
        "formula": row.formula,
        "working": row.working,
        "limits": row.limits,
        "source": row.source,
    }


def _figure(figure: Figure) -> dict[str, Any]:
    """`value` is null for a range, which has `low` and `high`."""
    value = figure.low if figure.low == figure.high else None
    return {"value": value, "low": figure.low, "high": figure.high, "unit": figure.unit}


def reckoning_json(reckoning: Reckoning) -> str:
    """An operation's results with stable keys; figures unrounded."""
    return json.dumps(
        {
            "operation": reckoning.operation,
            "given": dict(reckoning.given),
            "results": [_result(one) for one in reckoning.results],
            "not_computed": [
                {"key": one.key, "label": one.label, "why": one.why}
                for one in reckoning.not_computed
            ],
        },
        indent=2,
    )


def _result(one: Result) -> dict[str, Any]:
    return {
        "key": one.key,
        "label": one.label,
        "value": one.low if one.low == one.high else None,
        "low": one.low,
        "high": one.high,
        "unit": one.figure.unit,
        "shown": one.figure.text,
        "formula": one.formula,
        "working": one.working,
        "limits": one.limits,
        "outside_limits": one.is_broken,
        "doubt": one.doubt,
        "source": one.source,
    }


def operations_help() -> str:
    """Every operation with its inputs, for `benchleaf reckon --help`."""
    lines = ["operations and their inputs:"]
    for operation in OPERATIONS.values():
        lines.append(f"\n  {operation.name}: {operation.what}")
        lines += [f"    {name:<18}{one.what}" for name, one in operation.inputs.items()]
    return "\n".join(lines)
