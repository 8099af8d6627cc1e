"""The torque of a kept pull as a drill comes through, against our own quadrature of the same event.

No measured or published torque at break-through is known, so none is checked: what holds the
formulas is a numerical run of the drill out of the work, written here without them.
"""

import math
from collections.abc import Callable

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from benchleaf.formulas.break_through import (
    END_FEED_MM_REV,
    exit_torque_at_feed_nm,
    exit_torque_limit_nm,
    kept_ratio,
    lips_left,
    most_feed_mm_rev,
)
from benchleaf.formulas.feel import (
    BarWork,
    DrillPoint,
    FlatWork,
    TubeWork,
    Work,
    edge_loads,
    engaged_shares,
)

torques = st.floats(0.5, 60)
kepts = st.floats(1.0, 6.0)
parts = st.floats(0.03, 0.5)
feeds = st.floats(0.02, 0.5)
STEEL = {"kd_thrust": 24000, "kd_torque": 24000, "wear": 1.3}


def dragged(torque: float, kept: float, part: float, feed: float, steps: int) -> list[list[float]]:
    """Feed and torque of flat work leaving the lips, element by element from the inside.

    An element of a lip pushes and turns with the feed to the power of 0.8: its push is the same at
    each radius, and its turning is in proportion to the radius.
    """
    radii = [part + (1 - part) * (at + 0.5) / steps for at in range(steps)]
    whole, pushes, turns, found = sum(radii), 0.0, 0.0, []
    for radius in reversed(radii):  # those left longest first
        pushes, turns = pushes + 1 / steps, turns + radius / whole * torque
        harder = kept / pushes  # so much more each element must push
        found.append([feed * harder**1.25, harder * turns])
    return found[::-1]


def test_the_case_of_a_hinge_plate() -> None:
    # 8.5 mm, 0.11 mm/rev: 2477 N over 1176 N, 6.82 N m; held with 18 N m
    kept = kept_ratio(2477, 1176)
    assert exit_torque_limit_nm(6.82, kept, 0.18) == pytest.approx(24.35, abs=0.02)
    assert exit_torque_limit_nm(6.82, kept, 0.18) / (6.82 * kept) == pytest.approx(1.695, abs=0.001)
    assert most_feed_mm_rev(6.82, kept, 0.18, 0.11, 18.0) == pytest.approx(0.49, abs=0.005)


@given(torques, kepts, parts, feeds)
def test_the_limit_is_where_our_own_quadrature_ends(
    torque: float, kept: float, part: float, feed: float
) -> None:
    run = dragged(torque, kept, part, feed, 2000)
    assert run[0][1] == pytest.approx(torque * kept)
    assert run[-1][1] == pytest.approx(exit_torque_limit_nm(torque, kept, part), rel=1e-3)
    assert [one for _, one in run] == sorted(one for _, one in run)


@given(torques, kepts, parts, feeds, st.floats(1.0, 20.0))
def test_a_torque_at_a_feed_is_that_of_our_own_quadrature(
    torque: float, kept: float, part: float, feed: float, times: float
) -> None:
    most = feed * times
    assume(most <= END_FEED_MM_REV)
    passed = [turns for at, turns in dragged(torque, kept, part, feed, 2000) if at <= most]
    wanted = passed[-1] if passed else torque * times**0.8
    assert exit_torque_at_feed_nm(torque, kept, part, feed, most) == pytest.approx(wanted, rel=2e-3)


@pytest.mark.parametrize(
    "work",
    [FlatWork(6.0), FlatWork(1.5), BarWork(16.0), BarWork(9.2), TubeWork(25.0, 2.0, 1),
     TubeWork(25.0, 2.0, 2)],
)  # fmt: skip
@pytest.mark.parametrize("ratio", [0.03, 0.18, 0.40])
def test_no_shape_of_work_turns_harder_than_the_limit(work: Work, ratio: float) -> None:
    """The whole way through at the pull of the full cut, by the geometry of the point."""
    loads = edge_loads(8.5, 0.11, chisel_ratio=ratio, **STEEL)
    pull, point = loads.lips_n + loads.chisel_n, DrillPoint(8.5, 118.0, ratio)
    limit = exit_torque_limit_nm(loads.torque_nm, pull / loads.lips_n, ratio)
    most = 0.0
    for at in range(1, 700):
        shares = engaged_shares(work, point, at * 30 / 700)
        if shares.lips > 1e-4 and shares.chisel == 0:  # all of the pull is on the lips
            most = max(most, pull / (loads.lips_n * shares.lips) * loads.torque_nm * shares.torque)
    assert 0.9 * limit < most <= limit * (1 + 1e-6)


