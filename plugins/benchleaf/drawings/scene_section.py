"""The work in its holding under the tool, cut through the axis of the hole, to scale.

Heights are mm below the upper face of the work, where the point touches first. What a record does
not give is drawn to fit, and `Setting.fitted` says so.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, pi, radians, sin, sqrt, tan

from .ink import FINE, THIN, Ink, Point, short, trace


@dataclass(frozen=True, slots=True)
class Cutter:
    """A tool by its sizes in mm."""

    kind: str
    """drill, countersink, reamer, tap, counterbore."""
    size: float
    angle: float = 118
    """The whole angle of its point."""
    stick_out: float = 45

    @property
    def point(self) -> float:
        """Length of the point."""
        if self.kind in ("drill", "countersink", "guide"):
            return self.size / 2 / tan(radians(self.angle / 2))
        return min(1.0, self.size / 10)

    def radius(self, above: float) -> float:
        """Half of its width so far above its tip."""
        if above <= 0 or self.kind == "guide":
            return 0.0
        if self.kind in ("drill", "countersink"):
            return min(self.size / 2, above * tan(radians(self.angle / 2)))
        return self.size / 2


@dataclass(frozen=True, slots=True)
class Piece:
    """The work by its sizes in mm, and the hole that it has already."""

    high: float
    wide: float
    is_round: bool = False
    wall: float = 0.0
    hole: float = 0.0
    floor: float | None = None
    """How deep the hole is that it has already; None for one right through."""


@dataclass(frozen=True, slots=True)
class Setting:
    """What holds the work, in mm."""

    kind: str
    """vice, V-block, fixture or none."""
    jaws: float = 30.0
    bed: float = 16.0
    """From the floor of the vice to the work: the height of the parallels."""
    fitted: tuple[str, ...] = ()
    """What is drawn to fit."""

    def jaw_top(self, piece: Piece) -> float:
        """Height of the jaws' upper edge below that of the work."""
        return piece.high + self.bed - self.jaws


