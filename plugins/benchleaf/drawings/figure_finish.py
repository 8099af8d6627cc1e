"""Sections of countersunk, counterbored and tapped holes, and the zone of a reamed one."""

from __future__ import annotations

from typing import Literal

from markupsafe import Markup

from benchleaf.compute import Bored, Reamed, SetUpSheet, Sunk, Tapped, amount, told
from benchleaf.model import HoleKind, ReamingSetUp, TappingSetUp, Units

from .drawing import WIDTH, Drawing

_MIDDLE, _TOP = WIDTH / 2, 40.0


def countersink_figure(sheet: SetUpSheet) -> Markup | None:
    """The cone at the mouth of the hole, to scale; None where a size is not known."""
    found = sheet.found
    if not isinstance(found, Sunk) or not found.mouth_mm or not found.hole_mm or not found.depth:
        return None
    mouth, hole, deep = found.mouth_mm, found.hole_mm, found.depth
    below = max(deep, mouth * 0.3)
    profile = ((mouth, 0.0), (hole, deep), (hole, deep + below))
    words = (f"mouth {amount(mouth, 'mm', 1)}", f"hole {amount(hole, 'mm')}",
             f"depth {amount(deep, 'mm', 1)}", f"angle {found.angle:g}°")  # fmt: skip
    return _section(sheet, "The countersink, cut through the middle", profile, words)


def counterbore_figure(sheet: SetUpSheet) -> Markup | None:
    """The seat and the hole under it, to scale."""
    found = sheet.found
    if not isinstance(found, Bored) or not found.seat_mm or not found.depth or not found.pilot_mm:
        return None
    wide, deep, hole = found.seat_mm, found.depth, found.pilot_mm
    profile = ((wide, 0.0), (wide, deep), (hole, deep), (hole, deep + wide * 0.5))
    words = tuple(
        f"{what} {size}"
        for what, size in (
            ("seat", amount(wide, "mm")),
            ("hole", amount(hole, "mm")),
            ("depth", amount(deep, "mm", 1)),
        )
    )
    return _section(sheet, "The counterbore, cut through the middle", profile, words)


def _section(
    sheet: SetUpSheet, title: str, profile: tuple[tuple[float, float], ...], words: tuple[str, ...]
) -> Markup:
    """Both halves of the metal beside a profile of diameters and depths."""
    words = tuple(told(one, sheet.units) for one in words)
    widest, deepest = max(wide for wide, _ in profile), profile[-1][1]
    scale = min(330.0 / widest, 260.0 / deepest)
    rows = (len(words) + 1) // 2
    drawing = Drawing(f"{sheet.id}-section", title, "; ".join(words),
                      _TOP + deepest * scale + 70 + 40 * rows)  # fmt: skip
    far = widest / 2 * scale + 90
    for side in (-1, 1):
        edge = [(_MIDDLE + side * wide / 2 * scale, _TOP + deep * scale) for wide, deep in profile]
        outer = [(_MIDDLE + side * far, edge[-1][1]), (_MIDDLE + side * far, _TOP)]
        drawing.path([*edge, *outer], fill="hatch", closed=True)
    bottom = _TOP + deepest * scale
    drawing.line(_MIDDLE, 10, _MIDDLE, bottom + 16, dash="26 6 4 6")
    _words(drawing, words, bottom + 60)
    return drawing.svg()


