"""Shares of a drill's point in metal: no published figures are known, so geometry is the proof.

They are held against a plain count of places on the point that lie in the work, written here
without any of the module's formulas.
"""

import math
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.formulas.feel_geometry import (
    BarWork,
    DrillPoint,
    EngagedShares,
    FlatWork,
    TubeWork,
    Work,
    engaged_shares,
    fits,
    passes,
)
from running import sample

TEN = DrillPoint(10.0, 118.0, 0.18)

WORKS: list[Work] = [
    FlatWork(12.0),
    FlatWork(2.0),
    FlatWork(0.3),
    BarWork(25.0),
    BarWork(10.5),
    TubeWork(25.0, 2.0, 1),
    TubeWork(25.0, 2.0, 2),
    TubeWork(40.0, 8.0, 1),
    TubeWork(40.0, 8.0, 2),
    TubeWork(14.0, 1.8, 2),
]

points = st.builds(DrillPoint, st.floats(2, 40), st.floats(90, 140), st.floats(0.03, 0.4))
deep = st.floats(0.0, 1.0)


@st.composite
def cases(draw: Any) -> tuple[Work, DrillPoint]:
    """Any work, with a drill that fits it."""
    point = draw(points)
    size = point.diameter_mm
    outside = size * draw(st.floats(1.02, 8))
    wall = size * draw(st.floats(0.05, 2))
    tube = TubeWork(max(outside, size * 1.02) + 2 * wall, wall, draw(st.integers(1, 2)))
    return draw(st.sampled_from([FlatWork(wall), BarWork(outside), tube])), point


def in_metal(work: Work, x: float, depth: float) -> bool:
    """Whether a place, off the work's axis by x and below its crown by depth, is metal."""
    if isinstance(work, FlatWork):
        return 0 <= depth <= work.thickness_mm
    radius = work.outside_mm / 2
    inside = math.hypot(x, depth - radius) <= radius
    if isinstance(work, BarWork):
        return inside
    hollow = math.hypot(x, depth - radius) < radius - work.wall_mm
    return inside and not hollow and (work.walls == 2 or depth <= radius)


def counted(work: Work, point: DrillPoint, tip: float, rings: int, angles: int) -> EngagedShares:
    """Shares by counting places on the point, ring by ring and angle by angle."""
    rim, inner = point.diameter_mm / 2, point.diameter_mm * point.chisel_ratio / 2
    back = 1 / math.tan(math.radians(point.point_angle_deg / 2))
    turn = [math.sin(math.pi / 2 * (at + 0.5) / angles) for at in range(angles)]

    def places(low: float, high: float) -> Iterator[tuple[float, float]]:
        for at in range(rings):
            rho = low + (high - low) * (at + 0.5) / rings
            hits = sum(in_metal(work, rho * side, tip - rho * back) for side in turn)
            yield rho, hits / angles

    lips = list(places(inner, rim))
    return EngagedShares(
        sum(part for _, part in places(0, inner)) / rings,
        sum(part for _, part in lips) / rings,
        sum(rho * part for rho, part in lips) / sum(rho for rho, _ in lips),
    )


def close(one: EngagedShares, other: EngagedShares, tolerance: float) -> bool:
    pairs = (
        (one.chisel, other.chisel),
        (one.lips, other.lips),
        (one.torque, other.torque),
    )
    return all(abs(a - b) <= tolerance for a, b in pairs)


@pytest.mark.parametrize("work", sample(WORKS, 4, seed=3), ids=str)
def test_shares_agree_with_a_count_of_places(work: Work) -> None:
    end = passes(work, TEN)[-1].clear_mm
    for at in range(1, 12):
        tip = end * at / 12
        ours = engaged_shares(work, TEN, tip)
        assert close(ours, counted(work, TEN, tip, 150, 120), 0.008), tip


