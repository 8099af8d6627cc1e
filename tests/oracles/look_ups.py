"""The figures of a set-up that come from a table, a rule or the engineer: looked up once more."""

from __future__ import annotations

import csv
import re
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

from benchleaf.compute import Row, SetUpSheet
from oracles.units import converted
from oracles.workings import UNITS, fits_printed, same

WORKED = Path(__file__).parents[1] / "worked"
_NUMBER = r"\d+(?:\.\d+)?"


def look_up_problems(sheet: SetUpSheet, speeds: tuple[float, ...]) -> Iterator[str]:
    """What is wrong with rows that are no arithmetic; `speeds` are those of the machine."""
    for row in sheet.rows:
        if row.figure is None or not row.looked_up:
            continue
        if row.figure.unit != UNITS.get(row.key):
            yield f"{sheet.id} {row.key}: {row.figure.unit} is not {UNITS.get(row.key)}"
        check = _CHECKS.get(row.key)
        if check is None:
            yield f"{sheet.id} {row.key}: nobody looks it up again"
            continue
        for problem in check(row, sheet, speeds):
            yield f"{sheet.id} {row.key}: {problem}"


_Check = Callable[[Row, SetUpSheet, tuple[float, ...]], Iterator[str]]


def _numbers(text: str) -> list[float]:
    return [float(one) for one in re.findall(_NUMBER, text)]


def _published(row: Row, _sheet: SetUpSheet, _speeds: tuple[float, ...]) -> Iterator[str]:
    """`as printed: 80 to 110 ft/min`, in both units, no end outside."""
    assert row.figure is not None
    found = re.fullmatch(rf"as printed: ({_NUMBER})(?: to ({_NUMBER}))? (\S+)", row.working)
    if not found:
        yield f"'{row.working}' is no range of speed"
        return
    low, high, unit = found.groups()
    for shown in (row.figure, row.other):
        if shown is None:
            yield "it is told in one unit only"
            continue
        ends = [converted(float(end), unit, shown.unit) for end in (low, high or low)]
        step = 10.0**-shown.decimals
        if not (ends[0] - 1e-9 <= shown.low < ends[0] + step):
            yield f"{shown.text} begins elsewhere than {row.working}"
        if not (ends[1] - step < shown.high <= ends[1] + 1e-9):
            yield f"{shown.text} ends elsewhere than {row.working}"


def _chosen(row: Row, sheet: SetUpSheet, speeds: tuple[float, ...]) -> Iterator[str]:
    """The rule as its formula says it."""
    wanted = next(one for one in sheet.rows if one.key == "spindle_speed_range")
    low, high = (one.value for one in wanted.sums)
    inside = sorted(speed for speed in speeds if low <= speed <= high)
    slower = [speed for speed in speeds if speed < low]
    told = row.working.rpartition("inside the range: ")[2]
    if told != (", ".join(f"{speed:.0f}" for speed in inside) or "none"):
        yield f"'{told}' are not the speeds inside {low} to {high}: {inside}"
    if row.formula.startswith("the slowest speed of the machine inside the range"):
        right = min(inside)
    else:
        right = max(inside or slower)
    if row.figure is None or row.figure.low != right:
        yield f"by '{row.formula}' it is {right}"


def _entered(row: Row, _sheet: SetUpSheet, _speeds: tuple[float, ...]) -> Iterator[str]:
    assert row.figure is not None
    found = re.search(rf"as entered: ({_NUMBER}) ([^\s;]+)", row.working)
    if not found:
        yield f"'{row.working}' says nothing entered"
        return
    value, unit = float(found.group(1)), found.group(2)
    for shown in (row.figure, row.other):
        if shown is not None:
            rights = [converted(value, unit, shown.unit),
                      converted(row.figure.low, row.figure.unit, shown.unit)]  # fmt: skip
            if min(abs(shown.low - right) for right in rights) > 0.501 * 10.0**-shown.decimals:
                yield f"{shown.text} is not {value} {unit}"


def _table(name: str) -> list[dict[str, str]]:
    lines = (WORKED / name).read_text(encoding="utf-8").splitlines()[2:]
    return list(csv.DictReader(lines))


def _said_again(row: Row) -> Iterator[str]:
    """A figure from a table stands in the working too, and the other unit is the same."""
    assert row.figure is not None
    told = re.search(rf": ({_NUMBER}) mm", row.working)
    if not told or not same(float(told.group(1)), row.figure.low):
        yield f"'{row.working}' is not {row.figure.text}"
    if row.other is not None:
        right = converted(row.figure.low, "mm", "in")
        if not fits_printed(right, f"{row.other.low:.{row.other.decimals}f}"):
            yield f"{row.other.text} is not {row.figure.text}"


