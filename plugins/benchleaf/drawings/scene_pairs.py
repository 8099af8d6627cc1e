"""So, and not so: two pictures side by side; the second is crossed by a thick bar. No words inside.

What is not so is drawn here only, never in a scene, and never without its bar.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from html import escape
from types import MappingProxyType

from markupsafe import Markup

from benchleaf.model import SoNotSo

from .hands import FIST, FLAT, PINCH, POINTING
from .ink import FINE, HALO, THIN, Ink

WIDE, HIGH, NEXT = 200.0, 200.0, 232.0


def pair_of(kind: SoNotSo, *, at_grinder: bool = False) -> Markup:
    """Both pictures as one element for a page."""
    so, not_so, words = _DRAWN[kind](at_grinder)
    return Markup(
        f'<svg class="bl-pair" viewBox="0 0 {NEXT + WIDE:g} {HIGH:g}" width="{NEXT + WIDE:g}"'
        f' height="{HIGH:g}" role="img" aria-label="{escape(words)}" fill="none"'
        f' stroke="currentColor" stroke-width="4">{_framed(so, 0)}'
        f"{_framed(not_so, NEXT)}{_bar(kind)}</svg>"
    )


def _framed(ink: Ink, x: float) -> str:
    """One picture; an inner svg cuts off what goes beyond its edge."""
    return (
        f'<svg x="{x:g}" width="{WIDE:g}" height="{HIGH:g}">{ink.joined()}'
        f'<path d="M2 2H{WIDE - 2:g}V{HIGH - 2:g}H2Z" stroke-width="3"/></svg>'
    )


def _bar(kind: SoNotSo) -> str:
    """The bar through what is not so: thick, edged in ink, from corner to corner."""
    near, far = NEXT + 4, NEXT + WIDE - 4
    if kind in _FALLING:
        near, far = far, near
    line = f"M{near:g} {HIGH - 4:g}L{far:g} 4"
    return (
        f'<path d="{line}" class="{HALO}" stroke-width="22"/><path d="{line}" stroke-width="14"/>'
        f'<path d="{line}" class="bl-not" stroke-width="8"/>'
    )


_FALLING = {SoNotSo.HOLD_BACK, SoNotSo.KEY_ON_HOOK, SoNotSo.WAIT_FOR_STILL}
"""Pairs whose bar falls to the right, so that what is wrong stands beside it."""


def _still_chuck() -> str:
    ink = Ink()
    ink.box(76, 4, 38, 26, FINE)
    ink.shape("M64 30H 126V74L 112 94H78L64 74Z", FINE)
    ink.shape("M88 94H 102V 158L95 170L88 158Z", FINE)
    ink.line("M88 120l14 -12M88 142l14 -12", THIN)
    return ink.joined()


def _still_wheel() -> str:
    ink = Ink()
    ink.ring(150, 90, 66)
    ink.ring(150, 90, 20, FINE)
    ink.line("M4 92H76V 104H4", FINE)
    ink.line("M30 104V 186", 6)
    return ink.joined()


PAIR_CHUCK, PAIR_WHEEL = _still_chuck(), _still_wheel()


def _chuck(ink: Ink, *, key: bool = False, turning: bool = False, coasting: bool = False) -> None:
    ink.parts.append(PAIR_CHUCK)
    if turning:
        ink.round_way(95, 56, 52, 12, 20, 200, 0.8)
    if coasting:
        ink.moves = True
        ink.line("M 144 60Q95 84 46 60", 5, dash="9 8")
        ink.head(40, 54, -130, 20, 18)
        ink.moves = False
    if key:
        ink.line("M 126 54H 160M 160 34V74", 6)


def _isolator(ink: Ink, *, on: bool) -> None:
    ink.box(146, 120, 44, 66, FINE)
    if on:
        ink.line("M 168 128V 160M 168 168V 180", 7)
    else:
        ink.line("M 152 144H 184", 7)
        ink.ring(168, 172, 6, FINE)


Drawn = tuple[Ink, Ink, str]


def _hold_back(_: bool) -> Drawn:
    so, not_so = Ink(), Ink()
    for ink, end in ((so, (150, 92)), (not_so, (136, 140))):
        ink.box(8, 40, 52, 100, FINE)
        ink.line(f"M62 90L{end[0]} {end[1]}M62 90L34 34", 7)
        ink.ring(62, 90, 17)
        ink.dot(*end, 10)
    so.at(152, 96, FIST, -12, 0.85)
    so.way(((110, 60), (110, 14)), 0.9)
    not_so.at(138, 146, FIST, -18, 0.6)
    not_so.ring(146, 34, 20)
    not_so.shape("M 128 54L 162 58L 190 130H 150Z", FINE)
    not_so.line("M 136 68L 140 130", 9)
    not_so.way(((102, 84), (102, 168)), 1.2)
    return (
        so,
        not_so,
        ("So: one hand holds the feed lever back. Not so, crossed out: a body leans on the lever."),
    )


def _chips(ink: Ink) -> None:
    ink.box(8, 160, 184, 14, FINE)
    for x, y in ((74, 156), (92, 152), (58, 154)):
        ink.line(f"M{x} {y}q-8 -14 4 -18t10 10 -8 4", FINE)


def _brush(_: bool) -> Drawn:
    so, not_so = Ink(), Ink()
    _chips(so)
    _chips(not_so)
    so.shape("M96 116L 124 94L 136 110L 110 132Z", FINE)
    so.line("M96 118l-14 28M 102 124l-10 26M 108 130l-6 26", THIN)
    so.shape("M 128 98L 176 62L 184 72L 134 108Z", FINE)
    so.at(172, 74, PINCH, -24, 0.8)
    not_so.at(88, 138, POINTING, -24, 0.9)
    return so, not_so, "So: a brush takes the chips. Not so, crossed out: fingers touch the chips."


def _person(ink: Ink, x: float, y: float) -> None:
    ink.shape(f"M{x - 40} {y + 8}q0 -22 24 -22h32q24 0 24 22q-40 24 -80 0Z", FINE)
    ink.ring(x, y, 18, FINE)


def _aside(_: bool) -> Drawn:
    so, not_so = Ink(), Ink()
    for ink in (so, not_so):
        ink.box(14, 28, 100, 38, FINE)
        ink.shape("M 124 14H 144V80H 124Z", FINE)
        ink.line("M 114 47H 124", 7)
        ink.line("M 120 90V 194M 148 90V 194", THIN, dash="9 6")
        ink.round_way(134, 47, 26, 44, -60, 60, 0.6)
    _person(so, 56, 140)
    _person(not_so, 134, 140)
    return (
        so,
        not_so,
        (
            "So, seen from above: the operator stands beside the line of the "
            "wheel. Not so, crossed "
            "out: the operator stands in the line of the wheel."
        ),
    )


def _key(_: bool) -> Drawn:
    so, not_so = Ink(), Ink()
    _chuck(so)
    so.line("M 134 60H 168V74", FINE)
    so.line("M 152 78H 184M 168 78V 124", 6)
    so.box(158, 124, 20, 16, FINE)
    _chuck(not_so, key=True, turning=True)
    return (
        so,
        not_so,
        ("So: the chuck key hangs on its hook. Not so, crossed out: the key is in the chuck."),
    )


def _hands_out(_: bool) -> Drawn:
    so, not_so = Ink(), Ink()
    _chuck(so, turning=True)
    so.line("M34 40V 180H 156V40", FINE)
    so.line("M44 168l16 -44M56 168l8 -22", 1.6)
    _chuck(not_so, turning=True)
    not_so.at(104, 150, PINCH, 8, 0.8)
    return (
        so,
        not_so,
        (
            "So: the guard is down round the turning drill, and no hand is inside. Not so, crossed "
            "out: the guard is up, and a hand is at the turning drill."
        ),
    )


def _power_off(_: bool) -> Drawn:
    so, not_so = Ink(), Ink()
    for ink, on in ((so, False), (not_so, True)):
        _chuck(ink)
        _isolator(ink, on=on)
        ink.at(120, 58, PINCH, -10, 0.75)
    return (
        so,
        not_so,
        (
            "So: a hand comes to the chuck while the isolator stands at O. Not so, "
            "crossed out: the "
            "isolator stands at I."
        ),
    )


def _wheel(ink: Ink, *, coasting: bool = False, turning: bool = False) -> None:
    ink.parts.append(PAIR_WHEEL)
    if turning:
        ink.round_way(150, 90, 44, 44, -110, -215, 0.8)
    if coasting:
        ink.moves = True
        ink.line("M 136 48A44 44 0 0 0 108 100", 5, dash="9 8")
        ink.head(110, 112, 75, 20, 18)
        ink.moves = False
    if not (coasting or turning):
        ink.line("M 166 108L 182 126", 7)


def _wait(at_grinder: bool) -> Drawn:
    so, not_so = Ink(), Ink()
    if at_grinder:
        _wheel(so)
        _wheel(not_so, coasting=True)
        not_so.mirrored(88, 84, FLAT, 0, 0.75)
        return (
            so,
            not_so,
            (
                "So: nothing comes near until the wheel stands still. Not so, crossed "
                "out: a hand on "
                "the wheel while it coasts."
            ),
        )
    _chuck(so)
    so.line("M95 34V70", 6)
    so.line("M40 108L26 124H 164L 150 108Z", FINE)
    so.way(((180, 170), (180, 112)), 0.8)
    _chuck(not_so, coasting=True)
    not_so.at(124, 62, PINCH, 0, 0.8)
    return (
        so,
        not_so,
        (
            "So: the chuck stands still, then the guard goes up. Not so, crossed "
            "out: a hand at the "
            "chuck while it coasts."
        ),
    )


def _hands_far(_: bool) -> Drawn:
    so, not_so = Ink(), Ink()
    for ink in (so, not_so):
        _wheel(ink, turning=True)
    so.shape("M-2 80H83V91H-2Z", FINE)
    so.mirrored(20, 86, PINCH, -6, 0.62)
    not_so.shape("M26 80H83V91H26Z", FINE)
    not_so.mirrored(80, 86, PINCH, -6, 0.8)
    return (
        so,
        not_so,
        (
            "So: the hand holds the far end of the work. Not so, crossed out: the "
            "fingers are close to "
            "the wheel."
        ),
    )


def _flat_on_rest(_: bool) -> Drawn:
    so, not_so = Ink(), Ink()
    for ink in (so, not_so):
        _wheel(ink, turning=True)
    so.shape("M2 80H83V91H2Z", FINE)
    not_so.shape("M2 44L10 34L92 108L84 118Z", FINE)
    return (
        so,
        not_so,
        (
            "So: the work lies flat on the rest. Not so, crossed out: the work is "
            "tipped down into the "
            "gap between rest and wheel."
        ),
    )


def _never_blow(_: bool) -> Drawn:
    so, not_so = Ink(), Ink()
    _chips(so)
    _chips(not_so)
    so.shape("M86 138L 122 116L 134 134L 100 156Z", FINE)
    so.line("M 128 122Q 160 90 178 10M 136 134Q 172 100 192 20", FINE)
    not_so.shape("M 120 92L 180 60L 188 74L 128 106Z", FINE)
    not_so.at(170, 84, PINCH, -10, 0.7)
    not_so.moves = True
    for dy in (-16, 0, 16):
        not_so.line(f"M 112 {100 + dy / 2:g}L56 {112 + dy * 1.6:g}", THIN + 1, dash="10 7")
    not_so.moves = False
    for x, y in ((40, 60), (26, 84), (44, 100)):
        not_so.line(f"M{x} {y}q-8 -10 2 -14t8 8", FINE)
    return (
        so,
        not_so,
        (
            "So: a vacuum cleaner takes up dust and chips. Not so, crossed out: "
            "air blows them about."
        ),
    )


def _plug(_: bool) -> Drawn:
    so, not_so = Ink(), Ink()
    for ink, out in ((so, True), (not_so, False)):
        _wheel(ink)
        ink.mirrored(88, 84, PINCH, 0, 0.62)
        ink.box(60, 130, 36, 36, FINE)
        x, y = (136, 176) if out else (78, 148)
        if out:
            ink.line("M 122 160H 136V 168", FINE)
        ink.shape(
            f"M{x - 10} {y - 8}H{x + 10}V{y + 4}L{x + 4} {y + 14}H{x - 4}L{x - 10} {y + 4}Z", FINE
        )
    return (
        so,
        not_so,
        (
            "So: the plug hangs on its hook while a hand is at the wheel. Not so, "
            "crossed out: the plug "
            "is in its socket."
        ),
    )


_DRAWN: Mapping[SoNotSo, Callable[[bool], Drawn]] = MappingProxyType(
    {
        SoNotSo.HOLD_BACK: _hold_back,
        SoNotSo.BRUSH: _brush,
        SoNotSo.STAND_ASIDE: _aside,
        SoNotSo.KEY_ON_HOOK: _key,
        SoNotSo.HANDS_OUT: _hands_out,
        SoNotSo.POWER_OFF: _power_off,
        SoNotSo.WAIT_FOR_STILL: _wait,
        SoNotSo.HANDS_FAR: _hands_far,
        SoNotSo.FLAT_ON_REST: _flat_on_rest,
        SoNotSo.NEVER_BLOW: _never_blow,
        SoNotSo.PLUG_ON_HOOK: _plug,
    }
)
