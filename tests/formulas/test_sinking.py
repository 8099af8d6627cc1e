"""Countersinks, counterbores, and speeds as ratios to drilling."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.formulas.clearance_holes import clearance_hole_mm
from benchleaf.formulas.sinking import (
    COUNTERBORE_MM,
    counterbore,
    countersink_depth_mm,
    flat_head_sink,
)
from benchleaf.formulas.sources import SOURCES
from benchleaf.formulas.speed_ratios import (
    SPEED_RATIOS,
    operation_feed_mm_rev,
    operation_speed_m_min,
)
from benchleaf.formulas.threads import thread

Table = Callable[[str], list[dict[str, str]]]
sizes = st.floats(1, 40)
angles = st.floats(60, 140)

# Supplier's list of DIN 912, read: greatest head diameter and head height by thread diameter.
SOCKET_HEADS_MM = {
    3: (5.5, 3),
    4: (7, 4),
    5: (8.5, 5),
    6: (10, 6),
    8: (13, 8),
    10: (16, 10),
    12: (18, 12),
}


def test_the_depth_is_that_of_two_published_tables(table: Table) -> None:
    rows = table("flat_heads.csv")
    assert {unit: sum(row["unit"] == unit for row in rows) for unit in ("mm", "in")} == {
        "mm": 9,
        "in": 12,
    }
    for row in rows:
        depth = countersink_depth_mm(
            float(row["head"]), float(row["body"]), float(row["angle_deg"])
        )
        # The metric heads come out exactly; inch heads are printed to 0.001 in, depths too.
        allowed = 0.0001 if row["unit"] == "mm" else 0.00125
        assert depth == pytest.approx(float(row["depth"]), abs=allowed), row


@given(sizes, st.floats(0, 0.95), angles, st.floats(0, 3))
def test_a_head_below_flush_is_deeper_by_as_much(
    head: float, share: float, angle: float, below: float
) -> None:
    flush = flat_head_sink(head, head * share, angle, 0.0)
    sunk = flat_head_sink(head, head * share, angle, below)
    assert flush.mouth_mm == head
    assert sunk.depth_mm - flush.depth_mm == pytest.approx(below, abs=1e-9)
    # Where the head's edge lies, the cone is as wide as the head.
    half = math.tan(math.radians(angle / 2))
    assert sunk.mouth_mm - 2 * below * half == pytest.approx(head)


@given(sizes, angles, st.floats(0.1, 5))
def test_a_wider_mouth_is_deeper_and_a_blunter_cone_shallower(
    mouth: float, angle: float, more: float
) -> None:
    depth = countersink_depth_mm(mouth, 0.0, angle)
    assert countersink_depth_mm(mouth + more, 0.0, angle) > depth
    assert countersink_depth_mm(mouth, 0.0, min(angle + more, 140.0)) <= depth


def test_inches_and_millimetres_agree() -> None:
    inches = countersink_depth_mm(0.531, 0.25, 82)
    assert countersink_depth_mm(0.531 * 25.4, 0.25 * 25.4, 82) == pytest.approx(inches * 25.4)


@pytest.mark.parametrize("angle", [45, 41, 0, 141, math.nan, math.inf])
def test_a_half_angle_is_refused(angle: float) -> None:
    with pytest.raises(ValueError, match=r"angle_deg is .* from 60 to 140"):
        countersink_depth_mm(10, 5, angle)


@pytest.mark.parametrize(
    ("mouth", "hole"), [(5, 5), (5, 6), (0, 0), (-5, 0), (5, -1), (math.nan, 1), (5, math.inf)]
)
def test_a_hole_as_wide_as_the_mouth_is_refused(mouth: float, hole: float) -> None:
    with pytest.raises(ValueError, match=r"(mouth|hole)_mm is"):
        countersink_depth_mm(mouth, hole, 90)
    with pytest.raises(ValueError, match=r"(head|hole)_mm is"):
        flat_head_sink(mouth, hole, 90, 0.5)


def test_below_flush_is_not_above_it() -> None:
    with pytest.raises(ValueError, match=r"below_flush_mm is -0\.1"):
        flat_head_sink(10, 5, 90, -0.1)
    with pytest.raises(ValueError, match=r"below_flush_mm is -0\.1"):
        counterbore(thread("M8"), -0.1)


def test_a_counterbore_takes_the_head_of_a_suppliers_list() -> None:
    for size, (head_mm, height_mm) in SOCKET_HEADS_MM.items():
        flush = counterbore(thread(f"M{size}"), 0.0)
        assert flush.depth_mm == height_mm
        assert 0.5 <= flush.diameter_mm - head_mm <= 2.0
        assert counterbore(thread(f"M{size}"), 0.4).depth_mm == pytest.approx(height_mm + 0.4)


def test_a_counterbore_is_that_of_a_second_published_chart() -> None:
    """Counterbores after DIN, a public chart of engineersbible.com (read), M3 to M10.

    A tool maker's M3 counterbore is half a millimetre smaller; its head, 5.5 mm, still goes in.
    """
    chart = {3.0: 6.5, 4.0: 8.0, 5.0: 10.0, 6.0: 11.0, 8.0: 15.0, 10.0: 18.0}
    ours = {size: COUNTERBORE_MM[size].diameter_mm for size in chart}
    assert {size: chart[size] - ours[size] for size in chart if chart[size] != ours[size]} == {
        3.0: 0.5
    }


def test_depths_of_counterbores_below_flush_are_those_of_a_public_table() -> None:
    """Half a millimetre below flush, The Engineering Notebook (read): head height and 0.5."""
    printed = {"M3": 3.5, "M4": 4.5, "M5": 5.5, "M6": 6.5, "M8": 8.5, "M10": 10.5, "M12": 12.5}
    found = {name: counterbore(thread(name), 0.5).depth_mm for name in printed}
    assert found == pytest.approx(printed)


def test_pilots_are_the_medium_clearance_holes_but_for_m12() -> None:
    """The tool maker's pilot of M12 is that of the older lists."""
    assert len(COUNTERBORE_MM) == 8
    for size, row in COUNTERBORE_MM.items():
        hole = clearance_hole_mm(thread(f"M{size:g}"), "medium")
        assert row.pilot_mm == (hole.other_mm if size == 12 else hole.diameter_mm)


