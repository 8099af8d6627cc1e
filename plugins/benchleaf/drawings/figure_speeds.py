"""The machine's spindle speeds as steps, the safe band for this tool and material, the chosen."""

from __future__ import annotations

from math import log

from markupsafe import Markup

from benchleaf.compute import SetUpSheet, SpeedStep

from .drawing import WIDTH, Drawing, text_width

_TOP, _FLOOR = 70.0, 380.0
_LOWEST, _HIGHEST = 60.0, _FLOOR - _TOP
"""Height of the slowest and the fastest step, in units."""


def speed_figure(sheet: SetUpSheet) -> Markup | None:
    """Steps on a scale of ratios; None where the machine's speeds are not known."""
    if not sheet.speed_steps:
        return None
    chosen = next((step.rpm for step in sheet.speed_steps if step.chosen), None)
    inside = [f"{step.rpm:.0f}" for step in sheet.speed_steps if step.inside]
    said = f"Inside the range: {', '.join(inside) or 'none'}. "
    said += f"Set {chosen:.0f} rpm." if chosen else "None may be set."
    drawing = Drawing(f"{sheet.id}-speeds", "Spindle speeds of this machine", said, _FLOOR + 60)
    _steps(drawing, sheet.speed_steps)
    return drawing.svg()


def _steps(drawing: Drawing, steps: tuple[SpeedStep, ...]) -> None:
    pitch = (WIDTH - 20) / len(steps)
    for number, step in enumerate(steps):
        left, height = 10 + number * pitch, _height(step.rpm, steps)
        fill = "solid" if step.chosen else "hatch" if step.inside else "none"
        drawing.box(left + 3, _FLOOR - height, pitch - 6, height, line=3, fill=fill)
        if step.chosen:
            words = f"set {step.rpm:.0f} rpm"
            drawing.text(10, 46, words, bold=True)
            begin = min(text_width(words) + 40, left + pitch / 2)
            drawing.line(begin, 38, left + pitch / 2, 38)
            drawing.line(left + pitch / 2, 38, left + pitch / 2, _FLOOR - height)
    drawing.text(10, _FLOOR + 42, f"{steps[0].rpm:.0f} rpm")
    drawing.text(WIDTH - 10, _FLOOR + 42, f"{steps[-1].rpm:.0f} rpm", anchor="end")
    if any(step.inside and not step.chosen for step in steps):
        drawing.text(WIDTH / 2, _FLOOR + 42, "hatched: also in range", anchor="middle")


def _height(rpm: float, steps: tuple[SpeedStep, ...]) -> float:
    low, high = steps[0].rpm, steps[-1].rpm
    share = log(rpm / low) / log(high / low) if high > low else 1.0
    return _LOWEST + share * (_HIGHEST - _LOWEST)
