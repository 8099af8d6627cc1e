"""The down-feed lever: what the hand must pull, and how far it swings.

No published worked example of a drilling machine's lever was found; these are statics, and tests
hold them by invariants.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from .domain import positive, within

NEWTONS_PER_KGF = 9.80665
"""Exact, by the definition of standard gravity (CGPM 1901)."""

STANDING_LIMIT_N = 110.0
"""Push or pull of arm and shoulder, standing, arms stretched out, that a design should not pass
(source kodak-forces, second-hand): of the postures printed the nearest to a feed lever. The same
table has 130 N for a lever in front of a seat. No source gives a comfortable pull."""

ONE_HAND_MOST_N = 22 * NEWTONS_PER_KGF
"""Upper end of the published greatest force on a lever, push or pull, one hand in front of the
body: 22 kgf (ILO Encyclopaedia text on levers, read). Its lower end is 12 kgf."""

Direction = Literal["down", "towards"]


@dataclass(frozen=True)
class BestEffort:
    """The greatest force of one arm, once, over women: a normal spread."""

    mean_n: float
    spread_n: float
    """Standard deviation."""


BEST_EFFORT: Mapping[Direction, BestEffort] = MappingProxyType(
    {
        # The program gives mean, three quarters and 95 of 100: 106, 88 and 61 N pressing down,
        # 162, 133 and 91 N pulling towards the body. The spreads below give each to 1 N.
        "down": BestEffort(106.0, 27.2),
        "towards": BestEffort(162.0, 43.1),
    }
)
"""Women of median height and mass, standing, hand at elbow height 0.4 m in front of the shoulder,
by arm alone (source arm-force). How men spread was not found; they reach more."""


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


def share_who_reach(pull_n: float, direction: Direction) -> float:
    """Find the share of women whose arm alone reaches a pull, once, with all they have.

    Equation: share = 1 - Phi((F - mean) / spread), with Phi of the normal distribution

    Args:
        pull_n: [N] pull F at the lever's knob
        direction: [text] down, or towards the body

    Returns:
        [-] share, from 0 to 1

    Valid: above 0; standing, hand at elbow height. A best effort, once: over a shift far less is
        left. The weight of a body that leans is not in it, and must not be

    >>> share_who_reach(112.0, "down"), share_who_reach(112.0, "towards")
    (0.41, 0.88)

    Source: the authors' program, run with that posture [arm-force, second-hand]
    """
    best = BEST_EFFORT[direction]
    above = (positive("pull_n", pull_n) - best.mean_n) / best.spread_n
    return math.erfc(above / math.sqrt(2)) / 2


def told_share(share: float) -> str:
    """Tell a share as people count: in tens, no finer than the figure is good.

    Equation: none; ten times the share, to the nearest whole

    Args:
        share: [-] share, from 0 to 1

    Returns:
        [text] such as about 4 of 10

    Valid: 0 to 1

    >>> told_share(0.41), told_share(0.97), told_share(0.02)
    ('about 4 of 10', 'nearly all', 'hardly any')

    Source: decimal arithmetic [number-rules, geometry]
    """
    tenths = round(10 * within("share", share, 0.0, 1.0))
    if tenths in {0, 10}:
        return "nearly all" if tenths else "hardly any"
    return f"about {tenths} of 10"


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
