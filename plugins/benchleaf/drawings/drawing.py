"""Inline SVG from plain shapes: follows the page's colours, prints grey, is read aloud.

Strokes and letters take `currentColor`; areas are told apart by hatching, not by colour. Sizes
are in units of the view box, 720 wide: at a phone's width one unit is half a pixel, so letters
are 30 units and more.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from html import escape

from markupsafe import Markup

WIDTH = 720.0
LETTER = 30.0
"""Height of letters in units; 15 px on a phone of 360 px, 42 px on a kiosk of 1080."""
THIN, THICK = 2.0, 5.0
_LETTER_WIDTH = 0.58
"""Mean width of a letter over its height in the fonts used; the widest measured is 0.56."""


@dataclass(slots=True)
class Drawing:
    """One drawing. Its shapes are kept as SVG; every text is kept inside the frame."""

    name: str
    """A name for ids, unique on its page."""
    title: str
    desc: str
    height: float
    parts: list[str] = field(default_factory=list)

    def line(
        self, x1: float, y1: float, x2: float, y2: float, *, width: float = THIN, dash: str = ""
    ) -> None:
        """A straight line; `dash` such as `12 8`."""
        dashed = f' stroke-dasharray="{dash}"' if dash else ""
        self.parts.append(
            f'<path d="M{x1:.1f} {y1:.1f}L{x2:.1f} {y2:.1f}" stroke-width="{width:g}"{dashed}/>'
        )

    def path(
        self,
        points: Sequence[tuple[float, float]],
        *,
        width: float = THICK,
        fill: str = "none",
        closed: bool = False,
    ) -> None:
        """A line through points; `fill` is none, hatch, solid, tint or paper."""
        data = "L".join(f"{x:.1f} {y:.1f}" for x, y in points)
        self.parts.append(
            f'<path d="M{data}{"Z" if closed else ""}" stroke-width="{width:g}"'
            f' fill="{self._fill(fill)}" stroke-linejoin="round"/>'
        )

    def box(
        self,
        x: float,
        y: float,
        width: float,
        height: float,
        *,
        line: float = THICK,
        fill: str = "none",
    ) -> None:
        """An upright rectangle."""
        corners = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
        self.path(corners, width=line, fill=fill, closed=True)

    def boxes(
        self,
        corners: Sequence[tuple[float, float]],
        width: float,
        height: float,
        fill: str,
        *,
        dash: str = "",
    ) -> None:
        """Upright rectangles of one size, by their upper left corners: one path for all."""
        data = "".join(
            f"M{x:.1f} {y:.1f}L{x + width:.1f} {y:.1f} {x + width:.1f} {y + height:.1f}"
            f" {x:.1f} {y + height:.1f}Z"
            for x, y in corners
        )
        self._areas(data, fill, dash)

    def circles(
        self,
        middles: Sequence[tuple[float, float]],
        radius: float,
        fill: str,
        *,
        dash: str = "",
    ) -> None:
        """Circles of one size, each of four curves: one path for all."""
        data = "".join(_circle(x, y, radius) for x, y in middles)
        self._areas(data, fill, dash)

    def _areas(self, data: str, fill: str, dash: str) -> None:
        if not data:
            return
        dashed = f' stroke-dasharray="{dash}"' if dash else ""
        self.parts.append(
            f'<path d="{data}" stroke-width="{THIN + 1:g}"{dashed} fill="{self._fill(fill)}"/>'
        )

    def text(
        self,
        x: float,
        y: float,
        words: str,
        *,
        anchor: str = "start",
        size: float = LETTER,
        bold: bool = False,
    ) -> None:
        """Words on one line, moved sideways where they would leave the frame."""
        wide = text_width(words, size)
        left = {"start": x, "middle": x - wide / 2, "end": x - wide}[anchor]
        shift = max(0.0, 4 - left) - max(0.0, left + wide - (WIDTH - 4))
        shift = max(shift, 4 - left)  # the beginning of words is never cut: their width is a guess
        weight = ' font-weight="700"' if bold else ""
        self.parts.append(
            f'<text x="{x + shift:.1f}" y="{min(max(y, size), self.height - 6):.1f}"'
            f' text-anchor="{anchor}" font-size="{size:g}"{weight}>{escape(words)}</text>'
        )

    def arrow(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """A dimension line with a head at both ends."""
        self.line(x1, y1, x2, y2)
        for x, y, way in ((x1, y1, 1), (x2, y2, -1)):
            along = 12.0 * way
            if x1 == x2:
                wings = ((x - 6, y + along), (x, y), (x + 6, y + along))
            else:
                wings = ((x + along, y - 6), (x, y), (x + along, y + 6))
            self.path(wings, width=THIN)

    def svg(self) -> Markup:
        """The drawing as an element for a page; its ids are none that a record may have."""
        own = f"{self.name}--drawing"
        hatch = (
            f'<pattern id="{own}-hatch" width="14" height="14" patternUnits="userSpaceOnUse"'
            ' patternTransform="rotate(45)"><path d="M0 0V14" stroke="currentColor"'
            ' stroke-width="2.5"/></pattern>'
        )
        return Markup(
            f'<svg class="bl-drawing" viewBox="0 0 {WIDTH:g} {self.height:g}" role="img"'
            f' aria-labelledby="{own}-title {own}-desc" fill="none"'
            f' stroke="currentColor" stroke-width="{THIN:g}"><title id="{own}-title">'
            f'{escape(self.title)}</title><desc id="{own}-desc">{escape(self.desc)}</desc>'
            f'<defs>{hatch}</defs><g class="bl-drawing__shapes">{self._shapes()}</g>'
            f'<g fill="currentColor" stroke="none">{self._texts()}</g></svg>'
        )

    def _shapes(self) -> str:
        return "".join(part for part in self.parts if not part.startswith("<text"))

    def _texts(self) -> str:
        return "".join(part for part in self.parts if part.startswith("<text"))

    def _fill(self, fill: str) -> str:
        if fill == "hatch":
            return f"url(#{self.name}--drawing-hatch)"
        fills = {
            "solid": "currentColor",
            "tint": "var(--bl-tint, none)",
            "paper": "var(--bl-sheet, #fff)",
        }
        return fills.get(fill, "none")


_ROUND = 0.5523
"""How far the handles of four curves stand out, over the radius, so that they make a circle."""


def _circle(x: float, y: float, radius: float) -> str:
    """A circle from its left end round, within 0.03 % of its radius."""
    r, h = radius, radius * _ROUND
    quarters = (
        ((-r, -h), (-h, -r), (0.0, -r)), ((h, -r), (r, -h), (r, 0.0)),
        ((r, h), (h, r), (0.0, r)), ((-h, r), (-r, h), (-r, 0.0)),
    )  # fmt: skip
    curves = "".join(
        "C" + " ".join(f"{x + dx:.1f} {y + dy:.1f}" for dx, dy in quarter) for quarter in quarters
    )
    return f"M{x - r:.1f} {y:.1f}{curves}Z"


def text_width(words: str, size: float = LETTER) -> float:
    """Width that words take, near enough to keep them apart."""
    return len(words) * size * _LETTER_WIDTH