@pytest.mark.parametrize("name", ["M3.5", "M7", "M16", "1/4-20"])
def test_a_screw_without_a_counterbore_is_refused(name: str) -> None:
    with pytest.raises(ValueError, match=r"thread is .* one of M3, M4, M5, M6, M8, M10, M12"):
        counterbore(thread(name), 0.0)


@pytest.mark.parametrize("operation", sorted(SPEED_RATIOS))
def test_no_operation_runs_faster_than_drilling(operation: str) -> None:
    speed = operation_speed_m_min(operation, 30.0)
    feed = operation_feed_mm_rev(operation, 0.2)
    assert 0 < speed.low_m_min <= speed.high_m_min < 30.0
    assert 0 < feed.low_mm_rev <= feed.high_mm_rev
    assert set(SPEED_RATIOS[operation].sources) <= set(SOURCES)


def test_each_sources_reaming_speed_lies_in_the_range() -> None:
    reaming = SPEED_RATIOS["reaming"]
    for low, high in ((0.5, 0.5), (0.33, 0.5), (0.5, 0.66)):
        assert reaming.speed_low <= low <= high <= reaming.speed_high
    assert (reaming.feed_low, reaming.feed_high) == (2.0, 3.0)


def test_an_unknown_operation_is_refused() -> None:
    with pytest.raises(ValueError, match="operation is 'boring'; it must be one of reaming"):
        operation_speed_m_min("boring", 30.0)
    with pytest.raises(ValueError, match="operation is 'boring'"):
        operation_feed_mm_rev("boring", 0.2)
    with pytest.raises(ValueError, match="drilling_speed_m_min is nan"):
        operation_speed_m_min("reaming", math.nan)
    with pytest.raises(ValueError, match="drilling_feed_mm_rev is 0"):
        operation_feed_mm_rev("reaming", 0)


def test_counterbores_are_copied_as_printed(table: Table) -> None:
    rows = table("counterbores.csv")
    assert len(rows) == len(COUNTERBORE_MM)
    for row in rows:
        ours = COUNTERBORE_MM[thread(row["thread"]).major_mm]
        assert (ours.pilot_mm, ours.diameter_mm) == (
            float(row["pilot_mm"]),
            float(row["diameter_mm"]),
        )
