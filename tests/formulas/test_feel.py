"""The feel of the quill: no published profile is known, so geometry and statics are the proof.

The shares of the point in metal, on which it rests, are held in test_feel_geometry.py.
"""

from collections.abc import Callable
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.formulas import feel
from benchleaf.formulas.drilling import thrust_n, thrust_split_n, torque_nm
from benchleaf.formulas.feel import (
    ZONE_KEYS,
    BarWork,
    DrillPoint,
    EdgeLoads,
    FlatWork,
    TubeWork,
    Work,
    chisel_cutting_share,
    ease_off,
    edge_loads,
    engaged_shares,
    lever_swing_deg,
    profile,
)
from benchleaf.formulas.pilot import piloted_loads

TEN = DrillPoint(10.0, 118.0, 0.18)
STEEL: dict[str, float] = {
    "kd_thrust": 24000.0,
    "kd_torque": 24000.0,
    "chisel_ratio": 0.18,
    "wear": 1.3,
}
LOADS = edge_loads(10.0, 0.2, **STEEL)


points = st.builds(DrillPoint, st.floats(2, 40), st.floats(90, 140), st.floats(0.03, 0.4))


@st.composite
def cases(draw: Any) -> tuple[Work, DrillPoint]:
    """Any work, with a drill that fits it."""
    point = draw(points)
    size = point.diameter_mm
    outside = size * draw(st.floats(1.02, 8))
    wall = size * draw(st.floats(0.05, 2))
    tube = TubeWork(max(outside, size * 1.02) + 2 * wall, wall, draw(st.integers(1, 2)))
    return draw(st.sampled_from([FlatWork(wall), BarWork(outside), tube])), point


# --- loads of the edges


@given(
    st.floats(1.6, 76),
    st.floats(0.01, 1.25),
    st.floats(4000, 70000),
    st.floats(4000, 70000),
    st.floats(0.03, 0.4),
    st.floats(1, 2),
)
def test_the_edges_carry_the_handbooks_thrust_and_torque(
    size: float, feed: float, push: float, turn: float, ratio: float, wear: float
) -> None:
    case = {"chisel_ratio": ratio, "wear": wear}
    loads = edge_loads(size, feed, kd_thrust=push, kd_torque=turn, **case)
    whole = thrust_n(size, feed, kd=push, **case)
    assert loads.lips_n + loads.chisel_n == pytest.approx(whole, rel=1e-12)
    assert loads.torque_nm == torque_nm(size, feed, kd=turn, **case)
    assert loads.lips_n > 0
    assert loads.chisel_n > 0


def test_lips_and_chisel_edge_together_give_every_printed_factor(
    table: Callable[[str], list[dict[str, str]]],
) -> None:
    rows = table("table_7_chisel_edge.csv")
    assert len(rows) == 12
    for row in rows:
        ratio = float(row["chisel_ratio"])
        lips = (1 - ratio) / (1 + ratio) ** 0.2
        # With s the chisel edge's share of the sum, lips are 1 - s of it.
        ours = lips / (1 - chisel_cutting_share(ratio))
        assert ours == pytest.approx(float(row["thrust_b"]), rel=0.01), row


@pytest.mark.parametrize("feed", [0.31, 0.4, 0.5])
def test_the_chisel_edge_carries_what_was_measured(feed: float) -> None:
    # Measured on a 29.5 mm drill in steel: 50 to 60 % of the thrust; its feed was not read, these
    # are feeds usual for the size.
    loads = edge_loads(29.5, feed, **STEEL)
    whole = loads.lips_n + loads.chisel_n
    assert 0.50 <= loads.chisel_n / whole <= 0.60
    printed = thrust_split_n(29.5, feed, kd=24000, chisel_ratio=0.18, wear=1.3)
    assert printed.chisel_n / whole < 0.33


@given(st.floats(0.03, 0.39), st.floats(0.001, 0.01))
def test_a_longer_chisel_edge_takes_a_larger_share(ratio: float, more: float) -> None:
    assert chisel_cutting_share(ratio + more) > chisel_cutting_share(ratio)


# --- the profile


@pytest.mark.parametrize(
    "work", [FlatWork(12.0), BarWork(25.0), TubeWork(40.0, 8.0, 1), TubeWork(40.0, 8.0, 2)], ids=str
)
def test_the_plateau_is_the_full_cut(work: Work) -> None:
    cut = profile(TEN, LOADS, work, 120)
    assert cut.full_cut_reached
    plateau = [zone for zone in cut.zones if zone.key == "full_cut"]
    assert len(plateau) == len(cut.passes)
    for zone in plateau:
        inside = [p for p in cut.points if zone.start_mm <= p.travel_mm <= zone.end_mm]
        assert len(inside) >= 2
        for each in inside:
            assert each.thrust_n == pytest.approx(LOADS.lips_n + LOADS.chisel_n, rel=1e-12)
            assert each.torque_nm == pytest.approx(LOADS.torque_nm, rel=1e-12)
    assert max(p.thrust_n for p in cut.points) <= (LOADS.lips_n + LOADS.chisel_n) * (1 + 1e-12)


