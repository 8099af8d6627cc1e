"""A learner's curve: pieces that were timed, the line through them, its band, the basic time."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import log2

from markupsafe import Markup

from benchleaf.compute.practice import Curve, Standard

from .drawing import LETTER, WIDTH, Drawing

_LEFT, _RIGHT, _TOP, _FLOOR = 84.0, WIDTH - 20.0, 60.0, 420.0
_MOST_PIECE = 4096


@dataclass(frozen=True, slots=True)
class _Scale:
    """Piece and minutes to units of the drawing; pieces by doublings."""

    last: int
    most: float

    def x(self, piece: float) -> float:
        return _LEFT + log2(piece) / log2(self.last) * (_RIGHT - _LEFT)

    def y(self, minutes: float) -> float:
        return _FLOOR - min(minutes, self.most) / self.most * (_FLOOR - _TOP)


def learning_figure(curve: Curve, standard: Standard | None) -> Markup:
    """The chart; pieces are counted by doublings, so that the start is seen as well as the end."""
    scale = _Scale(_last_piece(curve, standard), _most(curve, standard))
    drawing = Drawing("curve", "Time for a piece against practice", _said(curve, standard), 600)
    _axes(drawing, scale)
    pieces = [2 ** (n * log2(scale.last) / 60) for n in range(61)]
    drawing.path([(scale.x(n), scale.y(_line(curve, n))) for n in pieces], width=4)
    _band(drawing, scale, curve, sorted({round(n) for n in pieces}))
    for piece, seconds in curve.observed:
        _mark(drawing, scale.x(piece), scale.y(seconds / 60))
    if standard is not None:
        _basic_time(drawing, scale, curve, standard)
    _legend(drawing, curve)
    return drawing.svg()


def _band(drawing: Drawing, scale: _Scale, curve: Curve, pieces: list[int]) -> None:
    """Both edges of the band as broken lines; none where nothing is fitted."""
    bands = [(piece, band) for piece in pieces if (band := curve.band(piece)) is not None]
    for edge in ("low_s", "high_s"):
        points = [(scale.x(n), scale.y(getattr(band, edge) / 60)) for n, band in bands]
        for (x1, y1), (x2, y2) in pairwise(points):
            drawing.line(x1, y1, x2, y2, dash="9 7")


def _line(curve: Curve, piece: float) -> float:
    """Minutes on the line, also between whole pieces."""
    return curve.first_s / 60 * float(piece ** log2(curve.learning_percent / 100))


def _last_piece(curve: Curve, standard: Standard | None) -> int:
    """The next power of two beyond all that is to be seen."""
    seen = max(piece for piece, _ in curve.observed)
    reached = _reached_by(curve, standard)
    wanted = max(8, seen + 1, min(reached or 0, _MOST_PIECE - 1) + 1)
    return int(min(_MOST_PIECE, 2 ** (wanted - 1).bit_length()))


def _most(curve: Curve, standard: Standard | None) -> float:
    times = [curve.first_s, *(seconds for _, seconds in curve.observed)]
    if standard is not None:
        times.append(standard.basic_s)
    return max(times) / 60 * 1.12


def _said(curve: Curve, standard: Standard | None) -> str:
    timed = ", ".join(f"piece {n} {seconds / 60:.1f} min" for n, seconds in curve.observed)
    against = f" The basic time is {standard.basic_s / 60:.1f} min." if standard else ""
    return (
        f"Timed: {timed}. Each doubling takes {curve.learning_percent:.0f} % of the time.{against}"
    )


def _axes(drawing: Drawing, scale: _Scale) -> None:
    drawing.line(_LEFT, _TOP, _LEFT, _FLOOR, width=3)
    drawing.line(_LEFT, _FLOOR, _RIGHT, _FLOOR, width=3)
    drawing.text(8, 34, "minutes a piece")
    step = _step(scale.most)
    value = step
    while value < scale.most:
        y = scale.y(value)
        drawing.line(_LEFT - 8, y, _LEFT, y)
        drawing.text(_LEFT - 14, y + LETTER / 3, f"{value:g}", anchor="end")
        value += step
    doublings = round(log2(scale.last))
    every = max(1, -(-doublings // 6))
    for number in range(0, doublings + 1, every):
        x = scale.x(2**number)
        drawing.line(x, _FLOOR, x, _FLOOR + 8)
        drawing.text(x, _FLOOR + 42, f"{2**number}", anchor="middle")
    drawing.text(_RIGHT, _FLOOR + 80, "piece, counted from the first", anchor="end")


def _step(most: float) -> float:
    """A round step that gives at most six marks."""
    return next(step for step in (0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 60, 120, 600, 6000)
                if most / step <= 6)  # fmt: skip


def _mark(drawing: Drawing, x: float, y: float) -> None:
    drawing.path(((x, y - 9), (x + 9, y), (x, y + 9), (x - 9, y)), fill="solid", closed=True,
                 width=2)  # fmt: skip


def _basic_time(drawing: Drawing, scale: _Scale, curve: Curve, standard: Standard) -> None:
    """The line to reach, and witness lines where the curve reaches it, soonest and latest."""
    y = scale.y(standard.basic_s / 60)
    drawing.line(_LEFT, y, _RIGHT, y, width=4, dash="18 10")
    below = y + LETTER + 4
    words = f"basic time {standard.basic_s / 60:.1f} min"
    drawing.text(_LEFT + 14, below if below < _FLOOR else y - 10, words, bold=True)
    found = curve.pieces_at(standard.basic_s)
    if found is None or found.low > scale.last:
        return
    ends = (found.low, min(found.high or scale.last, scale.last))
    drawing.line(scale.x(ends[0]), y, scale.x(ends[1]), y, width=9)
    for piece in (found.low, found.high):
        if piece is not None and piece <= scale.last:
            drawing.line(scale.x(piece), y - 18, scale.x(piece), y + 18, width=3)


def _reached_by(curve: Curve, standard: Standard | None) -> int | None:
    """The piece by which the basic time is reached, as far as that is known."""
    found = curve.pieces_at(standard.basic_s) if standard else None
    return found.high or found.low if found else None


def _legend(drawing: Drawing, curve: Curve) -> None:
    y = _FLOOR + 126
    _mark(drawing, 20, y - 10)
    drawing.text(40, y, "timed")
    drawing.line(150, y - 10, 200, y - 10, width=4)
    drawing.text(212, y, "expected")
    if curve.fit:
        drawing.line(10, y + 30, 60, y + 30, dash="9 7")
        drawing.text(72, y + 40, "new pieces, nine times in ten")
