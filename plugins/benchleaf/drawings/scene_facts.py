"""What a scene is drawn from: work, holding, tool and results of a step, read from the records."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from benchleaf.compute import Bored, Drilled, Reamed, SetUpSheet, Sunk, Tapped, amount, told
from benchleaf.model import (
    CountersinkingSetUp,
    DrillingSetUp,
    Form,
    HoldingMethod,
    Job,
    Looks,
    Machine,
    PartForm,
    ReamingSetUp,
    SetUp,
    Shop,
    Step,
    TappingSetUp,
    Tool,
    Units,
    WorkPiece,
    WorkShape,
    units_at,
)

from .record_symbols import looks_of
from .scene_section import Cutter, Piece, Setting


@dataclass(frozen=True, slots=True)
class Facts:
    """The records of one step, by their sizes in mm."""

    step: Step
    machine: Machine
    piece: Piece
    setting: Setting
    cutter: Cutter | None
    stop: float | None
    """Where the tip is at the depth stop, below the upper face of the work."""
    touch: float
    """Where it is at first touch: 0, but for a cone that touches the mouth of a hole."""
    through: bool
    units: Units
    length: float
    holes: tuple[tuple[float, float], ...]
    """Place and diameter of the holes in the part as the job takes it."""
    fitted: tuple[str, ...]
    """What is drawn to fit, since no record gives it."""

    @property
    def is_drill(self) -> bool:
        """True at a drilling machine."""
        return looks_of(self.machine) is Looks.PILLAR_DRILL

    @property
    def is_grinder(self) -> bool:
        """True at a bench grinder."""
        return self.machine.grinding is not None

    @property
    def power_off(self) -> bool:
        """True where the step says that isolator or plug keep the machine from moving."""
        inside = self.step.hands_inside
        return inside is not None and inside.protected_by.value != "guard with interlock"

    @property
    def plug_out(self) -> bool:
        """True where the step hangs the plug on its hook."""
        inside = self.step.hands_inside
        said = [one.point for one in self.step.key_points] + ([inside.how] if inside else [])
        return any(re.search(r"plug (?:on|hook)|hang the plug|pull the plug", one) for one in said)

    @property
    def travel(self) -> float | None:
        """From first touch to the depth stop."""
        return None if self.stop is None else self.stop - self.touch

    @property
    def locked(self) -> bool:
        """True where the isolator is locked."""
        inside = self.step.hands_inside
        return inside is not None and inside.protected_by.value == "lock"

    def told(self, millimetres: float, digits: int | None = None) -> str:
        """A size in the units that its reader has first."""
        text = (
            amount(millimetres, "mm", digits) if digits is not None else amount(millimetres, "mm")
        )
        return told(text, self.units)


def facts_of(shop: Shop, job: Job, step: Step, sheets: Sequence[SetUpSheet]) -> Facts:
    """The facts of a step; its own set-up, else the first of the job."""
    machine = shop.machines[step.station or job.machine]
    by_id = {one.id: one for one in sheets}
    set_up = next((one for one in job.set_ups if one.id == step.set_up), None)
    set_up = set_up or next(iter(job.set_ups), None)
    sheet = by_id.get(set_up.id) if set_up else None
    tools = [shop.tools[one] for one in job.tools]
    fitted: list[str] = []
    part = shop.piece(job)
    form = part.part.form if part else None
    high, wide = _sizes(set_up, form, fitted)
    shape = form.shape if form else None
    if isinstance(set_up, DrillingSetUp):
        is_round = set_up.work is not WorkShape.FLAT
        wall = set_up.wall.value if set_up.wall else 0.0
    else:
        is_round, wall = shape in (Form.ROUND_BAR, Form.TUBE), 0.0
    cutter = _cutter(shop.tools.get(set_up.tool) if set_up else None, sheet, fitted)
    hole, floor = _former(sheet, set_up)
    piece = Piece(high, wide, is_round, wall, hole, floor)
    setting = _setting(job, tools, piece, fitted) if job.holding else Setting("none")
    stop, through = _stop(sheet, set_up)
    touch = _touch(cutter, piece)
    return Facts(
        step, machine, piece, setting, cutter, None if stop is None else touch + stop, touch,
        through, units_at(shop, job),
        form.length.value if form else 3 * wide, _holes(part), tuple(dict.fromkeys(fitted)),
    )  # fmt: skip


def _sizes(set_up: SetUp | None, form: PartForm | None, fitted: list[str]) -> tuple[float, float]:
    high = wide = None
    if isinstance(set_up, DrillingSetUp):
        size = set_up.work_diameter or set_up.thickness
        high = size.value if size else None
        wide = high if set_up.work_diameter else None
    if form is not None:
        high = high or form.height.value
        wide = wide or form.width.value
    if high is None or wide is None:
        fitted.append("work")
    high = high or 12.0
    return high, wide or 3 * high


def _cutter(tool: Tool | None, sheet: SetUpSheet | None, fitted: list[str]) -> Cutter | None:
    if tool is None or tool.size is None:
        found = sheet.found if sheet else None
        size = found.major_mm if isinstance(found, Tapped) else None
        if tool is None or size is None:
            return None
    else:
        size = tool.size.value
    found = sheet.found if sheet else None
    angle = tool.point_angle.value if tool.point_angle else 118.0
    if isinstance(found, Sunk) and found.angle:
        angle = found.angle
    kind = (
        tool.kind.value
        if tool.kind.value in ("countersink", "reamer", "tap", "counterbore")
        else "drill"
    )
    if tool.stick_out is None:
        fitted.append("tool length")
    return Cutter(kind, size, angle, tool.stick_out.value if tool.stick_out else 45.0)


def _former(sheet: SetUpSheet | None, set_up: SetUp | None) -> tuple[float, float | None]:
    """The hole that the work has already, and its floor."""
    found = sheet.found if sheet else None
    if isinstance(set_up, DrillingSetUp):
        return (set_up.pilot.value if set_up.pilot else 0.0), None
    if isinstance(set_up, CountersinkingSetUp):
        return set_up.hole_diameter.value, None
    if isinstance(found, Tapped) and found.hole_mm:
        length = set_up.thread_length.value if isinstance(set_up, TappingSetUp) else 10.0
        return found.hole_mm, length * 1.3
    if isinstance(found, Reamed) and found.reamer_mm:
        return found.reamer_mm - 0.25, None
    if isinstance(found, Bored) and found.pilot_mm:
        return found.pilot_mm, None
    return 0.0, None


def _setting(job: Job, tools: list[Tool], piece: Piece, fitted: list[str]) -> Setting:
    by_looks = {looks_of(one): one for one in tools}
    holding = job.holding
    assert holding is not None
    if holding.method is HoldingMethod.FIXTURE:
        fitted.append("fixture")
        return Setting("fixture")
    if Looks.V_BLOCK in by_looks:
        fitted.append("V-block")
        return Setting("V-block")
    if holding.method is HoldingMethod.VICE:
        vice, rails = by_looks.get(Looks.VICE), by_looks.get(Looks.PARALLELS)
        bed = rails.height.value if rails and rails.height else None
        jaws = vice.height.value if vice and vice.height else None
        if rails is not None and bed is None:
            fitted.append("parallels")
        bed = bed if bed is not None else (16.0 if rails else 0.0)
        if jaws is None:
            fitted.append("jaws")
            jaws = bed + piece.high - min(2.0, piece.high / 3)
        return Setting("vice", jaws, bed)
    fitted.append("clamps")
    return Setting("none")


def _touch(cutter: Cutter | None, piece: Piece) -> float:
    if cutter is None or cutter.kind != "countersink":
        return 0.0
    return cutter.point * piece.hole / cutter.size


def _stop(sheet: SetUpSheet | None, set_up: SetUp | None) -> tuple[float | None, bool]:
    found = sheet.found if sheet else None
    if isinstance(found, Drilled):
        through = isinstance(set_up, DrillingSetUp) and set_up.hole.value == "through"
        return found.stop, through
    if isinstance(found, Sunk | Bored):
        return found.depth, False
    if isinstance(set_up, ReamingSetUp) and set_up.overtravel:
        return set_up.depth.value + set_up.overtravel.value, True
    row = sheet.row("depth_stop") if sheet else None
    return (row.figure.high if row and row.figure else None), True


def _holes(part: WorkPiece | None) -> tuple[tuple[float, float], ...]:
    if part is None or part.takes is None:
        return ()
    found = []
    for state in part.part.states:
        found += [(one.at.value, one.size.value) for one in state.features if one.at]
        if state.id == part.takes.id:
            break
    return tuple(found)
