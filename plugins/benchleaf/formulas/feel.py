"""What the hand feels on the down-feed lever, from first touch until the lips have left.

The way through: the full-cut loads of the drill's edges (edge_loads), how much of them is there
at each depth (feel_geometry.py), the profile of thrust and torque along the quill's travel, and
what follows for the hand at break-through (ease_off).

Derived here from the handbook's equations 4 and 5 by statics and geometry. No published profile
with figures is known, so it is no measurement: it shows the order of events and their size.
"""

import math
from dataclasses import dataclass

from .domain import not_negative, positive, whole, within
from .drill_factors import CHISEL_RATIO_RANGE, FEED_EXPONENT, FEED_RANGE_MM_REV
from .drilling import thrust_split_n, torque_nm
from .feel_geometry import (
    BarWork,
    DrillPoint,
    EngagedShares,
    FlatWork,
    PassMarks,
    TubeWork,
    Work,
    engaged_shares,
    passes,
)

__all__ = [
    "ZONE_KEYS",
    "BarWork",
    "DrillPoint",
    "EaseOff",
    "EdgeLoads",
    "EngagedShares",
    "FeelPoint",
    "FeelProfile",
    "FlatWork",
    "PassMarks",
    "TubeWork",
    "Work",
    "Zone",
    "chisel_cutting_share",
    "ease_off",
    "edge_loads",
    "engaged_shares",
    "lever_swing_deg",
    "passes",
    "profile",
]

ZONE_KEYS = ("touch", "entering", "full_cut", "breaking_through", "leaving", "clear")
"""Zones in order: the chisel edge sinks in; the lips sink in; all of the point cuts; the chisel
edge comes through while the lips still cut; the lips come through; nothing cuts."""

_STEADY = ("full_cut", "clear")
"""Zones in which nothing changes; their two ends are enough points."""

STEPS_RANGE = (12, 2000)

# The form in which Shaw and Oxford (1957) wrote what the handbook calls factor B, recalled. Lips
# and chisel edge together give every B of Table 7 to one per cent, which a test holds: so the part
# of the handbook's thrust that carries B is not the lips' alone.
_LIPS_POWER = 0.2
_CHISEL_COEFFICIENT = 2.2
_CHISEL_POWER = 0.8


@dataclass(frozen=True)
class EdgeLoads:
    """Load of a drill's edges in full cut."""

    lips_n: float
    """Thrust of the two lips by themselves."""
    chisel_n: float
    """Thrust of the chisel edge, which ends when it breaks through."""
    torque_nm: float
    """Torque, all of it put on the lips."""


@dataclass(frozen=True)
class FeelPoint:
    """Thrust and torque at one place of the quill."""

    travel_mm: float
    thrust_n: float
    torque_nm: float


@dataclass(frozen=True)
class Zone:
    """A stretch of travel with one feel."""

    key: str
    """One of ZONE_KEYS."""
    start_mm: float
    end_mm: float
    wall: int
    """1 for the first wall or for work without a bore, 2 for the far wall of a tube."""


@dataclass(frozen=True)
class FeelProfile:
    """Thrust and torque along the travel, and its zones."""

    points: tuple[FeelPoint, ...]
    zones: tuple[Zone, ...]
    passes: tuple[PassMarks, ...]
    loads: EdgeLoads
    full_cut_reached: bool
    """False where every wall is too thin for the whole point to cut at once."""


@dataclass(frozen=True)
class EaseOff:
    """What the hand should do at break-through, and what comes of not doing it."""

    wall: int
    from_mm: float
    until_mm: float
    travel_mm: float
    pressure_share: float
    kept_feed_ratio: float
    kept_feed_mm_rev: float
    kept_torque_ratio: float
    kept_torque_nm: float
    inside_law: bool
    full_n: float
    lips_n: float
    lips_torque_nm: float


