"""Work at the bench: what is held where, and what the hand does. Panels 440 wide, 420 high."""

from __future__ import annotations

from math import cos, radians, sin

from .hands import FIST, PINCH, POINTING
from .ink import FINE, THIN, Ink, Point, short, trace
from .scene_section import Piece


def in_bench_vice(doing: str, piece: Piece | None) -> str:
    """The work in a bench vice: countersink, file, brush or wrench."""
    ink = Ink()
    ink.line("M20 372H 420")
    ink.box(60, 372, 20, 44, FINE)
    ink.box(360, 372, 20, 44, FINE)
    ink.shape("M 150 372V 340H 180V 300H 260V 340H 290V 372Z", FINE)
    wide = min(100.0, (piece.wide if piece else 40) * 1.6)
    left, right = 220 - wide / 2, 220 + wide / 2
    ink.moves = doing == "load"
    lift = 40 if doing == "load" else 0
    if piece and piece.is_round:
        ink.ring(220, 206 - lift, min(46, piece.high * 1.8))
        ink.ring(220, 206 - lift, max(5, piece.hole), FINE)
    else:
        ink.box(left, 164 - lift, wide, 96, 5)
        if piece and piece.hole:
            ink.line(f"M{short(220 - 7)} {164 - lift}v96m14 0v-96", THIN, dash="7 5")
    ink.moves = False
    ink.shape(f"M{short(left)} 206H{short(left - 26)}L 110 240V 300H{short(left)}Z")
    ink.shape(f"M{short(right)} 206H{short(right + 26)}L 330 240V 300H{short(right)}Z")
    ink.line("M 330 270H 384M 384 236V 304", 6)
    top = 164 - lift if not (piece and piece.is_round) else 160
    {"countersink": _sink, "file": _file, "brush": _bottle_brush}.get(doing, _nothing)(ink, top)
    return ink.joined()


def _nothing(ink: Ink, top: float) -> None:
    pass


def _sink(ink: Ink, top: float) -> None:
    """A countersink with a handle, turned by hand."""
    t = top + 6
    ink.moves = True
    ink.shape(trace(((220, t), (206, t - 14), (206, t - 20), (214, t - 22), (214, t - 66),
                     (226, t - 66), (226, t - 22), (234, t - 20), (234, t - 14)), closed=True),
              FINE)  # fmt: skip
    ink.shape(f"M 196 {t - 66}H 244V{t - 110}H 196Z", FINE)
    ink.moves = False
    ink.at(236, t - 84, FIST, -64, 0.95)
    ink.round_way(220, t - 40, 44, 12, 20, 220, 0.8)


def _file(ink: Ink, top: float) -> None:
    """A file with a hand at each end, pushed forward."""
    ink.moves = True
    ink.shape(f"M 110 {top - 16}H 330V{top}H 110Z", FINE)
    ink.line("".join(f"M{x} {top}l10 -16" for x in range(118, 320, 16)), 1.6)
    ink.moves = False
    ink.shape(f"M 330 {top - 13}H 392V{top - 3}H 330Z", FINE)
    ink.at(366, top - 8, FIST, -30, 0.9)
    ink.mirrored(122, top - 14, PINCH, -16, 0.85)
    ink.way(((300, top - 62), (170, top - 62)))


def _bottle_brush(ink: Ink, top: float) -> None:
    ink.moves = True
    ink.line(f"M 220 {top - 96}V{top + 30}", 5)
    ink.line("".join(f"M 210 {y:g}l20 -6" for y in range(int(top - 40), int(top + 30), 8)), THIN)
    ink.moves = False
    ink.at(222, top - 96, PINCH, -30, 0.9)
    ink.way(((176, top - 80), (176, top - 16)))


def _plate(ink: Ink, piece: Piece, middle: float, top: float, scale: float) -> tuple[float, float]:
    """The work in section with its hole; half of the hole's width and the lower face."""
    half, hole = piece.wide / 2 * scale, piece.hole / 2 * scale
    low = top + piece.high * scale
    floor = top + piece.floor * scale if piece.floor is not None else low
    for side in (-1, 1):
        q: list[Point] = [(middle + side * half, top), (middle + side * hole, top),
                          (middle + side * hole, floor)]  # fmt: skip
        if piece.floor is not None:
            q += [(middle, floor + hole * 0.6), (middle, low)]
        else:
            q += [(middle + side * hole, low)]
        q.append((middle + side * half, low))
        ink.cut(q, 10, heavy=True, edge=piece.floor is None)
    if piece.floor is not None:
        ink.line(trace(((middle - half, top), (middle - hole, top), (middle - hole, floor),
                        (middle, floor + hole * 0.6), (middle + hole, floor), (middle + hole, top),
                        (middle + half, top), (middle + half, low), (middle - half, low)),
                       closed=True), 5)  # fmt: skip
    return hole, low


