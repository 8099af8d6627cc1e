"""A part from above, to scale: what this state has new is the strong line, all else is thin."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from markupsafe import Markup

from benchleaf.compute import amount, told
from benchleaf.model import Feature, FeatureKind, Form, Part, PartForm, PartState, Units

from .ink import FINE, THIN, Ink, short

WIDTH, EDGE = 720.0, 24.0
OUTLINE, STRONG = 5.0, 12.0

_WORDS = {
    FeatureKind.HOLE: "hole of {}",
    FeatureKind.BLIND_HOLE: "blind hole of {}",
    FeatureKind.COUNTERSINK: "countersink {} wide",
    FeatureKind.THREAD: "thread of {}",
    FeatureKind.ENDS: "ends broken by {}",
}


def part_plan(part: Part, state_id: str, units: Units = Units.METRIC) -> Markup:
    """The part in one of its states; empty where its form, or what is new, is not given."""
    state, form = part.state(state_id), part.form
    if form is None or state is None or not state.features:
        return Markup("")
    scale = (WIDTH - 2 * EDGE) / form.length.value
    high = form.width.value * scale
    ink = Ink()
    _outline(ink, form, scale, high)
    for one in _former(part, state):
        _draw(ink, one, form, scale, high)
    ink.moves = True
    for one in state.features:
        _draw(ink, one, form, scale, high)
    ink.moves = False
    if form.shape is not Form.CASTING:
        ink.dot(EDGE + 22, EDGE + high - 20, 9)
    text = _text(part, state, units)
    return Markup(
        f'<svg class="bl-drawing bl-plan" viewBox="0 0 {WIDTH:g} {short(high + 2 * EDGE)}"'
        f' width="{WIDTH:g}" height="{short(high + 2 * EDGE)}" role="img"'
        f' aria-label="{escape(text)}" fill="none" stroke="currentColor" stroke-width="4">'
        f"{ink.joined()}</svg>"
    )


def _former(part: Part, state: PartState) -> Iterator[Feature]:
    """What earlier states have, unless this one makes the same place larger."""
    places = {one.at.value for one in state.features if one.at and one.kind is FeatureKind.HOLE}
    for earlier in part.states:
        if earlier.id == state.id:
            return
        yield from (one for one in earlier.features if not one.at or one.at.value not in places)


def _outline(ink: Ink, form: PartForm, scale: float, high: float) -> None:
    long = form.length.value * scale
    ink.box(EDGE, EDGE, long, high, OUTLINE)
    if form.shape in (Form.ROUND_BAR, Form.TUBE):
        ink.centre(EDGE - 18, EDGE + high / 2, EDGE + long + 18, EDGE + high / 2)
    if form.shape is Form.CASTING:
        for x in (EDGE + long * 0.22, EDGE + long * 0.78):
            ink.line(f"M{short(x)} {EDGE:g}V{short(EDGE + high)}", FINE)


def _draw(ink: Ink, one: Feature, form: PartForm, scale: float, high: float) -> None:
    width = STRONG if ink.moves else FINE
    if one.at is None:
        _ends(ink, one, form, scale, high, width)
        return
    x, y, radius = EDGE + one.at.value * scale, EDGE + high / 2, one.size.value / 2 * scale
    if one.kind is FeatureKind.THREAD:
        ink.ring(x, y, radius * 0.85, FINE)
        ink.line(
            f"M{short(x)} {short(y - radius)}A{short(radius)} {short(radius)} 0 1 1"
            f" {short(x - radius)} {short(y)}", width,
        )  # fmt: skip
    elif one.kind is FeatureKind.COUNTERSINK:
        ink.parts.append(
            f'<circle cx="{short(x)}" cy="{short(y)}" r="{short(radius)}"'
            f' class="{"bl-m" if ink.moves else ""}" stroke-width="{width:g}"/>'
        )
    else:
        ink.ring(x, y, radius, width)
    was, ink.moves = ink.moves, False
    out = radius + 16
    ink.line(f"M{short(x - out)} {short(y)}h{short(2 * out)}M{short(x)} {short(y - out)}"
             f"v{short(2 * out)}", THIN, dash="14 4 4 4")  # fmt: skip
    ink.moves = was


def _ends(ink: Ink, one: Feature, form: PartForm, scale: float, high: float, width: float) -> None:
    """Flats on the corners of a plate, chamfers round the ends of a bar."""
    cut, long = max(one.size.value * scale, 14.0), form.length.value * scale
    left, right, top, low = EDGE, EDGE + long, EDGE, EDGE + high
    if form.shape in (Form.ROUND_BAR, Form.TUBE):
        ink.line(
            f"M{short(left + cut)} {short(top)}V{short(low)}M{short(right - cut)} {short(top)}"
            f"V{short(low)}", width,
        )  # fmt: skip
        return
    ink.line(
        "".join(
            f"M{short(x)} {short(y + dy * cut)}L{short(x + dx * cut)} {short(y)}"
            for x, dx in ((left, 1), (right, -1))
            for y, dy in ((top, 1), (low, -1))
        ),
        width,
    )


def _text(part: Part, state: PartState, units: Units) -> str:
    """What the drawing shows, in words."""
    found = []
    for one in state.features:
        words = _WORDS[one.kind].format(amount(one.size.value, "mm"))
        if one.at:
            words += f", {amount(one.at.value, 'mm')} from the datum end"
        found.append(words)
    return told(
        f"{part.name} from above, to scale. The strong line is new: {'; '.join(found)}.", units
    )
