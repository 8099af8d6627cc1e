"""Set-ups and operations as lines of text for the command line."""

from __future__ import annotations

from collections.abc import Iterator

from .reckon import OPERATIONS, Reckoning
from .results import Row, SetUpSheet


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


def operations_help() -> str:
    """Every operation with its inputs, for `benchleaf reckon --help`."""
    lines = ["operations and their inputs:"]
    for operation in OPERATIONS.values():
        lines.append(f"\n  {operation.name}: {operation.what}")
        lines += [f"    {name:<18}{one.what}" for name, one in operation.inputs.items()]
    return "\n".join(lines)
