"""Corrupts what is printed of a figure, place by place, and says whether the tests would see it.

    python tests/corrupt.py                  every place; exit 1 where one is not caught
    python tests/corrupt.py --sample 12 --seed 3     some of them, as the suite does
    python tests/corrupt.py --of figures_exit        those of some modules
    python tests/corrupt.py --list           the places

Each formula, number, sign, function and unit that stands in the source of `compute/figures_*.py`,
and each unit, number and word beside a working in the stages, is made wrong in turn, in memory:
no file is touched. Each corruption is tried in a process of its own, on the set-ups of
`tests/oracles/set_ups.py`, on the demo, and on `reckon`.
"""

from __future__ import annotations

import argparse
import ast
import importlib.abc
import importlib.util
import itertools
import os
import random
import re
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
ROOT = Path(__file__).parents[1]
COMPUTE = ROOT / "plugins" / "benchleaf" / "compute"
STAGES = ("spindle", "travel", "forces", "lever", "feel", "holding", "held_down", "deep",
          "shape", "tapping", "hole_finishing", "declaration", "enlarging",
          "break_through", "worst")  # fmt: skip
SIGNS = {
    "×": "÷", "÷": "×", "+": "−", "−": "+", "²": "³", "^": "×", "√": "tan", "tan": "ln",
    "π": "3", "exp": "ln", "log2": "ln", "ln": "log2",
}  # fmt: skip
UNITS = {
    "mm": "in", "m/min": "ft/min", "rpm": "rev/s", "mm/rev": "mm", "mm/min": "m/min", "N": "kN",
    "N m": "N", "kW": "W", "s": "min", "min": "s", "h": "min", "%": "times", "°": "rad",
    "in": "mm", "kgf": "lbf", "times": "%", "diameters": "mm", "turns": "pitches",
    "mm3/min": "mm3/s", "pieces": "s", "holes": "s", "pecks": "mm", "turn forward": "turns back",
    "% of the pull": "N of the pull", "° of lever": "mm of lever", "times the torque": "N m",
}  # fmt: skip
_SIGN = re.compile(
    "|".join(rf"\b{one}\b" if one.isalnum() and one != "π" else re.escape(one)
             for one in sorted(SIGNS, key=len, reverse=True))
)  # fmt: skip
_NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?(?![\w.])")
_BESIDE = re.compile(r"(?<=[\d}] )(mm/rev|mm/min|m/min|mm|rpm|N m|N|kW|%)(?![\w/])|(?<=})(°|%)")
KEPT = {"oracles.units", "oracles.arithmetic"}
"""Oracles that import nothing of the product: they stay loaded."""
TEXTS = {"told", "after", "limits", "note", "other_text", "over", "kept_words"}


@dataclass(frozen=True)
class Corruption:
    """One place made wrong."""

    module: str
    line: int
    start: int
    end: int
    old: str
    new: str
    what: str

    def __str__(self) -> str:
        return f"compute/{self.module}.py:{self.line}: {self.what}: '{self.old}' to '{self.new}'"

    def source(self) -> str:
        """The module with this place made wrong."""
        text = (COMPUTE / f"{self.module}.py").read_text(encoding="utf-8")
        assert text[self.start : self.end] == self.old
        return text[: self.start] + self.new + text[self.end :]


def corruptions() -> list[Corruption]:
    """Every place that is made wrong, each in one way."""
    found: list[Corruption] = []
    for path in sorted(COMPUTE.glob("figures_*.py")):
        found += _declared(path.stem, path.read_text(encoding="utf-8"))
    for name in STAGES:
        found += _beside(name, (COMPUTE / f"{name}.py").read_text(encoding="utf-8"))
    return found


def _place(text: str, node: ast.AST) -> tuple[int, int]:
    """Where a node stands in the text, in characters."""
    starts = [0, *itertools.accumulate(len(line) for line in text.splitlines(keepends=True))]
    lines = text.splitlines(keepends=True)

    def at(line: int, column: int) -> int:
        return starts[line - 1] + len(lines[line - 1].encode()[:column].decode())

    return (
        at(node.lineno, node.col_offset),  # type: ignore[attr-defined]
        at(node.end_lineno, node.end_col_offset),  # type: ignore[attr-defined]
    )


