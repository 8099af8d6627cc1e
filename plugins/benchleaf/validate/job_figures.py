"""What a job says of itself in figures, by name: what its sentences are held against."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from benchleaf.compute import Row, SetUpSheet
from benchleaf.formulas.quantities import Quantity
from benchleaf.model import Check, Holding, Job, KeyPath, SetUp, Shop, Tool, ToolKind
from benchleaf.model.said import Said, is_inch


@dataclass(frozen=True, slots=True)
class Known:
    """One figure of a job under the name by which a sentence may call it."""

    name: str
    kind: str
    low: float
    high: float
    shown: str
    """Its label and value, as a finding tells it."""
    record: tuple[str, str]
    path: KeyPath
    """Where it is written; of a computed figure, its set-up."""
    set_up: str | None = None
    half: float = 0.0
    """Half of the last digit shown, where it is computed."""
    rough: float = 0.0
    """The share by which it may be off, as models of cutting are."""
    word: str = ""
    """The name of a thread or class."""
    is_inch: bool = False
    is_limits: bool = False
    """True for the limits of a check, whose ends a gauge has."""

    def agrees(self, said: Said, share: float = 0.0) -> bool:
        """True where the sentence may mean this figure, rounded or in another unit.

        `share` is how far off it may be where the sentence itself says that it is not exact.
        """
        if said.kind in ("thread", "class"):
            return said.name == self.word
        room = max(self.half, self._converted(said), max(self.rough, share) * self.high) + 1e-6
        return said.low >= self.low - room and said.high <= self.high + room

    def _converted(self, said: Said) -> float:
        """How far a figure told in other units may be rounded: its last digit, never much."""
        is_other = said.is_inch != self.is_inch
        return min(said.place / 2, 0.015 * self.high) if is_other else 0.0


ROWS = {
    "spindle_speed": "speed",
    "cutting_speed_range": "cutting speed",
    "cutting_speed": "cutting speed",
    "feed": "feed",
    "kept_feed": "feed",
    "feed_rate": "feed rate",
    "depth_stop": "depth stop",
    "quill_travel": "quill travel",
    "thrust": "thrust",
    "lever_force": "pull",
    "torque": "torque",
    "holding": "torque",
    "cutter_power": "power",
    "motor_power": "power",
    "ease_off": "ease",
    "sink_depth": "depth of cone",
    "pitch": "pitch",
    "turns": "turns",
    "drilled_depth": "depth of hole",
    "hole_limits": "reamed hole",
    "hole_before": "hole before",
    "mouth": "mouth",
}
"""Rows of a set-up that a sentence may name, and by which name."""

_KINDS = {
    "rpm": "spindle speed",
    "m/min": "cutting speed",
    "mm/rev": "feed",
    "mm/min": "feed rate",
    "mm": "length",
    "N": "force",
    "N m": "torque",
    "kW": "power",
    "turns": "turns",
}
_ROUGH = {"force": 0.1, "torque": 0.1, "power": 0.1}

_ENTERED = {
    "thickness": "thickness",
    "work_diameter": "thickness",
    "depth": "depth of hole",
    "overtravel": "overtravel",
    "start_clearance": "start",
    "pilot": "pilot",
    "thread_length": "depth of thread",
    "hole_diameter": "drilled hole",
    "mouth": "mouth",
    "head": "mouth",
}
"""Keys of a set-up, and the name of what they hold."""
_TOOLS = (ToolKind.DRILL, ToolKind.REAMER, ToolKind.COUNTERSINK, ToolKind.COUNTERBORE)


def known_figures(shop: Shop, job: Job, sheets: tuple[SetUpSheet, ...]) -> tuple[Known, ...]:
    """Every figure of a job that a sentence may name."""
    found = [*_of_tools(shop, job), *_of_checks(job), *_of_holding(job)]
    ids = {one.id: at for at, one in enumerate(job.set_ups)}
    for sheet in sheets:
        found += _of_sheet(job, sheet, ids[sheet.id])
    for at, set_up in enumerate(job.set_ups):
        found += _of_set_up(shop, job, set_up, at)
    return tuple(found)


def _of_sheet(job: Job, sheet: SetUpSheet, at: int) -> Iterator[Known]:
    for row, read in zip(sheet.rows, sheet.as_read.rows, strict=True):
        name = ROWS.get(row.key)
        if name and row.figure is not None and row.figure.unit in _KINDS and read.figure:
            words = f"{read.label}: {read.figure.text}"
            yield _computed(job, sheet.id, at, name, row, words)


def _computed(job: Job, set_up: str, at: int, name: str, row: Row, words: str) -> Known:
    assert row.figure is not None
    kind = _KINDS[row.figure.unit]
    return Known(
        name,
        kind,
        row.figure.low,
        row.figure.high,
        words,
        ("jobs", job.id),
        ("set_ups", at, "feed") if row.key == "feed" else ("set_ups", at),
        set_up,
        half=0.5 * 10.0**-row.figure.decimals,
        rough=_ROUGH.get(kind, 0.0),
    )


def _of_set_up(shop: Shop, job: Job, set_up: SetUp, at: int) -> Iterator[Known]:
    here = ("jobs", job.id)
    for key, name in _ENTERED.items():
        value = getattr(set_up, key, None)
        if isinstance(value, Quantity):
            is_depth_reached = set_up.operation == "reaming" and key == "depth"
            if not is_depth_reached:
                yield _entered(name, key, value, here, ("set_ups", at, key), set_up.id)
    if set_up.operation == "drilling" and set_up.hole.value == "through" and set_up.thickness:
        path = ("set_ups", at, "thickness")
        yield _entered("depth of hole", "thickness", set_up.thickness, here, path, set_up.id)
    for key, name in (("thread", "thread"), ("clearance_for", "screw"), ("screw", "screw")):
        thread = getattr(set_up, key, None)
        if thread is not None:
            path = ("set_ups", at, key)
            yield Known(name, "thread", 0, 0, f"{key}: {thread.name}", here, path, set_up.id,
                        word=thread.name)  # fmt: skip
    if set_up.operation == "reaming":
        path = ("set_ups", at, "tolerance")
        yield Known("class", "class", 0, 0, f"tolerance: {set_up.tolerance}", here, path,
                    set_up.id, word=set_up.tolerance)  # fmt: skip
    tool = shop.tools.get(set_up.tool)
    if tool is not None and tool.size is not None and set_up.operation in ("drilling", "reaming"):
        name = "drilled hole" if set_up.operation == "drilling" else "reamed hole"
        yield _entered(name, "size", tool.size, ("tools", tool.id), ("size",), set_up.id)


def _of_tools(shop: Shop, job: Job) -> Iterator[Known]:
    named = [*job.tools, *(getattr(one, "hole_drill", None) for one in job.set_ups)]
    for tool_id in dict.fromkeys(one for one in named if one):
        tool = shop.tools.get(tool_id)
        if tool is not None and tool.kind in _TOOLS:
            yield from _of_tool(tool)


def _of_tool(tool: Tool) -> Iterator[Known]:
    here = ("tools", tool.id)
    if tool.size is not None:
        yield _entered(tool.kind.value, f"{tool.name}, size", tool.size, here, ("size",))
    if tool.point_angle is not None:
        yield _entered("angle", f"{tool.name}, angle", tool.point_angle, here, ("point_angle",))
    if tool.feed is not None:
        yield _entered("range of feeds", f"{tool.name}, feed", tool.feed, here, ("feed",))


def _of_checks(job: Job) -> Iterator[Known]:
    for at, step in enumerate(job.steps):
        for number, check in enumerate(step.checks):
            path = ("steps", at, "checks", number)
            if check.fit is not None:
                yield Known("class", "class", 0, 0, f"fit: {check.fit}", ("jobs", job.id),
                            (*path, "fit"), word=check.fit)  # fmt: skip
            if check.limits is not None:
                yield _limits(job, check, (*path, "limits"))


def _limits(job: Job, check: Check, path: KeyPath) -> Known:
    assert check.limits is not None
    size = check.limits
    shown = f"{check.what.rstrip('.')}: {size.text}"
    return Known(f"check {path[1]} {path[3]}", "length", size.low, size.high, shown,
                 ("jobs", job.id), path, is_inch=is_inch(size.text),
                 is_limits=True)  # fmt: skip


def _of_holding(job: Job) -> Iterator[Known]:
    every: list[tuple[KeyPath, Holding | None]] = [(("holding",), job.holding)]
    every += [(("set_ups", at, "holding"), one.holding) for at, one in enumerate(job.set_ups)]
    for path, held in every:
        if held is not None and held.clamping is not None:
            here = (*path, "clamping", "force")
            yield _entered("clamp", "clamp force", held.clamping.force, ("jobs", job.id), here)
        if held is not None and held.positive_stop is not None:
            here = (*path, "positive_stop", "rated_force")
            force = held.positive_stop.rated_force
            yield _entered("clamp", "rated force", force, ("jobs", job.id), here)


def _entered(
    name: str,
    label: str,
    value: Quantity,
    record: tuple[str, str],
    path: KeyPath,
    set_up: str | None = None,
) -> Known:
    shown = f"{label.replace('_', ' ')}: {value.text}"
    return Known(name, value.kind, value.low, value.high, shown, record, path, set_up,
                 rough=_ROUGH.get(value.kind, 0.0), is_inch=is_inch(value.text))  # fmt: skip
