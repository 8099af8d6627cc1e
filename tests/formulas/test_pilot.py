"""Pilot holes: the printed web, sizes at or above it, and the loads that are left."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.formulas.feel import EdgeLoads, FlatWork, edge_loads
from benchleaf.formulas.feel_geometry import DrillPoint, engaged_shares
from benchleaf.formulas.pilot import (
    PILOT_FROM_MM,
    pilot_advised,
    pilot_size,
    piloted_loads,
    web_thickness_mm,
)

sizes = st.floats(1.6, 76)
ratios = st.floats(0.03, 0.4)
LOADS = edge_loads(20.0, 0.3, kd_thrust=24000, kd_torque=24000, chisel_ratio=0.18, wear=1.3)


def test_printed_webs(table: Callable[[str], list[dict[str, str]]]) -> None:
    rows = table("table_7_web_thickness.csv")
    assert len(rows) == 12
    for row in rows:
        web = web_thickness_mm(25.0, float(row["chisel_ratio"]))
        assert web == pytest.approx(25 * float(row["web_ratio"])), row


@given(ratios)
def test_between_rows_the_web_keeps_to_its_neighbours(ratio: float) -> None:
    # A chisel edge is a web seen aslant: about 1.15 times as long, by a book on tool design.
    assert ratio / web_thickness_mm(1.0, ratio) == pytest.approx(1.15, rel=0.05)


@given(sizes, ratios, st.sampled_from([0.05, 0.1]))
def test_a_pilot_clears_web_and_chisel_edge(size: float, ratio: float, step: float) -> None:
    pilot = pilot_size(size, ratio, step)
    assert pilot.web_mm < pilot.chisel_mm <= pilot.pilot_mm * (1 + 1e-9)
    assert pilot.pilot_mm < pilot.chisel_mm + step * (1 + 1e-9)
    assert pilot.pilot_mm / step == pytest.approx(round(pilot.pilot_mm / step))


def test_half_an_inch_is_drilled_without() -> None:
    assert not pilot_advised(PILOT_FROM_MM)
    assert pilot_advised(13.0)


def test_a_pilot_of_the_chisel_edge_leaves_the_lips() -> None:
    left = piloted_loads(LOADS, 20.0, 3.6, 0.18)
    assert left.lips_n == pytest.approx(LOADS.lips_n)
    # the chisel edge's own ring, 0.18^2 of the area on its arm, is gone too
    assert left.torque_nm == pytest.approx(LOADS.torque_nm * (1 - 0.18**2))
    assert left.chisel_n == 0
    assert left.lips_n < 0.5 * (LOADS.lips_n + LOADS.chisel_n)


@given(st.floats(0.18, 0.49), st.floats(0.001, 0.01))
def test_a_wider_pilot_leaves_less(share: float, more: float) -> None:
    one, other = (piloted_loads(LOADS, 20.0, 20.0 * each, 0.18) for each in (share, share + more))
    assert 0 < other.lips_n < one.lips_n
    assert 0 < other.torque_nm < one.torque_nm
    # The rim does most of the turning, so torque falls less than thrust.
    assert other.torque_nm / one.torque_nm > other.lips_n / one.lips_n


@given(st.floats(0.18, 0.5), ratios)
def test_what_is_left_is_what_a_long_lip_still_cuts(share: float, ratio: float) -> None:
    # As the tip comes through flat work, the metal under the middle is gone up to a radius: the
    # same ring is left as beside a pilot of that radius.
    if share < ratio:
        return
    point = DrillPoint(20.0, 118.0, ratio)
    ring = engaged_shares(FlatWork(50.0), point, 50.0 + point.length_mm * share)
    left = piloted_loads(EdgeLoads(1.0, 1.0, 1.0), 20.0, 20.0 * share, ratio)
    assert left.lips_n == pytest.approx(ring.lips)
    # the ring's torque is counted from the lips alone, that beside a pilot from the whole area
    assert left.torque_nm == pytest.approx(ring.torque * (1 - ratio**2))


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda: web_thickness_mm(0, 0.18), "diameter_mm is 0"),
        (lambda: web_thickness_mm(20, 0.5), r"chisel_ratio is 0\.5"),
        (lambda: pilot_size(3.0, 0.18, 2.0), r"step_mm is 2\.0; .* pilot from 0\.54 to 1\.5"),
        (lambda: pilot_size(20.0, 0.18, 0.0), "step is 0"),
        (lambda: pilot_advised(-1), "diameter_mm is -1"),
        (lambda: piloted_loads(LOADS, 20, 3.5, 0.18), r"pilot_mm is 3\.5; .* from 3\.6 to 10"),
        (lambda: piloted_loads(LOADS, 20, 11, 0.18), "pilot_mm is 11"),
        (lambda: piloted_loads(EdgeLoads(0, 0, 1), 20, 4, 0.18), "lips_n is 0"),
    ],
)
def test_a_wrong_number_is_refused(make: Callable[[], object], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        make()