def chisel_cutting_share(chisel_ratio: float) -> float:
    """Find the part of the handbook's lips' thrust that the chisel edge takes while cutting.

    Equation: share = 2.2 x^0.8 / ((1 - x) / (1 + x)^0.2 + 2.2 x^0.8), the sum below being the
        handbook's factor B

    Args:
        chisel_ratio: [-] chisel edge over diameter x

    Returns:
        [-] share, from 0 to 1

    Valid: 0.03 to 0.40, where the sum gives every B of Table 7 to one per cent. A measurement on
        a 29.5 mm drill in steel gives the chisel edge 50 to 60 % of the whole thrust; at 0.4
        mm/rev this gives 57 %, and the part printed without B alone 27 %

    >>> chisel_cutting_share(0.18)
    0.413

    Source: form of the law [chisel-share, our own judgement]; Machinery's Handbook 31st ed.,
        p. 1152, Table 7 [mh31-table-7, read]; the measurement [chisel-measured, read]
    """
    ratio = within("chisel_ratio", chisel_ratio, *CHISEL_RATIO_RANGE)
    lips = float((1 - ratio) / (1 + ratio) ** _LIPS_POWER)
    chisel = float(_CHISEL_COEFFICIENT * ratio**_CHISEL_POWER)
    return chisel / (lips + chisel)


def edge_loads(
    diameter_mm: float,
    feed_mm_rev: float,
    *,
    kd_thrust: float,
    kd_torque: float,
    chisel_ratio: float,
    wear: float,
) -> EdgeLoads:
    """Find what lips and chisel edge carry in full cut; thrusts add up to the handbook's.

    Equation: lips = (1 - share) times the handbook's part with B; chisel = the rest of the thrust;
        torque = the handbook's M

    Args:
        diameter_mm: [mm] diameter of the drill
        feed_mm_rev: [mm/rev] advance a turn
        kd_thrust: [-] work material factor Kd for thrust
        kd_torque: [-] work material factor Kd for torque
        chisel_ratio: [-] chisel edge over diameter
        wear: [-] wear factor W: 1.0 sharp, 1.3 normal, 1.5 very dull or hard material

    Returns:
        lips_n: [N] thrust of the two lips by themselves
        chisel_n: [N] thrust of the chisel edge
        torque_nm: [N.m] torque; none is put on the chisel edge. The handbook names no such part,
            and by the form behind its factor A it is 14 % at a ratio of 0.18, well inside what the
            torque is good for; kept on the lips it errs to the safe side at break-through

    Valid: as thrust_n and torque_nm; a chisel edge not thinned

    >>> edge_loads(10.0, 0.2, kd_thrust=24000, kd_torque=24000, chisel_ratio=0.18, wear=1.0)
    EdgeLoads(lips_n=1662.0, chisel_n=1673.0, torque_nm=11.34)

    Source: Machinery's Handbook 31st ed., p. 1152, equations 4 and 5 [mh31-drilling, read]; the
        split [chisel-share, our own judgement]
    """
    case = {"chisel_ratio": chisel_ratio, "wear": wear}
    printed = thrust_split_n(diameter_mm, feed_mm_rev, kd=kd_thrust, **case)
    cutting_n = printed.lips_n * chisel_cutting_share(chisel_ratio)
    turning = torque_nm(diameter_mm, feed_mm_rev, kd=kd_torque, **case)
    return EdgeLoads(printed.lips_n - cutting_n, printed.chisel_n + cutting_n, turning)


