"""Reaming: the hole to leave for the reamer, and the limits the reamed hole must meet.

Speed and feed are in speed_ratios.py, fits in fits.py. An old trade text's allowance (a hundredth
to a sixty-fourth of an inch, never over a thirty-second) is the independent check; the formula's
own source prints no worked result.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from .domain import positive, within
from .fits import FitLimits, limits

DRILL_OVERSIZE_MM = 0.05
"""How much larger than itself a drill is taken to cut, at every diameter (source iti-reaming,
read). Less than drills often cut: try on scrap where the hole matters."""

LIGHT_METAL_FACTOR = 1.5
"""Allowance in light metals over that in steel (source iti-reaming, read)."""


@dataclass(frozen=True)
class AllowanceRange:
    """Metal left for the reamer, on the diameter."""

    low_mm: float
    high_mm: float


@dataclass(frozen=True)
class DrillRange:
    """Drills that leave a fair allowance, from the smallest to the largest."""

    smallest_mm: float
    largest_mm: float


REAMING_ALLOWANCE: Mapping[float, AllowanceRange] = MappingProxyType(
    {
        # Up to this reamer diameter in mm (source iti-reaming, read); a second source has the
        # same to 20 mm, for steel (source gtz-reaming, read). The note prints 21 to 50; the gap
        # from 20 to 21 is given to that row, our own judgement.
        5.0: AllowanceRange(0.1, 0.2),
        20.0: AllowanceRange(0.2, 0.3),
        50.0: AllowanceRange(0.3, 0.5),
        100.0: AllowanceRange(0.5, 1.0),
    }
)
"""Allowance by reamer diameter. The last row is printed as over 50; that it ends at 100 is our own
judgement, the size where a bore is no longer reamed on a drilling machine."""

REAMER_RANGE_MM = (1.0, 100.0)
"""Reamers accepted. The lower end is our own judgement: below it the allowance is too much."""


def hole_before_reaming_mm(reamer_mm: float, *, light_metal: bool = False) -> DrillRange:
    """Find the drills that leave the reamer its allowance.

    Equation: drill = D - (a + 0.05), for both ends of a; a is half as much again in light metal

    Args:
        reamer_mm: [mm] diameter D of the reamer
        light_metal: [-] True in aluminium and magnesium alloys

    Returns:
        smallest_mm: [mm] drill that leaves the most
        largest_mm: [mm] drill that leaves the least

    Valid: reamer from 1 to 100; machine or hand reaming with a drilled hole

    >>> hole_before_reaming_mm(10.0)
    DrillRange(smallest_mm=9.65, largest_mm=9.75)

    Source: IBE/GTZ course [gtz-reaming, read] and, above 20 mm and for the oversize, a trade note
        [iti-reaming, read]; about the same in Carvill [carvill-179, read]
    """
    diameter_mm = within("reamer_mm", positive("reamer_mm", reamer_mm), *REAMER_RANGE_MM)
    factor = LIGHT_METAL_FACTOR if light_metal else 1.0
    row = next(each for top, each in REAMING_ALLOWANCE.items() if diameter_mm <= top)
    # The drill cuts oversize, so that much of the allowance is gone before the reamer enters.
    smallest_mm = diameter_mm - (factor * row.high_mm + DRILL_OVERSIZE_MM)
    return DrillRange(smallest_mm, diameter_mm - (factor * row.low_mm + DRILL_OVERSIZE_MM))


def reamed_hole_limits(tolerance_class: str, size_mm: float) -> FitLimits:
    """Find the limits a reamed hole must meet, from its tolerance class.

    Equation: none, a look-up; see fits.limits

    Args:
        tolerance_class: [text] class of the hole, such as H7
        size_mm: [mm] nominal size

    Returns:
        low_mm: [mm] smallest hole
        high_mm: [mm] largest hole
        lower_um: [um] lower deviation
        upper_um: [um] upper deviation

    Valid: the hole classes of fits.limits; size above 0, up to 500

    >>> reamed_hole_limits("H7", 10.0).high_mm
    10.015

    Source: Machine Drawing, Tables 15.1 and 15.3 [narayana-15, read]
    """
    if not tolerance_class[:1].isupper():
        raise ValueError(f"tolerance_class is {tolerance_class!r}; a hole's starts with a capital")
    return limits(tolerance_class, size_mm)
