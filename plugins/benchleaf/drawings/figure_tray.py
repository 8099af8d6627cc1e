"""A tray or board from above, to scale: a place for every piece, one of them empty."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from benchleaf.compute import first, told_entered
from benchleaf.model import Tray, TrayKind, Units

from .drawing import WIDTH, Drawing

_LEFT, _TOP = 20.0, 74.0
_WIDE, _TALL = WIDTH - 2 * _LEFT, 560.0
"""Room for the tray, in units."""
_SMALL = 30.0
"""A piece narrower than this, in units, is drawn solid: hatching would not be seen."""
_FILLED, _EMPTY = "filled: a piece in its place", "empty: a piece is missing"
_ON_EDGE = (TrayKind.SLOTTED_TRAY,)


@dataclass(frozen=True, slots=True)
class _Layout:
    """Sizes in millimetres, as the tray lies: pieces side by side along a row."""

    along: float
    """Of a piece, along its row."""
    across: float
    gap: float
    tray: Tray

    @property
    def inside(self) -> tuple[float, float]:
        """Length of the rows and of all rows together, the gap at each rim too."""
        return (
            self.tray.in_a_row * (self.along + self.gap) + self.gap,
            self.tray.rows * (self.across + self.gap) + self.gap,
        )


def tray_figure(tray: Tray, name: str, units: Units = Units.METRIC) -> Markup:
    """The drawing; `name` makes its ids unique on the page."""
    return _View(tray, name, units).svg()


def _layout(tray: Tray) -> _Layout:
    gap = tray.gap.value
    if tray.diameter is not None:
        return _Layout(tray.diameter.value, tray.diameter.value, gap, tray)
    assert tray.length is not None
    assert tray.width is not None
    longer, shorter = tray.length.value, tray.width.value
    sizes = (shorter, longer) if tray.kind in _ON_EDGE else (longer, shorter)
    return _Layout(*sizes, gap, tray)


class _View:
    """One drawing."""

    def __init__(self, tray: Tray, name: str, units: Units) -> None:
        self.tray, self.layout, self.units = tray, _layout(tray), units
        self.inside = self.layout.inside
        self.scale = min(_WIDE / self.inside[0], _TALL / self.inside[1])
        self.left = _LEFT + (_WIDE - self.inside[0] * self.scale) / 2
        self.empty = tray.rows - 1, (3 * tray.in_a_row - 1) // 4
        """Row and place of the missing piece: where its line to the words is short."""
        lines = self._lines()
        self.floor = _TOP + self.inside[1] * self.scale
        height = self.floor + 92 + 40 * (len(lines) + 1)
        self.key_at = height - 48
        """Foot of the line that says what filled and what dashed means, without colour."""
        title = f"{tray.kind.capitalize()} from above: {places(tray)}"
        self.drawing = Drawing(f"{name}-tray", title, self._desc(), height)
        for number, line in enumerate(lines):
            self.drawing.text(10, self.floor + 84 + 40 * number, line, bold=number == 0)

    def svg(self) -> Markup:
        self._tray()
        self._pieces()
        self._missing()
        self._key()
        return self.drawing.svg()

    def _desc(self) -> str:
        return f"To scale. {'. '.join(self._lines())}. {_FILLED}. One place is drawn empty."

    def _lines(self) -> list[str]:
        tray = self.tray
        rows = f"{tray.rows} row{'' if tray.rows == 1 else 's'} of {tray.in_a_row}"
        if tray.diameter is not None:
            piece = f"piece {told_entered(tray.diameter, self.units)} across"
        else:
            assert tray.length is not None
            assert tray.width is not None
            long, wide = self._number(tray.length.value), told_entered(tray.width, self.units)
            piece = f"piece {long} × {wide} from above"
        across, down = self._number(self.inside[0], 4), self._size_of(self.inside[1])
        return [
            f"{places(tray)}: {rows}",
            piece,
            f"gap {told_entered(tray.gap, self.units)}, at the rim too",
            f"inside {across} × {down}",
        ]

    def _number(self, mm: float, digits: int = 6) -> str:
        """A length without its unit, beside one that has it."""
        is_inch = self.units is Units.INCH
        return first(mm, mm, "mm", 1, self.units).number if is_inch else f"{mm:.{digits}g}"

    def _size_of(self, mm: float) -> str:
        return f"{self._number(mm, 4)} {'in' if self.units is Units.INCH else 'mm'}"

    def _tray(self) -> None:
        wide, deep = (one * self.scale for one in self.inside)
        self.drawing.box(self.left, _TOP, wide, deep)
        y = _TOP - 22
        self.drawing.arrow(self.left, y, self.left + wide, y)
        words = self._size_of(self.inside[0])
        self.drawing.text(self.left + wide / 2, y - 12, words, anchor="middle")

    def _corner(self, row: int, place: int) -> tuple[float, float]:
        """The upper left corner of a place, in units."""
        layout = self.layout
        x = layout.gap + place * (layout.along + layout.gap)
        y = layout.gap + row * (layout.across + layout.gap)
        return self.left + x * self.scale, _TOP + y * self.scale

    def _places(self) -> list[tuple[float, float]]:
        """Corners of every place with a piece in it."""
        return [
            self._corner(row, place)
            for row in range(self.tray.rows)
            for place in range(self.tray.in_a_row)
            if (row, place) != self.empty
        ]

    @property
    def _size(self) -> tuple[float, float]:
        return self.layout.along * self.scale, self.layout.across * self.scale

    @property
    def _filled(self) -> str:
        return "solid" if min(self._size) < _SMALL else "hatch"

    def _key(self) -> None:
        self.drawing.boxes([(10, self.key_at - 24)], 44, 28, self._filled)
        self.drawing.text(66, self.key_at, _FILLED)

    def _pieces(self) -> None:
        wide, deep = self._size
        corners = self._places()
        fill = self._filled
        if self.tray.diameter is not None:
            self.drawing.circles([(x + wide / 2, y + deep / 2) for x, y in corners], wide / 2, fill)
        else:
            self.drawing.boxes(corners, wide, deep, fill)
        if self.tray.kind is TrayKind.SLOTTED_TRAY:
            self._slots()
        if self.tray.kind is TrayKind.PEGGED_BOARD:
            self._pegs(corners, is_seen=True)

    def _slots(self) -> None:
        """The walls of the slots: a short line in each gap, at both ends of the pieces."""
        _, deep = self._size
        gap = self.layout.gap * self.scale
        for row in range(self.tray.rows):
            for place in range(1, self.tray.in_a_row):
                x, y = self._corner(row, place)
                for start in (y - gap, y + deep - deep / 6):
                    self.drawing.line(x - gap / 2, start, x - gap / 2, start + gap + deep / 6)

    def _pegs(self, corners: list[tuple[float, float]], *, is_seen: bool) -> None:
        """A peg through each piece; in an empty place it stands alone."""
        wide, deep = self._size
        middles = [(x + wide / 2, y + deep / 2) for x, y in corners]
        radius = max(4.0, min(wide, deep) / 7)
        self.drawing.circles(middles, radius, "paper" if is_seen else "solid")

    def _missing(self) -> None:
        """The empty place, and a line from it to the words."""
        x, y = self._corner(*self.empty)
        wide, deep = self._size
        middle = x + wide / 2
        if self.tray.diameter is not None:
            self.drawing.circles([(middle, y + deep / 2)], wide / 2, "none", dash="7 6")
        else:
            self.drawing.boxes([(x, y)], wide, deep, "none", dash="7 6")
        if self.tray.kind is TrayKind.PEGGED_BOARD:
            self._pegs([(x, y)], is_seen=False)
        foot = self.floor + 16
        self.drawing.line(middle, y + deep * 0.8, middle, foot, width=3)
        self.drawing.text(middle, foot + 30, _EMPTY, anchor="middle")


def places(tray: Tray) -> str:
    """How many pieces it holds, such as `20 places`."""
    return f"{tray.holds} place{'' if tray.holds == 1 else 's'}"