@pytest.mark.parametrize(
    ("work", "tip"),
    sample(
        [
            (FlatWork(2.0), 2.7),
            (BarWork(25.0), 2.4),
            (BarWork(25.0), 26.1),
            (BarWork(10.5), 11.0),
            (TubeWork(25.0, 2.0, 1), 3.9),
            (TubeWork(25.0, 2.0, 2), 25.6),
            (TubeWork(14.0, 1.8, 2), 6.6),
        ],
        3,
        seed=4,
    ),
    ids=str,
)
def test_shares_agree_with_a_fine_count_to_a_thousandth(work: Work, tip: float) -> None:
    assert close(engaged_shares(work, TEN, tip), counted(work, TEN, tip, 900, 800), 0.001)


@given(cases(), deep)
def test_the_rule_of_eight_places_is_fine_enough(case: tuple[Work, DrillPoint], at: float) -> None:
    """The lips' share again, by many even steps along the lip."""
    work, point = case
    if isinstance(work, FlatWork):
        return
    tip = passes(work, point)[-1].clear_mm * at
    rim, inner = point.diameter_mm / 2, point.diameter_mm * point.chisel_ratio / 2
    count, total = 2000, 0.0
    for step in range(count):
        rho = inner + (rim - inner) * (step + 0.5) / count
        total += turn_share(work, rho, tip - rho * point.length_mm / rim)
    assert engaged_shares(work, point, tip).lips == pytest.approx(total / count, abs=0.0008)


def turn_share(work: BarWork | TubeWork, rho: float, depth: float) -> float:
    """Part of a turn in metal: the angle at which the circle walked crosses the work's outline."""
    radius = work.outside_mm / 2

    def within(limit: float) -> float:
        half = math.sqrt(max(0.0, limit**2 - (depth - radius) ** 2))
        return math.asin(min(1.0, half / rho)) / (math.pi / 2)

    if isinstance(work, BarWork):
        return within(radius)
    if work.walls == 1 and depth > radius:
        return 0.0
    return within(radius) - within(radius - work.wall_mm)


@given(cases(), deep)
def test_shares_are_shares(case: tuple[Work, DrillPoint], at: float) -> None:
    work, point = case
    shares = engaged_shares(work, point, passes(work, point)[-1].clear_mm * at)
    for each in (shares.chisel, shares.lips, shares.torque):
        assert 0 <= each <= 1


@given(cases(), st.floats(0.001, 50))
def test_nothing_cuts_above_and_below_the_work(case: tuple[Work, DrillPoint], away: float) -> None:
    work, point = case
    nothing = EngagedShares(0.0, 0.0, 0.0)
    assert engaged_shares(work, point, -away) == nothing
    assert close(engaged_shares(work, point, passes(work, point)[-1].clear_mm + away), nothing, 0)


@given(cases(), deep)
def test_nothing_jumps(case: tuple[Work, DrillPoint], at: float) -> None:
    work, point = case
    tip = passes(work, point)[-1].clear_mm * at
    step = point.diameter_mm * 1e-6
    here, there = engaged_shares(work, point, tip), engaged_shares(work, point, tip + step)
    assert close(here, there, 0.002)


@given(cases(), deep, st.floats(0.2, 5))
def test_only_proportions_matter(case: tuple[Work, DrillPoint], at: float, size: float) -> None:
    work, point = case
    tip = passes(work, point)[-1].clear_mm * at
    larger = DrillPoint(point.diameter_mm * size, point.point_angle_deg, point.chisel_ratio)
    ours = engaged_shares(scaled(work, size), larger, tip * size)
    assert close(ours, engaged_shares(work, point, tip), 1e-6)


def scaled(work: Work, size: float) -> Work:
    if isinstance(work, FlatWork):
        return FlatWork(work.thickness_mm * size)
    if isinstance(work, BarWork):
        return BarWork(work.outside_mm * size)
    return TubeWork(work.outside_mm * size, work.wall_mm * size, work.walls)


