"""Making safe and cleaning: isolator, lock, belts, people told, brush, vacuum cleaner, mop."""

from __future__ import annotations

from .hands import FIST, FLAT, PINCH, POINTING
from .ink import FINE, THIN, Ink, short


def isolator(doing: str) -> str:
    """The isolator large: turned to O or I, locked, unlocked, or tried."""
    ink = Ink()
    on = doing == "on"
    ink.box(110, 60, 180, 220)
    ink.ring(200, 150, 58, FINE)
    ink.moves = doing in ("off", "on", "try")
    if on:
        ink.shape("M 186 86H 214V 214H 186Z")
    else:
        ink.shape("M 136 136H 264V 164H 136Z")
    ink.moves = False
    ink.ring(150, 250, 11, 5)
    ink.line("M 250 238V 262", 6)
    if doing in ("lock", "unlock", "try"):
        _lock(ink, 200, 300, moves=doing in ("lock", "unlock"), open_=doing == "unlock")
    if doing == "off":
        ink.at(258, 152, FIST, -58, 1)
        ink.round_way(200, 150, 84, 84, -80, -10)
    elif doing == "on":
        ink.at(202, 206, FIST, 0, 1)
        ink.round_way(200, 150, 84, 84, -10, -80)
    elif doing == "try":
        ink.at(258, 152, FIST, -58, 1)
        ink.round_way(200, 150, 84, 84, -10, -50, 0.8)
        ink.stop_bar(222, 72, 36)
    elif doing in ("lock", "unlock"):
        ink.at(226, 336, PINCH, 12, 0.95)
    return ink.joined()


def _lock(ink: Ink, x: float, y: float, *, moves: bool, open_: bool) -> None:
    ink.moves = moves
    lift = 14 if open_ else 0
    ink.line(
        f"M{x - 16} {y + 10 - lift}V{y - 16 - lift}q0 -16 16 -16t16 16"
        f"V{y + 10 - (24 if open_ else 0)}",
        6,
    )
    ink.box(x - 30, y + 10, 60, 50)
    ink.dot(x, y + 34, 7)
    ink.shape(f"M{x - 100} {y + 6}h52v76h-52Z", FINE)
    ink.line(f"M{x - 90} {y + 26}h32M{x - 90} {y + 42}h32M{x - 90} {y + 58}h32", THIN)
    ink.line(f"M{x - 48} {y + 12}L{x - 16} {y - 2}", THIN)
    ink.moves = False


def belts(doing: str) -> str:
    """Belts and stepped pulleys from the front, with the cover open, or the tension lever."""
    ink = Ink()
    shut = doing != "move"
    if shut:
        ink.box(30, 130, 380, 140)
    for x, steps in ((110, (60, 48, 36)), (330, (36, 48, 60))):
        for n, half in enumerate(steps):
            step = f"M{x - half} {150 + 34 * n}h{2 * half}v34h{-2 * half}Z"
            if shut:
                ink.line(step, THIN, dash="8 6")
            else:
                ink.shape(step, FINE)
        ink.line(f"M{x} {270 if shut else 252}V 330", 8)
    y = 184 if doing != "move" else 150
    ink.moves = doing == "move"
    ink.line(
        f"M 110 {y + 10}H 330M 110 {y + 24}H 330", THIN if shut else 5, dash="8 6" if shut else ""
    )
    ink.moves = False
    if doing == "move":
        ink.line("M 110 194H 330M 110 208H 330", THIN, dash="9 6")
        ink.at(220, y - 2, FLAT, 96, 0.95)
        ink.way(((264, 226), (264, 178)))
    elif doing == "ease":
        ink.moves = True
        ink.line("M 330 330L 250 380", 9)
        ink.moves = False
        ink.line("M 330 330L 230 330", THIN, dash="9 6")
        ink.ring(330, 330, 14, FINE)
        ink.at(262, 372, FIST, 30, 0.9)
        ink.round_way(330, 330, 124, 124, 176, 152)
    return ink.joined()


