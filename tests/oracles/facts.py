"""Every quantity printed beside a sum must be one that the records or the rows hold.

Texts such as `for a point of 118°` and `the machine has 85 mm` repeat a fact. Here each number
with its unit is looked for among all the facts of the set-up.
"""

from __future__ import annotations

import csv
import math
import re
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

from pydantic import BaseModel

from benchleaf.compute import Row, SetUpSheet
from benchleaf.formulas.drill_sizes import SIZES
from benchleaf.formulas.quantities import Quantity
from benchleaf.formulas.threads import Thread, minor_limits_mm
from benchleaf.model import Job, SetUp, Shop
from oracles.arithmetic import NUMBER
from oracles.units import converted
from oracles.workings import fits_printed
from oracles.worst import floor_times

_UNITS = (
    "mm/rev", "mm/min", "m/min", "ft/min", "mm", "in/rev", "in", "rpm", "N m", "kN", "N", "kW",
    "kgf", "°", "%", "times", "diameters",
)  # fmt: skip
_TOLD = re.compile(
    rf"(?<![\w.])({NUMBER})(?: to ({NUMBER}))? ?({'|'.join(map(re.escape, _UNITS))})(?![\w/])"
)
CONSTANTS = {
    ("N", 110.0), ("N", 216.0), ("%", 28.0), ("%", 34.0),
    ("mm", 10.0), ("mm", 0.5), ("mm/rev", 1.27), ("diameters", 6.0), ("diameters", 2.0),
    ("%", 18.0), ("%", 20.0), ("times", 1.6),
}  # fmt: skip
"""Published limits: one hand at a lever, two torque models, deep holes, wet jaws, a motor."""
_BASE = {"deg": "°"}
Fact = tuple[str, float]


def fact_problems(shop: Shop, job: Job, sheet: SetUpSheet) -> Iterator[str]:
    """Numbers with a unit that nobody entered and no row gives."""
    operation = next(one for one in job.set_ups if one.id == sheet.id)
    facts = _facts(shop, job, operation, sheet)
    for row in sheet.rows:
        if row.figure is None:
            continue
        for text in (row.working, row.limits, row.note, row.label):
            for problem in _told(text, row, facts):
                yield f"{sheet.id} {row.key}: {problem}"


def _told(text: str, row: Row, facts: set[Fact]) -> Iterator[str]:
    for one in row.sums:
        text = text.replace(one.text, "")
    bare = re.sub(r"\([^()]*\)", lambda found: found[0] if "kgf" in found[0] else "", text)
    for low, high, unit in _TOLD.findall(bare):
        for number in (low, high) if high else (low,):
            near = (value for of, value in facts if of == unit)
            if not any(fits_printed(value, number) for value in near):
                yield f"'{bare}': {number} {unit} is no fact of this set-up"
    odd = re.search(r"(?<![\w.])\d[\d.]*[a-z]{2,}", bare)
    if odd:
        yield f"'{bare}': '{odd[0]}' has a unit that nobody knows"
    if re.search(rf"(?<![\w.]){NUMBER}(?! to )\s*$", bare) and "inside the range" not in bare:
        yield f"'{bare}' ends in a number without a unit"


def _facts(shop: Shop, job: Job, operation: SetUp, sheet: SetUpSheet) -> set[Fact]:
    facts = set(CONSTANTS)
    records = [operation, shop.tools[operation.tool], shop.machines[job.machine]]
    drill = shop.tools.get(getattr(operation, "hole_drill", None) or "")
    held = operation.holding or job.holding
    material = shop.material_of(job)
    for record in (*records, drill, held, material):
        if record is not None:
            facts |= set(_quantities(record))
    for row in sheet.rows:
        for figure in (row.figure, row.other):
            if figure is not None:
                facts |= {(figure.unit, figure.low), (figure.unit, figure.high)}
        if row.key in ("hole_limits", "mouth"):
            facts |= {("mm", one.value) for one in row.sums}
    facts |= set(_more(operation, sheet))
    facts |= {("times", held.margin)} if held else set()
    for row in sheet.rows:  # told rounded down; tests/oracles/worst.py holds them to the sums
        facts |= {("times", float(floor_times(one.value).split()[0])) for one in row.sums
                  if one.formula.startswith(("held", "enough", "at worst"))}  # fmt: skip
        facts |= {("N m" if one.formula.startswith("wanted") else "N", _up(one.value))
                  for one in row.sums
                  if one.formula.startswith(("pull = 2000", "wanted"))}  # fmt: skip
    return facts