@given(points, st.floats(0.01, 3), deep)
def test_in_flat_work_the_lips_leave_as_they_entered(
    point: DrillPoint, thickness: float, at: float
) -> None:
    # Where entering is a share of the lips from the inside, leaving is the rest of them.
    work, tip = FlatWork(thickness * point.diameter_mm + point.length_mm), at * point.length_mm
    entering = engaged_shares(work, point, tip)
    leaving = engaged_shares(work, point, work.thickness_mm + tip)
    assert entering.lips + leaving.lips == pytest.approx(1)
    assert entering.torque + leaving.torque == pytest.approx(1)
    assert entering.chisel + leaving.chisel == pytest.approx(1)


@given(points, deep)
def test_a_huge_bar_is_flat(point: DrillPoint, at: float) -> None:
    bar, flat = BarWork(1e7), FlatWork(1e7)
    for tip in (at * point.length_mm, 1e7 + at * point.length_mm):
        assert close(engaged_shares(bar, point, tip), engaged_shares(flat, point, tip), 0.001)


@given(points, st.floats(1.02, 6), deep)
def test_a_tube_without_a_bore_is_a_bar(point: DrillPoint, room: float, at: float) -> None:
    outside = point.diameter_mm * room
    bar, tube = BarWork(outside), TubeWork(outside, outside / 2, 2)
    assert passes(tube, point) == passes(bar, point)
    tip = at * passes(bar, point)[0].clear_mm
    assert engaged_shares(tube, point, tip) == engaged_shares(bar, point, tip)


@given(points, st.floats(1.02, 4), st.floats(0.05, 1), deep)
def test_the_first_wall_feels_the_same_whether_or_not_the_second_follows(
    point: DrillPoint, room: float, wall: float, at: float
) -> None:
    size = point.diameter_mm
    one, two = (TubeWork(size * (room + 2 * wall), size * wall, walls) for walls in (1, 2))
    first, second = passes(two, point)
    assert passes(one, point) == (first,)
    tip = at * min(second.touch_mm, first.clear_mm)
    assert close(engaged_shares(one, point, tip), engaged_shares(two, point, tip), 1e-9)


@pytest.mark.parametrize("work", sample(WORKS, 4, seed=5), ids=str)
@pytest.mark.parametrize("angle", [90.0, 118.0, 140.0])
def test_the_work_of_the_lips_does_not_depend_on_the_point_angle(work: Work, angle: float) -> None:
    # Each element walks through all the metal at its radius, whenever it does so.
    point = DrillPoint(10.0, angle, 0.18)
    end, count = passes(work, point)[-1].clear_mm, 3000
    walked = sum(engaged_shares(work, point, end * at / count).lips for at in range(count))
    assert walked * end / count == pytest.approx(metal_on_the_lips(work, point), rel=0.002)


def metal_on_the_lips(work: Work, point: DrillPoint) -> float:
    """Mean thickness of metal over the ring the lips sweep, each radius counting alike."""
    if isinstance(work, FlatWork):
        return work.thickness_mm
    rim, inner, count = point.diameter_mm / 2, point.diameter_mm * point.chisel_ratio / 2, 300
    bore = 0.0 if isinstance(work, BarWork) else work.bore_mm
    walls = work.walls if isinstance(work, TubeWork) else 2
    total = 0.0
    for ring in range(count):
        rho = inner + (rim - inner) * (ring + 0.5) / count
        for step in range(count):
            x = rho * math.sin(math.pi / 2 * (step + 0.5) / count)
            total += math.sqrt(work.outside_mm**2 / 4 - x**2)
            total -= math.sqrt(max(0.0, bore**2 / 4 - x**2))
    return walls * total / count**2


