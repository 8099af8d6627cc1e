"""Which part of a drill's point stands in metal, for every depth of its tip.

Used by feel.py, which turns these shares into thrust and torque. The point is taken as a cone: an
element of its edges at radius rho lies rho / tan(theta / 2) behind the tip. The chisel edge is the
innermost part of that cone, from the axis to half its length; the lips are the rest, out to the
rim. On round work an element is in metal for a share of each turn only, and that share is found
exactly.

No published figures for this are known: it is derived here, and tests hold it against a plain
sampling of the same geometry.
"""

import math
from dataclasses import dataclass
from typing import NamedTuple

from .domain import finite, positive, whole, within
from .drill_factors import OPEN_PART_RANGE
from .travel import point_length_mm

FEEL_ANGLE_RANGE_DEG = (60.0, 160.0)
"""Point angles accepted. Our own judgement: a flatter tool meets the work all at once, so that it
has no entering and no leaving to show."""


@dataclass(frozen=True)
class DrillPoint:
    """A drill's point."""

    diameter_mm: float
    point_angle_deg: float
    """Whole (included) angle."""
    chisel_ratio: float
    """Length of the chisel edge over the diameter; behind a pilot hole, the hole over it."""

    def __post_init__(self) -> None:
        positive("diameter_mm", self.diameter_mm)
        within("point_angle_deg", self.point_angle_deg, *FEEL_ANGLE_RANGE_DEG)
        within("chisel_ratio", self.chisel_ratio, *OPEN_PART_RANGE)

    @property
    def length_mm(self) -> float:
        """From the tip to the full diameter."""
        return point_length_mm(self.diameter_mm, self.point_angle_deg)

    @property
    def chisel_height_mm(self) -> float:
        """From the tip to the outer ends of the chisel edge, where the lips begin."""
        return self.length_mm * self.chisel_ratio


@dataclass(frozen=True)
class FlatWork:
    """Work with two flat faces square to the drill."""

    thickness_mm: float

    def __post_init__(self) -> None:
        positive("thickness_mm", self.thickness_mm)


@dataclass(frozen=True)
class BarWork:
    """A solid round bar, drilled square through its axis."""

    outside_mm: float

    def __post_init__(self) -> None:
        positive("outside_mm", self.outside_mm)


@dataclass(frozen=True)
class TubeWork:
    """A round tube, drilled square through its axis."""

    outside_mm: float
    wall_mm: float
    """Half the outside diameter leaves no bore: the tube is a bar then."""
    walls: int
    """Walls drilled through: 1 or 2."""

    def __post_init__(self) -> None:
        positive("wall_mm", self.wall_mm)
        within("wall_mm", self.wall_mm, 0, positive("outside_mm", self.outside_mm) / 2)
        whole("walls", self.walls, 1, 2)

    @property
    def bore_mm(self) -> float:
        """Inside diameter, 0 where there is none."""
        return self.outside_mm - 2 * self.wall_mm


Work = FlatWork | BarWork | TubeWork
"""What is drilled."""


@dataclass(frozen=True)
class EngagedShares:
    """Parts of a drill's full-cut load that are there at one depth, each from 0 to 1."""

    chisel: float
    """Of the chisel edge's thrust."""
    lips: float
    """Of the lips' thrust."""
    torque: float
    """Of the lips' torque."""


@dataclass(frozen=True)
class PassMarks:
    """Depths of the tip, from first touch of the work, at which one wall changes the feel."""

    touch_mm: float
    """The point meets the metal."""
    chisel_in_mm: float
    """The whole chisel edge is in."""
    lips_in_mm: float
    """The whole of both lips is in."""
    full_until_mm: float
    """The first metal gives way: at the tip, or at the sides of a large hole in a small bar."""
    chisel_out_mm: float
    """The whole chisel edge is through."""
    clear_mm: float
    """The lips have left."""


def passes(work: Work, point: DrillPoint) -> tuple[PassMarks, ...]:
    """Find the depths at which the feel changes, one set for each wall.

    Equation: an element at radius rho lies h = rho / tan(theta / 2) behind the tip and meets a
        surface of radius r after the crown by at most s = r - sqrt(r^2 - rho^2)

    Args:
        work: [-] FlatWork, BarWork or TubeWork
        point: [-] DrillPoint

    Returns:
        touch_mm: [mm] the point meets the metal
        chisel_in_mm: [mm] the whole chisel edge is in
        lips_in_mm: [mm] the whole of both lips is in
        full_until_mm: [mm] the first metal gives way
        chisel_out_mm: [mm] the whole chisel edge is through
        clear_mm: [mm] the lips have left

    Valid: drill smaller than round work, and than the bore of a tube; where full_until_mm is less
        than lips_in_mm the full cut is never reached

    >>> passes(FlatWork(12.0), DrillPoint(10.0, 118.0, 0.18))[0].clear_mm
    15.00

    Source: geometry [geometry, geometry]
    """
    fits(work, point)
    if isinstance(work, FlatWork):
        return (_flat_marks(work.thickness_mm, point),)
    far = _far_marks(work.outside_mm, work.outside_mm, point)
    if isinstance(work, BarWork) or work.bore_mm == 0:
        return (far,)
    near = _near_marks(work, point)
    return (near,) if work.walls == 1 else (near, _far_marks(work.outside_mm, work.wall_mm, point))