def profile(point: DrillPoint, loads: EdgeLoads, work: Work, steps: int) -> FeelProfile:
    """Find thrust and torque along the quill's travel, at the set feed all the way.

    Equation: T = lips share times lips + chisel share times chisel; M = torque share times torque

    Args:
        point: [-] DrillPoint
        loads: [-] EdgeLoads in full cut, for the same drill
        work: [-] FlatWork, BarWork or TubeWork
        steps: [-] intervals over the zones in which something changes, about evenly spaced

    Returns:
        points: [-] FeelPoint, in order of travel from the tip's first touch; every zone's ends
            are among them
        zones: [-] Zone, in order; one that does not occur is left out
        passes: [-] PassMarks, one a wall
        loads: [-] the loads given
        full_cut_reached: [-] whether the whole point ever cuts at once; false in work thinner than
            the point

    Valid: steps from 12 to 2000; loads above 0. Steady turning and feeding, work and machine
        stiff, drill straight and its lips alike; the last skin cuts and does not bulge or tear,
        and the grab of the lips on a torn edge is not in it. Play in the rack is not in it. Behind
        a pilot hole up to 0.4 of the drill, give DrillPoint the pilot over the drill for its ratio
        and the loads of pilot.piloted_loads; the lips then first meet the metal where the zone
        "touch" ends

    >>> cut = profile(DrillPoint(10.0, 118.0, 0.18), EdgeLoads(1662.0, 1673.0, 11.34),
    ...               FlatWork(12.0), 120)
    >>> [zone.key for zone in cut.zones]
    ['touch', 'entering', 'full_cut', 'breaking_through', 'leaving', 'clear']

    Source: statics [statics, geometry]; geometry [geometry, geometry]; the spread along the lip
        [feel-spread, our own judgement]
    """
    whole("steps", steps, *STEPS_RANGE)
    positive("lips_n", loads.lips_n)
    not_negative("chisel_n", loads.chisel_n)
    positive("torque_nm", loads.torque_nm)
    marks = passes(work, point)
    zones = _zones(marks, point.chisel_height_mm)
    points = tuple(_at(point, loads, work, travel) for travel in _places(zones, steps))
    reached = any(each.full_until_mm >= each.lips_in_mm for each in marks)
    return FeelProfile(points, zones, marks, loads, reached)


def ease_off(profile: FeelProfile, feed_mm_rev: float) -> tuple[EaseOff, ...]:
    """Find where to ease the lever, how far, and what happens if the hand keeps its pressure.

    Equation: share = T2 / T1, with T2 the thrust when the chisel edge has come through and all of
        the point has come in, and T1 the greatest thrust until then; kept feed =
        f (T1 / T2)^(1 / 0.8), as the lips alone follow f^0.8; kept torque = M2 T1 / T2

    Args:
        profile: [-] FeelProfile at the set feed
        feed_mm_rev: [mm/rev] set feed f

    Returns:
        wall: [-] 1, or 2 for the far wall of a tube
        from_mm: [mm] travel at which the metal begins to give way: be eased off here
        until_mm: [mm] travel at which the lips have left
        travel_mm: [mm] from the one to the other
        pressure_share: [-] share of the pressure that keeps the set feed at T2; it goes on
            falling to nothing as the lips leave
        kept_feed_ratio: [-] feed over set feed if the hand keeps T1
        kept_feed_mm_rev: [mm/rev] that feed; it goes on rising until the lips have left
        kept_torque_ratio: [-] torque at that feed over the full-cut torque at the set feed
        kept_torque_nm: [N.m] that torque; like the feed it goes on rising for a while
        inside_law: [-] whether that feed is one the handbook's factors cover
        full_n: [N] T1, the greatest thrust until then
        lips_n: [N] T2, the thrust of the lips alone
        lips_torque_nm: [N.m] M2, the torque there

    Valid: set feed from 0.01 to 1.27 mm/rev, and by hand: a power feed keeps the feed and not the
        pressure. A hand is slower and softer than this; a grab is worse. Behind a pilot hole no
        chisel edge comes through and the share is 1: that is no leave to keep the pressure, as the
        thrust falls to nothing from there all the same

    >>> cut = profile(DrillPoint(10.0, 118.0, 0.18), EdgeLoads(1662.0, 1673.0, 11.34),
    ...               FlatWork(12.0), 120)
    >>> eased = ease_off(cut, 0.2)[0]
    >>> eased.travel_mm, eased.pressure_share, eased.kept_feed_ratio, eased.kept_torque_nm
    (3.0, 0.498, 2.39, 22.8)

    Source: statics [statics, geometry]; Machinery's Handbook 31st ed., p. 1153, Table 8
        [mh31-table-8, read]; the split [chisel-share, our own judgement]
    """
    within("feed_mm_rev", feed_mm_rev, *FEED_RANGE_MM_REV)
    return tuple(
        _eased(profile, at, marks, feed_mm_rev) for at, marks in enumerate(profile.passes, start=1)
    )


