"""What the hand will feel: pull at the lever against its swing, with the zones in plain words."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from benchleaf.compute import SetUpSheet
from benchleaf.formulas.feel import FeelProfile, Zone, lever_swing_deg
from benchleaf.formulas.lever import lever_force_n, travel_per_turn_mm
from benchleaf.model import FeedLever

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

_LEFT, _RIGHT, _TOP, _FLOOR = 96.0, WIDTH - 14.0, 92.0, 360.0


@dataclass(frozen=True, slots=True)
class _Scale:
    """Travel and thrust to what the hand knows, and to units of the drawing."""

    swing_a_mm: float
    pull_a_newton: float
    along: str
    """Unit along the bottom."""
    most_swing: float
    most_pull: float

    def x(self, travel_mm: float) -> float:
        return _LEFT + travel_mm * self.swing_a_mm / self.most_swing * (_RIGHT - _LEFT)

    def y(self, thrust_n: float) -> float:
        return _FLOOR - thrust_n * self.pull_a_newton / self.most_pull * (_FLOOR - _TOP)


def feel_figure(sheet: SetUpSheet, lever: FeedLever | None) -> Markup | None:
    """The chart, or None where no profile is computed (blind holes, factors missing)."""
    profile = sheet.feel
    if profile is None:
        return None
    zones = [zone for zone in profile.zones if zone.end_mm > zone.start_mm and zone.key != "clear"]
    scale = _scale(profile, lever)
    drawing = Drawing(
        f"{sheet.id}-feel", "What your hand will feel", _said(zones), _FLOOR + 110 + 40 * len(zones)
    )
    _axes(drawing, scale, lever is not None)
    _zones(drawing, scale, zones)
    curve = [(scale.x(point.travel_mm), scale.y(point.thrust_n)) for point in profile.points]
    drawing.path(curve)
    return drawing.svg()


def _scale(profile: FeelProfile, lever: FeedLever | None) -> _Scale:
    travel = max(point.travel_mm for point in profile.points)
    thrust = max(point.thrust_n for point in profile.points)
    swing, pull, along = 1.0, 1.0, "mm of travel"
    if lever is not None:
        swing = lever_swing_deg(1.0, travel_per_turn_mm(lever.pinion_radius.value))
        pull = lever_force_n(1.0, lever.pinion_radius.value, lever.radius.value, lever.efficiency)
        along = "degrees of lever"
    return _Scale(swing, pull, along, travel * swing, thrust * pull * 1.08)


def _said(zones: list[Zone]) -> str:
    parts = (f"{number}, {WORDS[zone.key]}" for number, zone in enumerate(zones, 1))
    return f"The pull rises as the drill goes in and falls as it comes through. {'; '.join(parts)}."


def _axes(drawing: Drawing, scale: _Scale, has_lever: bool) -> None:
    drawing.line(_LEFT, _TOP, _LEFT, _FLOOR, width=3)
    drawing.line(_LEFT, _FLOOR, _RIGHT, _FLOOR, width=3)
    what = "pull at the lever, N" if has_lever else "thrust, N"
    drawing.text(10, 34, what)
    step = _round_step(scale.most_pull)
    value = step
    while value < scale.most_pull:
        y = scale.y(value / scale.pull_a_newton)
        drawing.line(_LEFT - 8, y, _LEFT, y)
        drawing.text(_LEFT - 14, y + LETTER / 3, f"{value:g}", anchor="end")
        value += step
    drawing.text(_LEFT, _FLOOR + 42, "0")
    end = f"{scale.most_swing:.0f} {scale.along}"
    drawing.text(_RIGHT, _FLOOR + 42, end, anchor="end")


def _round_step(most: float) -> float:
    """A step of 1, 2 or 5 times a power of ten that gives two to five marks."""
    power = 10.0 ** len(str(int(most))) / 10
    steps = (power / 5, power / 2, power, power * 2)
    return next(step for step in steps if most / step < 5)


def _zones(drawing: Drawing, scale: _Scale, zones: list[Zone]) -> None:
    """Each zone's number in its stretch, the grab hatched, and the words below."""
    for number, zone in enumerate(zones, 1):
        left, right = scale.x(zone.start_mm), scale.x(zone.end_mm)
        if zone.key == "breaking_through":
            drawing.box(left, _TOP, right - left, _FLOOR - _TOP, line=0, fill="hatch")
        drawing.line(right, _TOP, right, _FLOOR, dash="5 7")
        if right - left > LETTER * 0.7:
            drawing.text((left + right) / 2, _TOP - 10, f"{number}", anchor="middle", bold=True)
        words = f"{number}  {WORDS[zone.key]}"
        if zone.wall == 2:
            words += " (far wall)"
        drawing.text(
            10, _FLOOR + 90 + 40 * (number - 1), words, bold=zone.key == "breaking_through"
        )