def engaged_shares(work: Work, point: DrillPoint, tip_depth_mm: float) -> EngagedShares:
    """Find how much of the drill's full-cut load is there at one depth of its tip.

    Equation: lips = integral of e / (R - rc), torque = integral of e rho / ((R^2 - rc^2) / 2),
        both from rc to R; chisel = integral of e / rc from 0 to rc; e, the share of a turn in
        metal, is 1 or 0 in flat work and (2 / pi) asin(sqrt(r^2 - z^2) / rho) in a round section
        of radius r at z from its centre; a tube is the outer section less the bore

    Args:
        work: [-] FlatWork, BarWork or TubeWork
        point: [-] DrillPoint
        tip_depth_mm: [mm] depth of the tip from the first touch of the work, below 0 above it

    Returns:
        chisel: [-] part of the chisel edge's thrust
        lips: [-] part of the lips' thrust
        torque: [-] part of the lips' torque

    Valid: drill smaller than round work, and than the bore of a tube. Thrust is spread evenly
        along the radius, and torque in proportion to the radius; quiet, stiff, straight drilling

    >>> engaged_shares(FlatWork(12.0), DrillPoint(10.0, 118.0, 0.18), 12.5409)
    EngagedShares(chisel=0.000, lips=1.0, torque=1.0)

    Source: geometry [geometry, geometry]; the spread along the lip [feel-spread,
        our own judgement]
    """
    fits(work, point)
    tip = finite("tip_depth_mm", tip_depth_mm)
    radius = point.diameter_mm / 2
    inner = radius * point.chisel_ratio
    slope = point.length_mm / radius
    if isinstance(work, FlatWork):
        chord = _slab(tip, work.thickness_mm, slope)
        chisel, lips = _stretch(chord, 0.0, inner), _stretch(chord, inner, radius)
    else:
        chisel, lips = _round_sums(work, tip, slope, inner, radius)
    return EngagedShares(
        _share(chisel[0], inner),
        _share(lips[0], radius - inner),
        _share(lips[1], (radius * radius - inner * inner) / 2),
    )


def fits(work: Work, point: DrillPoint) -> bool:
    """Say that the drill is small enough for the work, or raise ValueError.

    Equation: D < outside, and D < bore where there is one

    Args:
        work: [-] FlatWork, BarWork or TubeWork
        point: [-] DrillPoint

    Returns:
        [-] True

    Valid: any work; flat work takes every drill

    >>> fits(TubeWork(25.0, 2.0, 1), DrillPoint(8.0, 118.0, 0.18))
    True

    Source: geometry [geometry, geometry]
    """
    if isinstance(work, FlatWork):
        return True
    room, name = work.outside_mm, "round work"
    if isinstance(work, TubeWork) and work.bore_mm > 0:
        room, name = work.bore_mm, "bore"
    if point.diameter_mm >= room:
        raise ValueError(
            f"diameter_mm is {point.diameter_mm!r}; it must be smaller than the {name}, {room!r}"
        )
    return True


def _flat_marks(thickness: float, point: DrillPoint) -> PassMarks:
    chisel, length = point.chisel_height_mm, point.length_mm
    return PassMarks(0.0, chisel, length, thickness, thickness + chisel, thickness + length)


def _near_marks(work: TubeWork, point: DrillPoint) -> PassMarks:
    chisel, length = point.chisel_height_mm, point.length_mm
    rim, inner = point.diameter_mm, point.diameter_mm * point.chisel_ratio
    return PassMarks(
        0.0,
        chisel + _saddle(work.outside_mm, inner),
        length + _saddle(work.outside_mm, rim),
        work.wall_mm,
        work.wall_mm + chisel + _saddle(work.bore_mm, inner),
        work.wall_mm + length + _saddle(work.bore_mm, rim),
    )


def _far_marks(outside: float, wall: float, point: DrillPoint) -> PassMarks:
    """Marks of the metal that ends at the bottom of the outside; a whole bar is its own wall."""
    chisel, length, rim = point.chisel_height_mm, point.length_mm, point.diameter_mm
    begin, over_crown = 0.0, _saddle(outside, rim)
    chisel_in, lips_in = chisel + _saddle(outside, rim * point.chisel_ratio), length + over_crown
    if wall < outside:
        # The bore rises at the sides, where the rim may touch before the tip does.
        bore_bottom = outside - wall
        begin = bore_bottom + min(0.0, length - _saddle(outside - 2 * wall, rim))
        chisel_in, lips_in = bore_bottom + chisel, bore_bottom + length
    # At the sides the outside ends early too, so a large hole loses metal there first.
    full_until = outside + min(0.0, length - over_crown)
    return PassMarks(begin, chisel_in, lips_in, full_until, outside + chisel, outside + length)


