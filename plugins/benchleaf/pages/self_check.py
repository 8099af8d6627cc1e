"""Questions on set-up values for the self-check: the right figure among likely slips."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from benchleaf.compute import Drilled, Row, SetUpSheet, amount, told
from benchleaf.model import Units

STOP_DIGITS = 1
"""Digits after the point of a depth in mm, as its row has."""


@dataclass(frozen=True, slots=True)
class Option:
    """One answer; `why` says what would happen with it."""

    text: str
    why: str
    is_right: bool = False


@dataclass(frozen=True, slots=True)
class ValueQuestion:
    """What to set, with the right answer among others, and where the right one comes from."""

    ask: str
    why: str
    source: str
    options: tuple[Option, ...]


def value_questions(sheets: Iterable[SetUpSheet]) -> tuple[ValueQuestion, ...]:
    """Every question that the set-ups of a job give. None where a job must not be run."""
    found = list(sheets)
    if not all(sheet.may_run for sheet in found):
        return ()
    questions = (one for sheet in found for one in _questions(sheet))
    return tuple(one for one in questions if len(one.options) > 1)


def _questions(sheet: SetUpSheet) -> Iterator[ValueQuestion]:
    for key, slips in (("spindle_speed", _other_speeds), ("depth_stop", _other_depths)):
        row = sheet.row(key)
        if row is None or row.figure is None:
            continue
        right = Option(row.figure.text, "That is right.", is_right=True)
        wrong = [one for one in slips(sheet, row) if one.text != right.text]
        options = sorted({one.text: one for one in (*wrong, right)}.values(), key=_in_order)
        yield ValueQuestion(
            f"{sheet.title}: {row.label.lower()}?",
            f"{row.formula}: {row.working}{_in_first(sheet, row)}",
            row.source,
            tuple(options),
        )


def _in_first(sheet: SetUpSheet, row: Row) -> str:
    """The result in the units of the answers, where the working is in the others."""
    is_other = sheet.units is Units.INCH and row.other is not None and row.figure is not None
    return f", which is {row.figure.text}" if is_other and row.figure else ""


def _in_order(option: Option) -> float:
    return float(option.text.split()[0])


def _other_speeds(sheet: SetUpSheet, row: Row) -> Iterator[Option]:
    """The machine's next speeds below and above, with the cutting speed each would give."""
    speeds = [step.rpm for step in sheet.speed_steps]
    chosen = next((step.rpm for step in sheet.speed_steps if step.chosen), None)
    found = sheet.found
    diameter, low, high = found.cutting_mm, found.vc_low, found.vc_high
    if chosen is None or not diameter or not low or not high:
        return
    place = speeds.index(chosen)
    most, least = amount(high, "m/min", 0, "down"), amount(low, "m/min", 0, "up")
    for rpm in (*speeds[max(0, place - 2) : place], *speeds[place + 1 : place + 3]):
        cutting = math.pi * diameter * rpm / 1000
        at = amount(cutting, "m/min", 0)
        if cutting > high:
            why = f"Too fast: {at} at the edge, and {most} is the most."
        elif cutting < low:
            why = f"Too slow: {at} at the edge, and {least} is the least."
        else:
            why = "Inside the range too, but the set-up takes the fastest one inside it."
        yield Option(f"{rpm:g} rpm", told(why, sheet.units))


def _other_depths(sheet: SetUpSheet, row: Row) -> Iterator[Option]:
    """The slips of a depth: the drill's point forgotten, or counted twice."""
    found = sheet.found
    if row.figure is None or not isinstance(found, Drilled):
        return
    stop, point = found.stop, found.point
    if stop is None or not point:
        return
    slips = (
        (stop - point, "Too shallow: the length of the drill's point is left out."),
        (stop + point, "Too deep: the length of the drill's point is counted twice."),
    )
    for depth, why in slips:
        yield Option(told(amount(depth, "mm", STOP_DIGITS), sheet.units), why)
