"""A pilot hole before a large drill: its size, and the thrust and torque that are left.

The chisel edge pushes more than it cuts. A pilot hole as wide as the chisel edge takes it out of
the work, and with it about half of the thrust.
"""

from bisect import bisect_right
from dataclasses import dataclass

from .domain import positive, within
from .drill_factors import CHISEL_RATIO_RANGE, LARGEST_PILOT_SHARE
from .enlarging import area_share
from .feel import EdgeLoads
from .rounding import to_step

# Origin: Machinery's Handbook, 31st ed., p. 1152, Table 7, read; printed as approximate.
# Columns: chisel edge over diameter, web thickness at the point over diameter.
_WEB_RATIOS = (
    (0.03, 0.025),
    (0.05, 0.045),
    (0.08, 0.070),
    (0.10, 0.085),
    (0.13, 0.110),
    (0.15, 0.130),
    (0.18, 0.155),
    (0.20, 0.175),
    (0.25, 0.220),
    (0.30, 0.260),
    (0.35, 0.300),
    (0.40, 0.350),
)

PILOT_FROM_MM = 12.7
"""Diameter above which a pilot hole is advised, half an inch (source pilot-practice, common
practice). Shops differ: some pilot from 10 mm, and a split point needs none for its thrust."""


@dataclass(frozen=True)
class PilotSize:
    """A pilot hole for one drill."""

    web_mm: float
    chisel_mm: float
    pilot_mm: float


def web_thickness_mm(diameter_mm: float, chisel_ratio: float) -> float:
    """Find the web thickness at a drill's point, by straight lines between the printed rows.

    Equation: w = (w / d) D, with w / d of Table 7

    Args:
        diameter_mm: [mm] diameter D of the drill
        chisel_ratio: [-] chisel edge over diameter

    Returns:
        [mm] web thickness w, approximate; measure the drill where it matters

    Valid: ratio 0.03 to 0.40; the web of a drill ground back is thicker

    >>> web_thickness_mm(20.0, 0.18)
    3.10

    Source: Machinery's Handbook 31st ed., p. 1152, Table 7 [mh31-table-7, read]
    """
    within("chisel_ratio", chisel_ratio, *CHISEL_RATIO_RANGE)
    after = bisect_right(_WEB_RATIOS, chisel_ratio, key=lambda row: row[0])
    ratio, web = _WEB_RATIOS[after - 1]
    if ratio != chisel_ratio:
        next_ratio, next_web = _WEB_RATIOS[after]
        web += (next_web - web) * (chisel_ratio - ratio) / (next_ratio - ratio)
    return positive("diameter_mm", diameter_mm) * web


def pilot_size(diameter_mm: float, chisel_ratio: float, step_mm: float) -> PilotSize:
    """Find the smallest pilot drill of a metric set that clears the chisel edge.

    Equation: pilot = c up to the next step, with c = (c / d) D, the chisel edge, which is longer
        than the web is thick

    Args:
        diameter_mm: [mm] diameter D of the drill that follows
        chisel_ratio: [-] chisel edge over diameter
        step_mm: [mm] step of the set, such as 0.1 or 0.5

    Returns:
        web_mm: [mm] web thickness, the trade's least pilot
        chisel_mm: [mm] chisel edge c, which must be cleared for the thrust to go
        pilot_mm: [mm] pilot drill, at least as wide as both

    Valid: ratio 0.03 to 0.40; a step small enough that the pilot is not above half the drill

    >>> pilot_size(20.0, 0.18, 0.5)
    PilotSize(web_mm=3.10, chisel_mm=3.60, pilot_mm=4.00)

    Source: Machinery's Handbook 31st ed., p. 1152, Table 7 [mh31-table-7, read]; the rule
        [pilot-practice, common practice]
    """
    web = web_thickness_mm(diameter_mm, chisel_ratio)
    chisel = diameter_mm * chisel_ratio
    pilot = to_step(max(web, chisel), step_mm, direction="up")
    if pilot > diameter_mm * LARGEST_PILOT_SHARE:
        raise ValueError(
            f"step_mm is {step_mm!r}; it must be small enough for a pilot from {chisel:g} to "
            f"{diameter_mm * LARGEST_PILOT_SHARE:g}"
        )
    return PilotSize(web, chisel, pilot)


def pilot_advised(diameter_mm: float) -> bool:
    """Say whether a pilot hole is advised before a drill.

    Equation: D above 12.7

    Args:
        diameter_mm: [mm] diameter D of the drill

    Returns:
        [-] True where it is

    Valid: above 0; a rule of the trade, no limit: the thrust against machine and hand decides

    >>> pilot_advised(8.5), pilot_advised(20.0)
    (False, True)

    Source: half an inch [pilot-practice, common practice]
    """
    return positive("diameter_mm", diameter_mm) > PILOT_FROM_MM


def piloted_loads(
    loads: EdgeLoads, diameter_mm: float, pilot_mm: float, chisel_ratio: float
) -> EdgeLoads:
    """Find what is left of a drill's full-cut loads when it follows a pilot hole.

    Equation: lips = lips (R - p) / (R - rc); torque = M (1 - (p / R)^2), with R, p and rc half of
        drill, pilot and chisel edge; chisel = 0

    Args:
        loads: [-] EdgeLoads in solid metal, at the same feed
        diameter_mm: [mm] diameter of the drill
        pilot_mm: [mm] diameter of the pilot hole
        chisel_ratio: [-] chisel edge over diameter

    Returns:
        lips_n: [N] thrust of the lips, all the thrust there is
        chisel_n: [N] 0, the chisel edge meets no metal
        torque_nm: [N.m] torque, the same as enlarging_torque_nm gives

    Valid: pilot at least as wide as the chisel edge and not above half the drill. The drill pulls
        itself in more readily where its chisel edge does not hold it back: hold the lever

    >>> piloted_loads(EdgeLoads(1662.0, 1673.0, 11.34), 10.0, 2.0, 0.18)
    EdgeLoads(lips_n=1621.5, chisel_n=0.0, torque_nm=10.89)

    Source: statics [statics, geometry]; the spread along the lip [feel-spread, our own judgement];
        the torque [el-hofy, second-hand]
    """
    positive("lips_n", loads.lips_n)
    positive("torque_nm", loads.torque_nm)
    within("chisel_ratio", chisel_ratio, *CHISEL_RATIO_RANGE)
    rim = positive("diameter_mm", diameter_mm)
    chisel = rim * chisel_ratio
    within("pilot_mm", pilot_mm, chisel, rim * LARGEST_PILOT_SHARE)
    lips = loads.lips_n * (rim - pilot_mm) / (rim - chisel)
    return EdgeLoads(lips, 0.0, loads.torque_nm * area_share(pilot_mm / rim))
