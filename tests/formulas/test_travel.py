"""Point length and travel."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.formulas.travel import point_length_mm, stop_travel_mm
from oracles.travel import blind_travel_mm, through_travel_mm

lengths = st.floats(0.1, 100)
allowances = st.floats(0, 10)


def test_point_length_by_the_other_form(table: Callable[[str], list[dict[str, str]]]) -> None:
    rows = table("drill_point_lengths.csv")
    assert len(rows) == 7
    for row in rows:
        ratio = point_length_mm(1.0, float(row["point_angle_deg"]))
        assert ratio == pytest.approx(float(row["length_over_diameter"]), abs=0.00005), row


def test_multiplying_by_the_tangent_is_refused_by_the_geometry() -> None:
    # A lesson prints (D / 2) tan 59 = 16.6 mm; the point of a 20 mm drill is 6 mm long.
    assert point_length_mm(20, 118) < 20 / 2 * math.tan(math.radians(59)) / 2


def test_a_flat_end_has_no_point() -> None:
    assert point_length_mm(12, 180) == 0


@given(lengths, st.floats(60, 179), st.floats(0.1, 1))
def test_a_blunter_point_is_shorter(diameter: float, angle: float, more: float) -> None:
    assert point_length_mm(diameter, angle + more) < point_length_mm(diameter, angle)


@given(lengths, allowances, allowances, allowances)
def test_travel_is_clearance_and_stop_setting(
    depth: float, point: float, clearance: float, past: float
) -> None:
    through = through_travel_mm(depth, point, clearance, past)
    assert through == pytest.approx(clearance + stop_travel_mm(depth, point, past))
    blind = blind_travel_mm(depth, point, clearance)
    assert blind == pytest.approx(through - past)


@pytest.mark.parametrize("angle", [59, 0, -118, 181, math.nan, math.inf])
def test_a_wrong_angle_is_refused(angle: float) -> None:
    with pytest.raises(ValueError, match=r"point_angle_deg is .* from 60 to 180"):
        point_length_mm(10, angle)
