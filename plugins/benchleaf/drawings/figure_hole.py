"""The drill through the work at its depth stop, cut through the middle, to scale."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from markupsafe import Markup

from benchleaf.compute import Drilled, SetUpSheet, amount, told
from benchleaf.model import DrillingSetUp, HoleKind, Walls, WorkShape

from .drawing import WIDTH, Drawing

_MIDDLE = WIDTH / 2
"""Where the drill's axis stands."""


def hole_figure(sheet: SetUpSheet, set_up: DrillingSetUp) -> Markup | None:
    """The section, or None where a size that it needs is not known."""
    found = sheet.found
    if not isinstance(found, Drilled):
        return None
    drill, point, stop, depth = found.drill_mm, found.point, found.stop, found.depth
    if drill is None or point is None or stop is None or depth is None:
        return None
    size = _Size(drill, point, stop, depth)
    under = set_up.work_diameter or set_up.thickness
    if under is None:
        return None
    return _Section(sheet, set_up, size, under.value).svg()


@dataclass(frozen=True, slots=True)
class _Size:
    """What the section is drawn from, in mm."""

    drill: float
    point: float
    stop: float
    depth: float


class _Section:
    """One drawing; y grows downwards from the first touch of the point."""

    def __init__(self, sheet: SetUpSheet, set_up: DrillingSetUp, size: _Size, under: float) -> None:
        self.sheet, self.set_up, self.size, self.under = sheet, set_up, size, under
        lowest = max(under, size.stop)
        self.scale = min(30.0, 300.0 / lowest, 260.0 / size.drill)
        self.top = 90.0
        rows = (len(self._sizes()) + 1) // 2
        height = self.top + lowest * self.scale + 120 + 40 * rows
        title = f"{sheet.title}: the drill at its depth stop"
        self.drawing = Drawing(f"{sheet.id}-hole", title, self._desc(), height)

    def svg(self) -> Markup:
        self._work()
        self._drill()
        self._dimensions()
        return self.drawing.svg()

    def _desc(self) -> str:
        stop, point = self.size.stop, self.size.point
        return self._told(
            f"Section to scale. The point is {amount(point, 'mm', 1)} long. "
            f"From the first touch the drill goes {amount(stop, 'mm', 1)} to its stop."
        )

    def _told(self, text: str) -> str:
        return told(text, self.sheet.units)

    def _y(self, depth: float) -> float:
        return self.top + depth * self.scale

    def _work(self) -> None:
        if self.set_up.work is WorkShape.FLAT:
            self._flat()
        else:
            self._round()

    def _flat(self) -> None:
        half = self.size.drill / 2 * self.scale
        wide = max(half + 90, 230)
        top, bottom = self._y(0), self._y(self.under)
        for side in (-1, 1):
            near, far = _MIDDLE + side * half, _MIDDLE + side * wide
            left, right = min(near, far), max(near, far)
            self.drawing.box(left, top, right - left, bottom - top, fill="hatch")
        if self.set_up.hole is HoleKind.BLIND:
            self._floor(half, bottom)

    def _floor(self, half: float, bottom: float) -> None:
        """The metal left under a blind hole."""
        corner, tip = self._y(self.size.depth), self._y(self.size.stop)
        self.drawing.path(
            (
                (_MIDDLE - half, corner),
                (_MIDDLE, tip),
                (_MIDDLE + half, corner),
                (_MIDDLE + half, bottom),
                (_MIDDLE - half, bottom),
            ),
            fill="hatch",
            closed=True,
        )

    def _round(self) -> None:
        """The bar or tube across its axis, the hole through it left open."""
        radius = self.under / 2
        wall = self.set_up.wall.value if self.set_up.wall else 0.0
        bore = radius - wall if self.set_up.work is WorkShape.ROUND_TUBE else 0.0
        half = self.size.drill / 2
        for side in (-1, 1):
            outline = [self._at(side * x, radius - d) for x, d in _arc(radius, half, radius)]
            lower = [
                self._at(side * x, radius + d) for x, d in reversed(_arc(radius, half, radius))
            ]
            ring = outline + lower
            if bore > half:
                inner = [self._at(side * x, radius + d) for x, d in _arc(bore, half, bore)]
                upper = [
                    self._at(side * x, radius - d) for x, d in reversed(_arc(bore, half, bore))
                ]
                ring += inner + upper
            self.drawing.path(ring, fill="hatch", closed=True)
        if self.set_up.walls is Walls.ONE:
            self._uncut_wall(radius, bore, half)

    def _uncut_wall(self, radius: float, bore: float, half: float) -> None:
        """The far wall that the drill must not reach."""
        outer = _arc(radius, -half, half)
        inner = _arc(bore, half, -half)
        points = [self._at(x, radius + d) for x, d in (*outer, *inner)]
        self.drawing.path(points, fill="hatch", closed=True)

    def _at(self, x: float, depth: float) -> tuple[float, float]:
        return _MIDDLE + x * self.scale, self._y(depth)

    def _drill(self) -> None:
        half, point, stop = self.size.drill / 2, self.size.point, self.size.stop
        corner, tip = self._y(stop - point), self._y(stop)
        left, right = _MIDDLE - half * self.scale, _MIDDLE + half * self.scale
        outline = ((left, 14), (left, corner), (_MIDDLE, tip), (right, corner), (right, 14))
        self.drawing.path(outline, fill="tint", closed=True)
        self.drawing.line(_MIDDLE, 8, _MIDDLE, tip + 22, dash="26 6 4 6")

    def _dimensions(self) -> None:
        stop, left = self.size.stop, 40.0
        self.drawing.line(left - 10, self._y(0), _MIDDLE, self._y(0), dash="6 6")
        self.drawing.line(left - 10, self._y(stop), _MIDDLE, self._y(stop), dash="6 6")
        self.drawing.arrow(left, self._y(0), left, self._y(stop))
        below = self._y(max(self.under, stop)) + 60
        words = self._told(f"stop {amount(stop, 'mm', 1)} from first touch")
        self.drawing.text(10, below, words, bold=True)
        for number, line in enumerate(self._sizes()):
            column, row = number % 2, number // 2
            self.drawing.text(10 + column * WIDTH / 2, below + 42 + row * 40, line)

    def _sizes(self) -> list[str]:
        """The sizes that make up the stop, in words."""
        size, shape = self.size, self.set_up.work.value.removeprefix("round ")
        what = {"flat": "work"}.get(shape, shape)
        words = [f"drill {amount(size.drill, 'mm')}", f"{what} {amount(self.under, 'mm')}"]
        if self.set_up.wall is not None:
            words.append(f"wall {amount(self.set_up.wall.value, 'mm')}")
        if self.set_up.hole is HoleKind.BLIND:
            words.append(f"depth {amount(size.depth, 'mm')}")
        words.append(f"point {amount(size.point, 'mm', 1)}")
        if self.set_up.overtravel is not None:
            words.append(f"past {amount(self.set_up.overtravel.value, 'mm')}")
        return [self._told(one) for one in words]


def _arc(radius: float, start: float, end: float, points: int = 24) -> list[tuple[float, float]]:
    """x and half-height of a circle from x = start to x = end."""
    xs = (start + (end - start) * n / points for n in range(points + 1))
    return [(x, sqrt(max(0.0, radius**2 - x**2))) for x in xs]
