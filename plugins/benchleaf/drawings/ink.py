"""The lines of a scene: outline, thin, centre, end position, and what moves, in one pen.

Lengths are units of a view box 720 wide. What stands still is in the colour of the letters; what
moves is in the page's mark colour, and thick, so that it is told without colour as well. Cut metal
is hatched with lines of its own, not with a pattern: those need no id, and a copy keeps them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from html import escape
from math import atan2, cos, hypot, pi, radians, sin

OUTLINE, FINE, THIN, MOVING = 4.0, 3.0, 2.2, 7.0
LETTER = 30.0
"""Height of figures: 15 px on a phone 360 wide, 45 at a kiosk's full width."""
PAPER, TINT, HALO = "bl-p", "bl-t", "bl-h"
"""Classes of `scenes.css`: filled like the sheet, tinted, drawn in the colour of the sheet."""

Point = tuple[float, float]


def short(value: float) -> str:
    """A number with one decimal at most.

    >>> short(3.0), short(2.25), short(-0.01)
    ('3', '2.2', '0')
    """
    text = f"{value:.1f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def trace(points: Iterable[Point], *, closed: bool = False) -> str:
    """Straight lines through points, as the data of a path."""
    return "M" + "L".join(f"{short(x)} {short(y)}" for x, y in points) + ("Z" if closed else "")