def _saddle(round_diameter: float, hole: float) -> float:
    # round_work.saddle_mm, without its checks: they were made once at the door.
    return (round_diameter - math.sqrt(round_diameter**2 - hole**2)) / 2


class _Chord(NamedTuple):
    """How the straight line of a lip crosses a section of the work; radii along the lip."""

    first: float
    full_from: float
    """From here to full_to the element is in metal all round."""
    full_to: float
    last: float
    radius: float
    """Of a round section."""
    offset: float
    """Depth of the tip below the section's centre."""
    slope: float


_Sums = tuple[float, float]
"""Length along the radius that is in metal, and its first moment about the drill's axis."""


def _slab(tip: float, thickness: float, slope: float) -> _Chord:
    first, last = (tip - thickness) / slope, tip / slope
    return _Chord(first, first, last, last, 0.0, 0.0, slope)


def _disc(offset: float, radius: float, slope: float) -> _Chord:
    first, last = (offset - radius) / slope, (offset + radius) / slope
    spread = 1 + slope * slope
    # Both ends of the line inside the circle: rho^2 + (offset - slope rho)^2 = radius^2.
    inside = spread * radius * radius - offset * offset
    if inside <= 0:
        return _Chord(first, math.inf, -math.inf, last, radius, offset, slope)
    root = math.sqrt(inside)
    middle = slope * offset
    full_from, full_to = (middle - root) / spread, (middle + root) / spread
    return _Chord(first, full_from, full_to, last, radius, offset, slope)


def _round_sums(
    work: BarWork | TubeWork, tip: float, slope: float, inner: float, radius: float
) -> tuple[_Sums, _Sums]:
    """Sums over the chisel edge and over the lips."""
    outside = work.outside_mm / 2
    chord = _disc(tip - outside, outside, slope)
    if isinstance(work, BarWork) or work.bore_mm == 0:
        return _stretch(chord, 0.0, inner), _stretch(chord, inner, radius)
    # With one wall drilled, what lies below the tube's axis is never met.
    begin = max(0.0, (tip - outside) / slope) if work.walls == 1 else 0.0
    bore = _disc(tip - outside, work.bore_mm / 2, slope)
    start = max(begin, inner)
    return (
        _less(_stretch(chord, begin, inner), _stretch(bore, begin, inner)),
        _less(_stretch(chord, start, radius), _stretch(bore, start, radius)),
    )


def _less(all_of_it: _Sums, hollow: _Sums) -> _Sums:
    return all_of_it[0] - hollow[0], all_of_it[1] - hollow[1]


def _stretch(chord: _Chord, low: float, high: float) -> _Sums:
    """Sums of the share in metal from one radius to another."""
    low, high = max(low, chord.first), min(high, chord.last)
    if low >= high:
        return 0.0, 0.0
    full_from, full_to = max(low, chord.full_from), min(high, chord.full_to)
    if full_from >= full_to:
        return _partly(chord, low, high)
    length, moment = full_to - full_from, (full_to * full_to - full_from * full_from) / 2
    for begin, end in ((low, full_from), (full_to, high)):
        if begin < end:
            more_length, more_moment = _partly(chord, begin, end)
            length, moment = length + more_length, moment + more_moment
    return length, moment


def _nodes() -> tuple[tuple[float, float], ...]:
    """Eight places and weights on 0 to 1, crowded towards the ends.

    The share starts and ends like a square root, which spoils common rules. With u = sin^2 of an
    angle it is smooth, and Gauss's rule is good to far better than the 0.1 % wanted.
    """
    # Gauss-Legendre, 8 points on -1 to 1: a mathematical constant, the same in every table.
    rule = (
        (0.1834346424956498, 0.3626837833783620),
        (0.5255324099163290, 0.3137066458778873),
        (0.7966664774136267, 0.2223810344533745),
        (0.9602898564975363, 0.1012285362903763),
    )
    both = [(sign * at, weight) for at, weight in rule for sign in (-1, 1)]
    angles = [(math.pi / 4 * (1 + at), math.pi / 4 * weight) for at, weight in both]
    return tuple((math.sin(a) ** 2, weight * math.sin(2 * a)) for a, weight in angles)


_NODES = _nodes()


def _partly(chord: _Chord, low: float, high: float) -> _Sums:
    """Sums where an element is in metal for part of each turn."""
    span, length, moment = high - low, 0.0, 0.0
    _, _, _, _, radius, offset, slope = chord
    for place, weight in _NODES:
        rho = low + span * place
        height = offset - slope * rho
        half_chord = math.sqrt(max(0.0, radius * radius - height * height))
        share = weight * math.asin(min(1.0, half_chord / rho))
        length += share
        moment += share * rho
    # asin is the angle in a quarter turn, by symmetry.
    scale = span * 2 / math.pi
    return length * scale, moment * scale


def _share(part: float, whole_of_it: float) -> float:
    return min(1.0, max(0.0, part / whole_of_it))