def people(doing: str) -> str:
    """People told, or seen clear, round the machine."""
    ink = Ink()
    ink.box(170, 60, 100, 60)
    ink.line("M 150 120H 290", FINE)
    spots = ((110, 250), (220, 300), (330, 250)) if doing == "tell" else ((40, 330), (400, 330))
    _body(ink, 220, 190 if doing == "clear" else 200)
    for x, y in spots:
        ink.moves = doing == "clear"
        _body(ink, x, y)
        ink.moves = False
    if doing == "tell":
        ink.moves = True
        ink.line("M 182 214q-16 12 -26 16M 258 214q16 12 26 16M 220 236V 258", 5)
        ink.moves = False
    else:
        ink.way(((140, 280), (84, 312)))
        ink.way(((300, 280), (356, 312)))
        ink.line("M60 250H 380", THIN, dash="12 7")
    return ink.joined()


def _body(ink: Ink, x: float, y: float) -> None:
    ink.shape(f"M{x - 40} {y + 10}q0 -24 26 -24h28q26 0 26 24q-40 24 -80 0Z", FINE)
    ink.ring(x, y, 19)


def cleaning(doing: str) -> str:
    """Brush, vacuum cleaner, wipe or mop at what is cleaned."""
    ink = Ink()
    if doing == "mop":
        ink.line("M20 360H 420")
        strokes = "".join(f"M{x} 360l-14 14" for x in range(60, 411, 50))
        ink.line(strokes, 1.6)
        ink.moves = True
        ink.line("M 200 340L 300 110", 7)
        ink.shape("M 150 340H 246L 256 360H 140Z", FINE)
        ink.moves = False
        ink.at(282, 150, FIST, 20, 0.95)
        ink.at(246, 234, FIST, 20, 0.95)
        ink.shape("M40 358L70 270H86L 116 358Z", FINE)
        ink.line("M62 320q8 -14 16 0t16 0", THIN)
        ink.way(((300, 330), (370, 330)))
        return ink.joined()
    ink.shape("M30 330H 410V 356H30Z")
    ink.shape("M 110 330V 286H 150V 256H 190V 286H 250V 256H 290V 286H 330V 330Z", FINE)
    if doing == "brush":
        _chips(ink, ((206, 280), (226, 282), (74, 322), (96, 320)))
        ink.moves = True
        ink.shape("M 218 236L 250 214L 262 232L 232 256Z", FINE)
        ink.line("M 218 238l-16 30M 224 244l-12 30M 230 250l-8 28M 214 232l-20 26", THIN)
        ink.moves = False
        ink.shape("M 252 220L 330 168L 338 180L 260 232Z", FINE)
        ink.at(326, 176, PINCH, -20, 0.95)
        ink.way(((170, 226), (100, 258)))
    elif doing == "vacuum":
        _chips(ink, ((196, 282), (216, 280), (230, 284), (186, 276)))
        ink.moves = True
        ink.shape("M 196 262L 240 244L 252 262L 214 284Z", FINE)
        ink.moves = False
        ink.line("M 246 252Q 310 190 340 120T 420 60M 256 262Q 326 206 356 132T 420 84", FINE)
        ink.at(296, 214, FIST, -30, 0.95)
        ink.way(((228, 268), (280, 230)), 0.7)
    else:
        ink.moves = True
        ink.shape(
            "M 196 250q-10 -24 14 -26t34 8 30 -4 10 26q6 22 -18 22t-28 -8 -26 6 -16 -24Z", FINE
        )
        ink.moves = False
        ink.at(240, 232, FLAT, -24, 0.95)
        ink.way(((170, 210), (110, 230)))
    return ink.joined()


def _chips(ink: Ink, spots: tuple[tuple[float, float], ...]) -> None:
    for x, y in spots:
        ink.line(f"M{short(x)} {short(y)}q-6 -12 4 -14t8 8 -6 4", FINE)


def start_tried() -> str:
    """The start button pressed, and nothing turns."""
    ink = Ink()
    ink.box(110, 80, 120, 250)
    ink.moves = True
    ink.ring(170, 150, 36)
    ink.moves = False
    ink.dot(170, 260, 38)
    ink.at(184, 152, POINTING, 12, 1.1)
    ink.ring(350, 320, 44, FINE)
    ink.dot(350, 320, 6)
    ink.line("M 318 288L 382 352", 8)
    return ink.joined()
