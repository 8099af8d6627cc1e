"""Friction between work and jaw by published tables, and what may be counted of it.

The tables are for steel in the jaws of a chuck or clamping head; none was found for vices. A
second maker's table, for clamping heads, is the check: its smooth rows lie at or below the first's.
"""

import math
from collections.abc import Mapping
from types import MappingProxyType

from .domain import positive, within

JAW_FRICTION: Mapping[tuple[str, str], float] = MappingProxyType(
    {
        # Work, jaw (source jaw-table, read). Columns of the stored page are named by its heading.
        ("ground", "smooth"): 0.07,
        ("ground", "diamond serrated"): 0.12,
        ("ground", "serrated"): 0.20,
        ("machined", "smooth"): 0.10,
        ("machined", "diamond serrated"): 0.20,
        ("machined", "serrated"): 0.35,
        ("unmachined", "smooth"): 0.15,
        ("unmachined", "diamond serrated"): 0.30,
        ("unmachined", "serrated"): 0.45,
    }
)
"""Friction of steel along the circumference, by the work's surface and the jaw's."""

SECOND_JAW_FRICTION: Mapping[str, float] = MappingProxyType(
    {"ground": 0.06, "machined": 0.10, "unmachined": 0.14}
)
"""The same in smooth jaws by a second maker (source jaw-table-second, read)."""

METAL_FACTOR: Mapping[str, float] = MappingProxyType(
    # A second maker has 0.97, 0.92 and 0.8; the lower is taken (source jaw-table, read).
    {"steel": 1.0, "aluminium alloy": 0.95, "brass": 0.9, "grey cast iron": 0.8}
)
"""Friction of a metal over that of steel in the same jaws."""

WET_FACTOR: Mapping[str, float] = MappingProxyType(
    # Contact factors wet over dry: 1.3 / 1.1 smooth, 1.2 / 1.0 serrated (source jaw-wet, read).
    {"smooth": 1.3 / 1.1, "diamond serrated": 1.2, "serrated": 1.2}
)
"""How much more clamp force wet work wants: 18 % in smooth jaws."""

MOST_FRICTION: Mapping[str, float] = MappingProxyType(
    {"smooth": 0.3, "diamond serrated": 0.6, "serrated": 0.9}
)
"""Above it a friction in such jaws is refused, whatever the source. Our own judgement: twice the
largest published value."""

_STEP = 1000
"""What is counted is rounded down to a thousandth, the safe way. Our own judgement."""


def table_friction(work: str, jaws: str, metal: str) -> float:
    """Look up the friction between work and jaw.

    Args:
        work: [text] surface of the work: ground, machined or unmachined
        jaws: [text] surface of the jaw: smooth, diamond serrated or serrated
        metal: [text] metal of the work, a key of METAL_FACTOR

    Returns:
        [-] coefficient of friction mu, dry

    Valid: the rows of JAW_FRICTION and METAL_FACTOR

    >>> table_friction("machined", "smooth", "grey cast iron")
    0.08

    Source: a chuck maker's works standard, Table 4 and its factors [jaw-table, read]
    """
    if (work, jaws) not in JAW_FRICTION:
        raise ValueError(f"work and jaws are {work!r} and {jaws!r}; no table has them")
    if metal not in METAL_FACTOR:
        raise ValueError(f"metal is {metal!r}; it must be one of {', '.join(METAL_FACTOR)}")
    return JAW_FRICTION[work, jaws] * METAL_FACTOR[metal]


def counted_friction(dry: float, wet_factor: float) -> float:
    """Find the friction that may be counted on where fluid reaches the jaws.

    Equation: mu = mu0 / w, down to a thousandth

    Args:
        dry: [-] coefficient of friction mu0, dry
        wet_factor: [-] clamp force wanted wet over dry, w; 1 for dry work

    Returns:
        [-] coefficient of friction mu to reckon with

    Valid: friction above 0 and up to 1; factor from 1 to 2

    >>> counted_friction(0.15, WET_FACTOR["smooth"])
    0.126

    Source: a clamping-head maker's contact factors, wet over dry [jaw-wet, read]
    """
    within("dry", positive("dry", dry), 0.0, 1.0)
    share = dry / within("wet_factor", wet_factor, 1.0, 2.0)
    # 0.15 / 1 must not fall to 0.149 on the last bit.
    return math.floor(round(share * _STEP, 6)) / _STEP


def pull_up_n(torque_nm: float, diameter_mm: float, helix_deg: float) -> float:
    """Find the most that a drill can lift the work when it screws itself in.

    There is no friction in the flute here, so all the work of the torque goes into lifting.

    Args:
        torque_nm: [N.m] torque M of the cut
        diameter_mm: [mm] diameter D of the drill
        helix_deg: [deg] helix angle of its flutes, from the axis

    Returns:
        [N] pull F up the drill; real ones are lower, and no publication gives one

    Valid: both above 0; helix from 10 to 45

    >>> pull_up_n(7.85, 8.0, 30.0)
    1133.1

    Source: statics of a screw [statics, geometry]
    """
    slope = math.tan(math.radians(within("helix_deg", helix_deg, 10.0, 45.0)))
    # Torque comes in N.m and diameters are measured in mm; half the diameter is the arm.
    return 2000.0 * positive("torque_nm", torque_nm) * slope / positive("diameter_mm", diameter_mm)


STANDARD_HELIX_DEG = 30.0
"""Helix of a standard twist drill. Our own judgement: makers' standard drills lie about there."""


RUBBING_SHARE = 0.4
"""Share of pull_up_n that is left where the chips rub in the flute with a friction of 0.3, by
statics: tan(30 - 16.7) / tan(30) = 0.41. The friction is our own judgement, a high one."""


def held_down_n(clamp_force_n: float, friction: float) -> float:
    """Find what two jaws hold down by friction.

    Args:
        clamp_force_n: [N] force F0 pressing the jaws together
        friction: [-] coefficient of friction mu to reckon with

    Returns:
        [N] pull F up that is just held

    Valid: force above 0; friction above 0 and up to 1. Both jaws grip, so two faces are counted

    >>> held_down_n(6000.0, 0.1)
    1200.0

    Source: statics, dry friction [statics, geometry]
    """
    return (
        2
        * within("friction", positive("friction", friction), 0.0, 1.0)
        * positive("clamp_force_n", clamp_force_n)
    )