def _declared(module: str, text: str) -> Iterator[Corruption]:
    """Signs, numbers and units of declarations."""
    tree = ast.parse(text)
    documents = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        is_text = isinstance(node, ast.JoinedStr) or (
            isinstance(node, ast.Constant) and isinstance(node.value, str))  # fmt: skip
        if not is_text or id(node) in documents:
            continue
        start, end = _place(text, node)
        segment = text[start:end]
        bare = segment.strip("f\"'")
        if bare in UNITS:
            yield from _unit(module, text, start, bare, segment)
        elif " = " in segment or re.search(r" [×÷] ", segment):
            yield from _formula(module, text, start, segment)


def _unit(module: str, text: str, start: int, bare: str, segment: str) -> Iterator[Corruption]:
    """The unit of a figure: the third argument of a declaration, or `unit=`."""
    before = text[max(0, start - 120) : start]
    is_unit = re.search(r"Declaration\(\s*\"[^\"]*\",\s*\"[^\"]*\",\s*$", before) or re.search(
        r"Declaration\(\s*key,\s*label,\s*$|unit=$", before)  # fmt: skip
    if is_unit:
        at = start + segment.index(bare)
        yield _made(module, text, at, bare, UNITS[bare], "unit")


def _formula(module: str, text: str, start: int, segment: str) -> Iterator[Corruption]:
    hidden = re.sub(r"\{[^{}]*\}", lambda found: "\0" * len(found[0]), segment)
    for found in _SIGN.finditer(hidden):
        yield _made(module, text, start + found.start(), found[0], SIGNS[found[0]], "sign")
    for found in _NUMBER.finditer(hidden):
        yield _made(module, text, start + found.start(), found[0], _near(found[0]), "number")


def _near(number: str) -> str:
    """A number that is a little wrong: 9550 becomes 9500, 1000 becomes 1001."""
    if number == "9550":
        return "9500"
    digits = list(number)
    digits[-1] = str((int(digits[-1]) + 1) % 10)
    return "".join(digits)


def _beside(module: str, text: str) -> Iterator[Corruption]:
    """Units and numbers of texts that stand beside a working."""
    for node in ast.walk(ast.parse(text)):
        named = isinstance(node, ast.Assign) and any(
            isinstance(one, ast.Name) and one.id in TEXTS for one in node.targets)  # fmt: skip
        keyword = isinstance(node, ast.keyword) and node.arg in TEXTS
        if not (named or keyword):
            continue
        start, end = _place(text, node)
        segment = text[start:end]
        if 'f"' not in segment and not _NUMBER.search(segment):
            continue
        for found in _BESIDE.finditer(segment):
            yield _made(module, text, start + found.start(), found[0], UNITS[found[0]], "unit told")
        for found in _NUMBER.finditer(
            re.sub(r"\{[^{}]*\}", lambda one: "\0" * len(one[0]), segment)
        ):
            yield _made(
                module, text, start + found.start(), found[0], _near(found[0]), "number told"
            )


def _made(module: str, text: str, at: int, old: str, new: str, what: str) -> Corruption:
    return Corruption(module, text.count("\n", 0, at) + 1, at, at + len(old), old, new, what)


