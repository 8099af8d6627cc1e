"""What is wrong with the rows of a job's set-up, and with the results of `reckon`."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from benchleaf.compute import Row, SetUpSheet
from benchleaf.compute.reckon import Reckoning, Result
from oracles.workings import (
    LOOKED_UP,
    RESIST,
    UNITS,
    Sum,
    figure_problems,
    other_problems,
    split,
    sum_problems,
    unit_of,
)

BESIDE = ("the lips have left at ", "eased over ", "360 × ", "the torque is then ", "the pull is ",
          "the chip is thinner ", "by the second model ", "held ", "enough ", "at worst ",
          "the drill pulls ", "wanted ", "if the hand keeps its pull, it pulls ")  # fmt: skip
"""How a sum begins that stands beside the row's own."""


def sheet_problems(sheet: SetUpSheet) -> Iterator[str]:
    """Everything that is wrong with the workings of a set-up."""
    for row in sheet.rows:
        if row.figure is not None:
            for problem in row_problems(row):
                yield f"{sheet.id} {row.key}: {problem}"


def row_problems(row: Row) -> Iterator[str]:
    """A row's formula, working and figure against one another."""
    assert row.figure is not None
    for one in row.sums:
        yield from sum_problems(one)
        yield from _unit_beside(one)
        if one.text not in row.working and one.text not in row.limits:
            yield f"'{one.text}' is printed nowhere"
    yield from _all_read(row.working, row)
    yield from _all_read(row.limits, row)
    if row.looked_up:
        if row.formula not in LOOKED_UP:
            yield f"'{row.formula}' is no table or rule that is known"
        return
    own = [one for one in row.sums if one.text in row.working and not one.text.startswith(BESIDE)]
    if not own:
        yield "it has no arithmetic, and nothing says why"
        return
    printed = row.formula.partition(" = ")[2].split(", or ")
    if {one.formula.partition(" = ")[2] for one in own} != set(printed):
        yield f"'{row.formula}' is not the formula of its working"
    yield from figure_problems(row.key, row.figure, own)
    yield from _other(row, own)


_BESIDE_UNITS = {
    "until": ("mm",), "eased": ("mm",), "times": ("times the torque",), "wanted": ("N m",),
    "ratio": ("diameters", "times"), "kept": ("times the lips' thrust",),
    "thinner": ("times",), "second": ("N m",), "torque": ("N m",), "limit": ("N m", "mm"),
    "pull": ("N",), "held": ("times",), "enough": ("times",), "at worst": ("times",),
    "swing": ("° of lever", "° of lever before the stop",
              "° of lever before the lips are through"),
}  # fmt: skip
"""The unit of a sum beside another, by the name that its formula gives."""


def _unit_beside(one: Sum) -> Iterator[str]:
    known = _BESIDE_UNITS.get(one.formula.partition(" = ")[0])
    if known and unit_of(one) not in known:
        yield f"'{one.text}' is not told in {known[0]}"


def _other(row: Row, own: Sequence[Sum]) -> Iterator[str]:
    assert row.figure is not None
    if row.other is not None and "° of lever" in row.other.unit:
        swings = {f"{round(one.value)} {unit_of(one)}" for one in row.sums}
        if row.other.text not in swings:
            yield f"{row.other.text} is none of {swings}"
        return
    is_made = row.key == "tap_drill"
    values = [row.figure.low] if is_made else [one.value for one in own]
    values = [max(values)] if row.key == "holding" else values
    is_down = row.key in RESIST
    yield from other_problems(row.figure, row.other, values, is_down=is_down)


def _all_read(text: str, row: Row) -> Iterator[str]:
    """No `=` may stand in a text outside the sums that are checked."""
    left = text
    for one in row.sums:
        left = left.replace(one.text, "")
    if re.search(r"[=×÷]", left):
        yield f"'{left}' looks like arithmetic and is no sum of the row"


def reckoning_problems(found: Reckoning) -> Iterator[str]:
    """Everything that is wrong with what `reckon` printed."""
    for left in found.not_computed:
        if not left.why.startswith(("give ", "the times give ")) and not _refused(left.why):
            yield f"{found.operation} {left.key}: {left.why}"
    for one in found.results:
        for problem in result_problems(one):
            yield f"{found.operation} {one.key}: {problem}"


def _refused(why: str) -> bool:
    """Whether a function refused what it was given; anything else went wrong in the printing."""
    return (
        re.search(r" (is|are|must be|holds) |never reaches|known here|as long as", why) is not None
    )


def result_problems(one: Result) -> Iterator[str]:
    """A result's formula, working and figure against one another."""
    if one.looked_up:
        if one.formula not in LOOKED_UP:
            yield f"'{one.formula}' is no table or rule that is known"
        if one.figure.unit != UNITS.get(_KEYS.get(one.key, one.key)):
            yield f"it is told in {one.figure.unit}"
        if not one.working.endswith(f": {one.figure.text}"):
            yield f"'{one.working}' does not end in {one.figure.text}"
        return
    for each in one.sums:
        yield from sum_problems(each)
        if each.formula != one.formula:
            yield f"'{each.formula}' is worked, and '{one.formula}' is printed"
    if one.working != "; ".join(each.text for each in one.sums):
        yield f"'{one.working}' is not its sums"
    split(one.formula)
    yield from figure_problems(_KEYS.get(one.key, one.key), one.figure, one.sums)
    is_down = one.key in RESIST
    yield from other_problems(one.figure, one.other, (one.low, one.high), is_down=is_down)


_KEYS = {
    "speed": "spindle_speed", "holes": "holes_between_grinds", "percent_got": "percent",
    "hole": "tap_drill", "pilot": "pilot", "limit_over_torque": "torque_limit",
    "rim_speed": "cutting_speed",
}  # fmt: skip
"""What `reckon` calls by another name than a job's row."""
