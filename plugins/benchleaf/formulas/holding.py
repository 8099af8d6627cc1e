"""What keeps the work from turning with the drill: friction, a stop, and the ratio to torque.

Never a figure for holding by hand: there is none.
"""

from .domain import positive, whole, within

MM_PER_M = 1000.0
"""Millimetres in a metre, by definition: arms are in mm, torques in N.m."""

MAX_FRICTION = 1.0
"""Largest coefficient of dry friction believed. Our own judgement: clean metal on metal is far
below it, and a larger entry is more likely a slip of the pen than a better grip."""

MAX_FACES = 2
"""A clamping force presses two faces of the work at most: where it is applied, and where it is
borne (statics). Several clamps are several torques, added."""

MOST_FORCE_N = 200_000.0
"""Largest force believed of a clamp or stop. Our own judgement: strong machine vices press with a
quarter of it; a larger entry is in another unit."""

MOST_ARM_MM = 2000.0
"""Longest arm believed. Our own judgement: no work on a drilling table is held further out."""

DEFAULT_MARGIN = 2.0
"""Holding capacity wanted as a multiple of the drilling torque. Our own judgement, no
publication gives a number. The reason: two published torque models differ by about a third,
which alone asks for 1.34; the rest is for friction that oil or chips have lowered. The grab at
break-through is compared by itself (break_through.py)."""


def friction_torque_nm(clamp_force_n: float, friction: float, arm_mm: float, faces: int) -> float:
    """Find the torque that one clamping force can resist by dry friction.

    Equation: M = k mu F r / 1000

    Args:
        clamp_force_n: [N] force F pressing the faces together
        friction: [-] coefficient of friction mu between work and clamp, jaw or table
        arm_mm: [mm] distance r from the drill's axis, square to the line of the friction force
        faces: [-] faces k of the work that this force presses and that cannot turn with it

    Returns:
        [N.m] torque M just held, at the point of slipping

    Valid: force up to 200 kN, arm up to 2 m; friction above 0 and up to 1; faces 1 or 2. The
        drill's thrust is left out, as it is gone at break-through

    >>> friction_torque_nm(4000.0, 0.15, 50.0, 2)
    60.0

    Source: statics [statics, geometry]
    """
    whole("faces", faces, 1, MAX_FACES)
    within("friction", positive("friction", friction), 0.0, MAX_FRICTION)
    force_n = faces * friction * _believed("clamp_force_n", clamp_force_n, MOST_FORCE_N)
    # Torque is wanted in N.m and arms are measured in mm.
    return force_n * _believed("arm_mm", arm_mm, MOST_ARM_MM) / MM_PER_M


def _believed(name: str, value: float, most: float) -> float:
    return within(name, positive(name, value), 0.0, most)


def stop_torque_nm(stop_force_n: float, arm_mm: float) -> float:
    """Find the torque that a stop can resist.

    Args:
        stop_force_n: [N] largest force F the stop takes without moving
        arm_mm: [mm] distance a from the drill's axis, square to the line of that force

    Returns:
        [N.m] torque M held

    Valid: force up to 200 kN, arm up to 2 m; the stop lies on the side the work would turn toward

    >>> stop_torque_nm(500.0, 120.0)
    60.0

    Source: statics [statics, geometry]
    """
    # Torque is wanted in N.m and arms are measured in mm.
    arm_m = _believed("arm_mm", arm_mm, MOST_ARM_MM) / MM_PER_M
    return _believed("stop_force_n", stop_force_n, MOST_FORCE_N) * arm_m


def holding_ratio(capacity_nm: float, torque_nm: float) -> float:
    """Find how many times over the work is held; compare it with DEFAULT_MARGIN.

    Args:
        capacity_nm: [N.m] sum of what clamps and stops resist
        torque_nm: [N.m] drilling torque, wear included

    Returns:
        [-] ratio; below 1 the work turns

    Valid: both above 0; with no clamp or stop at all there is no ratio, and no safe way to run

    >>> holding_ratio(60.0, 11.34)
    5.29

    Source: statics [statics, geometry]; the margin [margin, our own judgement]
    """
    return positive("capacity_nm", capacity_nm) / positive("torque_nm", torque_nm)