def _up(value: float) -> float:
    """What is asked, to two digits, never told as less."""
    step = 10.0 ** (math.floor(math.log10(value)) - 1)
    return math.ceil(round(value / step, 9)) * step


def _more(operation: SetUp, sheet: SetUpSheet) -> Iterator[Fact]:
    """Facts of the thread, the web of the drill, and what a deep hole keeps of the feed."""
    rows = {row.key: row for row in sheet.rows}
    thread = getattr(operation, "thread", None)
    if isinstance(thread, Thread):
        yield "mm", thread.major_mm
        limits = minor_limits_mm(thread)
        if limits:
            yield from (("mm", limits.low_mm), ("mm", limits.high_mm))
        if "tap_drill" in rows and rows["tap_drill"].figure:
            hole = rows["tap_drill"].figure.low
            depth = 3 * 3**0.5 / 4 if "1.299" in rows["tap_drill"].formula else 5 * 3**0.5 / 8
            # The figure is shown to 0.01 mm: a drill in inches is finer than that.
            exact = _named(rows["tap_drill"].working) or hole
            yield "%", 100 * (thread.major_mm - exact) / (depth * thread.pitch_mm)
            yield "mm", hole
            usual = _of_the_chart(thread)
            if usual is not None:
                yield "mm", usual
                yield "%", 100 * (thread.major_mm - usual) / (depth * thread.pitch_mm)
    if "pilot" in rows and rows["pilot"].sums:
        numbers = dict(rows["pilot"].sums[0].numbers)
        yield "mm", _web(numbers["chisel ratio"]) * numbers["diameter"]
    if "deep_hole" in rows and rows["deep_hole"].figure:
        share = rows["deep_hole"].figure.low
        yield "%", 90.0 if share >= 80 else 80.0
    if "pecks" in rows and rows["pecks"].figure:  # its places are looked up by themselves
        yield from (("mm", float(one)) for one in re.findall(r"\d+\.\d", rows["pecks"].label))


def _of_the_chart(thread: Thread) -> float | None:
    """The diameter of the drill that public charts print for a thread."""
    path = Path(__file__).parents[1] / "worked" / "tap_drill_chart.csv"
    lines = list(csv.DictReader(path.read_text(encoding="utf-8").splitlines()[2:]))
    name = thread.name.removesuffix(" UNC").removesuffix(" UNF")
    found = next((one["drill"] for one in lines if one["thread"] == name), None)
    if found is None:
        return None
    return SIZES[found].diameter_mm if found in SIZES else float(found)


def _named(working: str) -> float | None:
    """The diameter of a drill that is named by a number or a letter."""
    found = re.search(r"exists: (\S+) gives", working)
    size = SIZES.get(found.group(1)) if found else None
    return size.diameter_mm if size else None


def _web(ratio: float) -> float:
    """Web thickness over diameter, on the straight lines of the published rows."""
    path = Path(__file__).parents[1] / "worked" / "table_7_web_thickness.csv"
    lines = list(csv.DictReader(path.read_text(encoding="utf-8").splitlines()[2:]))
    rows = sorted((float(one["chisel_ratio"]), float(one["web_ratio"])) for one in lines)
    for (x0, y0), (x1, y1) in pairwise(rows):
        if x0 <= ratio <= x1:
            return y0 + (y1 - y0) * (ratio - x0) / (x1 - x0)
    raise ValueError(f"no web is printed for {ratio}")


def _quantities(record: object) -> Iterator[Fact]:
    """Every quantity of a record, in its base unit and as it was written."""
    if isinstance(record, Quantity):
        unit = _BASE.get(record.unit, record.unit)
        yield from ((unit, record.low), (unit, record.high))
        for low, high, written in _TOLD.findall(record.text):
            yield from ((written, float(one)) for one in (low, high) if one)
        if unit == "mm":
            yield "in", converted(record.low, "mm", "in")
    elif isinstance(record, BaseModel):
        for name in type(record).model_fields:
            yield from _quantities(getattr(record, name))
    elif isinstance(record, tuple | list):
        for one in record:
            yield from _quantities(one)