class _Wrong(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Gives one module from another source."""

    def __init__(self, name: str, source: str) -> None:
        self.name, self.source = name, source

    def find_spec(self, name: str, path: object = None, target: object = None):  # type: ignore[no-untyped-def]
        return importlib.util.spec_from_loader(name, self) if name == self.name else None

    def exec_module(self, module: object) -> None:
        exec(compile(self.source, f"<{self.name} made wrong>", "exec"), vars(module))


RECKONED: tuple[tuple[str, Mapping[str, str]], ...] = (
    ("drilling", {"diameter": "8.5 mm", "cutting_speed": "24.5 m/min", "feed": "0.15 mm/rev",
     "point_angle": "118 deg", "depth": "30 mm", "start_clearance": "2 mm", "overtravel": "1.5 mm",
     "kd_thrust": "24000", "kd_torque": "23000", "chisel_ratio": "0.18", "wear": "1.3",
     "efficiency": "0.85", "pinion_radius": "13 mm", "lever_radius": "320 mm",
     "lever_efficiency": "0.9", "capacity": "47 N m", "motor_rating": "1.1 kW",
     "rated_thrust": "5.2 kN", "tool_feed": "0.24 mm/rev", "feed_stop": "0.9 mm/rev",
     "feeds": "0.05 mm/rev, 0.08 mm/rev, 0.13 mm/rev, 0.2 mm/rev"}),
    ("drilling", {"diameter": "8.5 mm", "cutting_speed": "24.5 m/min", "feed": "0.15 mm/rev",
     "kd_thrust": "24000", "kd_torque": "23000", "chisel_ratio": "0.19", "wear": "1.2",
     "efficiency": "0.85", "capacity": "43 N m", "motor_rating": "1.1 kW",
     "tool_feed": "0.21 mm/rev", "feeds": "0.05 mm/rev, 0.13 mm/rev", "depth": "9 mm",
     "point_angle": "118 deg"}),
    ("drilling", {"diameter": "8.5 mm", "feed": "0.15 mm/rev", "feed_stop": "0.17 mm/rev",
     "kd_thrust": "24000", "kd_torque": "23000", "chisel_ratio": "0.18", "wear": "1.3",
     "depth": "30 mm", "point_angle": "118 deg", "time": "25 s", "capacity": "47 N m"}),
    ("drilling", {"diameter": "8.5 mm", "feed": "0.15 mm/rev", "depth": "11 mm",
     "point_angle": "118 deg", "time": "7 s"}),
    ("drilling", {"diameter": "8.5 mm", "speed": "850 rpm", "depth": "11 mm",
     "point_angle": "118 deg", "time": "7 s"}),
    ("drilling", {"diameter": "8.5 mm", "speed": "850 rpm", "depth": "30 mm",
     "point_angle": "118 deg", "time": "31 s"}),
    ("drilling", {"diameter": "8.5 mm", "feed": "1.1 mm/rev", "kd_thrust": "24000",
     "kd_torque": "23000", "chisel_ratio": "0.18", "wear": "1.3"}),
    ("drilling", {"diameter": "8.5 mm", "speed": "850 rpm", "work_diameter": "22 mm"}),
    ("tapping", {"thread": "M8", "percent": "70", "thread_length": "12 mm", "chamfer": "5",
     "cutting_speed": "8 m/min", "kc": "3600", "tap_factor": "1.35", "torque_limit": "17 N m"}),
    ("tapping", {"thread": "1/4-20 UNC", "hole": "#7", "speed": "410 rpm"}),
    ("reaming", {"diameter": "10 mm", "tolerance": "H7", "drilling_speed": "24 m/min",
     "drilling_feed": "0.15 mm/rev", "kd_torque": "23000", "wear": "1.3", "edges": "6",
     "efficiency": "0.85", "depth": "21 mm", "start_clearance": "2 mm", "overtravel": "1.5 mm"}),
    ("reaming", {"diameter": "10 mm", "feed": "0.45 mm/rev", "depth": "21 mm", "time": "12 s"}),
    ("reaming", {"diameter": "10 mm", "speed": "230 rpm", "depth": "21 mm", "time": "12 s"}),
    ("countersinking", {"head": "12 mm", "hole": "6.5 mm", "angle": "100 deg",
     "below_flush": "0.2 mm", "drilling_speed": "24 m/min", "drilling_feed": "0.1 mm/rev",
     "kd_torque": "23000", "wear": "1.3", "edges": "3",
     "efficiency": "0.85"}),
    ("counterboring", {"screw": "M8", "below_flush": "0.5 mm", "drilling_speed": "24 m/min",
     "drilling_feed": "0.1 mm/rev", "kd_torque": "23000", "wear": "1.3", "edges": "3",
     "efficiency": "0.85"}),
    ("clearance-hole", {"screw": "M8", "series": "medium"}),
    ("fit", {"size": "20 mm", "tolerance": "g6"}),
    ("fit", {"size": "20 mm", "hole": "H7", "shaft": "p6",
     "x_error": "0.03 mm", "y_error": "0.05 mm"}),
    ("fit", {"size": "20 mm", "tolerance": "F8"}),
    ("holding", {"clamp_force": "6 kN", "friction": "0.15", "arm": "19.91 mm",
     "torque": "4.5 N m", "stop_force": "2 kN", "stop_arm": "29.87 mm", "exit_torque": "13.05 N m",
     "wear": "1.3"}),
    ("holding", {"clamp_force": "6 kN", "work": "ground", "jaws": "serrated", "metal": "brass",
     "arm": "20 mm", "torque": "4.5 N m"}),
    ("holding", {"exit_torque": "13 N m", "friction": "0.1", "arm": "20 mm"}),
    ("holding", {"clamp_force": "8 kN", "friction": "0.11", "arm": "41 mm", "fluid": "wet",
     "jaws": "smooth", "torque": "5.3 N m", "exit_torque": "14.7 N m", "cut": "enlarging",
     "wear": "1.2"}),
    ("holding", {"clamp_force": "9 kN", "friction": "0.26", "arm": "37 mm", "fluid": "wet",
     "jaws": "serrated", "torque": "6.1 N m", "exit_torque": "15.9 N m"}),
    ("drill-life", {"cutting_speed": "24 m/min", "exponent": "0.125", "c": "40 m/min",
     "time": "12 s"}),
    ("drill-life", {"trials": "24 m/min: 40 min, 32 m/min: 9.5 min", "cutting_speed": "27 m/min"}),
    ("drill-life", {"life": "33 min", "exponent": "0.21", "c": "47 m/min"}),
    ("drill-life", {"life": "33 min", "exponent": "0.21", "cutting_speed": "27 m/min"}),
    ("drill-life", {"life": "33 min", "cutting_speed": "27 m/min", "c": "47 m/min"}),
    ("rate", {"elements": "12 s, 4.5 s x 2", "allowance": "12", "shift": "8 h",
     "breaks": "45 min"}),
    ("learning-curve", {"observed": "1: 5 min, 2: 4.2 min, 3: 4 min", "piece": "10",
     "standard": "2 min"}),
    ("learning-curve", {"points": "2: 311 s, 7: 240 s", "piece": "10", "standard": "2 min"}),
    ("learning-curve", {"first": "5 min", "learning_percent": "80", "mean_percent": "82",
     "piece": "10", "standard": "2 min"}),
)  # fmt: skip
"""Inputs that bring every figure of every operation, no two of them alike."""


def problems() -> Iterator[str]:
    """What the oracles find in the product as it is loaded now."""
    from benchleaf.compute.operations import OPERATIONS
    from benchleaf.compute.reckon import reckon
    from oracles import set_ups
    from oracles.rows import reckoning_problems

    for name, given in RECKONED:
        found = reckon(OPERATIONS[name], given)
        yield from reckoning_problems(found)
    for fields, tool in set_ups.KINDS.values():
        made = set_ups.made(fields, tool)
        yield from set_ups.missing_from(*made)
        yield from set_ups.problems_of(*made)
    demo = set_ups.demo()
    for job in demo.jobs.values():
        yield from set_ups.problems_of(demo, job)


def caught(one: Corruption | None) -> str:
    """The first problem that a corruption brings, "" for none. Tried in a child process."""
    shops = _shops()
    reader, writer = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reader)
        with os.fdopen(writer, "w", encoding="utf-8") as out:
            out.write(_tried(one, shops))
        os._exit(0)
    os.close(writer)
    with os.fdopen(reader, encoding="utf-8") as back:
        said = back.read()
    os.waitpid(child, 0)
    return said


@lru_cache(maxsize=1)
def _shops() -> tuple[object, object]:
    """The small shop and the demo, read once and handed to each child."""
    from oracles import set_ups

    return set_ups.small_shop(), set_ups.demo()


def _tried(one: Corruption | None, shops: tuple[object, object]) -> str:
    for name in list(sys.modules):
        if name.startswith(("benchleaf.compute", "oracles")) and name not in KEPT:
            del sys.modules[name]
    if one is not None:
        sys.meta_path.insert(0, _Wrong(f"benchleaf.compute.{one.module}", one.source()))
    try:
        from oracles import set_ups

        set_ups.small_shop, set_ups.demo = (lambda: shops[0]), (lambda: shops[1])  # type: ignore[assignment]
        return next(problems(), "")
    except Exception as error:
        return f"{type(error).__name__}: {error}"


def main(arguments: list[str] | None = None) -> int:
    """Try the places asked for; 1 where one is not caught."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--sample", type=int, default=0, help="so many places only")
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--list", action="store_true", help="name the places and stop")
    parser.add_argument("--of", nargs="+", default=[], help="places of these modules only")
    asked = parser.parse_args(arguments)
    places = [one for one in corruptions() if not asked.of or one.module in asked.of]
    if asked.list:
        print("\n".join(map(str, places)), f"\n{len(places)} places")
        return 0
    before = caught(None)
    if before:
        print(f"nothing is corrupted yet, and: {before}")
        return 2
    if asked.sample:
        places = random.Random(asked.seed).sample(places, asked.sample)
    missed = []
    for one in places:
        said = caught(one)
        print(f"{'caught' if said else 'NOT CAUGHT'}  {one}\n    {said[:160]}", flush=True)
        missed += [] if said else [one]
    print(f"{len(places)} places corrupted, {len(places) - len(missed)} caught")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