def _seat(column: str) -> _Check:
    def check(row: Row, _sheet: SetUpSheet, _speeds: tuple[float, ...]) -> Iterator[str]:
        assert row.figure is not None
        yield from _said_again(row)
        size = row.working.partition("x")[0]
        right = [float(one[column]) for one in _table("counterbores.csv") if one["thread"] == size]
        if right != [row.figure.low]:
            yield f"the table prints {right} for {size}"

    return check


def _clearance(row: Row, _sheet: SetUpSheet, _speeds: tuple[float, ...]) -> Iterator[str]:
    yield from _said_again(row)
    assert row.figure is not None
    size, series = row.working.partition("x")[0], row.working.split(", ")[1].partition(":")[0]
    lines = [one for one in _table("clearance_holes.csv") if one["thread"] == size]
    right = [float(one[f"a_{series}_mm"]) for one in lines]  # a is the page on ISO 273
    if right != [row.figure.low]:
        yield f"the table prints {right} for {size}, {series}"


def _pitch(row: Row, _sheet: SetUpSheet, _speeds: tuple[float, ...]) -> Iterator[str]:
    """The pitch stands in the thread's name, or is an inch over its threads."""
    assert row.figure is not None
    metric = re.search(rf"M{_NUMBER}x({_NUMBER})$", row.label)
    if metric and float(metric.group(1)) != row.figure.low:
        yield f"{row.label} has another pitch than {row.figure.text}"
    if row.other is not None:
        if row.other.unit != "threads an inch":
            yield f"{row.other.text} counts no threads"
        if not fits_printed(25.4 / row.other.low, f"{row.figure.low:.{row.figure.decimals}f}"):
            yield f"{row.other.text} are not {row.figure.text}"
    if not metric and row.other is None:
        yield f"{row.label} says no pitch"


def _deep(row: Row, _sheet: SetUpSheet, _speeds: tuple[float, ...]) -> Iterator[str]:
    assert row.figure is not None
    (depth,) = row.sums
    lines = _table("deep_hole_reduction.csv")
    cut = next(one for one in lines if round(depth.value, 9) <= float(one["depth_over_diameter"]))
    right = 100 - float(cut["speed_cut_percent"].split(" to ")[-1])
    if row.figure.low != right or not row.working.endswith(f": {right:.0f}%"):
        yield f"{depth.value} diameters deep, {right} % of the speed is kept"
    if not depth.text.endswith("diameters"):
        yield f"'{depth.text}' counts no diameters"


def _pecks(row: Row, sheet: SetUpSheet, _speeds: tuple[float, ...]) -> Iterator[str]:
    """Out at 2 diameters, then each half of the one before; the point comes on top."""
    assert row.figure is not None
    rows = {one.key: one for one in sheet.rows}
    diameter = dict(rows["point_length"].sums[0].numbers)["diameter"]
    point = rows["point_length"].sums[0].value
    stop = dict(rows["depth_stop"].sums[0].numbers)
    depth = sum(v for k, v in stop.items() if k not in ("point", "overtravel"))
    through = "overtravel" in stop
    places, peck, place = [], 2.0, 2.0
    while place * diameter < depth - 1e-6:
        places.append(place * diameter + point)
        peck = max(peck / 2, 0.5)
        place += peck
    if through:
        places = [one for one in places if one < depth]
    told = re.search(r"out at (.+) mm on the scale from first touch", row.working)
    right = ", ".join(f"{one:.1f}" for one in places)
    if not told or told.group(1) != right or f"at {right} mm" not in row.label:
        yield f"'{row.working}' and '{row.label}' should say {right}"
    if row.figure.low != len(places) + 1:
        yield f"{row.figure.text}, and {len(places)} times out"


def _back_off(row: Row, _sheet: SetUpSheet, _speeds: tuple[float, ...]) -> Iterator[str]:
    if row.figure is None or (row.figure.low, row.figure.high) != (0.5, 1.0):
        yield "a lesson turns half a turn to a whole one forward"
    if row.working != "then back 0.25 to 0.5 of a turn, to break the chip":
        yield f"'{row.working}' is not a quarter to half a turn back"


_CHECKS: Mapping[str, _Check] = {
    "cutting_speed_range": _published,
    "spindle_speed": _chosen,
    "feed": _entered,
    "mouth": _entered,
    "bore_diameter": _seat("diameter_mm"),
    "bore_pilot": _seat("pilot_mm"),
    "clearance": _clearance,
    "pitch": _pitch,
    "deep_hole": _deep,
    "pecks": _pecks,
    "back_off": _back_off,
}
