"""The pillar drill from the front: what stands how, where each hand is, what moves.

Drawn on a panel 276 wide and 420 high. Left and right are those of the machine's record; the column
stands behind. It is an outline drawn to fit, not to scale.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum, auto

from .hands import FIST, FLAT, PINCH, POINTING
from .ink import FINE, THIN, Ink


class At(Enum):
    """Where a hand is."""

    AWAY = auto()
    LEVER = auto()
    BESIDE_STOP = auto()
    ON_STOP = auto()
    ON_START = auto()
    ISOLATOR = auto()
    KEY = auto()
    WORK = auto()
    BRUSH = auto()
    VICE = auto()


@dataclass(frozen=True, slots=True)
class DrillState:
    """How the drill stands at the moment that a scene shows."""

    guard_down: bool
    power_on: bool
    """The isolator stands at I."""
    turning: bool
    down: float = 0.0
    """How far the quill is down, 0 to 1."""
    left: At = At.AWAY
    right: At = At.AWAY
    key_in_chuck: bool = False
    has_tool: bool = True
    has_work: bool = True
    cover_open: bool = False
    locked: bool = False
    moves: tuple[str, ...] = ()
    """What moves now: quill down, quill up, guard, isolator, spindle, tool up, brush."""

    def __post_init__(self) -> None:
        """No scene shows what must never be.

        Raises:
            ValueError: hands inside, an open guard or a lock with a turning spindle
        """
        inside = {At.KEY, At.WORK, At.BRUSH, At.VICE} & {self.left, self.right}
        if self.turning and (inside or not self.guard_down or not self.power_on):
            raise ValueError("a spindle turns with its guard down, power on, and hands outside")
        if self.turning and (self.key_in_chuck or self.cover_open or self.locked):
            raise ValueError("a spindle turns with the key out, the cover shut and no lock on")
        if self.key_in_chuck and (self.power_on or self.guard_down):
            raise ValueError("a key is in the chuck only with the isolator at O and the guard up")
        if inside and self.guard_down:
            raise ValueError("hands go in only with the guard up")


HUB, QUILL_TOP = (206, 74), 110


def drill_front(state: DrillState, *, lever_right: bool = True) -> str:
    """The drawing."""
    ink = Ink()
    fall = 56 * state.down
    _body(ink, state)
    _isolator(ink, state)
    _key_on_hook(ink, state)
    _table(ink, state)
    _spindle(ink, state, fall)
    _guard(ink, state)
    _lever(ink, state)
    _moves(ink, state, fall)
    _hands(ink, state, fall)
    if lever_right:
        return ink.joined()
    turned = Ink()
    turned.mirrored(276, 0, ink.joined())
    return turned.joined()


def _still() -> str:
    """What always stands still: column, base, head and buttons."""
    ink = Ink()
    ink.shape("M 118 108V 396H 142V 108Z", FINE)
    ink.shape("M62 396H 198V 410H62Z")
    ink.shape("M62 44H 198V 110H62Z")
    ink.ring(78, 62, 7, FINE)
    ink.dot(78, 82, 9)
    ink.ring(104, 92, 12, FINE)
    ink.dot(104, 92, 7)
    ink.box(150, 58, 34, 22, THIN)  # the speed card
    return ink.joined()


def _empty_table() -> str:
    ink = Ink()
    ink.shape("M 104 332H 156V 352H 104Z", FINE)
    ink.shape("M44 318H 216V 333H44Z")
    ink.shape("M88 318V 306H 100V 292H 114V 300H 146V 292H 160V 306H 172V 318Z", FINE)
    return ink.joined()


DRILL_BODY, DRILL_TABLE = _still(), _empty_table()


def _body(ink: Ink, state: DrillState) -> None:
    ink.parts.append(DRILL_BODY)
    if state.cover_open:
        ink.shape("M56 44L30 6H74L84 44Z", FINE)
        ink.box(76, 22, 30, 22, FINE)
        ink.box(150, 22, 34, 22, FINE)
        ink.line("M76 27H 184M76 38H 184", THIN)
    else:
        ink.shape("M54 8H 206V44H54Z")
        ink.line("M54 34H 206", THIN)


def _isolator(ink: Ink, state: DrillState) -> None:
    was, ink.moves = ink.moves, "isolator" in state.moves
    ink.line("M64 210H 118", FINE)
    ink.box(24, 186, 42, 50, FINE)
    if state.power_on:
        ink.line("M45 194V 216", 8)
        ink.line("M45 222V 231", FINE)
    else:
        ink.line("M33 204H57", 8)
        ink.ring(45, 226, 5, THIN)
    ink.moves = was
    if state.locked:
        ink.line("M39 240V 232q0 -6 6 -6t6 6V 240", FINE)
        ink.shape("M33 240H57V 260H33Z", FINE)
        ink.dot(45, 250, 3)


def _key_on_hook(ink: Ink, state: DrillState) -> None:
    ink.line("M 142 200H 198V 208", FINE)
    key = "M 188 210H 208M 198 210V 232M 192 232H 204V 242H 192Z"
    if state.key_in_chuck or At.KEY in (state.left, state.right):
        ink.line(key, THIN, dash="5 4")
    else:
        ink.line(key, FINE)


def _table(ink: Ink, state: DrillState) -> None:
    ink.parts.append(DRILL_TABLE)
    if state.has_work:
        ink.full("M 112 288H 148V 296H 112Z")


def _spindle(ink: Ink, state: DrillState, fall: float) -> None:
    low = QUILL_TOP + 36 + fall
    ink.box(116, QUILL_TOP, 28, low - QUILL_TOP, FINE)
    ink.shape(f"M 110 {low:g}H 150V{low + 24:g}L 140 {low + 38:g}H 120L 110 {low + 24:g}Z", FINE)
    if state.has_tool or "tool up" in state.moves:
        was, ink.moves = ink.moves, "tool up" in state.moves
        drop = 26 if "tool up" in state.moves else 0
        top, tip = low + 38 + drop, low + 92 + drop
        ink.shape(f"M 125 {top:g}H 135V{tip - 5:g}L 130 {tip:g}L 125 {tip - 5:g}Z", FINE)
        ink.line(f"M 125 {top + 18:g}l10 -8M 125 {top + 32:g}l10 -8", THIN)
        ink.moves = was
    if state.key_in_chuck:
        ink.line(f"M 150 {low + 12:g}H 178M 178 {low + 2:g}V{low + 22:g}", 5)


def _guard(ink: Ink, state: DrillState) -> None:
    was, ink.moves = ink.moves, "guard" in state.moves
    if state.guard_down:
        ink.line("M88 136V 288H 172V 136", FINE)
        ink.line("M96 276l18 -44M 106 276l10 -24M 158 176l8 -20", 1.4)
    else:
        ink.shape("M88 112L74 132H 186L 172 112Z", FINE)
        ink.line("M92 127l6 -10M 104 127l4 -7", 1.4)
    ink.moves = was


def _lever(ink: Ink, state: DrillState) -> None:
    x, y = HUB
    ink.shape(f"M 198 {y - 14}H{x + 6}V{y + 14}H 198Z", FINE)
    ends = _lever_ends(state)
    for end in ends:
        ink.line(f"M{x + 2} {y}L{end[0]:g} {end[1]:g}", 6)
        ink.dot(*end, 8)


def _lever_ends(state: DrillState) -> tuple[tuple[float, float], tuple[float, float]]:
    x, y = HUB
    low = y - 52 + 92 * state.down
    return (x + 26, low), (x + 14, y + (y - low) * 0.9)


def _moves(ink: Ink, state: DrillState, fall: float) -> None:
    x = 262
    y = _lever_ends(state)[0][1]
    if "quill down" in state.moves:
        ink.way(((x, y - 46), (x, y + 4)), 0.8)
    if "quill up" in state.moves:
        ink.way(((x, y + 46), (x, y - 4)), 0.8)
    if state.turning:
        low = QUILL_TOP + 48 + fall
        ink.round_way(130, low, 34, 9, 20, 200, 0.7)
    if "guard" in state.moves:
        if state.guard_down:
            ink.way(((190, 176), (190, 232)), 0.8)
        else:
            ink.way(((200, 232), (200, 150)), 0.8)
    if "tool up" in state.moves:
        ink.way(((100, 280), (100, 220)), 0.8)
    if "isolator" in state.moves:
        start, end = (-170, -100) if state.power_on else (-100, -170)
        ink.round_way(45, 206, 34, 34, start, end, 0.7)


def _hands(ink: Ink, state: DrillState, fall: float) -> None:
    low = QUILL_TOP + 36 + fall
    if At.KEY in (state.left, state.right):
        ink.at(188, low + 14, FIST, -58, 0.6)
    _left_hand(ink, state)
    _right_hand(ink, state)


def _left_hand(ink: Ink, state: DrillState) -> None:
    places = {At.ON_START: (69, 62), At.ON_STOP: (68, 82), At.BESIDE_STOP: (58, 100)}
    if state.left in places:
        hand = FLAT if state.left is At.BESIDE_STOP else POINTING
        ink.mirrored(*places[state.left], hand, 18, 0.56)
    elif state.left is At.ISOLATOR:
        ink.at(44, 214, FIST, 0, 0.56)
    elif state.left is At.WORK:
        ink.mirrored(106, 290, PINCH, 12, 0.62)


def _right_hand(ink: Ink, state: DrillState) -> None:
    lever = _lever_ends(state)[0]
    if state.right is At.LEVER:
        ink.at(lever[0] + 2, lever[1] + 4, FIST, -18, 0.62)
    elif state.right is At.WORK:
        ink.at(154, 290, PINCH, 12, 0.62)
    elif state.right is At.VICE:
        ink.line("M 172 312H 196", 5)
        ink.at(206, 314, FIST, -60, 0.62)
    elif state.right is At.BRUSH:
        ink.shape("M 138 268l34 -16 6 10 -36 18Z", FINE)
        ink.line("M 138 272l-14 16M 142 276l-10 16M 134 270l-16 12", THIN)
        ink.at(182, 258, PINCH, -18, 0.6)


def chuck_close(kind: str, *, goes_in: bool) -> str:
    """The open chuck with its tool and the key, on a panel 440 wide and 420 high."""
    ink = Ink()
    ink.box(180, 0, 80, 40)
    ink.shape("M 150 40H 290V 150L 262 190H 178L 150 150Z")
    ink.line("M 150 150H 290", THIN)
    ink.shape("M 196 190L 202 222H 214V 190ZM 226 190V 222H 238L 244 190Z", FINE)
    ink.ring(220, 118, 9, FINE)
    ink.line("M 262 118H 310", 9)
    ink.line("M 310 92V 144", 6)
    ink.moves = True
    wide = 14 if kind != "countersink" else 10
    tip = 392
    if kind == "countersink":
        ink.shape(f"M{220 - wide} 210H{220 + wide}V 326L 256 350V 358L 220 {tip}L 184 358V 350"
                  f"L{220 - wide} 326Z",
                  FINE)  # fmt: skip
    elif kind in ("reamer", "tap", "guide"):
        ink.shape(f"M{220 - wide} 210H{220 + wide}V{tip - 16}L{220 + wide - 5} {tip}"
                  f"H{220 - wide + 5}L{220 - wide} {tip - 16}Z", FINE)  # fmt: skip
        ink.line(f"M 214 {tip}V 270M 226 {tip}V 270", THIN)
    else:
        ink.shape(
            f"M{220 - wide} 210H{220 + wide}V{tip - 10}L 220 {tip}L{220 - wide} {tip - 10}Z", FINE
        )
        for y in range(tip - 14, 280, -24):
            ink.line(f"M{220 - wide} {y}C 215 {y - 6} 225 {y - 16} {220 + wide} {y - 22}", THIN)
    ink.moves = False
    ink.at(326, 122, FIST, -64, 1)
    ink.round_way(310, 118, 14, 52, 110, 250, 0.8)
    ink.way(((130, 350), (130, 270)) if goes_in else ((130, 270), (130, 350)))
    return ink.joined()


def drill_words(state: DrillState) -> str:
    """How the drill stands, in words."""
    said = [
        "The chuck guard is down" if state.guard_down else "The chuck guard is up",
        "the isolator stands at I" if state.power_on else "the isolator stands at O",
        "the spindle turns" if state.turning else "the spindle is still",
    ]
    if state.locked:
        said.append("a lock and a tag hang on the isolator")
    if not state.key_in_chuck and At.KEY not in (state.left, state.right):
        said.append("the chuck key hangs on its hook")
    return f"{', '.join(said[:-1])} and {said[-1]}."