def test_at_break_through_thrust_falls_and_torque_does_not() -> None:
    cut = profile(TEN, LOADS, FlatWork(12.0), 200)
    zone = next(zone for zone in cut.zones if zone.key == "breaking_through")
    inside = [p for p in cut.points if zone.start_mm <= p.travel_mm <= zone.end_mm]
    assert len(inside) > 10
    for one, next_one in pairwise(inside):
        assert next_one.thrust_n < one.thrust_n
        assert next_one.torque_nm == pytest.approx(LOADS.torque_nm)
    assert inside[-1].thrust_n == pytest.approx(LOADS.lips_n)


@pytest.mark.parametrize("work", [BarWork(25.0), TubeWork(40.0, 8.0, 2)], ids=str)
def test_on_round_work_the_torque_hardly_falls_at_break_through(work: Work) -> None:
    cut = profile(TEN, LOADS, work, 200)
    for each in cut.passes:
        through = next(p for p in cut.points if p.travel_mm == each.chisel_out_mm)
        assert through.torque_nm > 0.99 * LOADS.torque_nm
        assert through.thrust_n < 0.51 * (LOADS.lips_n + LOADS.chisel_n)


@given(cases(), st.integers(12, 200))
def test_zones_and_points_cover_the_travel_without_gaps(
    case: tuple[Work, DrillPoint], steps: int
) -> None:
    work, point = case
    cut = profile(point, LOADS, work, steps)
    ends = [zone.end_mm for zone in cut.zones]
    assert [zone.start_mm for zone in cut.zones] == [cut.points[0].travel_mm, *ends[:-1]]
    travels = [each.travel_mm for each in cut.points]
    assert all(a < b for a, b in pairwise(travels))
    assert set(ends) <= set(travels)
    assert travels[-1] == ends[-1]
    assert cut.points[0].thrust_n == pytest.approx(0, abs=1e-6)
    assert cut.points[-1].thrust_n == 0
    for wall, _ in enumerate(cut.passes, start=1):
        keys = [zone.key for zone in cut.zones if zone.wall == wall]
        assert keys == [key for key in ZONE_KEYS if key in keys]
        assert {"breaking_through", "leaving"} <= set(keys)


@pytest.mark.parametrize("work", [FlatWork(2.9), TubeWork(25.0, 2.0, 1), TubeWork(25.0, 2.0, 2)])
def test_work_thinner_than_the_point_says_so(work: Work) -> None:
    cut = profile(TEN, LOADS, work, 120)
    assert not cut.full_cut_reached
    assert "full_cut" not in {zone.key for zone in cut.zones}
    assert max(p.thrust_n for p in cut.points) < LOADS.lips_n + LOADS.chisel_n
    assert profile(TEN, LOADS, FlatWork(3.1), 120).full_cut_reached


def test_a_tube_goes_through_the_zones_twice() -> None:
    cut = profile(TEN, LOADS, TubeWork(40.0, 8.0, 2), 120)
    assert [zone.key for zone in cut.zones] == [*ZONE_KEYS, *ZONE_KEYS]
    assert [zone.wall for zone in cut.zones] == [1] * 6 + [2] * 6
    between = next(zone for zone in cut.zones if zone.key == "clear")
    inside = [p for p in cut.points if between.start_mm <= p.travel_mm <= between.end_mm]
    assert [p.thrust_n for p in inside] == pytest.approx([0, 0], abs=1e-6)


@given(st.floats(4000, 35000), st.floats(1.1, 2))
def test_harder_metal_scales_the_whole_profile(kd: float, more: float) -> None:
    soft, hard = (
        profile(TEN, edge_loads(10.0, 0.2, **STEEL | key(kd * by)), BarWork(25.0), 24)
        for by in (1.0, more)
    )
    for one, other in zip(soft.points, hard.points, strict=True):
        assert other.thrust_n == pytest.approx(one.thrust_n * more)
        assert other.torque_nm == pytest.approx(one.torque_nm * more)
    a, b = ease_off(soft, 0.2)[0], ease_off(hard, 0.2)[0]
    assert b.pressure_share == pytest.approx(a.pressure_share)
    assert b.kept_feed_mm_rev == pytest.approx(a.kept_feed_mm_rev)


def key(kd: float) -> dict[str, float]:
    return {"kd_thrust": kd, "kd_torque": kd}


# --- easing off


