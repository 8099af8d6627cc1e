"""Drilling thrust, torque and power, metric, by the handbook's equations 4 to 7.

The way through: factors (drill_factors.py), then thrust and torque, then power at the cutter,
then power at the motor. Tests hold them against the same equations in inches and against a second
published model.
"""

from dataclasses import dataclass

from .domain import positive, within
from .drill_factors import (
    chisel_factors,
    feed_factor,
    thrust_diameter_factor,
    torque_diameter_factor,
)
from .drilling_limits import KD_RANGE, WEAR_RANGE

# Coefficients as printed on p. 1152 (read), for Kd in the handbook's own scale. They are rounded:
# against the inch equations the lips' thrust and the torque come out 0.6 % low, the chisel edge's
# thrust 1.5 % high.
LIPS_COEFFICIENT = 0.05
CHISEL_COEFFICIENT = 0.007
TORQUE_DIVISOR = 40000.0
POWER_DIVISOR = 9550.0
"""N.m times rpm to kW: 60000 / (2 pi) is 9549.3, printed rounded."""


@dataclass(frozen=True)
class ThrustSplit:
    """Drilling thrust in its two parts, in newtons."""

    lips_n: float
    """Thrust of the two cutting lips."""
    chisel_n: float
    """Thrust of the chisel edge; a pilot hole takes it away."""


def thrust_split_n(
    diameter_mm: float, feed_mm_rev: float, *, kd: float, chisel_ratio: float, wear: float
) -> ThrustSplit:
    """Find the thrust of the lips and of the chisel edge, each by itself.

    Equation: lips = 0.05 Kd Ff FT B W; chisel = 0.007 Kd D^2 J W

    Args:
        diameter_mm: [mm] diameter D of the drill
        feed_mm_rev: [mm/rev] advance a turn, giving Ff
        kd: [-] work material factor Kd for thrust, in the handbook's scale
        chisel_ratio: [-] chisel edge over diameter, giving B and J
        wear: [-] wear factor W: 1.0 sharp, 1.3 normal, 1.5 very dull or hard material

    Returns:
        lips_n: [N] thrust of the two lips
        chisel_n: [N] thrust of the chisel edge

    Valid: 1.6 to 76.2 mm; 0.01 to 1.27 mm/rev; Kd 4000 to 70000; ratio 0.03 to 0.40; W 1 to 2

    >>> thrust_split_n(10.0, 0.2, kd=24000, chisel_ratio=0.18, wear=1.0)
    ThrustSplit(lips_n=2831.0, chisel_n=504.0)

    Source: Machinery's Handbook 31st ed., p. 1152, equation 4 [mh31-drilling, read]
    """
    load = within("kd", kd, *KD_RANGE) * within("wear", wear, *WEAR_RANGE)
    chisel = chisel_factors(chisel_ratio)
    cut = feed_factor(feed_mm_rev) * thrust_diameter_factor(diameter_mm)
    lips_n = LIPS_COEFFICIENT * load * cut * chisel.thrust_b
    chisel_n = CHISEL_COEFFICIENT * load * diameter_mm**2 * chisel.thrust_j
    return ThrustSplit(lips_n, chisel_n)


def thrust_n(
    diameter_mm: float, feed_mm_rev: float, *, kd: float, chisel_ratio: float, wear: float
) -> float:
    """Find the thrust along the drill's axis in solid metal.

    Equation: T = 0.05 Kd Ff FT B W + 0.007 Kd D^2 J W

    Args:
        diameter_mm: [mm] diameter D of the drill
        feed_mm_rev: [mm/rev] advance a turn, giving Ff
        kd: [-] work material factor Kd for thrust, in the handbook's scale
        chisel_ratio: [-] chisel edge over diameter, giving B and J
        wear: [-] wear factor W: 1.0 sharp, 1.3 normal, 1.5 very dull or hard material

    Returns:
        [N] thrust T

    Valid: 1.6 to 76.2 mm; 0.01 to 1.27 mm/rev; Kd 4000 to 70000; ratio 0.03 to 0.40; W 1 to 2

    >>> thrust_n(10.0, 0.2, kd=24000, chisel_ratio=0.18, wear=1.0)
    3335.0

    Source: Machinery's Handbook 31st ed., p. 1152, equation 4 [mh31-drilling, read]
    """
    parts = thrust_split_n(diameter_mm, feed_mm_rev, kd=kd, chisel_ratio=chisel_ratio, wear=wear)
    return parts.lips_n + parts.chisel_n


def torque_nm(
    diameter_mm: float, feed_mm_rev: float, *, kd: float, chisel_ratio: float, wear: float
) -> float:
    """Find the torque a drill puts on the work and on the spindle.

    Equation: M = Kd Ff FM A W / 40000

    Args:
        diameter_mm: [mm] diameter of the drill, giving FM
        feed_mm_rev: [mm/rev] advance a turn, giving Ff
        kd: [-] work material factor Kd for torque, in the handbook's scale
        chisel_ratio: [-] chisel edge over diameter, giving A
        wear: [-] wear factor W: 1.0 sharp, 1.3 normal, 1.5 very dull or hard material

    Returns:
        [N.m] torque M; good to about a third: a second published model is up to 34 % lower

    Valid: 1.6 to 76.2 mm; 0.01 to 1.27 mm/rev; Kd 4000 to 70000; ratio 0.03 to 0.40; W 1 to 2;
        steady cutting, so the grab at break-through is not in it

    >>> torque_nm(10.0, 0.2, kd=24000, chisel_ratio=0.18, wear=1.0)
    11.34

    Source: Machinery's Handbook 31st ed., p. 1152, equation 5 [mh31-drilling, read]
    """
    load = within("kd", kd, *KD_RANGE) * within("wear", wear, *WEAR_RANGE)
    cut = feed_factor(feed_mm_rev) * torque_diameter_factor(diameter_mm)
    return load * cut * chisel_factors(chisel_ratio).torque_a / TORQUE_DIVISOR


def cutter_power_kw(torque_nm: float, spindle_speed_rpm: float) -> float:
    """Find the power used at the drill.

    Args:
        torque_nm: [N.m] torque M
        spindle_speed_rpm: [rpm] spindle speed n

    Returns:
        [kW] power Pc at the cutter

    Valid: both above 0

    >>> cutter_power_kw(11.34, 700.0)
    0.831

    Source: Machinery's Handbook 31st ed., p. 1152, equation 6 [mh31-drilling, read]
    """
    torque = positive("torque_nm", torque_nm)
    return torque * positive("spindle_speed_rpm", spindle_speed_rpm) / POWER_DIVISOR


def motor_power_kw(cutter_power_kw: float, efficiency: float) -> float:
    """Find the power asked of the motor.

    Args:
        cutter_power_kw: [kW] power Pc at the cutter
        efficiency: [-] share E of the motor's power that reaches the cutter

    Returns:
        [kW] power Pm at the motor

    Valid: power above 0; efficiency above 0 and up to 1

    >>> motor_power_kw(0.831, 0.8)
    1.04

    Source: Machinery's Handbook 31st ed., p. 1152, equation 7 [mh31-drilling, read]
    """
    share = within("efficiency", positive("efficiency", efficiency), 0.0, 1.0)
    return positive("cutter_power_kw", cutter_power_kw) / share