@given(cases())
def test_marks_are_where_the_count_changes(case: tuple[Work, DrillPoint]) -> None:
    work, point = case
    tiny = point.diameter_mm * 1e-6
    for each in passes(work, point):
        before = engaged_shares(work, point, each.touch_mm - tiny)
        assert close(before, EngagedShares(0, 0, 0), 1e-3)
        if each.lips_in_mm <= each.full_until_mm:
            for tip in (each.lips_in_mm, each.full_until_mm):
                assert close(engaged_shares(work, point, tip), EngagedShares(1, 1, 1), 1e-6)
        assert engaged_shares(work, point, each.clear_mm - tiny * 100).lips > 0


def test_a_wide_drill_touches_the_far_wall_with_its_rim_first() -> None:
    # Bore 10.4 for a 10 mm drill: it rises 3.8 mm at the sides, and the point is 3.0 mm long.
    work = TubeWork(14.0, 1.8, 2)
    second = passes(work, TEN)[1]
    assert second.touch_mm < 14.0 - 1.8
    assert close(engaged_shares(work, TEN, second.touch_mm), EngagedShares(0, 0, 0), 1e-9)
    begun = engaged_shares(work, TEN, second.touch_mm + 0.02)
    assert begun.torque > begun.lips > begun.chisel == 0


@pytest.mark.parametrize("work", [FlatWork(12.0), BarWork(10.5), TubeWork(40.0, 8.0, 2)], ids=str)
def test_each_mark_is_the_first_place_of_its_kind(work: Work) -> None:
    for each in passes(work, TEN):
        assert engaged_shares(work, TEN, each.chisel_in_mm).chisel == pytest.approx(1, abs=1e-12)
        assert engaged_shares(work, TEN, each.chisel_in_mm - 0.003).chisel < 1 - 1e-6
        assert engaged_shares(work, TEN, each.lips_in_mm).lips == pytest.approx(1, abs=1e-12)
        assert engaged_shares(work, TEN, each.lips_in_mm - 0.003).lips < 1 - 1e-6
        assert engaged_shares(work, TEN, each.full_until_mm + 0.003) != EngagedShares(1, 1, 1)
        assert engaged_shares(work, TEN, each.chisel_out_mm).chisel == pytest.approx(0, abs=1e-12)
        assert engaged_shares(work, TEN, each.chisel_out_mm - 0.003).chisel > 1e-6
        assert engaged_shares(work, TEN, each.clear_mm - 0.003).torque > 1e-6


@pytest.mark.parametrize("work", WORKS, ids=str)
def test_a_drill_that_fits_is_let_through(work: Work) -> None:
    assert fits(work, TEN)


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda: DrillPoint(10.0, 59.0, 0.18), r"point_angle_deg is 59\.0; .* from 60 to 160"),
        (lambda: DrillPoint(10.0, 180.0, 0.18), "point_angle_deg is 180"),
        (lambda: DrillPoint(0.0, 118.0, 0.18), "diameter_mm is 0"),
        (lambda: DrillPoint(10.0, 118.0, 0.51), r"chisel_ratio is 0\.51"),
        (lambda: FlatWork(0.0), "thickness_mm is 0"),
        (lambda: BarWork(math.nan), "outside_mm is nan"),
        (lambda: TubeWork(25.0, 12.6, 1), r"wall_mm is 12\.6; .* from 0 to 12\.5"),
        (lambda: TubeWork(25.0, 0.0, 1), r"wall_mm is 0\.0"),
        (lambda: TubeWork(25.0, 2.0, 3), "walls is 3; it must be a whole number from 1 to 2"),
        (lambda: passes(BarWork(10.0), TEN), "diameter_mm is 10.0; .* smaller than the round work"),
        (lambda: passes(TubeWork(13.0, 2.0, 1), TEN), "diameter_mm is 10.0; .* the bore, 9.0"),
        (lambda: engaged_shares(FlatWork(5.0), TEN, math.inf), "tip_depth_mm is inf"),
    ],
)
def test_a_wrong_number_is_refused(make: Callable[[], object], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        make()