@pytest.mark.parametrize("feed", [0.05, 0.1, 0.2, 0.3])
@pytest.mark.parametrize("ratio", [0.08, 0.18, 0.3])
def test_a_kept_pressure_is_met_by_the_lips_at_the_feed_found(feed: float, ratio: float) -> None:
    # Put back into the handbook's formulas, the feed found must give thrust and torque found.
    case = STEEL | {"chisel_ratio": ratio}
    loads = edge_loads(10.0, feed, **case)
    cut = profile(DrillPoint(10.0, 118.0, ratio), loads, FlatWork(12.0), 60)
    eased = ease_off(cut, feed)[0]
    kept = edge_loads(10.0, eased.kept_feed_mm_rev, **case)
    assert kept.lips_n == pytest.approx(loads.lips_n + loads.chisel_n)
    assert kept.torque_nm == pytest.approx(eased.kept_torque_nm)
    assert eased.kept_torque_ratio == pytest.approx(kept.torque_nm / loads.torque_nm)
    assert eased.pressure_share == pytest.approx(loads.lips_n / (loads.lips_n + loads.chisel_n))
    assert eased.kept_feed_ratio == pytest.approx(eased.kept_feed_mm_rev / feed)
    assert eased.inside_law


def test_easing_off_runs_from_the_tip_through_to_the_lips_gone() -> None:
    eased = ease_off(profile(TEN, LOADS, FlatWork(12.0), 60), 0.2)[0]
    assert eased.from_mm == 12.0
    assert eased.until_mm == 12.0 + TEN.length_mm
    assert eased.travel_mm == pytest.approx(TEN.length_mm)


def test_a_large_hole_in_a_small_bar_gives_way_at_its_sides_first() -> None:
    eased = ease_off(profile(TEN, LOADS, BarWork(10.5), 60), 0.2)[0]
    assert eased.from_mm < 10.5
    assert eased.until_mm == 10.5 + TEN.length_mm


@given(cases(), st.floats(0.01, 0.5))
def test_the_hand_eases_and_the_feed_would_grow(case: tuple[Work, DrillPoint], feed: float) -> None:
    work, point = case
    for eased in ease_off(profile(point, LOADS, work, 40), feed):
        assert 0 < eased.pressure_share <= 1
        assert eased.kept_feed_ratio >= 1
        assert eased.kept_feed_ratio == pytest.approx(eased.pressure_share**-1.25)
        assert eased.inside_law == (eased.kept_feed_mm_rev <= 1.27)
        assert 0 <= eased.from_mm < eased.until_mm


def test_in_thin_work_the_rim_comes_in_before_the_pressure_is_judged() -> None:
    # 2 mm under a point of 3 mm: the chisel edge is out at 2.5 mm, the rim is in at 3.0 mm.
    work = FlatWork(2.0)
    eased = ease_off(profile(TEN, LOADS, work, 60), 0.2)[0]
    rim_in = engaged_shares(work, TEN, TEN.length_mm)
    chisel_out = engaged_shares(work, TEN, 2.0 + TEN.chisel_height_mm)
    kept = 1 / eased.pressure_share
    assert eased.kept_torque_ratio == pytest.approx(kept * rim_in.torque)
    assert rim_in.torque > 1.1 * chisel_out.torque


def test_behind_a_pilot_nothing_is_felt_until_the_lips_meet_metal() -> None:
    left = piloted_loads(LOADS, 10.0, 3.0, 0.18)
    cut = profile(DrillPoint(10.0, 118.0, 0.3), left, FlatWork(12.0), 60)
    touch = cut.zones[0]
    assert touch.end_mm == pytest.approx(0.3 * TEN.length_mm)
    felt = [p.thrust_n for p in cut.points if p.travel_mm <= touch.end_mm]
    assert felt == pytest.approx([0] * len(felt))
    assert max(p.thrust_n for p in cut.points) == pytest.approx(left.lips_n)
    eased = ease_off(cut, 0.2)[0]
    assert eased.pressure_share == pytest.approx(1)
    assert eased.kept_torque_nm == pytest.approx(left.torque_nm)


def test_two_walls_are_eased_twice() -> None:
    first, second = ease_off(profile(TEN, LOADS, TubeWork(40.0, 8.0, 2), 60), 0.2)
    assert (first.wall, second.wall) == (1, 2)
    assert first.from_mm == 8.0
    assert second.from_mm == 40.0


@given(st.floats(0, 200), st.floats(10, 300))
def test_a_swing_is_its_part_of_a_turn(travel: float, turn: float) -> None:
    assert lever_swing_deg(travel, turn) / 360 * turn == pytest.approx(travel)


# --- what is refused


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda: profile(TEN, LOADS, FlatWork(5.0), 11), "steps is 11; .* from 12 to 2000"),
        (lambda: profile(TEN, EdgeLoads(0.0, 1.0, 1.0), FlatWork(5.0), 60), "lips_n is 0"),
        (lambda: ease_off(profile(TEN, LOADS, FlatWork(5.0), 60), 2.0), "feed_mm_rev is 2"),
        (lambda: lever_swing_deg(-1.0, 80.0), "travel_mm is -1"),
        (lambda: chisel_cutting_share(0.41), "chisel_ratio is 0.41"),
    ],
)
def test_a_wrong_number_is_refused(make: Callable[[], object], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        make()


def test_the_front_module_offers_what_it_says() -> None:
    assert sorted(feel.__all__) == sorted(set(feel.__all__))
    assert all(hasattr(feel, name) for name in feel.__all__)