def lever_swing_deg(travel_mm: float, travel_per_turn_mm: float) -> float:
    """Find how far the lever swings for a travel of the quill.

    Args:
        travel_mm: [mm] travel of the quill
        travel_per_turn_mm: [mm] travel of the quill for one whole turn of the lever

    Returns:
        [deg] swing

    Valid: travel 0 or more, travel of a turn above 0; no play in the rack

    >>> lever_swing_deg(3.0, 81.7)
    13.2

    Source: geometry [geometry, geometry]
    """
    turns = not_negative("travel_mm", travel_mm) / positive(
        "travel_per_turn_mm", travel_per_turn_mm
    )
    return 360 * turns


def _at(point: DrillPoint, loads: EdgeLoads, work: Work, travel: float) -> FeelPoint:
    shares = engaged_shares(work, point, travel)
    thrust = loads.lips_n * shares.lips + loads.chisel_n * shares.chisel
    return FeelPoint(travel, thrust, loads.torque_nm * shares.torque)


def _zones(marks: tuple[PassMarks, ...], tail: float) -> tuple[Zone, ...]:
    """Zones wall after wall; a little of "clear" is kept at the end, so that it can be drawn."""
    found: list[Zone] = []
    place = marks[0].touch_mm
    for wall, each in enumerate(marks, start=1):
        last = wall == len(marks)
        after = each.clear_mm + tail if last else max(each.clear_mm, marks[wall].touch_mm)
        for key, end in zip(ZONE_KEYS, (*_ends(each), after), strict=True):
            if end > place:
                found.append(Zone(key, place, end, wall))
                place = end
    return tuple(found)


def _ends(marks: PassMarks) -> tuple[float, ...]:
    """Ends of the zones from touch to leaving; in thin work the metal ends before they do."""
    ends_at = marks.full_until_mm
    through = max(marks.chisel_out_mm, marks.lips_in_mm)
    entered = min(marks.lips_in_mm, ends_at)
    return min(marks.chisel_in_mm, ends_at), entered, ends_at, through, marks.clear_mm


def _places(zones: tuple[Zone, ...], steps: int) -> list[float]:
    """Travels to look at: the ends of every zone, and between them where something changes."""
    changing = sum(zone.end_mm - zone.start_mm for zone in zones if zone.key not in _STEADY)
    places = [zones[0].start_mm]
    for zone in zones:
        length = zone.end_mm - zone.start_mm
        count = 1 if zone.key in _STEADY else math.ceil(steps * length / changing)
        places += [zone.start_mm + length * at / count for at in range(1, count)]
        places.append(zone.end_mm)
    return places


def _eased(profile: FeelProfile, wall: int, marks: PassMarks, feed: float) -> EaseOff:
    # The place is the end of a zone, so it is among the points as it stands.
    place = _ends(marks)[ZONE_KEYS.index("breaking_through")]
    until = [each for each in profile.points if marks.touch_mm <= each.travel_mm <= place]
    through = until[-1]
    full = max(each.thrust_n for each in until)
    kept = full / through.thrust_n
    kept_feed = kept ** (1 / FEED_EXPONENT)
    kept_torque = through.torque_nm * kept
    return EaseOff(
        wall=wall,
        from_mm=marks.full_until_mm,
        until_mm=marks.clear_mm,
        travel_mm=marks.clear_mm - marks.full_until_mm,
        pressure_share=1 / kept,
        kept_feed_ratio=kept_feed,
        kept_feed_mm_rev=feed * kept_feed,
        kept_torque_ratio=kept_torque / profile.loads.torque_nm,
        kept_torque_nm=kept_torque,
        inside_law=feed * kept_feed <= FEED_RANGE_MM_REV[1],
        full_n=full,
        lips_n=through.thrust_n,
        lips_torque_nm=through.torque_nm,
    )
