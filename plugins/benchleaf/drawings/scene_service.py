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
        ink.shape("M186 86H214V214H186Z")
    else:
        ink.shape("M136 136H264V164H136Z")
    ink.moves = False
    ink.ring(150, 250, 11, 5)
    ink.line("M250 238V262", 6)
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
        ink.line(f"M{x} {270 if shut else 252}V330", 8)
    y = 184 if doing != "move" else 150
    ink.moves = doing == "move"
    ink.line(f"M110 {y + 10}H330M110 {y + 24}H330", THIN if shut else 5, dash="8 6" if shut else "")
    ink.moves = False
    if doing == "move":
        ink.line("M110 194H330M110 208H330", THIN, dash="9 6")
        ink.at(220, y - 2, FLAT, 96, 0.95)
        ink.way(((264, 226), (264, 178)))
    elif doing == "ease":
        ink.moves = True
        ink.line("M330 330L250 380", 9)
        ink.moves = False
        ink.line("M330 330L230 330", THIN, dash="9 6")
        ink.ring(330, 330, 14, FINE)
        ink.at(262, 372, FIST, 30, 0.9)
        ink.round_way(330, 330, 124, 124, 176, 152)
    return ink.joined()


def people(doing: str) -> str:
    """People told, or seen clear, round the machine."""
    ink = Ink()
    ink.box(170, 60, 100, 60)
    ink.line("M150 120H290", FINE)
    spots = ((110, 250), (220, 300), (330, 250)) if doing == "tell" else ((40, 330), (400, 330))
    _body(ink, 220, 190 if doing == "clear" else 200)
    for x, y in spots:
        ink.moves = doing == "clear"
        _body(ink, x, y)
        ink.moves = False
    if doing == "tell":
        ink.moves = True
        ink.line("M182 214q-16 12 -26 16M258 214q16 12 26 16M220 236V258", 5)
        ink.moves = False
    else:
        ink.way(((140, 280), (84, 312)))
        ink.way(((300, 280), (356, 312)))
        ink.line("M60 250H380", THIN, dash="12 7")
    return ink.joined()


def _body(ink: Ink, x: float, y: float) -> None:
    ink.shape(f"M{x - 40} {y + 10}q0 -24 26 -24h28q26 0 26 24q-40 24 -80 0Z", FINE)
    ink.ring(x, y, 19)


def cleaning(doing: str) -> str:
    """Brush, vacuum cleaner, wipe or mop at what is cleaned."""
    ink = Ink()
    if doing == "mop":
        ink.line("M20 360H420")
        ink.line("M20 360h20M60 360l-14 14M110 360l-14 14M160 360l-14 14M210 360l-14 14"
                 "M260 360l-14 14M310 360l-14 14M360 360l-14 14M410 360l-14 14", 1.6)  # fmt: skip
        ink.moves = True
        ink.line("M200 340L300 110", 7)
        ink.shape("M150 340H246L256 360H140Z", FINE)
        ink.moves = False
        ink.at(282, 150, FIST, 20, 0.95)
        ink.at(246, 234, FIST, 20, 0.95)
        ink.shape("M40 358L70 270H86L116 358Z", FINE)
        ink.line("M62 320q8 -14 16 0t16 0", THIN)
        ink.way(((300, 330), (370, 330)))
        return ink.joined()
    ink.shape("M30 330H410V356H30Z")
    ink.shape("M110 330V286H150V256H190V286H250V256H290V286H330V330Z", FINE)
    if doing == "brush":
        _chips(ink, ((206, 280), (226, 282), (74, 322), (96, 320)))
        ink.moves = True
        ink.shape("M218 236L250 214L262 232L232 256Z", FINE)
        ink.line("M218 238l-16 30M224 244l-12 30M230 250l-8 28M214 232l-20 26", THIN)
        ink.moves = False
        ink.shape("M252 220L330 168L338 180L260 232Z", FINE)
        ink.at(326, 176, PINCH, -20, 0.95)
        ink.way(((170, 226), (100, 258)))
    elif doing == "vacuum":
        _chips(ink, ((196, 282), (216, 280), (230, 284), (186, 276)))
        ink.moves = True
        ink.shape("M196 262L240 244L252 262L214 284Z", FINE)
        ink.moves = False
        ink.line("M246 252Q310 190 340 120T420 60M256 262Q326 206 356 132T420 84", FINE)
        ink.at(296, 214, FIST, -30, 0.95)
        ink.way(((228, 268), (280, 230)), 0.7)
    else:
        ink.moves = True
        ink.shape(
            "M196 250q-10 -24 14 -26t34 8 30 -4 10 26q6 22 -18 22t-28 -8 -26 6 -16 -24Z", FINE
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
    ink.line("M318 288L382 352", 8)
    return ink.joined()
