"""Limits and fits by ISO 286: limits of a hole or shaft, the fit of two, gauges, and position.

Values come from the tables, never from the formulas behind them (one public page that computes
them has 10 H7 as +14; the table has +15). Independent printed results: ten classes worked in a
drawing book and a mould maker's guide, one fit of an encyclopaedia, and makers' tables of holes
and shafts row by row.
"""

import math
import re
from dataclasses import dataclass
from typing import Literal

from .domain import finite, positive, within
from .fit_tables import (
    DELTA_UM,
    GRADES,
    HOLE_LOWER_UM,
    HOLE_UPPER_UM,
    IT_UM,
    SHAFT_LOWER_UM,
    SHAFT_UPPER_UM,
    STEPS_MM,
)

FitKind = Literal["clearance", "transition", "interference"]

UM_PER_MM = 1000.0
"""Micrometres in a millimetre, by definition."""

_CLASS = re.compile(r"(JS|js|[FGHKNPfghknp])(\d+)")


@dataclass(frozen=True)
class FitLimits:
    """Limits of size of one hole or shaft."""

    low_mm: float
    high_mm: float
    lower_um: float
    """Lower deviation: EI of a hole, ei of a shaft."""
    upper_um: float
    """Upper deviation: ES of a hole, es of a shaft."""


@dataclass(frozen=True)
class Fit:
    """How a hole and a shaft of one nominal size go together."""

    hole: FitLimits
    shaft: FitLimits
    min_clearance_um: float
    """Smallest hole on largest shaft; below 0 it is the largest interference."""
    max_clearance_um: float
    """Largest hole on smallest shaft; below 0 it is the smallest interference."""
    kind: FitKind


@dataclass(frozen=True)
class GaugeSizes:
    """Nominal sizes of a limit gauge: the part's limits. The gauge maker's tolerance and wear
    allowance are not in them."""

    go_mm: float
    not_go_mm: float


def limits(tolerance_class: str, size_mm: float) -> FitLimits:
    """Find the limits of a hole (capital letter) or shaft (small letter).

    Equation: one deviation and the tolerance IT by table, the other by their sum; low = size +
        lower / 1000, high = size + upper / 1000

    Args:
        tolerance_class: [text] such as H7 or g6
        size_mm: [mm] nominal size

    Returns:
        low_mm: [mm] smallest size
        high_mm: [mm] largest size
        lower_um: [um] lower deviation
        upper_um: [um] upper deviation

    Valid: F, G, H, JS, f, g, h, js grades 5 to 13; K, N 6 to 8; P 6 and 7; k 5 to 7; n, p 5 to 8;
        size above 0, up to 500. JS is not rounded to whole micrometres, as some lists do

    >>> limits("H7", 20.0)
    FitLimits(low_mm=20.0, high_mm=20.021, lower_um=0.0, upper_um=21.0)

    Source: Machine Drawing, Tables 15.1 to 15.3 [narayana-15, read]
    """
    letter, grade = _parsed(tolerance_class)
    within("size_mm", positive("size_mm", size_mm), 0.0, STEPS_MM[-1])
    step = next(at for at, top in enumerate(STEPS_MM) if size_mm <= top)
    lower_um, upper_um = _deviations_um(letter, grade, step)
    # Deviations are tabled in micrometres, sizes in millimetres.
    low_mm, high_mm = size_mm + lower_um / UM_PER_MM, size_mm + upper_um / UM_PER_MM
    return FitLimits(low_mm, high_mm, lower_um, upper_um)


def fit(designation: str, size_mm: float) -> Fit:
    """Find the least and greatest clearance of a hole and a shaft, and the kind of fit.

    Equation: min = EI - es; max = ES - ei; clearance where min >= 0, interference where max <= 0

    Args:
        designation: [text] hole and shaft, such as H7/g6
        size_mm: [mm] nominal size

    Returns:
        hole: [any] limits of the hole
        shaft: [any] limits of the shaft
        min_clearance_um: [um] least clearance; below 0 the greatest interference
        max_clearance_um: [um] greatest clearance; below 0 the least interference
        kind: [text] clearance, transition or interference

    Valid: the classes of limits; size above 0, up to 500

    >>> close = fit("H7/g6", 20.0)
    >>> close.min_clearance_um, close.max_clearance_um, close.kind
    (7.0, 41.0, 'clearance')

    Source: Machine Drawing, Tables 15.1 to 15.3 [narayana-15, read]; kinds of fit by geometry
        [geometry, geometry]
    """
    hole_class, slash, shaft_class = designation.replace(" ", "").partition("/")
    if not slash or not hole_class[:1].isupper() or not shaft_class[:1].islower():
        raise ValueError(f"designation is {designation!r}; it must be hole/shaft, such as H7/g6")
    hole, shaft = limits(hole_class, size_mm), limits(shaft_class, size_mm)
    least_um = hole.lower_um - shaft.upper_um
    greatest_um = hole.upper_um - shaft.lower_um
    return Fit(hole, shaft, least_um, greatest_um, _kind(least_um, greatest_um))