@given(torques, kepts, parts, feeds, st.floats(1.001, 1.5))
def test_more_of_anything_that_drags_turns_harder(
    torque: float, kept: float, part: float, feed: float, more: float
) -> None:
    one = exit_torque_limit_nm(torque, kept, part)
    assert exit_torque_limit_nm(torque * more, kept, part) > one
    assert exit_torque_limit_nm(torque, kept * more, part) > one
    at_end = exit_torque_at_feed_nm(torque, kept, part, feed, END_FEED_MM_REV)
    nearer = exit_torque_at_feed_nm(torque, kept, part, feed, max(feed, END_FEED_MM_REV / more))
    assert torque <= nearer <= at_end * (1 + 1e-12) <= one * (1 + 1e-12)


@given(st.floats(3, 30), feeds, st.floats(1.0, 1.5), st.floats(1.001, 1.3),
       st.sampled_from(["diameter", "feed", "wear"]))  # fmt: skip
def test_monotone_in_diameter_feed_and_wear(
    size: float, feed: float, wear: float, more: float, what: str
) -> None:
    def limit(size: float, feed: float, wear: float) -> float:
        loads = edge_loads(
            size, feed, kd_thrust=24000, kd_torque=24000, chisel_ratio=0.18, wear=wear
        )
        kept = kept_ratio(loads.lips_n + loads.chisel_n, loads.lips_n)
        return exit_torque_limit_nm(loads.torque_nm, kept, 0.18)

    heavier = {
        "diameter": (size * more, feed, wear), "feed": (size, feed * more, wear),
        "wear": (size, feed, wear * more),
    }[what]  # fmt: skip
    assert limit(*heavier) > limit(size, feed, wear)


@given(torques, kepts, parts, feeds, st.floats(1.0, 9.0))
def test_the_feed_of_a_capacity_gives_that_capacity_back(
    torque: float, kept: float, part: float, feed: float, times: float
) -> None:
    capacity = torque * times
    most = most_feed_mm_rev(torque, kept, part, feed, capacity)
    assert feed <= most * (1 + 1e-9)
    assert most <= END_FEED_MM_REV
    turned = exit_torque_at_feed_nm(torque, kept, part, feed, max(feed, most))
    assert turned <= capacity * (1 + 1e-9)
    if most < END_FEED_MM_REV:
        assert turned == pytest.approx(capacity)


def test_with_the_feed_kept_as_it_is_nothing_grows() -> None:
    assert exit_torque_at_feed_nm(7.0, 2.0, 0.18, 0.2, 0.2) == 7.0
    assert lips_left(2.0, 0.2, 0.2) == 1.0
    assert kept_ratio(1000.0000000001, 1000) == 1.0


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda: kept_ratio(900, 1000), "lips_n is 0.9"),
        (lambda: kept_ratio(0, 1000), "thrust_n is 0"),
        (lambda: exit_torque_limit_nm(-1, 2, 0.18), "torque_nm is -1"),
        (lambda: exit_torque_limit_nm(7, 0.5, 0.18), r"kept is 0\.5"),
        (lambda: exit_torque_limit_nm(7, 2, 0.6), r"open_part is 0\.6"),
        (lambda: exit_torque_limit_nm(7, 2, math.nan), "open_part is nan"),
        (lambda: lips_left(2, 0.2, 0.1), r"most_feed_mm_rev is 0\.1"),
        (lambda: lips_left(2, 0.2, 1.3), r"most_feed_mm_rev is 1\.3"),
        (lambda: most_feed_mm_rev(7, 2, 0.18, 0.2, 6), "capacity_nm is 6"),
    ],
)
def test_a_wrong_number_is_refused(make: Callable[[], object], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        make()
