"""What the hand will feel: pull at the lever against its swing, with the zones in plain words."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from benchleaf.compute import FeelCurve, FeelZone, SetUpSheet
from benchleaf.html.grab import grab_words

from .drawing import LETTER, WIDTH, Drawing

WORDS = {
    "touch": "the point bites",
    "entering": "the lips go in",
    "full_cut": "full cut, even pull",
    "breaking_through": "coming through: ease off, it grabs",
    "leaving": "the lips come out: hold back",
    "clear": "through",
}
"""Zones as the learner hears them."""

_FAR_WORDS = WORDS | {
    "breaking_through": "ease off, it grabs",
    "leaving": "lips come out: hold back",
}
"""The same at the far wall of a tube, said after it."""

_LEFT, _RIGHT, _TOP, _FLOOR = 96.0, WIDTH - 14.0, 116.0, 384.0
_HALF_NUMBER = LETTER * 0.35


@dataclass(frozen=True, slots=True)
class _Scale:
    """Swing and pull to units of the drawing."""

    most_swing: float
    most_pull: float

    def x(self, swing: float) -> float:
        return _LEFT + swing / self.most_swing * (_RIGHT - _LEFT)

    def y(self, pull: float) -> float:
        return _FLOOR - pull / self.most_pull * (_FLOOR - _TOP)


def feel_figure(sheet: SetUpSheet) -> Markup | None:
    """The chart, or None where no curve is computed (blind holes, factors missing)."""
    curve = sheet.feel
    if curve is None:
        return None
    zones = [zone for zone in curve.zones if zone.end > zone.start and zone.key != "clear"]
    swing, pull = (max(point[way] for point in curve.points) for way in (0, 1))
    scale = _Scale(swing, pull * 1.08)
    grab = grab_words(sheet)
    height = _FLOOR + 110 + 40 * (len(zones) + len(grab))
    title = "What your hand will feel"
    drawing = Drawing(f"{sheet.id}-feel", title, _said(zones, grab), height)
    _axes(drawing, scale, curve)
    _zones(drawing, scale, zones)
    for line, words in enumerate(grab, len(zones)):
        drawing.text(10, _FLOOR + 90 + 40 * line, words)
    drawing.path([(scale.x(swing), scale.y(pull)) for swing, pull in curve.points])
    return drawing.svg()


def _said(zones: list[FeelZone], grab: tuple[str, ...]) -> str:
    parts = (f"{number}, {_told(zone)}" for number, zone in enumerate(zones, 1))
    rises = "The pull rises as the drill goes in and falls as it comes through."
    return " ".join((f"{rises} {'; '.join(parts)}.", *grab))


def _axes(drawing: Drawing, scale: _Scale, curve: FeelCurve) -> None:
    drawing.line(_LEFT, _TOP, _LEFT, _FLOOR, width=3)
    drawing.line(_LEFT, _FLOOR, _RIGHT, _FLOOR, width=3)
    drawing.text(10, 34, curve.upward)
    step = _round_step(scale.most_pull)
    value = step
    while value < scale.most_pull:
        y = scale.y(value)
        drawing.line(_LEFT - 8, y, _LEFT, y)
        drawing.text(_LEFT - 14, y + LETTER / 3, f"{value:g}", anchor="end")
        value += step
    drawing.text(_LEFT, _FLOOR + 42, "0")
    digits = 2 if curve.along.startswith("in ") else 0
    end = f"{scale.most_swing:.{digits}f} {curve.along}"
    drawing.text(_RIGHT, _FLOOR + 42, end, anchor="end")


def _round_step(most: float) -> float:
    """A step of 1, 2 or 5 times a power of ten that gives two to five marks."""
    power = 10.0 ** len(str(int(most))) / 10
    steps = (power / 5, power / 2, power, power * 2)
    return next(step for step in steps if most / step < 5)


def _zones(drawing: Drawing, scale: _Scale, zones: list[FeelZone]) -> None:
    """Each zone's number above its stretch, the grab hatched, and the words below."""
    taken = 0.0
    for number, zone in enumerate(zones, 1):
        left, right = scale.x(zone.start), scale.x(zone.end)
        grabs = zone.key == "breaking_through"
        if grabs:
            drawing.box(left, _TOP, right - left, _FLOOR - _TOP, line=0, fill="hatch")
        drawing.line(right, _TOP, right, _FLOOR, dash="5 7")
        middle = (left + right) / 2
        crowded = middle - _HALF_NUMBER < taken
        above = _TOP - 10 - (LETTER if crowded else 0)
        drawing.text(middle, above, f"{number}", anchor="middle", bold=True)
        taken = 0.0 if crowded else middle + _HALF_NUMBER
        drawing.text(10, _FLOOR + 90 + 40 * (number - 1), f"{number}  {_told(zone)}", bold=grabs)


def _told(zone: FeelZone) -> str:
    return f"far wall: {_FAR_WORDS[zone.key]}" if zone.wall == 2 else WORDS[zone.key]
