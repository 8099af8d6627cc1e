"""Operations that finish a hole, reckoned without content, against printed figures."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from benchleaf.compute.operations import OPERATIONS
from benchleaf.compute.reckon import InputError, reckon


def values(operation: str, **given: str) -> Mapping[str, tuple[float, float]]:
    found = reckon(OPERATIONS[operation], given)
    return {one.key: (one.figure.low, one.figure.high) for one in found.results}


def test_a_counterbore_is_the_tool_makers_and_its_speed_a_share_of_drilling() -> None:
    # Somta user guide, p. 33: M8, pilot 9, diameter 15; 80 to 85 % of the speed of drilling.
    found = values("counterboring", screw="M8", below_flush="0.5 mm", drilling_speed="30 m/min")
    assert found["diameter"] == (15.0, 15.0)
    assert found["pilot"] == (9.0, 9.0)
    assert found["depth"] == (8.5, 8.5)
    assert found["cutting_speed"] == (24.0, 25.5)
    # 1000 × 24 / (π × 15), from the slow end.
    assert found["speed"] == (509.0, 509.0)


def test_a_head_flush_with_the_surface_is_where_nothing_else_is_given() -> None:
    assert values("counterboring", screw="M8")["depth"] == (8.0, 8.0)


@pytest.mark.parametrize(
    ("screw", "series", "hole", "lists"),
    [
        # Public lists after ISO 273; see tests/formulas/test_clearance_holes.py.
        ("M8", "medium", 9.0, (9.0, 9.0)),
        ("M8", "fine", 8.4, (8.4, 8.4)),
        ("M12", "medium", 13.5, (13.5, 14.0)),
    ],
)
def test_a_clearance_hole_shows_where_published_lists_part(
    screw: str, series: str, hole: float, lists: tuple[float, float]
) -> None:
    found = values("clearance-hole", screw=screw, series=series)
    assert (found["hole"], found["hole_in_lists"]) == ((hole, hole), lists)


@pytest.mark.parametrize(("screw", "told"), [("M12", "13.5 mm"), ("M10", ""), ("M3", "")])
def test_a_pilot_that_does_not_enter_the_standards_hole_says_so(screw: str, told: str) -> None:
    """The tool maker's pilot of M12 is 14 mm, the medium hole of ISO 273 is 13.5 mm."""
    found = reckon(OPERATIONS["counterboring"], {"screw": screw})
    (pilot,) = (one for one in found.results if one.key == "pilot")
    assert (told in pilot.note) if told else pilot.note == ""


def test_a_flat_head_gives_the_mouth_and_the_mouth_the_speed() -> None:
    # A head of 12 mm at 90 degrees, 0.2 mm below: the cone gains 0.4 mm across.
    found = values("countersinking", head="12 mm", hole="6.6 mm", angle="90 deg",
                   below_flush="0.2 mm", cutting_speed="7 m/min")  # fmt: skip
    assert found["mouth"] == found["diameter"] == (12.4, 12.4)
    assert found["depth"] == (2.9, 2.9)
    assert found["speed"] == (180.0, 180.0)


def test_a_reamer_is_left_its_allowance() -> None:
    # ITI fitter note: 0.2 to 0.3 for 10 mm, and 0.05 that the drill cuts oversize.
    found = values("reaming", diameter="10 mm", tolerance="H7", drilling_feed="0.2 mm/rev")
    assert found["hole_before"] == (9.65, 9.75)
    assert found["feed"] == (0.4, 0.6)
    assert found["limits"] == (10.0, 10.015)


def test_a_deep_hole_is_pecked_and_a_large_drill_has_a_pilot() -> None:
    found = values("drilling", diameter="10 mm", depth="40 mm", chisel_ratio="0.18")
    assert (found["depth_ratio"], found["pecks"], found["first_peck"]) == (
        (4.0, 4.0), (4.0, 4.0), (20.0, 20.0),
    )  # fmt: skip
    assert found["pilot"] == (2.0, 2.0)


@pytest.mark.parametrize(
    ("operation", "given", "said"),
    [
        ("clearance-hole", {"series": "tight"}, "fine, medium, coarse"),
        ("counterboring", {"screw": "M9.5"}, "M10"),
        ("countersinking", {"mouth": "0 mm"}, "above zero"),
        ("countersinking", {"head": "-1 mm"}, "never negative"),
        ("reaming", {"tolerance": "Q7"}, "H7"),
    ],
)
def test_what_cannot_be_is_refused_with_what_can(
    operation: str, given: dict[str, str], said: str
) -> None:
    with pytest.raises(InputError) as caught:
        reckon(OPERATIONS[operation], given)
    assert said in f"{caught.value.problem} {caught.value.cure}"


def test_a_seat_for_an_inch_screw_is_not_computed() -> None:
    found = reckon(OPERATIONS["counterboring"], {"screw": "1/4-20 UNC"})
    assert found.results == ()
    assert "M3" in next(one.why for one in found.not_computed if one.key == "diameter")


@pytest.mark.parametrize(
    ("hole", "shaft", "clearance"),
    [
        # Machine Drawing, Tables 15.1 to 15.3, 18 to 30 mm: H7 0/+21, g6 -20/-7, p6 +22/+35.
        ("H7", "g6", (0.007, 0.041)),
        ("H7", "p6", (-0.035, -0.001)),
    ],
)
def test_the_fit_of_two_is_hole_less_shaft(
    hole: str, shaft: str, clearance: tuple[float, float]
) -> None:
    assert values("fit", size="20 mm", hole=hole, shaft=shaft)["clearance"] == clearance


def test_go_and_not_go_change_ends_between_hole_and_shaft() -> None:
    hole, shaft = (values("fit", size="20 mm", tolerance=one) for one in ("H7", "g6"))
    assert (hole["go"], hole["not_go"]) == ((20.0, 20.0), (20.021, 20.021))
    assert (shaft["go"], shaft["not_go"]) == ((19.993, 19.993), (19.98, 19.98))


def test_a_hole_off_in_two_directions_uses_up_a_diameter() -> None:
    assert values("fit", x_error="0.03 mm", y_error="0.04 mm")["position"] == (0.1, 0.1)
    assert values("fit", x_error="0.03 mm")["position"] == (0.06, 0.06)


def test_a_thousandth_of_a_millimetre_is_not_lost_in_inches() -> None:
    (one,) = (
        one
        for one in reckon(OPERATIONS["fit"], {"size": "20 mm", "hole": "H7", "shaft": "p6"}).results
        if one.key == "clearance"
    )
    assert one.other is not None
    assert one.other.text == "-0.00138 to -0.00004 in"


def test_a_hole_is_not_reamed_to_a_shaft() -> None:
    with pytest.raises(InputError) as caught:
        reckon(OPERATIONS["reaming"], {"diameter": "10 mm", "tolerance": "g6"})
    assert "begins with a capital" in caught.value.cure