def _words(drawing: Drawing, words: tuple[str, ...], top: float) -> None:
    for number, line in enumerate(words):
        drawing.text(10 + number % 2 * WIDTH / 2, top + number // 2 * 40, line, bold=number == 0)


def tapped_figure(sheet: SetUpSheet, set_up: TappingSetUp) -> Markup | None:
    """Drilled hole and thread, to scale in depth."""
    found = sheet.found
    if not isinstance(found, Tapped) or found.hole_mm is None:
        return None
    thread, length = set_up.thread, set_up.thread_length.value
    row = sheet.row("drilled_depth")
    drilled = round(row.value[0], 1) if row is not None and row.value is not None else length
    hole, major = found.hole_mm, thread.major_mm
    scale = min(200.0 / major, 280.0 / drilled)
    words = [f"{thread.name}", f"drill {amount(hole, 'mm', 2)}"]
    words.append(f"full thread {amount(length, 'mm')}")
    if set_up.hole is HoleKind.BLIND:
        words.append(f"drilled {amount(drilled, 'mm', 1, 'up')} at least")
    words = [told(one, sheet.units) for one in words]
    height = _TOP + (drilled + hole * 0.3) * scale + 190
    title = "The tapped hole, cut through the middle"
    drawing = Drawing(f"{sheet.id}-section", title, "; ".join(words), height)
    _tapped(drawing, scale, hole, major, (length, drilled), set_up.hole is HoleKind.BLIND)
    _words(drawing, tuple(words), _TOP + (drilled + hole * 0.3) * scale + 100)
    return drawing.svg()


def _tapped(
    drawing: Drawing, scale: float, hole: float, major: float, depths: tuple[float, float],
    is_blind: bool,
) -> None:  # fmt: skip
    """Metal at both sides, the crests as thin lines at the major diameter."""
    length, drilled = depths
    bottom = _TOP + drilled * scale + (hole * scale * 0.3 + 30 if is_blind else 0)
    far = major / 2 * scale + 100
    near, floor = hole / 2 * scale, _TOP + drilled * scale
    if is_blind:
        _blind(drawing, (near, far), floor, bottom)
    for side in (-1, 1):
        left, right = sorted((_MIDDLE + side * near, _MIDDLE + side * far))
        if not is_blind:
            drawing.box(left, _TOP, right - left, bottom - _TOP, fill="hatch")
        x = _MIDDLE + side * major / 2 * scale
        drawing.line(x, _TOP, x, _TOP + length * scale, width=4)
    drawing.line(_MIDDLE, 10, _MIDDLE, bottom + 16, dash="26 6 4 6")


def _blind(drawing: Drawing, across: tuple[float, float], floor: float, bottom: float) -> None:
    """Metal all round a hole that ends in the drill's point."""
    near, far = across
    drawing.path(
        [
            (_MIDDLE - far, _TOP), (_MIDDLE - near, _TOP), (_MIDDLE - near, floor),
            (_MIDDLE, floor + near * 0.6), (_MIDDLE + near, floor), (_MIDDLE + near, _TOP),
            (_MIDDLE + far, _TOP), (_MIDDLE + far, bottom), (_MIDDLE - far, bottom),
        ],
        fill="hatch",
        closed=True,
    )  # fmt: skip


def fit_figure(sheet: SetUpSheet, set_up: ReamingSetUp) -> Markup | None:
    """The hole's tolerance zone above and below its nominal size, in micrometres."""
    found = sheet.found
    if not isinstance(found, Reamed) or not found.reamer_mm:
        return None
    size, smallest, largest = found.reamer_mm, found.hole_low, found.hole_high
    if smallest is None or largest is None:
        return None
    low, high = (smallest - size) * 1000, (largest - size) * 1000
    go, not_go = amount(smallest, "mm", 3, "up"), amount(largest, "mm", 3, "down")
    said = told(f"go {go}, not go {not_go}", sheet.units)
    drawing = Drawing(f"{sheet.id}-fit", f"Limits of the {set_up.tolerance} hole", said, 390)
    top, bottom = max(high, 0.0), min(low, 0.0)
    scale = 190.0 / ((top - bottom) or 1.0)
    zero = 60 + top * scale
    drawing.line(30, zero, WIDTH - 30, zero, dash="18 8")
    drawing.text(30, zero - 10, told(amount(size, "mm"), sheet.units))
    drawing.box(300, 60 + (top - high) * scale, 160, (high - low) * scale, fill="hatch")
    drawing.text(
        480, 60 + (top - high) * scale + 12, f"not go {_signed(high, sheet.units, 'down')}"
    )
    drawing.text(480, 60 + (top - low) * scale + 40, f"go {_signed(low, sheet.units, 'up')}")
    drawing.text(30, 360, said, bold=True)
    return drawing.svg()


def _signed(deviation: float, units: Units, toward: Literal["down", "up"]) -> str:
    """A deviation in micrometres with its sign, told to the inside of the zone."""
    words = told(amount(deviation, "µm", 0, toward), units)
    return words if words.startswith("-") else f"+{words}"
