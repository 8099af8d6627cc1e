"""The bench grinder: its wheel from the side, and the place from above with who stands where.

The operator stands at the left of the side view, and below in the view from above. The gaps are
drawn wider than they are, so that they are seen; their figures come from the machine's record.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin

from .hands import FIST, FLAT, PINCH, POINTING
from .ink import FINE, THIN, Ink, Point, short, trace

MIDDLE: Point = (318.0, 196.0)
RADIUS = 105.0
GAP = 9.0
"""How wide a gap is drawn."""
REST_Y = 196.0


@dataclass(frozen=True, slots=True)
class WheelState:
    """How the grinder stands at the moment that a scene shows."""

    motion: str = "still"
    """still, turning or coasting."""
    power_on: bool = False
    plug_in: bool = False
    guard_open: bool = False
    has_wheel: bool = True
    shield_down: bool = True
    stands: str = "away"
    """aside (out of the wheel's line), front or away."""
    at_rest: str = ""
    """What lies on the work rest: plate, pin, dresser, gauge, or nothing."""
    back: float = 0.0
    """How far it is drawn back from the rim, 0 to 1."""
    at_tongue: bool = False
    """True where the gauge is tried at the tongue guard."""
    locked: bool = False
    hand_on_wheel: bool = False
    moves: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        """No scene shows what must never be.

        Raises:
            ValueError: a gauge or hand at a live wheel, or an open guard at a turning one
        """
        near = self.at_tongue or self.at_rest == "gauge" or self.hand_on_wheel or self.guard_open
        if near and self.motion != "still":
            raise ValueError("gauge, hand and open guard belong to a wheel that stands still")
        if near and (self.power_on or (self.plug_in and not self.locked)):
            raise ValueError("hands come to the wheel only with its power cut off")
        if self.motion == "turning" and not (self.power_on and self.plug_in and self.shield_down):
            raise ValueError("a wheel turns with plug in, power on and the shield down")
        if self.motion == "turning" and self.locked:
            raise ValueError("a locked wheel is not driven")


def _spot(angle: float, radius: float) -> Point:
    turn = radians(angle)
    return MIDDLE[0] + radius * cos(turn), MIDDLE[1] + radius * sin(turn)


def _band(start: float, end: float, inner: float, outer: float) -> str:
    """Part of a ring, from one angle to another, clockwise."""
    (a, b), (c, d) = _spot(start, outer), _spot(end, outer)
    (e, f), (g, h) = _spot(end, inner), _spot(start, inner)
    large = int(end - start > 180)
    return (
        f"M{short(a)} {short(b)}A{outer:g} {outer:g} 0 {large} 1 {short(c)} {short(d)}"
        f"L{short(e)} {short(f)}A{inner:g} {inner:g} 0 {large} 0 {short(g)} {short(h)}Z"
    )


def _stand() -> str:
    ink = Ink()
    ink.shape("M 264 300H 372L 384 410H 252Z")
    ink.line("M 218 410H 428")
    ink.shape(_band(-142, 128, RADIUS + 14, RADIUS + 30))
    ink.ring(*MIDDLE, RADIUS)
    ink.ring(*MIDDLE, 34, FINE)
    ink.ring(*MIDDLE, 10, FINE)
    grains = "".join(
        f"M{short(a)} {short(b)}l3 2"
        for angle in range(0, 360, 30)
        for a, b in (_spot(angle + 11, 88 - angle % 60 / 3),)
    )
    ink.line(grains, THIN)
    ink.line(trace((_spot(40, 46), _spot(40, 70))), 6)
    return ink.joined()


WHEEL_STAND = _stand()
"""Stand, guard and wheel, as they are in most scenes."""


def wheel_side(state: WheelState, rest_gap: str = "", tongue_gap: str = "") -> str:
    """The side view on a panel 456 wide and 420 high."""
    ink = Ink()
    x, y = MIDDLE
    if state.has_wheel and not state.guard_open:
        ink.parts.append(WHEEL_STAND)
    else:
        ink.shape("M 264 300H 372L 384 410H 252Z")
        ink.line("M 218 410H 428")
    if state.guard_open:
        ink.ring(x, y, RADIUS if state.has_wheel else 12)
        ink.ring(x, y, 34 if state.has_wheel else 5, FINE)
    if not state.has_wheel:
        ink.way(((x + 20, y - 30), (x + 100, y - 60)))
    _motion(ink, state)
    _rest(ink, state)
    _tongue(ink, state)
    _shield(ink, state)
    _at_rest(ink, state)
    if rest_gap:
        left = x - RADIUS - GAP
        ink.line(
            f"M{short(left)} {REST_Y + 18:g}V 292M{short(x - RADIUS)} {REST_Y + 4:g}V 292", THIN
        )
        ink.line(f"M 104 280H{short(x - RADIUS + 34)}", THIN)
        ink.head(left, 280, 0)
        ink.head(x - RADIUS, 280, 180)
        ink.text(98, 290, rest_gap, "end")
    if tongue_gap:
        (a, b), (c, d) = _spot(-138, RADIUS + GAP), _spot(-138, RADIUS)
        out = _spot(-138, RADIUS + 60)
        inner = _spot(-138, RADIUS - 40)
        ink.line(trace((out, (a, b))) + trace((inner, (c, d))), THIN)
        ink.head(a, b, 42)
        ink.head(c, d, 222)
        ink.line(trace((out, (226, 46))), THIN)
        ink.text(232, 38, tongue_gap, "middle")
    return ink.joined()


def _motion(ink: Ink, state: WheelState) -> None:
    x, y = MIDDLE
    if state.motion == "turning":
        ink.round_way(x, y, 74, 74, -120, -215, 0.9)
    elif state.motion == "coasting":
        ink.moves = True
        (a1, b1), (a2, b2) = _spot(-120, 74), _spot(-200, 74)
        ink.line(f"M{short(a1)} {short(b1)}A74 74 0 0 0 {short(a2)} {short(b2)}", 5, dash="10 9")
        ink.head(*_spot(-212, 74), 75, 22, 20)
        ink.moves = False
    elif state.hand_on_wheel:
        ink.round_way(x, y, 74, 74, 150, 225, 0.9)
        ink.mirrored(*_spot(196, RADIUS - 2), FLAT, 0, 0.7)


def _rest(ink: Ink, state: WheelState) -> None:
    moved = "rest" in state.moves
    shift = -34.0 if state.guard_open or state.at_rest == "dresser" or moved else 0.0
    edge = MIDDLE[0] - RADIUS - GAP + shift
    ink.moves = moved
    ink.shape(f"M98 {REST_Y + 1:g}H{short(edge)}V{REST_Y + 15:g}H98Z")
    ink.shape(f"M 124 {REST_Y + 15:g}H 152V 330H 264V 352H 124Z", FINE)
    ink.ring(138, 250, 6, THIN)
    ink.ring(138, 290, 6, THIN)
    if moved:
        way = ((112, 168), (172, 168)) if "rest in" in state.moves else ((172, 168), (112, 168))
        ink.way(way)
    ink.moves = False


def _tongue(ink: Ink, state: WheelState) -> None:
    if state.guard_open:
        return
    a, b = _spot(-142, RADIUS + GAP), _spot(-142, RADIUS + 52)
    c, d = _spot(-135, RADIUS + 52), _spot(-135, RADIUS + GAP)
    ink.moves = "tongue" in state.moves
    ink.shape(trace((a, b, c, d), closed=True), FINE)
    ink.moves = False
    if state.at_tongue:
        x, y = _spot(-146, RADIUS + 4)
        ink.shape(
            trace(((x, y), (x - 12, y - 18), (x - 80, y + 22), (x - 72, y + 40)), closed=True), FINE
        )
        ink.mirrored(x - 62, y + 24, PINCH, -30, 0.7)


def _shield(ink: Ink, state: WheelState) -> None:
    ink.moves = "shield" in state.moves
    if state.shield_down:
        ink.shape("M 140 62L 156 54L 204 130L 190 140Z", FINE)
        ink.line("M 154 72l24 40", 1.4)
    else:
        ink.shape("M 130 34L 206 16L 210 30L 136 50Z", FINE)
    ink.moves = False


def _at_rest(ink: Ink, state: WheelState) -> None:
    edge = MIDDLE[0] - RADIUS
    x = edge - 46 * state.back
    if state.at_rest == "plate":
        ink.moves = bool({"work", "work back"} & set(state.moves))
        ink.shape(f"M{short(x - 128)} {REST_Y - 11:g}H{short(x - 1)}V{REST_Y:g}H{short(x - 128)}Z")
        ink.moves = False
        ink.mirrored(x - 122, REST_Y - 6, PINCH, -4, 0.8)
        ink.mirrored(x - 134, REST_Y + 10, PINCH, -14, 0.8)
    elif state.at_rest == "pin":
        ink.moves = bool({"work", "work back", "roll"} & set(state.moves))
        ink.shape(f"M{short(x - 66)} {REST_Y - 15:g}H{short(x - 5)}L{short(x - 1)} {REST_Y - 11:g}"
                  f"V{REST_Y - 4:g}L{short(x - 5)} {REST_Y:g}H{short(x - 66)}Z")  # fmt: skip
        ink.moves = False
        ink.shape(f"M{short(x - 150)} {REST_Y - 20:g}H{short(x - 60)}V{REST_Y + 4:g}"
                  f"H{short(x - 150)}Z")  # fmt: skip
        ink.line(f"M{short(x - 74)} {REST_Y - 20:g}v-12m-9 0h18", FINE)
        ink.at(x - 112, REST_Y - 6, FIST, 30, 0.72)
        ink.at(x - 146, REST_Y - 4, FIST, 44, 0.72)
    elif state.at_rest == "dresser":
        ink.shape(f"M{short(x - 34)} {REST_Y - 30:g}H{short(x - 1)}V{REST_Y + 2:g}"
                  f"H{short(x - 34)}Z")  # fmt: skip
        ink.line(f"M{short(x - 30)} {REST_Y + 2:g}v22h-14", 5)
        ink.line("".join(f"M{short(x - 30 + 9 * n)} {REST_Y - 28:g}l6 28" for n in range(3)), THIN)
        ink.shape(f"M{short(x - 160)} {REST_Y - 26:g}H{short(x - 34)}V{REST_Y - 8:g}"
                  f"H{short(x - 160)}Z")  # fmt: skip
        ink.at(x - 84, REST_Y - 14, FIST, 24, 0.72)
        ink.at(x - 140, REST_Y - 14, FIST, 40, 0.72)
    elif state.at_rest == "gauge":
        ink.shape(f"M{short(edge - GAP - 86)} {REST_Y - 26:g}H{short(edge - GAP - 10)}"
                  f"V{REST_Y - 6:g}H{short(edge - GAP - 2)}V{REST_Y + 1:g}"
                  f"H{short(edge - GAP - 86)}Z", FINE)  # fmt: skip
        ink.mirrored(edge - GAP - 78, REST_Y - 14, PINCH, -6, 0.8)
    if "work back" in state.moves:
        ink.way(((x - 20, REST_Y - 48), (x - 90, REST_Y - 48)))
    if "work" in state.moves:
        ink.way(((x - 96, REST_Y - 48), (x - 26, REST_Y - 48)))
    if "roll" in state.moves:
        ink.round_way(x - 30, REST_Y - 8, 10, 30, 110, 250, 0.7)


def place_above(state: WheelState) -> str:
    """The place from above with the line of the wheel, on a panel 262 wide and 420 high."""
    ink = Ink()
    ink.line("M 186 92V 270M 214 92V 270", THIN, dash="9 6")
    ink.box(40, 40, 130, 46)
    ink.shape("M28 50H40V76H28Z", FINE)
    ink.box(170, 56, 18, 14, FINE)
    ink.shape("M 188 24H 212V 100H 188Z")
    ink.line("M 182 108H 218", 6)
    spot = {"aside": (96.0, 190.0), "front": (200.0, 206.0)}.get(state.stands)
    if spot:
        _person(ink, *spot, moved="person" in state.moves)
    _supply(ink, state)
    if "start" in state.moves:
        ink.at(112, 98, POINTING, 62, 0.55)
    return ink.joined()


def _person(ink: Ink, x: float, y: float, *, moved: bool = False) -> None:
    """Somebody from above, face to the machine."""
    ink.moves = moved
    ink.shape(f"M{short(x - 46)} {short(y + 10)}Q{short(x - 46)} {short(y - 14)} {short(x - 20)}"
              f" {short(y - 12)}H{short(x + 20)}Q{short(x + 46)} {short(y - 14)} {short(x + 46)}"
              f" {short(y + 10)}Q{short(x)} {short(y + 34)} {short(x - 46)}"
              f" {short(y + 10)}Z")  # fmt: skip
    ink.ring(x, y, 21)
    ink.line(
        f"M{short(x - 8)} {short(y - 20)}l8 -10 8 10",
        FINE,
    )
    ink.moves = False


def _supply(ink: Ink, state: WheelState) -> None:
    """Isolator, socket, plug and hook."""
    ink.moves = "isolator" in state.moves
    ink.box(40, 300, 56, 70, FINE)
    if state.power_on:
        ink.line("M68 310V 342", 9)
        ink.line("M68 350V 362", FINE)
    else:
        ink.line("M52 326H84", 9)
        ink.ring(68, 356, 6, THIN)
    ink.moves = False
    if state.locked:
        ink.line("M60 378V 370q0 -8 8 -8t8 8V 378", FINE)
        ink.box(54, 378, 28, 24, FINE)
        ink.dot(68, 390, 3)
    ink.box(130, 318, 44, 44, FINE)
    ink.line("M 214 310H 232V 330", FINE)
    ink.moves = "plug" in state.moves
    x, y = (152, 340) if state.plug_in else (232, 350)
    ink.line(f"M{x} {y + 16}V{y + 44}q0 12 -16 12H{x - 50}" if state.plug_in else
             f"M{x} {y + 16}q0 40 -40 40h-30", FINE)  # fmt: skip
    ink.shape(
        f"M{x - 13} {y - 12}H{x + 13}V{y + 6}L{x + 6} {y + 18}H{x - 6}L{x - 13} {y + 6}Z", FINE
    )
    if not state.plug_in:
        ink.line(f"M{x - 6} {y - 12}v-10M{x + 6} {y - 12}v-10", FINE)
    ink.moves = False


def wheel_words(state: WheelState) -> str:
    """How the grinder stands, in words."""
    motion = {"still": "stands still", "turning": "turns", "coasting": "coasts to rest"}
    said = [
        f"The wheel {motion[state.motion]}" if state.has_wheel else "The wheel is off",
        "the plug is in its socket" if state.plug_in else "the plug hangs on its hook",
        "the isolator stands at I" if state.power_on else "the isolator stands at O",
    ]
    if state.locked:
        said.append("a lock hangs on the isolator")
    if state.stands != "away":
        where = {"aside": "beside the line of the wheel", "front": "in front of the work rest"}
        said.append(f"the operator stands {where[state.stands]}")
    return f"{', '.join(said[:-1])} and {said[-1]}."