@dataclass(slots=True)
class Ink:
    """Shapes as SVG, in the order in which they are drawn: the later hides what it covers."""

    parts: list[str] = field(default_factory=list)
    moves: bool = False
    """True while what is drawn is what moves now."""

    def _looks(self, width: float, dash: str = "", fill: str = "") -> str:
        """Class and width of a line; `scenes.css` gives the classes their colours."""
        named = " ".join(one for one in (fill, "bl-m" if self.moves else "") if one)
        said = f' class="{named}"' if named else ""
        said += f' stroke-width="{width:g}"' if width != OUTLINE else ""
        return said + (f' stroke-dasharray="{dash}"' if dash else "")

    def line(self, data: str, width: float = OUTLINE, *, dash: str = "") -> None:
        """An open path."""
        self.parts.append(f'<path d="{data}"{self._looks(width, dash)}/>')

    def shape(self, data: str, width: float = OUTLINE, *, fill: str = PAPER) -> None:
        """A closed path that hides what lies behind."""
        self.parts.append(f'<path d="{data}"{self._looks(width, fill=fill)}/>')

    def full(self, data: str) -> None:
        """A filled shape without an outline."""
        self.parts.append(f'<path d="{data}" class="{self._full}"/>')

    @property
    def _full(self) -> str:
        return "bl-mf" if self.moves else "bl-f"

    def box(self, x: float, y: float, wide: float, high: float, width: float = OUTLINE) -> None:
        """An upright rectangle that hides what lies behind."""
        self.shape(f"M{short(x)} {short(y)}h{short(wide)}v{short(high)}h{short(-wide)}Z", width)

    def ring(self, x: float, y: float, radius: float, width: float = OUTLINE) -> None:
        """A circle that hides what lies behind."""
        self.parts.append(
            f'<circle cx="{short(x)}" cy="{short(y)}" r="{short(radius)}"'
            f"{self._looks(width, fill=PAPER)}/>"
        )

    def dot(self, x: float, y: float, radius: float) -> None:
        """A filled circle."""
        self.parts.append(
            f'<circle cx="{short(x)}" cy="{short(y)}" r="{short(radius)}" class="{self._full}"/>'
        )

    def cut(
        self,
        outline: Sequence[Point],
        gap: float = 10,
        angle: float = 45,
        *,
        heavy: bool = False,
        edge: bool = True,
    ) -> None:
        """A cut face: outline and hatching; `heavy` for the work, without `edge` if so asked."""
        fill = TINT if heavy else PAPER
        width = (5 if heavy else FINE) if edge else 0
        self.shape(trace(outline, closed=True), width, fill=fill)
        data = "".join(hatching(outline, gap, angle))
        if data:
            self.line(data, 2 if heavy else 1.4)

    def centre(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """A centre line."""
        self.line(trace(((x1, y1), (x2, y2))), 1.6, dash="20 5 4 5")

    def head(self, x: float, y: float, angle: float, long: float = 22, wide: float = 9) -> None:
        """A slim filled head with its tip at x, y; 0 degrees points to the right, 90 down."""
        turn = radians(angle)
        along, across = (cos(turn), sin(turn)), (-sin(turn), cos(turn))
        back = (x - along[0] * long, y - along[1] * long)
        wings = [
            (back[0] + side * across[0] * wide / 2, back[1] + side * across[1] * wide / 2)
            for side in (1, -1)
        ]
        self.full(trace(((x, y), *wings), closed=True))

    def way(self, points: Sequence[Point], size: float = 1.0) -> None:
        """The way that something goes now: a thick line and a broad head."""
        was, self.moves = self.moves, True
        (x1, y1), (x2, y2) = points[-2:]
        far = hypot(x2 - x1, y2 - y1) or 1.0
        long = 26 * size
        stop = (x2 - (x2 - x1) / far * (long - 4), y2 - (y2 - y1) / far * (long - 4))
        self.line(trace((*points[:-1], stop)), MOVING * size)
        angle = _degrees(x2 - x1, y2 - y1)
        self.head(x2, y2, angle, long, 26 * size)
        self.moves = was

    def round_way(
        self, x: float, y: float, rx: float, ry: float, start: float, end: float, size: float = 1.0
    ) -> None:
        """A way along an arc, from one angle to another in degrees."""
        steps = max(4, int(abs(end - start) / 15))
        turns = [radians(start + (end - start) * n / steps) for n in range(steps + 1)]
        self.way([(x + rx * cos(turn), y + ry * sin(turn)) for turn in turns], size)

    def text(self, x: float, y: float, words: str, anchor: str = "start") -> None:
        """Figures with their unit; moved sideways where they would leave the frame."""
        if not words:
            return
        wide = len(words) * LETTER * 0.55
        left = {"start": x, "middle": x - wide / 2, "end": x - wide}[anchor]
        x += max(0.0, 4 - left) - max(0.0, left + wide - 716)
        self.parts.append(
            f'<text x="{short(x)}" y="{short(y)}" text-anchor="{anchor}" font-size="{LETTER:g}"'
            f' class="bl-size" paint-order="stroke">{escape(words)}</text>'
        )

    def upright_size(self, x: float, top: float, bottom: float, words: str, *, left: bool) -> None:
        """A size between two heights; the heads stand outside where there is no room within."""
        within = bottom - top >= 52
        if within:
            self.line(f"M{short(x)} {short(top)}V{short(bottom)}", THIN)
            self.head(x, top, -90)
            self.head(x, bottom, 90)
        else:
            self.line(f"M{short(x)} {short(top - 40)}V{short(bottom + 40)}", THIN)
            self.head(x, top, 90)
            self.head(x, bottom, -90)
        self.text(x - 8 if left else x + 10, (top + bottom) / 2 + 10, words,
                  "end" if left else "start")  # fmt: skip

    def stop_bar(self, x: float, y: float, long: float) -> None:
        """The end of a travel: a bar with strokes behind it."""
        self.line(f"M{short(x)} {short(y)}h{short(long)}", 7)
        strokes = "".join(
            f"M{short(x + 12 * n + 10)} {short(y + 3)}l-9 9" for n in range(max(1, int(long / 12)))
        )
        self.line(strokes, THIN)

    def broken(self, x: float, y: float, wide: float) -> None:
        """A long break across something upright, `wide` each side."""
        self.line(
            f"M{short(x - wide)} {short(y)}H{short(x - 9)}l5 -9 8 18 5 -9H{short(x + wide)}", THIN
        )

    def balloon(self, number: int, x: float, y: float, to: Point, radius: float = 20) -> None:
        """The ring of a key point, its leader on the place that it is about."""
        far = hypot(to[0] - x, to[1] - y) or 1.0
        start = (x + (to[0] - x) / far * radius, y + (to[1] - y) / far * radius)
        self.parts.append(f'<g class="bl-balloon" data-point="{number}">')
        self.parts.append(f'<path d="{trace((start, to))}" class="{HALO}" stroke-width="7"/>')
        self.line(trace((start, to)), THIN)
        self.dot(*to, 4.5)
        self.ring(x, y, radius, FINE)
        self.parts.append(
            f'<text x="{short(x)}" y="{short(y + radius * 0.43)}" text-anchor="middle"'
            f' font-size="{radius * 1.3:g}" font-weight="700" class="bl-f">'
            f"{number}</text></g>"
        )

    def at(self, x: float, y: float, drawn: str, turn: float = 0, scale: float = 1) -> None:
        """Something drawn at its own origin, put to a place."""
        move = f"translate({short(x)} {short(y)})"
        move += f" rotate({turn:g})" if turn else ""
        move += f" scale({scale:g})" if scale != 1 else ""
        self.parts.append(f'<g transform="{move}">{drawn}</g>')

    def mirrored(self, x: float, y: float, drawn: str, turn: float = 0, scale: float = 1) -> None:
        """The same, left and right exchanged."""
        move = f"translate({short(x)} {short(y)}) scale({-scale:g} {scale:g})"
        move += f" rotate({turn:g})" if turn else ""
        self.parts.append(f'<g transform="{move}">{drawn}</g>')

    def joined(self) -> str:
        """All shapes."""
        return "".join(self.parts)


def _degrees(x: float, y: float) -> float:
    return atan2(y, x) * 180 / pi


def hatching(outline: Sequence[Point], gap: float, angle: float) -> Iterator[str]:
    """Parallel lines over a closed outline, where they are inside it.

    >>> list(hatching(((0, 0), (20, 0), (20, 10), (0, 10)), 10, 0))
    ['M0 5L20 5']
    """
    turn = radians(angle)
    along, across = (cos(turn), sin(turn)), (-sin(turn), cos(turn))
    turned = [(x * along[0] + y * along[1], x * across[0] + y * across[1]) for x, y in outline]
    low, high = min(y for _, y in turned), max(y for _, y in turned)
    y = (low // gap + 0.5) * gap
    while y < high:
        ends = sorted(_crossings(turned, y))
        for left, right in zip(ends[::2], ends[1::2], strict=False):
            if right - left > 3:
                yield trace(
                    (u * along[0] + y * across[0], u * along[1] + y * across[1])
                    for u in (left, right)
                )
        y += gap


def _crossings(outline: Sequence[Point], y: float) -> Iterator[float]:
    """Where a level line goes through the outline."""
    for (x1, y1), (x2, y2) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if (y1 <= y) != (y2 <= y):
            yield x1 + (x2 - x1) * (y - y1) / (y2 - y1)