def gauged(piece: Piece, words: str, *, thread: bool = False) -> str:
    """A plug gauge at the hole: the GO end goes in, the NO-GO end stays out."""
    ink = Ink()
    scale = min(6.0, 150 / piece.wide, 110 / piece.high)
    for middle, goes_in in ((130.0, True), (330.0, False)):
        hole, low = _plate(ink, piece, middle, 250, scale)
        width = max(7.0, hole - 1.5 if goes_in else hole + 2)
        deep = min(low, 250 + (piece.floor or piece.high) * scale) + (
            14 if piece.floor is None else -8
        )
        tip = deep if goes_in else 249.0
        ink.moves = goes_in
        ink.shape(f"M{short(middle - width)} 150V{short(tip)}H{short(middle + width)}V 150Z", FINE)
        if thread:
            ink.line("".join(f"M{short(middle - width)} {short(y)}l{short(2 * width)} -5"
                             for y in _steps(tip - 4, 170, 9)), 1.6)  # fmt: skip
        ink.moves = False
        grip = max(16.0, width + 5)
        ink.shape(
            f"M{short(middle - grip)} 84H{short(middle + grip)}V 150H{short(middle - grip)}Z", FINE
        )
        ink.line(
            "".join(f"M{short(middle - grip + 8 * n)} 92v50" for n in range(1, int(grip / 4))), 1.6
        )
        if goes_in:
            ink.at(middle + grip - 2, 110, PINCH, 0, 0.8)
            ink.way(((middle - grip - 26, 150), (middle - grip - 26, 218)))
        else:
            ink.line(f"M{short(middle - grip - 6)} 238H{short(middle - width)}", THIN)
    low = 250 + piece.high * scale
    ink.text(130, low + 62, words, "middle")
    hole = piece.hole / 2 * scale
    for x in (130 - hole, 130 + hole):
        ink.line(f"M{short(x)} {short(low + 6)}V{short(low + 30)}", THIN)
    ink.line(f"M{short(130 - hole - 40)} {short(low + 22)}H{short(130 + hole + 40)}", THIN)
    ink.head(130 - hole, low + 22, 0)
    ink.head(130 + hole, low + 22, 180)
    _crossed_arrow(ink, 388, 168)
    return ink.joined()


def _steps(start: float, end: float, step: float) -> list[float]:
    return [start - step * n for n in range(max(0, int((start - end) / step)))]


def _crossed_arrow(ink: Ink, x: float, y: float) -> None:
    """It does not go further: an arrow that meets a stop."""
    ink.way(((x, y - 40), (x, y + 18)), 0.8)
    ink.stop_bar(x - 24, y + 24, 48)


def measured(piece: Piece, words: str) -> str:
    """A caliper across the work, its jaws flat on both sides."""
    ink = Ink()
    scale = min(5.0, 190 / piece.wide, 120 / piece.high)
    half, high = piece.wide / 2 * scale, max(30.0, piece.high * scale)
    x, top = 220.0, 250.0
    ink.box(x - half, top, 2 * half, high, 5)
    if piece.hole:
        hole = piece.hole / 2 * scale
        ink.line(
            f"M{short(x - hole)} {top}v{short(high)}m{short(2 * hole)} 0v{short(-high)}",
            THIN,
            dash="7 5",
        )
    ink.moves = True
    ink.shape(f"M{short(x - half - 30)} 150H 404V 184H{short(x - half)}V{short(top + high)}"
              f"L{short(x - half - 30)} {short(top + high - 26)}Z", FINE)  # fmt: skip
    ink.shape(f"M{short(x + half)} 142H{short(x + half + 76)}V 192H{short(x + half + 30)}"
              f"V{short(top + high - 26)}L{short(x + half)} {short(top + high)}Z",
              FINE)  # fmt: skip
    ink.moves = False
    ink.line(
        "".join(f"M{short(x - half + 14 * n)} 150v10" for n in range(1, int(2 * half / 14))), 1.6
    )
    ink.at(x + half + 60, 190, PINCH, 50, 0.85)
    ink.mirrored(x - half - 20, 166, PINCH, 24, 0.85)
    ink.way(((x + half + 66, 116), (x + half + 6, 116)), 0.8)
    if words:
        ink.text(x, top + high + 50, words, "middle")
    return ink.joined()


def turned(length: float, width: float, holes: tuple[tuple[float, float], ...]) -> str:
    """The part from above, turned end for end by both hands; its datum end is marked."""
    ink = Ink()
    scale = min(300 / length, 110 / width)
    x, y, w, h = 220 - length * scale / 2, 230 - width * scale / 2, length * scale, width * scale
    ink.moves = True
    ink.box(x, y, w, h, 5)
    for at, size in holes:
        ink.ring(x + at * scale, 230, max(4, size / 2 * scale), FINE)
    ink.dot(x + 12, y + h - 12, 6)
    ink.moves = False
    ink.at(x + w - 8, 238, PINCH, 8, 0.85)
    ink.mirrored(x + 8, 238, PINCH, 8, 0.85)
    ink.round_way(220, 230, w * 0.3, h / 2 + 60, 200, 340)
    ink.round_way(220, 230, w * 0.3, h / 2 + 60, 20, 160)
    return ink.joined()


