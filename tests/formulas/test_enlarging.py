"""Torque of enlarging a hole: two published models, our own quadrature, and other makers' figures.

No measured torque of a countersink, counterbore, reamer or piloted drill was found: none is known
here, and none is checked.
"""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.formulas.drilling import torque_nm
from benchleaf.formulas.enlarging import (
    area_share,
    chip_thinness,
    enlarging_torque_nm,
    enlarging_torque_second_nm,
    lips_share,
)
from oracles.drilling_catalogue import catalogue_torque_nm

Table = Callable[[str], list[dict[str, str]]]
finals = st.floats(3.0, 40.0)
shares = st.floats(0.0, 0.98)
feeds = st.floats(0.02, 0.6)
wears = st.floats(1.0, 1.5)
edges = st.integers(2, 12)
angles = st.floats(30.0, 90.0)
KD = 24000.0


def higher(final: float, hole: float, feed: float, wear: float, count: int, angle: float) -> float:
    thin = chip_thinness(count, angle)
    return enlarging_torque_nm(final, hole, feed, kd=KD, wear=wear, thinness=thin)


def test_shares_as_worked_out_elsewhere(table: Table) -> None:
    rows = table("enlarging_shares.csv")
    assert len(rows) == 7
    for row in rows:
        open_part = float(row["hole_mm"]) / float(row["final_mm"])
        assert area_share(open_part) == pytest.approx(float(row["area_share"]), abs=0.0006)
        lips = lips_share(open_part) / 1.082
        assert lips == pytest.approx(float(row["lips_share"]), abs=0.0006)


@given(shares)
def test_the_area_on_its_arm_by_our_own_quadrature(open_part: float) -> None:
    steps = 4000
    radii = [open_part + (1 - open_part) * (at + 0.5) / steps for at in range(steps)]
    ring = sum(radii) * (1 - open_part) / steps
    assert area_share(open_part) == pytest.approx(ring / 0.5, rel=1e-6)


@pytest.mark.parametrize(
    ("final", "hole", "low", "high"),
    # Against drilling the hole before at the same feed. The areas alone, (D^2 - d^2) / d^2, give
    # 3.28 and 1.78; the handbook's D^1.8 makes them 3.28 and 1.78 times (d / D)^0.2.
    [(13.44, 6.5, 2.42, 3.275 * (6.5 / 13.44) ** 0.2), (11, 6.6, 1.35, 1.778 * 0.6**0.2)],
)
def test_hold_as_for_drilling_the_hole_was_too_little(
    final: float, hole: float, low: float, high: float
) -> None:
    before = torque_nm(hole, 0.1, kd=KD, chisel_ratio=0.18, wear=1.0)
    case = {"kd": KD, "wear": 1.0}
    less = enlarging_torque_second_nm(final, hole, 0.1, edges=2, **case) / before
    more = enlarging_torque_nm(final, hole, 0.1, thinness=1.0, **case) / before
    assert less == pytest.approx(low, rel=0.01)
    assert more == pytest.approx(high, rel=0.001)


def by_cutting_force(final: float, hole: float, feed: float) -> float:
    """A toolmaker's cutting force, group of unalloyed steel of 190 HB: kc1 1500, mc 0.22."""
    chip = feed / 2 * math.sin(math.radians(59))
    return 1500 * float(chip**-0.22) * feed * (final**2 - hole**2) / 8 / 1000


def test_the_higher_model_lies_above_two_makers() -> None:
    # steel of about 200 HB, 10 mm, 0.2 mm/rev: 11.3, 8.9 and 6.4 N m in the solid
    assert by_cutting_force(10, 0, 0.2) == pytest.approx(6.4, abs=0.05)
    for hole in (0.0, 3.0, 5.0, 8.0):
        ours = enlarging_torque_nm(10, hole, 0.2, kd=KD, wear=1.0, thinness=1.0)
        assert ours > by_cutting_force(10, hole, 0.2)
        catalogue = catalogue_torque_nm(10, 0.2, catalogue_k=2.22)
        assert ours > catalogue * area_share(hole / 10)


@given(finals, shares, feeds, wears, edges, angles)
def test_the_worse_is_never_below_the_better(
    final: float, share: float, feed: float, wear: float, count: int, angle: float
) -> None:
    less = enlarging_torque_second_nm(final, final * share, feed, kd=KD, wear=wear, edges=count)
    assert 0 < less <= higher(final, final * share, feed, wear, count, angle)


@given(finals, shares, feeds, wears, edges, angles, st.floats(1.001, 1.3),
       st.sampled_from(["final", "feed", "wear", "edges", "hole"]))  # fmt: skip
def test_monotone(
    final: float, share: float, feed: float, wear: float, count: int, angle: float, more: float,
    what: str,
) -> None:  # fmt: skip
    hole = final * share
    heavier = {
        "final": (final * more, hole, feed, wear, count, angle),
        "feed": (final, hole, feed * more, wear, count, angle),
        "wear": (final, hole, feed, wear * more, count, angle),
        "edges": (final, hole, feed, wear, count + 1, angle),
        "hole": (final, hole / more - 0.001 if hole > 0.01 else hole, feed, wear, count, angle),
    }[what]
    case = {"kd": KD}
    assert higher(*heavier) >= higher(final, hole, feed, wear, count, angle)
    second = [
        enlarging_torque_second_nm(
            one[0], max(one[1], 0), one[2], wear=one[3], edges=one[4], **case
        )
        for one in (heavier, (final, hole, feed, wear, count, angle))
    ]
    assert second[0] >= second[1] * (1 - 1e-12)


def test_a_drills_own_lips_make_the_same_chip() -> None:
    assert chip_thinness(2, 59.0) == pytest.approx(1.0)
    assert chip_thinness(6, 45.0) == pytest.approx(3.637, abs=0.001)


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda: area_share(1.0), r"open_part is 1\.0"),
        (lambda: area_share(-0.1), r"open_part is -0\.1"),
        (lambda: lips_share(1.2), r"open_part is 1\.2"),
        (lambda: chip_thinness(1, 45.0), "edges is 1"),
        (lambda: chip_thinness(3, 100.0), r"edge_angle_deg is 100\.0"),
        (lambda: higher(10, 10, 0.1, 1.3, 3, 45), r"open_part is 1\.0"),
        (lambda: higher(10, 5, 2.0, 1.3, 3, 45), r"feed_mm_rev is 2\.0"),
        (lambda: higher(10, 5, 0.1, 0.9, 3, 45), r"wear is 0\.9"),
    ],
)
def test_a_wrong_number_is_refused(make: Callable[[], object], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        make()
