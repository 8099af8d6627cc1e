"""The down-feed lever: what the hand must pull, and how far it swings.

No published worked example of a drilling machine's lever was found; these are statics, and tests
hold them by invariants.
"""

import math

from .domain import positive, within

NEWTONS_PER_KGF = 9.80665
"""Exact, by the definition of standard gravity (CGPM 1901)."""

ONE_HAND_EASY_N = 12 * NEWTONS_PER_KGF
"""Lower end of the published greatest force on a lever, push or pull, one hand in front of the
body: 12 kgf (ILO Encyclopaedia text on levers, read)."""

ONE_HAND_MOST_N = 22 * NEWTONS_PER_KGF
"""Upper end of the same: 22 kgf (ILO Encyclopaedia text on levers, read)."""


def lever_force_n(
    thrust_n: float, pinion_radius_mm: float, lever_radius_mm: float, efficiency: float
) -> float:
    """Find the force at the lever's knob that gives a thrust at the drill.

    Args:
        thrust_n: [N] thrust T along the drill
        pinion_radius_mm: [mm] pitch radius rp of the pinion on the quill's rack
        lever_radius_mm: [mm] radius L from the pinion's axis to the knob
        efficiency: [-] share eta of the hand's work that reaches the quill

    Returns:
        [N] force F, square to the lever

    Valid: all above 0; efficiency not above 1; the return spring's pull is not in it

    >>> lever_force_n(3336.0, 20.0, 300.0, 0.9)
    247.1

    Source: statics [statics, geometry]
    """
    share = within("efficiency", positive("efficiency", efficiency), 0, 1)
    arm = positive("lever_radius_mm", lever_radius_mm) * share
    return positive("thrust_n", thrust_n) * positive("pinion_radius_mm", pinion_radius_mm) / arm


def travel_per_turn_mm(pinion_radius_mm: float) -> float:
    """Find the quill's travel for one whole turn of the lever.

    Args:
        pinion_radius_mm: [mm] pitch radius rp of the pinion

    Returns:
        [mm] travel h

    Valid: radius above 0

    >>> travel_per_turn_mm(13.0)
    81.7

    Source: geometry [geometry, geometry]
    """
    return 2 * math.pi * positive("pinion_radius_mm", pinion_radius_mm)