def card(doing: str) -> str:
    """A card on its board: read with a finger on the line, or signed with a pencil."""
    ink = Ink()
    ink.box(110, 60, 200, 290)
    ink.box(170, 44, 80, 32, FINE)
    for n in range(5):
        y = 116 + 42 * n
        ink.box(132, y - 14, 20, 20, FINE)
        ink.line(f"M 168 {y}H 284", THIN)
        if n < (4 if doing == "sign" else 2):
            ink.line(f"M 135 {y - 6}l6 7 11 -16", FINE)
    if doing == "sign":
        ink.moves = True
        ink.line("M 150 318q12 -26 22 -4t22 -6 20 -2", FINE)
        ink.shape("M 216 312L 262 246L 274 254L 230 320Z", FINE)
        ink.full("M 216 312l6 -8 8 6Z")
        ink.moves = False
        ink.at(252, 274, PINCH, 28, 0.95)
    else:
        ink.at(176, 206, POINTING, 24, 0.95)
    return ink.joined()


def wheel_at_bench(doing: str) -> str:
    """A grinding wheel before it is mounted: label, look, hang, tap, tag."""
    ink = Ink()
    hung = doing in ("hang", "tap", "tag")
    x, y, r = 210.0, 220.0, 128.0
    if hung:
        ink.line("M60 222H 196", 8)
        ink.line("M60 190V 254")
    ink.moves = doing in ("hang",)
    ink.ring(x, y, r)
    ink.ring(x, y, 20, FINE)
    ink.moves = False
    if hung:
        ink.dot(x, y - 11, 8)
    if doing == "label":
        ink.ring(x, y, 72, FINE)
        ink.line("M 166 176H 254M 158 190H 262M 166 256H 254M 172 270H 248", THIN)
        ink.at(258, 192, POINTING, 20, 0.95)
    elif doing == "look":
        ink.shape("M 330 70L 386 40L 404 74L 346 100Z", FINE)
        ink.moves = True
        ink.line("M 328 96L 296 140M 340 108L 318 156M 322 86L 276 112", THIN, dash="10 6")
        ink.moves = False
        ink.mirrored(x - r + 8, y + 40, PINCH, 14, 0.95)
        ink.at(396, 60, PINCH, -20, 0.85)
        ink.round_way(x, y, 96, 96, 150, 220)
    elif doing == "hang":
        ink.at(x + r - 8, y + 20, PINCH, 8, 0.95)
        ink.way(((x, y + 196), (x, y + 146)))
    elif doing == "tap":
        for turn in (-45, 45, 135, 225):
            ink.ring(*_round(x, y, r - 34, turn), 9, FINE)
        a, b = _round(x, y, r - 34, -45)
        ink.line(f"M{short(x)} 78V{short(y + r + 14)}", 1.6, dash="20 5 4 5")
        ink.moves = True
        ink.shape(
            trace(
                ((a - 6, b + 6), (a + 14, b - 14), (a + 44, b + 16), (a + 24, b + 36)), closed=True
            ),
            FINE,
        )
        ink.line(f"M{short(a + 34)} {short(b + 26)}L{short(a + 104)} {short(b + 96)}", 7)
        ink.moves = False
        ink.at(a + 104, b + 92, FIST, -40, 0.95)
    else:
        ink.line(f"M{short(x)} {short(y + 20)}V 300", FINE)
        ink.moves = True
        ink.shape("M 176 300H 244V 390H 176Z", FINE)
        ink.ring(210, 314, 5, FINE)
        ink.line("M 190 336H 230M 190 352H 230M 190 368H 230", THIN)
        ink.moves = False
        ink.at(240, 340, PINCH, 10, 0.95)
    return ink.joined()


def _round(x: float, y: float, radius: float, degrees: float) -> Point:
    return x + radius * cos(radians(degrees)), y + radius * sin(radians(degrees))


def looked_at() -> str:
    """The hand tries what must be fast: a bolt, a screw, a cable."""
    ink = Ink()
    ink.shape("M 120 110H 320V 300H 120Z")
    for x, y in ((150, 140), (290, 140), (150, 270), (290, 270)):
        ink.ring(x, y, 13, FINE)
        ink.line(f"M{x - 6} {y}h12", FINE)
    ink.line("M 320 250q60 0 60 60t40 60", 6)
    ink.at(302, 140, PINCH, 8, 0.95)
    ink.round_way(290, 140, 34, 34, 150, 260, 0.8)
    return ink.joined()