@dataclass(frozen=True, slots=True)
class Section:
    """One section on a panel 440 wide and 420 high, the axis of the tool at 215."""

    piece: Piece
    setting: Setting
    cutter: Cutter | None
    middle: float = 215.0
    top: float = 196.0

    @property
    def below(self) -> float:
        """From the upper face of the work down to the table, in mm."""
        under = self.setting.bed + 8 if self.setting.kind == "vice" else 22.0
        return self.piece.high + under

    @property
    def scale(self) -> float:
        """Units for a mm."""
        half = self.piece.wide / 2 + (20 if self.setting.kind == "vice" else 14)
        return min(7.0, 190 / self.below, 172 / half)

    def x(self, mm: float) -> float:
        """A place across."""
        return self.middle + mm * self.scale

    def y(self, mm: float) -> float:
        """A height."""
        return self.top + mm * self.scale

    def _at(self, *points: Point) -> list[Point]:
        return [(self.x(a), self.y(b)) for a, b in points]

    def draw_holding(self, ink: Ink) -> None:
        """Table, and vice, V-block or fixture."""
        floor = self.y(self.below)
        ink.line(f"M{short(self.x(-52))} {short(floor)}H{short(self.x(52))}")
        strokes = "".join(
            f"M{short(self.x(-50) + 26 * n)} {short(floor + 18)}l16 -16"
            for n in range(int(self.scale * 100 / 26))
        )
        ink.line(strokes, 1.4)
        {"vice": self._vice, "V-block": self._v_block, "fixture": self._fixture}.get(
            self.setting.kind, self._block
        )(ink)

    def _vice(self, ink: Ink) -> None:
        half, bed = self.piece.wide / 2, self.piece.high + self.setting.bed
        jaw, floor = self.setting.jaw_top(self.piece), self.below
        left = ((-half - 16, floor), (-half - 16, jaw + 5), (-half - 13, jaw), (-half, jaw),
                (-half, bed), (half + 17, bed), (half + 17, floor))  # fmt: skip
        right = ((half, jaw), (half + 11, jaw), (half + 14, jaw + 5), (half + 14, bed - 0.6),
                 (half, bed - 0.6))  # fmt: skip
        ink.cut(self._at(*left), 15, -45)
        ink.cut(self._at(*right), 15)
        wide = min(5.0, half / 3)
        for side in (-1, 1):
            near, far = side * half, side * (half - wide)
            high = self.piece.high
            ink.cut(self._at((near, high), (far, high), (far, bed), (near, bed)), 8, 45)

    def _v_block(self, ink: Ink) -> None:
        radius, floor = self.piece.high / 2, self.below
        slot = (self.cutter.size if self.cutter else radius) / 2 + 1.5
        wide, top = radius * 2.6, radius * 1.15
        for side in (-1, 1):
            q = ((side * slot, floor), (side * slot, radius + sqrt(2) * radius - slot),
                 (side * (radius + sqrt(2) * radius - top), top), (side * wide, top),
                 (side * wide, floor))  # fmt: skip
            ink.cut(self._at(*q), 15, -45 * side)
        # the strap stands behind the tool: it is not cut
        ink.shape(
            trace(self._at((-wide, -5), (wide, -5), (wide, 0), (-wide, 0)), closed=True), FINE
        )
        for side in (-1, 1):
            x = self.x(side * wide * 0.82)
            ink.line(f"M{short(x)} {short(self.y(-9))}V{short(self.y(top))}", THIN, dash="7 5")
            ink.box(x - 9, self.y(-9), 18, self.scale * 4, FINE)

    def _fixture(self, ink: Ink) -> None:
        high, floor, half = self.piece.high, self.below, self.piece.wide / 2
        for side in (-1, 1):
            q = ((side * half * 0.45, high), (side * half, high), (side * half, high + 9),
                 (side * (half + 10), high + 9), (side * (half + 10), floor),
                 (side * half * 0.45, floor))  # fmt: skip
            ink.cut(self._at(*q), 13, -45 * side)
        # the clamp bar with its foot, to the left of the tool
        foot = ((-half - 8, -8), (-half * 0.5, -8), (-half * 0.5, 0), (-half * 0.7, 0),
                (-half * 0.7, -3), (-half - 8, -3))  # fmt: skip
        ink.cut(self._at(*foot), 9)

    def _block(self, ink: Ink) -> None:
        high, floor, half = self.piece.high, self.below, self.piece.wide / 2
        q = ((-half, high), (half, high), (half, floor), (-half, floor))
        ink.cut(self._at(*q), 13, -45)

    def hole_radius(self, depth: float, y: float) -> float:
        """Half of the hole's width at a height, with the tip of the tool at `depth`."""
        piece = self.piece
        former = piece.hole / 2 if piece.floor is None or y <= piece.floor else 0.0
        now = self.cutter.radius(depth - y) if self.cutter else 0.0
        return max(former, now)

    def _heights(self, depth: float) -> list[float]:
        high, piece = self.piece.high, self.piece
        found = {0.0, high}
        if self.cutter:
            reach = self.cutter.point
            found |= {depth, depth - 1e-6, depth - reach}
            found |= {depth - reach * piece.hole / self.cutter.size}
        if piece.floor is not None:
            found |= {piece.floor, piece.floor + 1e-6}
        return sorted(y for y in found if 0 <= y <= high)

    def draw_piece(self, ink: Ink, depth: float, lifted: float = 0.0) -> None:
        """The work, cut by the tool as far as `depth`; `lifted` mm above its seat."""
        for side in (-1, 1):
            edge = [(side * self.hole_radius(depth, y), y) for y in self._heights(depth)]
            outline = self._round(side, depth) if self.piece.is_round else self._flat(side, edge)
            self._cut(ink, [(x, y - lifted) for x, y in outline], depth)

    def _cut(self, ink: Ink, outline: Sequence[Point], depth: float) -> None:
        """One half; the line in the middle is left out where metal goes on."""
        places = self._at(*outline)
        ink.cut(places, 10, heavy=True, edge=False)
        runs: list[list[Point]] = [[]]
        for one, other in zip(places, (*places[1:], places[0]), strict=True):
            if abs(one[0] - self.middle) < 0.01 and abs(other[0] - self.middle) < 0.01:
                runs.append([])
                continue
            runs[-1] = [*(runs[-1] or [one]), other]
        ink.line("".join(trace(run) for run in runs if run), 5)

    def _flat(self, side: int, edge: Sequence[Point]) -> list[Point]:
        half, high = self.piece.wide / 2, self.piece.high
        return [(side * half, 0), *edge, (side * half, high)]

    def _round(self, side: int, depth: float) -> list[Point]:
        radius = self.piece.high / 2

        def arc(r: float) -> list[Point]:
            turns = [pi * n / 30 for n in range(31)]
            return [(side * r * sin(turn), radius - r * cos(turn)) for turn in turns]

        def outside(points: list[Point]) -> list[Point]:
            return [p for p in points if abs(p[0]) >= self.hole_radius(depth, p[1])]

        outer = outside(arc(radius))
        if self.piece.wall:
            return outer + outside(arc(radius - self.piece.wall))[::-1]
        low, top = outer[-1][1], outer[0][1]
        inner = [(side * self.hole_radius(depth, y), y) for y in self._heights(depth)]
        return outer + [p for p in reversed(inner) if top <= p[1] <= low]

    def draw_cutter(self, ink: Ink, depth: float, *, chuck: bool = True) -> None:
        """The tool with its tip at `depth`, not cut, and the chuck that holds it."""
        cutter = self.cutter
        if cutter is None:
            return
        half, corner = cutter.size / 2 * self.scale, self.y(depth - cutter.point)
        grip = max(44.0, self.y(depth - cutter.stick_out))
        shank = half if cutter.kind != "countersink" else min(half, 4 * self.scale)
        tip = self.y(depth)
        m = self.middle
        outline: Sequence[Point]
        if cutter.kind in ("drill", "countersink", "guide"):
            neck = corner if cutter.kind != "countersink" else corner - 1.5 * self.scale
            outline = ((m - shank, grip), (m - shank, neck - (half - shank)), (m - half, neck),
                       (m - half, corner), (m, tip), (m + half, corner), (m + half, neck),
                       (m + shank, neck - (half - shank)), (m + shank, grip))  # fmt: skip
        else:
            outline = ((m - half, grip), (m - half, corner), (m - half * 0.8, tip),
                       (m + half * 0.8, tip), (m + half, corner), (m + half, grip))  # fmt: skip
        ink.shape(trace(outline, closed=True), FINE)
        self._flutes(ink, cutter, half, grip, corner)
        if chuck:
            self._chuck(ink, shank, grip)

    def _flutes(self, ink: Ink, cutter: Cutter, half: float, grip: float, corner: float) -> None:
        m, lines = self.middle, []
        if cutter.kind == "drill":
            y, pitch = corner - 2, max(14.0, half * 2.2)
            while y - pitch > grip + 14:
                lines.append(
                    f"M{short(m - half)} {short(y)}C{short(m - half / 3)} {short(y - pitch / 4)}"
                    f" {short(m + half / 3)} {short(y - pitch * 0.75)} {short(m + half)}"
                    f" {short(y - pitch)}"
                )
                y -= pitch * 0.8
        elif cutter.kind == "tap":
            y = corner
            while y > max(grip + 30, corner - 90):
                lines.append(f"M{short(m - half)} {short(y)}L{short(m + half)} {short(y - 4)}")
                y -= 8
        elif cutter.kind == "countersink":
            tip = corner + cutter.point * self.scale
            lines = [
                f"M{short(m)} {short(tip)}L{short(m + k * half)} {short(corner)}"
                for k in (-0.4, 0.4)
            ]
        elif cutter.kind != "guide":
            lines = [
                f"M{short(m + k * half)} {short(corner)}V{short(grip + 24)}" for k in (-0.4, 0.3)
            ]
        if lines:
            ink.line("".join(lines), THIN)

    def _chuck(self, ink: Ink, half: float, grip: float) -> None:
        m, nose, body = self.middle, half + 8, max(40.0, half + 22)
        top = max(0.0, grip - 90)
        ink.shape(trace(((m - nose, grip), (m + nose, grip), (m + body, grip - 22),
                         (m + body, top), (m - body, top), (m - body, grip - 22)),
                        closed=True))  # fmt: skip
        ink.line(f"M{short(m - body)} {short(grip - 22)}h{short(2 * body)}", THIN)
        ink.centre(m, top, m, self.y(self.piece.high) + 26)

    def end_position(self, ink: Ink, stop: float) -> None:
        """The tool where its depth stop holds it: thin and dashed."""
        if self.cutter is None:
            return
        half, corner = self.cutter.size / 2 * self.scale, self.y(stop - self.cutter.point)
        m = self.middle
        if self.cutter.kind in ("drill", "countersink"):
            data = trace(((m - half, corner - 12), (m - half, corner), (m, self.y(stop)),
                          (m + half, corner), (m + half, corner - 12)))  # fmt: skip
        else:
            data = trace(((m - half, corner - 12), (m - half, self.y(stop)),
                          (m + half, self.y(stop)), (m + half, corner - 12)))  # fmt: skip
        ink.line(data, THIN, dash="9 5")

    def depth_size(self, ink: Ink, stop: float, words: str, touch: float = 0.0) -> None:
        """The travel from first touch to the depth stop, on its arrow."""
        x, top, end = 404.0, self.y(touch), self.y(stop)
        start = self.middle + 6 if touch else self.x(self.piece.wide / 2) + 4
        ink.line(f"M{short(start)} {short(top)}H{short(x + 12)}", THIN)
        ink.line(f"M{short(self.middle + 6)} {short(end)}H{short(x - 26)}", THIN, dash="9 5")
        if end - top >= 52:
            ink.line(f"M{short(x)} {short(top)}V{short(end)}", THIN)
            ink.head(x, top, -90)
        else:
            ink.line(f"M{short(x)} {short(top - 34)}V{short(end)}", THIN)
            ink.head(x, top, 90)
        ink.head(x, end, 90)
        ink.stop_bar(x - 28, end + 3, 56)
        if touch or self.setting.kind in ("V-block", "fixture"):
            ink.text(x + 28, end + 42, words, "end")
        else:
            ink.text(x - 12, top - 9, words, "end")

    def thickness(self, ink: Ink, words: str) -> None:
        """How thick the work is, on its arrow at the left."""
        x = 26.0
        near = self.x(-self.piece.wide / 2) - 4 if not self.piece.is_round else self.middle
        for y in (self.y(0), self.y(self.piece.high)):
            ink.line(f"M{short(near)} {short(y)}H{short(x - 10)}", THIN)
        ink.upright_size(x, self.y(0), self.y(self.piece.high), "", left=False)
        within = self.piece.high * self.scale >= 52
        if self.setting.kind == "fixture":
            ink.text(8, self.y(self.piece.high) + (36 if within else 74), words)
        else:
            ink.text(8, self.y(0) - (14 if within else 48), words)

    def width_of_tool(self, ink: Ink, depth: float, words: str) -> None:
        """The diameter of the tool, on its arrows."""
        if self.cutter is None:
            return
        y = min(self.y(-9) - 16, self.y(depth - self.cutter.point) - 12)
        if self.cutter.kind == "countersink":
            y = self.y(depth - self.cutter.point) - 4
        half, m = self.cutter.size / 2 * self.scale, self.middle
        ink.line(f"M{short(m - half - 34)} {short(y)}H{short(m - half)}", THIN)
        ink.line(f"M{short(m + half)} {short(y)}h150", THIN)
        ink.head(m - half, y, 0)
        ink.head(m + half, y, 180)
        ink.text(m + half + 30, y - 9, words)