def gauge_sizes(tolerance_class: str, size_mm: float) -> GaugeSizes:
    """Find the nominal sizes of a go and not-go gauge: a plug for a hole, a gap for a shaft.

    Equation: hole: go = low limit, not go = high limit; shaft: the other way round

    Args:
        tolerance_class: [text] such as H7 or g6
        size_mm: [mm] nominal size of the part

    Returns:
        go_mm: [mm] size that must pass
        not_go_mm: [mm] size that must not

    Valid: as limits. The gauge maker's tolerance and the wear allowance are not in them

    >>> gauge_sizes("H7", 20.0)
    GaugeSizes(go_mm=20.0, not_go_mm=20.021)

    Source: geometry of limit gauging [geometry, geometry]
    """
    part = limits(tolerance_class, size_mm)
    if tolerance_class.strip()[:1].isupper():
        return GaugeSizes(part.low_mm, part.high_mm)
    return GaugeSizes(part.high_mm, part.low_mm)


def hole_position_radius_mm(x_error_mm: float, y_error_mm: float) -> float:
    """Find how far a hole's axis lies from where it should be.

    Equation: r = sqrt(x^2 + y^2)

    Args:
        x_error_mm: [mm] error x along one direction, of either sign
        y_error_mm: [mm] error y square to it, of either sign

    Returns:
        [mm] distance r

    Valid: any finite errors

    >>> hole_position_radius_mm(0.3, -0.4)
    0.5

    Source: plane geometry [geometry, geometry]
    """
    return math.hypot(finite("x_error_mm", x_error_mm), finite("y_error_mm", y_error_mm))


def positional_diameter_mm(x_error_mm: float, y_error_mm: float) -> float:
    """Find the diameter of positional tolerance a hole uses up.

    Args:
        x_error_mm: [mm] error x along one direction, of either sign
        y_error_mm: [mm] error y square to it, of either sign

    Returns:
        [mm] diameter d, to compare with the tolerance on the drawing, itself a diameter

    Valid: any finite errors

    >>> positional_diameter_mm(0.3, -0.4)
    1.0

    Source: plane geometry [geometry, geometry]
    """
    return 2 * hole_position_radius_mm(x_error_mm, y_error_mm)


def _parsed(tolerance_class: str) -> tuple[str, int]:
    found = _CLASS.fullmatch(tolerance_class.strip())
    if found and int(found[2]) in GRADES[found[1]]:
        return found[1], int(found[2])
    if found:
        grades = GRADES[found[1]]
        allowed = f"{found[1]}{grades[0]} to {found[1]}{grades[-1]}"
    else:
        allowed = f"one of {', '.join(GRADES)} with a grade, such as H7 or g6"
    raise ValueError(f"tolerance_class is {tolerance_class!r}; it must be {allowed}")


def _deviations_um(letter: str, grade: int, step: int) -> tuple[float, float]:
    """Lower and upper deviation."""
    width_um = float(IT_UM[grade][step])
    if letter.upper() == "JS":
        return -width_um / 2, width_um / 2
    for lowers in (HOLE_LOWER_UM, SHAFT_LOWER_UM):
        if letter in lowers:
            return float(lowers[letter][step]), lowers[letter][step] + width_um
    if letter in SHAFT_UPPER_UM:
        upper_um = float(SHAFT_UPPER_UM[letter][step])
    else:
        upper_um = float(HOLE_UPPER_UM[letter][step] + DELTA_UM[grade][step])
    return upper_um - width_um, upper_um


def _kind(least_um: float, greatest_um: float) -> FitKind:
    if least_um >= 0:
        return "clearance"
    return "interference" if greatest_um <= 0 else "transition"
